# Sheets of a turnaround, of single numbers, and again.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,1 HE D1,discharge,V-311\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv --csv | cut -d, -f1
number
K7QCHX65GA
K7ES3TCAZC
$ counterfoil stocks
STOCK         PAGE mm          LABEL mm         PAIRS A PAGE  WHAT IT IS
a4-2x2        210 x 297        105 x 148.5      2             A4, 4 labels of 105 x 148.5 mm: 2 pairs a sheet
a4-2x4        210 x 297        99.1 x 67.7      4             A4, 8 labels of 99.1 x 67.7 mm: 4 pairs a sheet
a4-2x7        210 x 297        99.1 x 38.1      7             A4, 14 labels of 99.1 x 38.1 mm: 7 pairs a sheet
a4-3x7        210 x 297        63.5 x 38.1      9             A4, 21 labels of 63.5 x 38.1 mm: 9 pairs a sheet and 3 labels for single tags
a4-3x8        210 x 297        63.5 x 33.9      12            A4, 24 labels of 63.5 x 33.9 mm: 12 pairs a sheet
letter-2x2    215.9 x 279.4    107.95 x 139.7   2             Letter, 4 labels of 4 1/4 x 5 1/2 in: 2 pairs a sheet
letter-2x3    215.9 x 279.4    101.6 x 84.667   3             Letter, 6 labels of 4 x 3 1/3 in: 3 pairs a sheet
letter-2x5    215.9 x 279.4    101.6 x 50.8     5             Letter, 10 labels of 4 x 2 in: 5 pairs a sheet
letter-3x10   215.9 x 279.4    66.675 x 25.4    15            Letter, 30 labels of 2 5/8 x 1 in: 15 pairs a sheet
roll-100x150  100 x 150        100 x 150        1             Roll, 100 x 150 mm, cut across: 1 pair a label
roll-100x50   100 x 50         100 x 50         1/2           Roll, 100 x 50 mm: 1 pair on 2 labels
roll-2x1in    50.8 x 25.4      50.8 x 25.4      1/2           Roll, 2 x 1 in: 1 pair on 2 labels
roll-4x2in    101.6 x 50.8     101.6 x 50.8     1/2           Roll, 4 x 2 in: 1 pair on 2 labels
roll-4x3in    101.6 x 76.2     101.6 x 76.2     1/2           Roll, 4 x 3 in: 1 pair on 2 labels
roll-4x6in    101.6 x 152.4    101.6 x 152.4    1             Roll, 4 x 6 in, cut across: 1 pair a label
roll-57x32    57 x 32          57 x 32          1/2           Roll, 57 x 32 mm: 1 pair on 2 labels
tag-1         34.925 x 69.85   34.925 x 69.85   1/2           Shipping tag 1, 1 3/8 x 2 3/4 in, hole at the head: 1 pair on 2 tags
tag-2         41.275 x 82.55   41.275 x 82.55   1/2           Shipping tag 2, 1 5/8 x 3 1/4 in, hole at the head: 1 pair on 2 tags
tag-3         47.625 x 95.25   47.625 x 95.25   1/2           Shipping tag 3, 1 7/8 x 3 3/4 in, hole at the head: 1 pair on 2 tags
tag-4         53.975 x 107.95  53.975 x 107.95  1/2           Shipping tag 4, 2 1/8 x 4 1/4 in, hole at the head: 1 pair on 2 tags
tag-5         60.325 x 120.65  60.325 x 120.65  1/2           Shipping tag 5, 2 3/8 x 4 3/4 in, hole at the head: 1 pair on 2 tags
tag-6         66.675 x 133.35  66.675 x 133.35  1/2           Shipping tag 6, 2 5/8 x 5 1/4 in, hole at the head: 1 pair on 2 tags
tag-7         73.025 x 146.05  73.025 x 146.05  1/2           Shipping tag 7, 2 7/8 x 5 3/4 in, hole at the head: 1 pair on 2 tags
tag-8         79.375 x 158.75  79.375 x 158.75  1/2           Shipping tag 8, 3 1/8 x 6 1/4 in, hole at the head: 1 pair on 2 tags
$ counterfoil stocks --csv | head -2
name,page_mm,label_mm,pairs,title
a4-2x2,210 x 297,105 x 148.5,2,"A4, 4 labels of 105 x 148.5 mm: 2 pairs a sheet"
$ counterfoil print --turnaround TA26 --by Jana
4 tags on 1 page at 300 dots per inch: tags.pdf
  bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
  box-large: modules of 12 dots, 1.02 mm; symbol 25.4 mm wide, level H; read from up to 25 cm
    why: 13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil print --turnaround TA26 --stock letter-2x3 --dpi 600 --out again.pdf
