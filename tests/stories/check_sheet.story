# A sheet is printed, scanned, and held against what should be on it. The scans are the printer's own dots, spoiled as
# printers and scanners do.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,1 HE D1,discharge,V-311\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv >issued.txt
$ counterfoil print K7QCHX65GA --stock roll-100x150 --out pair.png >printed.txt
$ counterfoil check-sheet pair.png K7QCHX65GA --stock roll-100x150
pair.png  sheet 1 of 1  good
  size and place: 100.0 % across, 100.0 % down, starts 0.0 mm to the right and 0.0 mm down (scan of 300 dpi)
  label 1  K7QC HX65 GA  bag half  good (4 of 4)
  label 1  K7QC HX65 GA  box half  good (4 of 4)
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.

# The driver shrank the page, and it starts too far to the right.

$ $TOOLS/degrade.py pair.png small.png scale=0.961,0.961 shift=1.5,0
$ counterfoil check-sheet small.png K7QC HX65 GA --stock roll-100x150 --scan-dpi 300 --marked marked.png
small.png  sheet 1 of 1  reprint
  size and place: 96.1 % across, 96.1 % down, starts 1.5 mm to the right and 0.0 mm down (scan of 300 dpi)
    the page was printed at 96.1 %: the driver scaled it, so print at actual size (100 %), not "fit to page"
    the page starts 1.5 mm to the right and 0.0 mm down, by the edges of the scan: measure the printer with `counterfoil calibrate`, if the sheet lay well on the scanner
  label 1  K7QC HX65 GA  bag half  good (4 of 4)
  label 1  K7QC HX65 GA  box half  good (4 of 4)
  marked: marked.png
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.
? 1
$ head -c 4 marked.png | tail -c 3; echo
PNG

# A dead dot of the head, and a pale print; for a script.

$ $TOOLS/degrade.py pair.png dots.png column=28.1,1
$ counterfoil check-sheet dots.png K7QCHX65GA --stock roll-100x150
dots.png  sheet 1 of 1  usable
  size and place: 100.0 % across, 100.0 % down, starts 0.0 mm to the right and 0.0 mm down (scan of 300 dpi)
    a column of dots is missing 28.1 mm from the left edge: clean the print head; if it stays, a dot of the head is dead
  label 1  K7QC HX65 GA  bag half  good (4 of 4)
  label 1  K7QC HX65 GA  box half  good (4 of 4)
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.
$ $TOOLS/degrade.py pair.png pale.png tones=110,225
$ counterfoil check-sheet pale.png K7QCHX65GA --stock roll-100x150 --dpi 300 --page 1 --json | sed 's/"outline":[^}]*\]\]/"outline":[...]/g'
{"file":"pale.png","file_page":1,"findings":[],"iso_grade":false,"marked":null,"missing_dots":[],"page":{"offset_x_mm":0,"offset_y_mm":0,"rms_mm":0,"scale_x_percent":100,"scale_y_percent":100,"scan_dpi":300,"shear_deg":0,"turn_deg":0},"sheet":1,"tags":[{"findings":[{"advice":"raise the darkness (burn), or change ribbon or toner","verdict":"usable","what":"too pale (symbol contrast 0.451, grade 2)"}],"half":"bag","label":1,"number":"K7QCHX65GA","outline":[...],"read":true,"stray_mm":[0,0],"symbol":{"coarse":false,"grade":2,"parameters":{"axial non-uniformity":{"grade":4,"value":0},"decoding":{"grade":4,"value":1},"fixed pattern damage":{"grade":4,"value":0},"grid non-uniformity":{"grade":4,"value":0},"modulation":{"grade":4,"value":1},"symbol contrast":{"grade":2,"value":0.451},"unused error correction":{"grade":4,"value":1}},"pixels_per_module":11,"weakest":"symbol contrast"},"text":"CF1.K7QCHX65GA.BAG1","verdict":"usable"},{"findings":[{"advice":"raise the darkness (burn), or change ribbon or toner","verdict":"usable","what":"too pale (symbol contrast 0.451, grade 2)"}],"half":"box","label":1,"number":"K7QCHX65GA","outline":[...],"read":true,"stray_mm":[0,0],"symbol":{"coarse":false,"grade":2,"parameters":{"axial non-uniformity":{"grade":4,"value":0},"decoding":{"grade":4,"value":1},"fixed pattern damage":{"grade":4,"value":0},"grid non-uniformity":{"grade":4,"value":0},"modulation":{"grade":4,"value":1},"symbol contrast":{"grade":2,"value":0.451},"unused error correction":{"grade":4,"value":1}},"pixels_per_module":12,"weakest":"symbol contrast"},"text":"CF1.K7QCHX65GA.BOX1","verdict":"usable"}],"verdict":"usable"}

