# Sheets with labels left: where printing starts, what is remembered, what a person says of the drawer.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ counterfoil issue --turnaround TA26 --count 9 --csv | cut -d, -f1
number
K7QCHX65GA
K7ES3TCAZC
K765NQJFMJ
K7MYSHYS4E
K7CBBF4YKC
K73QXCB3WT
K7V4F9H8C4
K7JH16QD57
K79XK3XJ5D
$ counterfoil issue --turnaround TA27 --count 2 --csv | cut -d, -f1
number
K71A513Q1Q
K7RPPY9WB2

# Half a sheet was used yesterday, and label 7 is spoiled: no pair fits on 7 and 8.

$ counterfoil print K7QCHX65GA K7ES3TCAZC --start-at 5 --spoiled 7 --out some.png
4 tags on 2 pages at 300 dots per inch: some-1.png, some-2.png
  spare-bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
  spare-box-large: modules of 12 dots, 1.02 mm; symbol 25.4 mm wide, level H; read from up to 25 cm
    why: 13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Starts at label 5 of the part sheet, goes on for 1 sheet; leaves 6 labels (3-8).
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil read some-1.png some-2.png
some-1.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
some-2.png
  K7ES 3TCA ZC  bag half
  K7ES 3TCA ZC  box half

# A stack remembers what is left.

$ counterfoil paper
$ counterfoil print --turnaround TA27 --stack "drawer 2" --by Jana
4 tags on 1 page at 300 dots per inch: tags.pdf
  spare-bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
  spare-box-large: modules of 12 dots, 1.02 mm; symbol 25.4 mm wide, level H; read from up to 25 cm
    why: 13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Starts at label 1 of the whole sheet on top of stack drawer 2; leaves 4 labels (5-8).
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil paper
STACK     STOCK   NEXT LABEL  NEXT PAIR  LEFT ON THE TOP SHEET  SHEETS USED UP
drawer 2  a4-2x4  5           5          5-8                    0
$ counterfoil print --turnaround TA26 --stack "drawer 2" --out more.pdf --json
{"dots_per_inch":300,"files":["more.pdf"],"least_module_um":931,"logged":true,"named_again":[],"numbers":["K7QCHX65GA","K7ES3TCAZC","K765NQJFMJ","K7MYSHYS4E","K7CBBF4YKC","K73QXCB3WT","K7V4F9H8C4","K7JH16QD57","K79XK3XJ5D"],"numbers_before":[],"pages":3,"paper":{"first":5,"left":2,"next":7,"stack":"drawer 2","stock":"a4-2x4"},"previews":[],"printed_before":null,"symbols":[{"design":"spare-bag-large","dots":11,"level":"H","module_um":931,"modules":25,"reading_distance_mm":233,"slot":"symbol","slot_um":31000,"tags":9,"version":2,"why":"12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold","width_um":23283},{"design":"spare-box-large","dots":12,"level":"H","module_um":1016,"modules":25,"reading_distance_mm":254,"slot":"symbol","slot_um":35000,"tags":9,"version":2,"why":"13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold","width_um":25400}],"tags":18}
$ counterfoil paper --csv
stack,stock,next,next_pair,left,sheets
drawer 2,a4-2x4,7,7,7-8,2
$ counterfoil reprint K7QCHX65GA --half bag --reason "washed out" --stack "drawer 2" --spoiled 3
1 tag on 1 page at 300 dots per inch: reprint.pdf
  K7QC HX65 GA: bag half copy 2
  Older copies are out of date from now on: destroy them where you find them.
  spare-bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
Starts at label 7 of the sheet on top of stack drawer 2; leaves 1 label (8).
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil paper "drawer 2" --json
{"left":"8","next":8,"next_pair":null,"sheets":2,"stack":"drawer 2","stock":"a4-2x4"}
$ counterfoil log removing --label --unit U9 --pocket "1 D1" --stack "drawer 2" --out label.pdf
K7G3 8VG1 1Z  removed from U9 / 1 D1, 2026-11-25 09:30 (logged)  entry 18
label written to label.pdf: print it and stick it on the valve's bag or box
Starts at label 8 of the sheet on top of stack drawer 2; leaves no part sheet.
! note: K7G3 8VG1 1Z: pocket U9 / 1 D1 is new to the record
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric

# A label for a valve that is not followed, on the last label of a sheet that no stack remembers.

$ counterfoil log removing --label --unit U9 --pocket "2 D1" --stock a4-2x7 --dpi 600 --design wide --start-at 13 --spoiled 13 --out label.png
K77F TRP6 CP  removed from U9 / 2 D1, 2026-11-25 09:30 (logged)  entry 21
label written to label.png: print it and stick it on the valve's bag or box
Starts at label 14 of the part sheet; leaves no part sheet.
! note: K77F TRP6 CP: pocket U9 / 2 D1 is new to the record; U9 has 1 D1
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil read label.png
label.png
  K77F TRP6 CP  identification label
$ counterfoil log removing --label --unit U9 --pocket "3 D1" --stock a4-2x2 --second-language cs --out label.png
K7YW CNWB YE  removed from U9 / 3 D1, 2026-11-25 09:30 (logged)  entry 23
label written to label.png: print it and stick it on the valve's bag or box
! note: K7YW CNWB YE: pocket U9 / 3 D1 is new to the record; U9 has 1 D1, 2 D1
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil log removing --label --unit U9 --pocket "4 D1" --stock a4-2x77 --out label.png
! counterfoil: there is no stock "a4-2x77"
!   did you mean a4-2x7? the stocks are a4-2x2, a4-2x4, a4-2x7, a4-3x7, a4-3x8, letter-2x2, letter-2x3, letter-2x5, letter-3x10, roll-100x150, roll-100x50, roll-2x1in, roll-4x2in, roll-4x3in, roll-4x6in, roll-57x32, tag-1, tag-2, tag-3, tag-4, tag-5, tag-6, tag-7, tag-8; a file of your own ends in .json
? 2
$ counterfoil log removing K7QCHX65GA --start-at 2
! counterfoil: --start-at goes with --label
? 2

# Label 2 of the next sheet is dirty; then another stock lies there; then a sheet jams.