4 tags on 1 page at 600 dots per inch: again.pdf
  bag-large: modules of 22 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 23 dots a module would need a slot of 32.1 mm, and it has 31; level H is the highest that 25 modules hold
  box-large: modules of 25 dots, 1.06 mm; symbol 26.5 mm wide, level H; read from up to 26 cm
    why: 26 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
! note: all of these pairs were printed before, last on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice
$ counterfoil print K7QC HX65 GA --stock roll-4x6in --dpi 203.2 --out tag.png
2 tags on 1 page at 203.2 dots per inch: tag.png
  bag-large: modules of 7 dots, 0.875 mm; symbol 21.9 mm wide, level H; read from up to 22 cm
    why: 8 dots a module would need a slot of 33 mm, and it has 31; level H is the highest that 25 modules hold
  box-large: modules of 8 dots, 1 mm; symbol 25 mm wide, level H; read from up to 25 cm
    why: 9 dots a module would need a slot of 37.1 mm, and it has 35; level H is the highest that 25 modules hold
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
! note: K7QC HX65 GA was printed before, on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice
$ counterfoil print K7QCHX65GA --out tag.svg --json
{"dots_per_inch":300,"files":["tag.svg"],"least_module_um":931,"logged":true,"named_again":[],"numbers":["K7QCHX65GA"],"numbers_before":["K7QCHX65GA"],"pages":1,"paper":null,"previews":[],"printed_before":"2026-11-25T09:30:00+01:00","symbols":[{"design":"bag-large","dots":11,"level":"H","module_um":931,"modules":25,"reading_distance_mm":233,"slot":"symbol","slot_um":31000,"tags":1,"version":2,"why":"12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold","width_um":23283},{"design":"box-large","dots":12,"level":"H","module_um":1016,"modules":25,"reading_distance_mm":254,"slot":"symbol","slot_um":35000,"tags":1,"version":2,"why":"13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold","width_um":25400}],"tags":2}
$ head -c 5 tags.pdf; echo; head -c 4 tag.png | tail -c 3; echo; head -c 5 tag.svg; echo
%PDF-
PNG
<?xml

# A look: what would be printed, without an entry or a sheet. A number that is named twice is printed once.

$ counterfoil print --turnaround TA26 --preview look.png
Nothing was printed or logged; it would be 4 tags on 1 page at 300 dots per inch.
  bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
  box-large: modules of 12 dots, 1.02 mm; symbol 25.4 mm wide, level H; read from up to 25 cm
    why: 13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Preview: look.png
To print it: the same with --out FILE.pdf.
! note: all of these pairs were printed before, last on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice
$ counterfoil print K7ES3TCAZC K7QCHX65GA K7ES 3TCA ZC --preview look.png
Nothing was printed or logged; it would be 4 tags on 1 page at 300 dots per inch.
  bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
  box-large: modules of 12 dots, 1.02 mm; symbol 25.4 mm wide, level H; read from up to 25 cm
    why: 13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Preview: look.png
To print it: the same with --out FILE.pdf.
! note: K7ES 3TCA ZC stood more than once among the numbers: to be printed once
! note: all of these pairs were printed before, last on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice
$ counterfoil reprint K7QCHX65GA --reason "washed out" --preview look.png --json
{"copies":[{"copy":2,"half":"bag","number":"K7QCHX65GA"},{"copy":2,"half":"box","number":"K7QCHX65GA"}],"dots_per_inch":300,"files":[],"least_module_um":931,"logged":false,"named_again":[],"numbers":["K7QCHX65GA"],"numbers_before":[],"pages":1,"paper":null,"previews":["look.png"],"printed_before":null,"symbols":[{"design":"bag-large","dots":11,"level":"H","module_um":931,"modules":25,"reading_distance_mm":233,"slot":"symbol","slot_um":31000,"tags":1,"version":2,"why":"12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold","width_um":23283},{"design":"box-large","dots":12,"level":"H","module_um":1016,"modules":25,"reading_distance_mm":254,"slot":"symbol","slot_um":35000,"tags":1,"version":2,"why":"13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold","width_um":25400}],"tags":2}
$ ls; counterfoil events --csv | tail -1
again.pdf
counterfoil.key
counterfoil.ledger
desk.txt
look.png
pockets.csv
sample-labels
tag.png
tag.svg
tags.pdf
6,2026-11-25T09:30:00+01:00,logged,printing,K7QCHX65GA,,sheet printed; note: 1 pair on a4-2x4,,,2026-11-25T09:30:00+01:00,,counterfoil/K7-<...>

# The tags that were printed are read back.