# One half was not printed; the sheet of another number; the scan of another order.

$ $TOOLS/degrade.py pair.png half.png blank=0,0,100,70
$ counterfoil check-sheet half.png K7QCHX65GA --stock roll-100x150
half.png  sheet 1 of 1  reprint
  size and place: 100.0 % across, 100.0 % down, starts 0.0 mm to the right and 0.0 mm down (scan of 300 dpi)
  label 1  K7QC HX65 GA  bag half  reprint
    missing: no symbol was found in its place; print it again
  label 1  K7QC HX65 GA  box half  good (4 of 4)
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.
? 1
$ counterfoil check-sheet pair.png K7ES3TCAZC --stock roll-100x150
pair.png  reprint
    none of the tags that should be here was read: see that the scan, the turnaround or numbers, and the page go together
    K7QC HX65 GA bag half is there, and is not of this order: see that the scan shows the sheet that is meant
    K7QC HX65 GA box half is there, and is not of this order: see that the scan shows the sheet that is meant
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.
! note: not scanned: sheet 1 of 1
? 1

# The words of another pocket (two of its words changed places), the mark of the side not printed, and another pair's bars.

$ $TOOLS/degrade.py pair.png words.png swap=41.2,42.6,7.4,5,50.6,42.6 blank=83.5,4,12.5,59 swap=28,71,8,7.6,60,71
$ counterfoil check-sheet words.png K7QCHX65GA --stock roll-100x150 --marked marked.png
words.png  sheet 1 of 1  reprint
  size and place: 100.0 % across, 100.0 % down, starts 0.0 mm to the right and 0.0 mm down (scan of 300 dpi)
  label 1  K7QC HX65 GA  bag half  reprint (4 of 4)
    side mark: missing: print it again
    pocket: the printed words are not those of the order: see that the sheet is of this order, as it is on record now; print it again
  label 1  K7QC HX65 GA  box half  reprint (4 of 4)
    match bars: not as it should be: see that the sheet is of this order, as it is on record now; print it again
  marked: marked.png
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.
? 1

# A turnaround of two sheets, one of which was scanned.

$ counterfoil check-sheet pair.png --turnaround TA26 --stock roll-100x150 --order sheet-by-sheet
pair.png  sheet 1 of 2  good
  size and place: 100.0 % across, 100.0 % down, starts 0.0 mm to the right and 0.0 mm down (scan of 300 dpi)
  label 1  K7QC HX65 GA  bag half  good (4 of 4)
  label 1  K7QC HX65 GA  box half  good (4 of 4)
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.
! note: not scanned: sheet 2 of 2

# A roll of small labels, scanned page by page in any order: as a TIFF with pages left out, and as a PDF.

$ counterfoil print --turnaround TA26 --stock roll-57x32 --out roll.png >printed.txt
$ $TOOLS/scans.py scans.tif roll-3.png roll-1.png
$ counterfoil check-sheet scans.tif --turnaround TA26 --stock roll-57x32 | grep -v size
scans.tif  sheet 3 of 4  good
  label 1  K7ES 3TCA ZC  bag half  good (4 of 4)
  some modules have fewer than 10 pixels: modulation, non-uniformity and fixed patterns were not judged; scan at 600 dpi
scans.tif, page 2  sheet 1 of 4  good
  label 1  K7QC HX65 GA  bag half  good (4 of 4)
  some modules have fewer than 10 pixels: modulation, non-uniformity and fixed patterns were not judged; scan at 600 dpi
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.
! note: not scanned: sheet 2, 4 of 4
$ $TOOLS/scans.py scans.pdf roll-2.png roll-1.png
$ counterfoil check-sheet scans.pdf K7QCHX65GA --stock roll-57x32 | grep -v size
scans.pdf  sheet 2 of 2  good
  label 1  K7QC HX65 GA  box half  good (4 of 4)
  some modules have fewer than 10 pixels: modulation, non-uniformity and fixed patterns were not judged; scan at 600 dpi
scans.pdf, page 2  sheet 1 of 2  good
  label 1  K7QC HX65 GA  bag half  good (4 of 4)
  some modules have fewer than 10 pixels: modulation, non-uniformity and fixed patterns were not judged; scan at 600 dpi
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.

# A label in copies, on a sheet that was begun.

