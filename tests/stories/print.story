# Sheets of a turnaround, of single numbers, and again.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,1 HE D1,discharge,V-311\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv --csv | cut -d, -f1
number
K7QCHX65GA
K7ES3TCAZC
$ counterfoil stocks
STOCK         PAGE mm        LABEL mm        PAIRS A PAGE  WHAT IT IS
a4-2x4        210 x 297      99.1 x 67.7     4             A4, 8 labels of 99.1 x 67.7 mm: 4 pairs a sheet
letter-2x3    215.9 x 279.4  101.6 x 84.667  3             Letter, 6 labels of 4 x 3 1/3 in: 3 pairs a sheet
roll-100x150  100 x 150      100 x 150       1             Roll, 100 x 150 mm, cut across: 1 pair a label
roll-4x6in    101.6 x 152.4  101.6 x 152.4   1             Roll, 4 x 6 in, cut across: 1 pair a label
$ counterfoil stocks --csv | head -2
name,page_mm,label_mm,pairs,title
a4-2x4,210 x 297,99.1 x 67.7,4,"A4, 8 labels of 99.1 x 67.7 mm: 4 pairs a sheet"
$ counterfoil print --turnaround TA26 --by Jana
4 tags on 1 page: tags.pdf (modules of 0.931 mm or more)
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil print --turnaround TA26 --stock letter-2x3 --dpi 600 --out again.pdf
4 tags on 1 page: again.pdf (modules of 0.931 mm or more)
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
! note: this turnaround was printed before, on 2026-11-25 09:30: destroy that sheet, so that no tag exists twice
$ counterfoil print K7QC HX65 GA --stock roll-4x6in --dpi 203.2 --out tag.png
2 tags on 1 page: tag.png (modules of 0.875 mm or more)
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil print K7QCHX65GA --out tag.svg --json
{"files":["tag.svg"],"least_module_um":931,"numbers":["K7QCHX65GA"],"pages":1,"paper":null,"printed_before":null,"tags":2}
$ head -c 5 tags.pdf; echo; head -c 4 tag.png | tail -c 3; echo; head -c 5 tag.svg; echo
%PDF-
PNG
<?xml

# The tags that were printed are read back.

$ counterfoil read tag.png
tag.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half

# The next copy has the same number; a voided one is not printed again.

$ counterfoil reprint K7QC HX65 GA --half bag --reason "washed out" --by Jana --out bag2.png
1 tag on 1 page: bag2.png (modules of 0.931 mm or more)
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil read bag2.png
bag2.png
  K7QC HX65 GA  bag half, copy 2
$ counterfoil reprint K7QCHX65GA --reason "box crushed" --stock letter-2x3 --dpi 203.2 --json
{"files":["reprint.pdf"],"least_module_um":875,"numbers":["K7QCHX65GA"],"pages":1,"paper":null,"printed_before":null,"tags":2}
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
K765 NQJF MJ  removed from U9 / 1 D1, 2026-11-25 09:30 (logged)  entry 10
! note: K765 NQJF MJ: pocket U9 / 1 D1 is new to the record
! counterfoil: the removal is logged, but its label could not be made: cannot write /nowhere/label.pdf: No such file or directory
!   make it with `counterfoil print K765NQJFMJ --out FILE.pdf`
? 3
$ counterfoil print K765 NQJF MJ K765NQJFMJ --out label.png
1 tag on 1 page: label.png (modules of 0.847 mm or more)
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
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
! counterfoil: turnaround TA99 has no pairs to print
!   issue them first: counterfoil issue --turnaround TA99 --count N
? 1
$ counterfoil print K7QC HX65 AG
! counterfoil: number K7QC HX65 AG does not check: two neighbouring characters look swapped
!   hold these numbers on record against the tag, likeliest first, and type the right one:
!     K7QC HX65 GA  U2 / 1 HE S1 (suction), TA26, RETIRED, voided: both halves lost
? 2
$ counterfoil print K7QC HX65 GA --turnaround TA26
! counterfoil: print what?
!   give either --turnaround NAME or numbers, not both
? 2
$ counterfoil print K7QC HX65 GA --stock a4-9x9
! counterfoil: there is no stock "a4-9x9"
!   the stocks are a4-2x4, letter-2x3, roll-100x150, roll-4x6in
? 2
$ counterfoil print --turnaround TA26 --out tags.doc
! counterfoil: cannot tell from "tags.doc" what to write
!   end the name in .pdf, .png or .svg
? 2
$ counterfoil print --turnaround TA26 --dpi 0
! counterfoil: no printer has so many dots per inch
!   common ones have 203.2, 300, 304.8 or 600
? 2
$ counterfoil reprint K7QC HX65 GA
! counterfoil: a half is printed again for a reason
!   give --reason, such as "washed out"
? 2
$ counterfoil reprint K7QC HX65 GA --half lid --reason "lost"
! counterfoil: "lid" is not a half
!   write bag, box or label
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
5      2026-11-25T09:30:00+01:00  logged    reprinting     K7QCHX65GA  printed again: bag half copy 2, by Jana; reason: washed out
6      2026-11-25T09:30:00+01:00  logged    reprinting     K7QCHX65GA  printed again: bag half copy 3, box half copy 2; reason: box crushed
7      2026-11-25T09:30:00+01:00  logged    voiding        K7QCHX65GA  number voided, by Jana; reason: both halves lost
8      2026-11-25T09:30:00+01:00  logged    voiding        K7ES3TCAZC  number voided; reason: machine sold
9      2026-11-25T09:30:00+01:00  logged    commissioning  K765NQJFMJ  identification label issued
10     2026-11-25T09:30:00+01:00  logged    removing       K765NQJFMJ  removed from U9 / 1 D1