$ counterfoil read tag.png
tag.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half

# The next copy has the same number; a voided one is not printed again.

$ counterfoil reprint K7QC HX65 GA --half bag --reason "washed out" --by Jana --out bag2.png
1 tag on 1 page at 300 dots per inch: bag2.png
  K7QC HX65 GA: bag half copy 2
  Older copies are out of date from now on: destroy them where you find them.
  bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil read bag2.png
bag2.png
  K7QC HX65 GA  bag half, copy 2
$ counterfoil reprint K7QCHX65GA --reason "box crushed" --stock letter-2x3 --dpi 203.2 --json
{"copies":[{"copy":3,"half":"bag","number":"K7QCHX65GA"},{"copy":2,"half":"box","number":"K7QCHX65GA"}],"dots_per_inch":203.2,"files":["reprint.pdf"],"least_module_um":875,"logged":true,"named_again":[],"numbers":["K7QCHX65GA"],"numbers_before":[],"pages":1,"paper":null,"previews":[],"printed_before":null,"symbols":[{"design":"bag-large","dots":7,"level":"H","module_um":875,"modules":25,"reading_distance_mm":219,"slot":"symbol","slot_um":31000,"tags":1,"version":2,"why":"8 dots a module would need a slot of 33 mm, and it has 31; level H is the highest that 25 modules hold","width_um":21875},{"design":"box-large","dots":8,"level":"H","module_um":1000,"modules":25,"reading_distance_mm":250,"slot":"symbol","slot_um":35000,"tags":1,"version":2,"why":"9 dots a module would need a slot of 37.1 mm, and it has 35; level H is the highest that 25 modules hold","width_um":25000}],"tags":2}
$ counterfoil void K7QC HX65 GA --reason "both halves lost" --by Jana
K7QC HX65 GA voided: both halves lost. Destroy both halves; the number is never used again.
$ counterfoil void K7ES3TCAZC --reason "machine sold" --json
{"number":"K7ES3TCAZC","reason":"machine sold","voided":true}
$ counterfoil void K7QC HX65 GA --reason "again"
! counterfoil: number K7QC HX65 GA is voided already: both halves lost
? 1
$ counterfoil reprint K7QC HX65 GA --reason "washed out"
! counterfoil: number K7QC HX65 GA is voided: both halves lost
? 1
$ counterfoil print K7QC HX65 GA
! counterfoil: number K7QC HX65 GA is voided: both halves lost
? 1
$ counterfoil print --turnaround TA26
! counterfoil: turnaround TA26 has no pairs to print
!   issue them first: counterfoil issue --turnaround TA26 --count N
? 1

# A label is printed again from its removal.

$ counterfoil log removing --label --unit U9 --pocket "1 D1" --out /nowhere/label.pdf
K765 NQJF MJ  removed from U9 / 1 D1, 2026-11-25 09:30 (logged)  entry 12
! note: K765 NQJF MJ: pocket U9 / 1 D1 is new to the record
! counterfoil: the removal is logged, but its label could not be made: cannot write /nowhere/label.pdf: No such file or directory
!   make it with `counterfoil print K765NQJFMJ --out FILE.pdf`
? 3
$ counterfoil print K765 NQJF MJ K765NQJFMJ --out label.png
1 tag on 1 page at 300 dots per inch: label.png
  label-large: modules of 10 dots, 0.847 mm; symbol 21.2 mm wide, level H; read from up to 21 cm
    why: 11 dots a module would need a slot of 30.7 mm, and it has 28; level H is the highest that 25 modules hold
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
! note: K765 NQJF MJ stood more than once among the numbers: printed once
$ counterfoil read label.png
label.png
  K765 NQJF MJ  identification label
$ counterfoil reprint K765NQJFMJ --reason "lost"
! counterfoil: number K765 NQJF MJ is an identification label, which has no halves
!   make it again with `counterfoil print K765NQJFMJ`
? 1

# Wrong input.