$ counterfoil paper "drawer 2" --new-sheet --by Jana
STACK     STOCK   NEXT LABEL  NEXT PAIR  LEFT ON THE TOP SHEET  SHEETS USED UP
drawer 2  a4-2x4  1           1          all                    3
! note: a whole sheet lies on top of stack drawer 2 already: nothing to log
$ counterfoil paper "drawer 2" --spoiled 2
STACK     STOCK   NEXT LABEL  NEXT PAIR  LEFT ON THE TOP SHEET  SHEETS USED UP
drawer 2  a4-2x4  1           3          1, 3-8                 3
$ counterfoil print K7QCHX65GA --stack "drawer 2"
2 tags on 1 page at 300 dots per inch: tags.pdf
  spare-bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
  spare-box-large: modules of 12 dots, 1.02 mm; symbol 25.4 mm wide, level H; read from up to 25 cm
    why: 13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Starts at label 3 of the sheet on top of stack drawer 2; leaves 5 labels (1, 5-8).
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
! note: K7QC HX65 GA was printed before, on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice
$ counterfoil print K7QCHX65GA --stack "drawer 2" --stock letter-2x3
! counterfoil: stack drawer 2 holds a4-2x4, not letter-2x3
!   if letter-2x3 lies there now, say so first: counterfoil paper "drawer 2" --stock letter-2x3 --new-sheet
? 1
$ counterfoil paper "drawer 2" --stock letter-2x3 --start-at 3 --spoiled 6
STACK     STOCK       NEXT LABEL  NEXT PAIR  LEFT ON THE TOP SHEET  SHEETS USED UP
drawer 2  letter-2x3  3           3          3-5                    4
$ counterfoil reprint K7ES3TCAZC --reason torn --stack "drawer 2" --start-at 5 --spoiled 6
! counterfoil: no pair fits on what is left of the part sheet of stock letter-2x3
!   a pair needs both of its places free; take that sheet off, and begin a whole one with --start-at 1
? 1
$ counterfoil reprint K7ES3TCAZC --reason torn --stack "drawer 2" --start-at 1
2 tags on 1 page at 300 dots per inch: reprint.pdf
  K7ES 3TCA ZC: bag half copy 2, box half copy 2
  Older copies are out of date from now on: destroy them where you find them.
  spare-bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
  spare-box-large: modules of 12 dots, 1.02 mm; symbol 25.4 mm wide, level H; read from up to 25 cm
    why: 13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Starts at label 1 of the whole sheet on top of stack drawer 2; leaves 4 labels (3-6).
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil paper "drawer 2"
STACK     STOCK       NEXT LABEL  NEXT PAIR  LEFT ON THE TOP SHEET  SHEETS USED UP
drawer 2  letter-2x3  3           3          3-6                    5
$ counterfoil paper "drawer 2" --new-sheet --reason jammed --by Jana
STACK     STOCK       NEXT LABEL  NEXT PAIR  LEFT ON THE TOP SHEET  SHEETS USED UP
drawer 2  letter-2x3  1           1          all                    6
$ counterfoil events | tail -9
20     2026-11-25T09:30:00+01:00  logged    commissioning  K77FTRP6CP  identification label issued
21     2026-11-25T09:30:00+01:00  logged    removing       K77FTRP6CP  removed from U9 / 2 D1
22     2026-11-25T09:30:00+01:00  logged    commissioning  K7YWCNWBYE  identification label issued
23     2026-11-25T09:30:00+01:00  logged    removing       K7YWCNWBYE  removed from U9 / 3 D1
24     2026-11-25T09:30:00+01:00  logged    stock_taking               sheet on top looked at, stack drawer 2
25     2026-11-25T09:30:00+01:00  logged    printing       K7QCHX65GA  sheet printed, stack drawer 2; note: 1 pair on a4-2x4
26     2026-11-25T09:30:00+01:00  logged    stock_taking               sheet on top looked at, stack drawer 2
27     2026-11-25T09:30:00+01:00  logged    reprinting     K7ES3TCAZC  printed again: bag half copy 2, box half copy 2, stack drawer 2; reason: torn
28     2026-11-25T09:30:00+01:00  logged    stock_taking               sheet on top looked at, stack drawer 2, by Jana; reason: jammed
$ counterfoil verify
29 entries and 16 checkpoints recomputed: all holds.
root <...>

# A pile that is cut gives stacks in sequence.

$ counterfoil print --turnaround TA26 --order cut-and-stack --out pile.png
18 tags on 3 pages at 300 dots per inch: pile-1.png, pile-2.png, pile-3.png
  spare-bag-large: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold
  spare-box-large: modules of 12 dots, 1.02 mm; symbol 25.4 mm wide, level H; read from up to 25 cm
    why: 13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
! note: all of these pairs were printed before, last on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice
$ counterfoil read pile-1.png pile-2.png pile-3.png | grep bag
  K7QC HX65 GA  bag half, copy 2
  K7MY SHYS 4E  bag half
  K7V4 F9H8 C4  bag half
  K7ES 3TCA ZC  bag half, copy 2
  K7CB BF4Y KC  bag half
  K7JH 16QD 57  bag half
  K765 NQJF MJ  bag half
  K73Q XCB3 WT  bag half
  K79X K3XJ 5D  bag half

# Labels are printed in copies, pairs are not.

$ counterfoil print K7G38VG11Z --copies 2 --start-at 8
2 tags on 2 pages at 300 dots per inch: tags.pdf
  label-large: modules of 10 dots, 0.847 mm; symbol 21.2 mm wide, level H; read from up to 21 cm
    why: 11 dots a module would need a slot of 30.7 mm, and it has 28; level H is the highest that 25 modules hold