$ counterfoil log removing --label --unit U9 --pocket "1 D1" --out label.pdf >logged.txt 2>&1
$ counterfoil print K765NQJFMJ --copies 2 --start-at 2 --spoiled 4 --dpi 203.2 --out labels.png >printed.txt
$ counterfoil check-sheet labels.png K765NQJFMJ --copies 2 --start-at 2 --spoiled 4 --dpi 203.2 --scan-dpi 203.2
labels.png  sheet 1 of 1  good
  size and place: 100.0 % across, 100.0 % down, starts 0.0 mm to the right and 0.0 mm down (scan of 203.2 dpi)
  label 2  K765 NQJF MJ  identification label  good (4 of 4)
  label 3  K765 NQJF MJ  identification label  good (4 of 4)
  some modules have fewer than 10 pixels: modulation, non-uniformity and fixed patterns were not judged; scan at 600 dpi
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.

# Designs of one size, in two languages, for a printer that starts off its place: the file as it is sent lies the other way,
# and so is not what a scan of the paper would be.

$ counterfoil calibrate --stock a4-2x4 --dpi 300 --left 11.5 --top 13.5 --across 186.2 --down 257 --write off.json >off.txt
$ counterfoil print K7QCHX65GA --design large --second-language es --printer off.json --out off.png >off.txt
! note: K7QC HX65 GA was printed before, on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice
$ counterfoil check-sheet off.png K7QCHX65GA --design large --second-language es --printer off.json
off.png  sheet 1 of 1  usable
  size and place: 99.9 % across, 100.0 % down, starts 0.5 mm to the right and 1.5 mm up (scan of 300 dpi)
    the page starts 0.5 mm to the right and 1.5 mm up, by the edges of the scan: measure the printer with `counterfoil calibrate`, if the sheet lay well on the scanner
  label 1  K7QC HX65 GA  bag half  good (4 of 4)
  label 2  K7QC HX65 GA  box half  good (4 of 4)
  some modules have fewer than 10 pixels: modulation, non-uniformity and fixed patterns were not judged; scan at 600 dpi
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.

# A sheet from a stack of which some labels were gone: the log knows which. One of its tags has been replaced since.

$ counterfoil print --turnaround TA26 --stack drawer --start-at 3 --spoiled 6 --out stack.png >printed.txt
! note: all of these pairs were printed before, last on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice
$ counterfoil reprint K7QCHX65GA --half bag --reason "washed out" --out again.png >printed.txt
$ counterfoil check-sheet stack.png --turnaround TA26
stack.png  sheet 1 of 1  reprint
  size and place: 100.0 % across, 100.0 % down, starts 0.0 mm to the right and 0.0 mm down (scan of 300 dpi)
  label 3  K7QC HX65 GA  bag half, copy 2  reprint
    an earlier copy of K7QC HX65 GA bag half (copy 1 where copy 2 is due) lies in its place: destroy it; print the newest copy
  label 4  K7QC HX65 GA  box half  good (4 of 4)
  label 7  K7ES 3TCA ZC  bag half  good (4 of 4)
  label 8  K7ES 3TCA ZC  box half  good (4 of 4)
Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.
Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not seen.
? 1


# Wrong input.

$ counterfoil check-sheet --turnaround TA26
! counterfoil: `check-sheet` needs ITEM...: scans; and numbers, instead of a turnaround
!   see `counterfoil check-sheet --help`
? 2
$ counterfoil check-sheet K7QCHX65GA
! counterfoil: check which scan?
!   give a scan of a printed sheet
? 2
$ counterfoil check-sheet pair.png
! counterfoil: check the scan against what?
!   give --turnaround NAME, or the numbers that were printed
? 2
$ counterfoil check-sheet pair.png K7QCHX65GA --turnaround TA26
! counterfoil: check the scan against a turnaround or against numbers?
!   give either --turnaround NAME or numbers, not both
? 2
$ counterfoil check-sheet pair.png --turnaround TA25
! counterfoil: no pair was issued for a turnaround "TA25"
!   name the turnaround that the sheet was printed for
? 1
$ counterfoil check-sheet pair.png K7QCHX65GA --page 7
! counterfoil: there is no sheet 7
!   the order has sheets 1 to 1
? 2
$ counterfoil check-sheet pair.png K7QCHX65GA --scan-dpi 3
! counterfoil: no scanner has so many dots per inch
!   common ones have 300 or 600
? 2
$ counterfoil check-sheet pair.png K7QCHX65GA --marked marked.jpg
! counterfoil: cannot tell from "marked.jpg" what to write
!   end the name in .png
? 2
$ counterfoil check-sheet gone.png K7QCHX65GA
! counterfoil: cannot read gone.png: No such file or directory
? 3