$ counterfoil print
! counterfoil: print what?
!   give --turnaround NAME, or numbers
? 2
$ counterfoil print --turnaround TA99
! counterfoil: there is no turnaround "TA99" in the record
!   on record: TA26; to begin one: counterfoil issue --turnaround TA99 --count N
? 1
$ counterfoil print TA26
! counterfoil: TA26 is a turnaround and no number
!   say --turnaround TA26
? 2
$ counterfoil print K7QC HX65 AG
! counterfoil: number K7QC HX65 AG does not check: two neighbouring characters look swapped
!   hold these numbers on record against the tag, likeliest first, and type the right one:
!     K7QC HX65 GA  U2 / 1 HE S1 (suction), TA26, RETIRED, voided: both halves lost
? 2
$ counterfoil print K7QC HX65 GA --turnaround TA26
! counterfoil: print what?
!   give either --turnaround NAME or numbers, not both
? 2
$ counterfoil print --turnaround TA62
! counterfoil: there is no turnaround "TA62" in the record
!   did you mean TA26? on record: TA26; to begin one: counterfoil issue --turnaround TA62 --count N
? 1
$ counterfoil print K7QC HX65 GA --stock a4-2x5
! counterfoil: there is no stock "a4-2x5"
!   did you mean a4-2x2? the stocks are a4-2x2, a4-2x4, a4-2x7, a4-3x7, a4-3x8, letter-2x2, letter-2x3, letter-2x5, letter-3x10, roll-100x150, roll-100x50, roll-2x1in, roll-4x2in, roll-4x3in, roll-4x6in, roll-57x32, tag-1, tag-2, tag-3, tag-4, tag-5, tag-6, tag-7, tag-8; a file of your own ends in .json
? 2
$ counterfoil print K7QC HX65 GA --stock a4-9x9
! counterfoil: there is no stock "a4-9x9"
!   the stocks are a4-2x2, a4-2x4, a4-2x7, a4-3x7, a4-3x8, letter-2x2, letter-2x3, letter-2x5, letter-3x10, roll-100x150, roll-100x50, roll-2x1in, roll-4x2in, roll-4x3in, roll-4x6in, roll-57x32, tag-1, tag-2, tag-3, tag-4, tag-5, tag-6, tag-7, tag-8; a file of your own ends in .json
? 2
$ counterfoil print --turnaround TA26 --out tags.doc
! counterfoil: cannot tell from "tags.doc" what to write
!   end the name in .pdf, .png or .svg
? 2
$ counterfoil print --turnaround TA26 --dpi 30
! counterfoil: a sheet is drawn for 100 to 2400 dots per inch, not 30
!   common printers have 203.2, 300, 304.8 or 600
? 2
$ counterfoil print --turnaround TA26 --dpi
! counterfoil: --dpi needs a value
!   --dpi N: the printer's dots per inch: 203.2, 300, 304.8, 600 (300)
? 2
$ counterfoil print --turnaround TA26 --by --out tags.pdf
! counterfoil: --by needs a value
!   --by NAME: who prints
? 2
$ counterfoil print --turnaround TA26 --copies 1.5
! counterfoil: --copies takes a whole number, not "1.5"
!   --copies N: of each identification label; a pair is printed once (1)
? 2
$ counterfoil print --turnaround TA26 --stok a4-2x4
! counterfoil: `print` has no option --stok
!   did you mean --stock? see `counterfoil print --help`
? 2
$ counterfoil print --turnaround TA26 --turnaround TA27
! counterfoil: --turnaround is given more than once
!   see `counterfoil print --help`
? 2
$ counterfoil print --turnaround TA26 --dpi 0
! counterfoil: a sheet is drawn for 100 to 2400 dots per inch, not 0
!   common printers have 203.2, 300, 304.8 or 600
? 2
$ counterfoil reprint K7QC HX65 GA
! counterfoil: a half is printed again for a reason
!   give --reason, such as "washed out"
? 2
$ counterfoil reprint K7QC HX65 GA --half lid --reason "lost"
! counterfoil: a half is bag or box, not "lid"
!   without --half both are printed again
? 2
$ counterfoil void K7QC HX65 GA
! counterfoil: a number is voided for a reason
!   give --reason, such as --reason "tag torn"
? 2
$ counterfoil void
! counterfoil: `void` needs NUMBER...: numbers to withdraw, as on the tags
!   see `counterfoil void --help`
? 2
$ counterfoil print K7MYSHYS4E
! counterfoil: number K7MY SHYS 4E was never issued by this desk
!   its check characters hold, so it may be another desk's; look at the tag again
? 1
$ counterfoil events | tail -6
8      2026-11-25T09:30:00+01:00  logged    reprinting     K7QCHX65GA  printed again: bag half copy 3, box half copy 2; reason: box crushed
9      2026-11-25T09:30:00+01:00  logged    voiding        K7QCHX65GA  number voided, by Jana; reason: both halves lost
10     2026-11-25T09:30:00+01:00  logged    voiding        K7ES3TCAZC  number voided; reason: machine sold
11     2026-11-25T09:30:00+01:00  logged    commissioning  K765NQJFMJ  identification label issued
12     2026-11-25T09:30:00+01:00  logged    removing       K765NQJFMJ  removed from U9 / 1 D1
13     2026-11-25T09:30:00+01:00  logged    printing       K765NQJFMJ  sheet printed; note: 1 label on a4-2x4