Starts at label 8 of the part sheet, goes on for 1 sheet; leaves 7 labels (2-8).
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil print K7QCHX65GA --copies 2
! counterfoil: number K7QC HX65 GA is a pair, and two tags with one number could not be told apart
!   a half that was lost or spoiled is made again with `counterfoil reprint`; only identification labels are printed in copies
? 1
$ counterfoil print K7QCHX65GA --copies 0
! counterfoil: copies are from 1 to 1000
? 2

# Slips.

$ counterfoil print K7QCHX65GA --start-at 9
! counterfoil: stock a4-2x4 has no label 9
!   its labels are 1 to 8, row by row from the top left
? 2
$ counterfoil print K7QCHX65GA --spoiled 3,12
! counterfoil: stock a4-2x4 has no label 12
!   its labels are 1 to 8, row by row from the top left
? 2
$ counterfoil print K7QCHX65GA --spoiled 2,3-
! counterfoil: "3-" is not a label of a sheet
!   count labels from 1, row by row from the top left, as in 7,9-10
? 2
$ counterfoil print K7QCHX65GA --start-at 8
! counterfoil: no pair fits on what is left of the part sheet of stock a4-2x4
!   a pair needs both of its places free; take that sheet off, and begin a whole one with --start-at 1
? 1
$ counterfoil print K7QCHX65GA --stock roll-4x6in --start-at 2
! counterfoil: stock roll-4x6in has no label 2
!   it has one label a page, so there is no part sheet of it
? 2
$ counterfoil print K7QCHX65GA --stock roll-4x6in --stack roll
! counterfoil: stock roll-4x6in has one label a page, so no part sheet of it is ever left
!   leave --stack out
? 1
$ counterfoil print K7QCHX65GA --order backwards
! counterfoil: "backwards" is not an order of tags
!   say sheet-by-sheet or cut-and-stack
? 2
$ counterfoil print K7QCHX65GA --order cut-and-stack --start-at 3
! counterfoil: a part sheet cannot be cut and stacked: its stacks would not be of one length
!   begin with a whole sheet, or print in the order of the sheets
? 1
$ counterfoil print K7QCHX65GA --stack "$(printf 'a\tb')"
! counterfoil: the stack's name holds a control character, such as a line break or a tab
? 2
$ counterfoil paper cupboard
! counterfoil: no stack "cupboard" is known
!   to begin one: counterfoil paper "cupboard" --stock NAME
? 1
$ counterfoil paper cupboard --new-sheet
! counterfoil: no stack "cupboard" is known
!   to begin one, say what lies there: --stock NAME
? 2
$ counterfoil paper --new-sheet
! counterfoil: which stack?
!   name it: counterfoil paper NAME --new-sheet
? 2
$ counterfoil paper "drawer 2" --new-sheet --start-at 3
! counterfoil: --new-sheet says that label 1 is the first, so it excludes --start-at
? 2
$ counterfoil paper "drawer 2" --by Jana
! counterfoil: --by and --reason go with what you say of a sheet
!   say it with --new-sheet, --start-at, --spoiled or --stock
? 2
$ counterfoil paper "drawer 2" --stock legal
! counterfoil: there is no stock "legal"
!   the stocks are a4-2x2, a4-2x4, a4-2x7, a4-3x7, a4-3x8, letter-2x2, letter-2x3, letter-2x5, letter-3x10, roll-100x150, roll-100x50, roll-2x1in, roll-4x2in, roll-4x3in, roll-4x6in, roll-57x32, tag-1, tag-2, tag-3, tag-4, tag-5, tag-6, tag-7, tag-8; a file of your own ends in .json
? 2
$ counterfoil log removing K7ES3TCAZC --stack "drawer 2"
! counterfoil: --stack goes with --label
? 2
