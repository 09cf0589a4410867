# From a list of pockets: each pair is meant for its pocket.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 --json | cut -c1-20
{"entries":1,"host":
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,1 HE D1,discharge,V-311\nU2,"1 CE, lower",,\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv --by Jana
NUMBER        UNIT  POCKET       SIDE       PART
K7QC HX65 GA  U2    1 HE S1      suction    V-310
K7ES 3TCA ZC  U2    1 HE D1      discharge  V-311
K765 NQJF MJ  U2    1 CE, lower

3 pairs issued for TA26.
Next: counterfoil print --turnaround TA26 --out tags.pdf
$ counterfoil issue --turnaround TA26 --pockets pockets.csv
! counterfoil: pocket U2 / 1 HE S1 has pair K7QC HX65 GA in TA26 already; nothing was issued
!   print that pair again, or void it first and issue anew
? 1
$ counterfoil issue --turnaround TA26 --count 2 --part V-310 --json
{"entry":4,"number":"K7MYSHYS4E","part":"V-310","pocket":"","side":"","turnaround":"TA26","unit":""}
{"entry":5,"number":"K7CBBF4YKC","part":"V-310","pocket":"","side":"","turnaround":"TA26","unit":""}
$ counterfoil issue --turnaround TA26 --count 2 --csv
number,unit,pocket,side,part,turnaround,entry
K73QXCB3WT,,,,,TA26,6
K7V4F9H8C4,,,,,TA26,7

# A list that turns a pocket's side round stops until a second person has looked; another spelling is the same turnaround.

$ printf 'unit,pocket,side\nu2,1 he d1,suction\n' > turned.csv; counterfoil issue --turnaround TA27 --pockets turned.csv
! counterfoil: STOP: U2 / 1 HE D1 is a discharge pocket on record, and the list says suction; nothing was issued
!   look at the unit's map and at the pocket. If the list is right, a second person looks too; then issue with --by NAME --second NAME --reason TEXT
? 1
$ counterfoil issue --turnaround TA27 --pockets turned.csv --by Jana --second Marek --reason "re-staged, map of 2026-11-20"
NUMBER        UNIT  POCKET   SIDE
K7JH 16QD 57  U2    1 HE D1  suction

1 pair issued for TA27.
Next: counterfoil print --turnaround TA27 --out tags.pdf
$ counterfoil issue --turnaround "ta 27" --count 1
! counterfoil: there is a turnaround TA27 already, spelled a little otherwise
!   give --turnaround "TA27", or a name that differs more
? 1

# A name that is too long for the tags is told while a new pair costs a number only; print lists the same, all of them.

$ printf 'unit,pocket,side\nU3,1 HE S1,suction\nU3,upper deck outer row first from the north,suction\nU3,upper deck outer row second from the north,suction\n' > long.csv
$ counterfoil issue --turnaround TA28 --pockets long.csv --stock letter-3x10
NUMBER        UNIT  POCKET                                      SIDE
K79X K3XJ 5D  U3    1 HE S1                                     suction
K71A 513Q 1Q  U3    upper deck outer row first from the north   suction
K7RP PY9W B2  U3    upper deck outer row second from the north  suction

3 pairs issued for TA28.
Next: counterfoil print --turnaround TA28 --stock letter-3x10 --out tags.pdf
! note: 2 texts have no room on the tags of stock letter-3x10, even in the smallest letters
!   pocket "upper deck outer row first from the north": 29 mm too wide for bag-strip, 29 mm too wide for box-strip
!     on K71A 513Q 1Q
!   pocket "upper deck outer row second from the north": 34 mm too wide for bag-strip, 34 mm too wide for box-strip
!     on K7RP PY9W B2
!   all of them have room with --stock letter-2x3
! note: a shorter name takes a new pair: withdraw these (counterfoil void NUMBER... --reason "name too long"), and issue them anew
$ counterfoil print --turnaround TA28 --stock letter-3x10
! counterfoil: 2 texts have no room on the tags of stock letter-3x10, even in the smallest letters
!   pocket "upper deck outer row first from the north": 29 mm too wide for bag-strip, 29 mm too wide for box-strip
!     on K71A 513Q 1Q
!   pocket "upper deck outer row second from the north": 34 mm too wide for bag-strip, 34 mm too wide for box-strip
!     on K7RP PY9W B2
!   all of them have room with --stock letter-2x3
? 1
$ printf 'unit,pocket,side,part\nU4,1 HE S1,suction,VLV-PLATE-3-1/2-RING-310-XL-REV-C-2024-NONLUBE\n' > long.csv; counterfoil issue --turnaround TA29 --pockets long.csv
NUMBER        UNIT  POCKET   SIDE     PART
K7G3 8VG1 1Z  U4    1 HE S1  suction  VLV-PLATE-3-1/2-RING-310-XL-REV-C-2024-NONLUBE

1 pair issued for TA29.
Next: counterfoil print --turnaround TA29 --out tags.pdf
! note: 1 text has no room on the tags of stock a4-2x4, even in the smallest letters
!   part "VLV-PLATE-3-1/2-RING-310-XL-REV-C-2024-NONLUBE": 37 mm too wide for bag-large, 26 mm too wide for box-large
!     on K7G3 8VG1 1Z
!   no stock has room for all of them; tags with --stock a4-3x8 leave some out
! note: a shorter name takes a new pair: withdraw these (counterfoil void NUMBER... --reason "name too long"), and issue them anew
$ counterfoil issue --turnaround TA29 --count 1 --stock lettr-3x10
! counterfoil: there is no stock "lettr-3x10"
!   did you mean letter-3x10? the stocks are a4-2x2, a4-2x4, a4-2x7, a4-3x7, a4-3x8, letter-2x2, letter-2x3, letter-2x5, letter-3x10, roll-100x150, roll-100x50, roll-2x1in, roll-4x2in, roll-4x3in, roll-4x6in, roll-57x32, tag-1, tag-2, tag-3, tag-4, tag-5, tag-6, tag-7, tag-8; a file of your own ends in .json
? 2

# Wrong input: nothing is issued, and the line is named.

$ printf 'unit,pocket,side\nU2,A,suction\nU2,B,S\n' > bad.csv; counterfoil issue --turnaround TA26 --pockets bad.csv
! counterfoil: bad.csv: line 3: "S" is not a side
!   write the whole word, suction or discharge: a lone letter is easily mistaken
? 2
$ printf 'unit,side\nU2,suction\n' > bad.csv; counterfoil issue --turnaround TA26 --pockets bad.csv
! counterfoil: bad.csv: line 1 must name the columns unit and pocket
!   a first line could be: unit,pocket,side,part
? 2
$ printf 'unit,pocket\nU2,A\nU2\n' > bad.csv; counterfoil issue --turnaround TA26 --pockets bad.csv
! counterfoil: bad.csv: line 3 has 1 field, the header has 2
? 2
$ counterfoil issue --turnaround TA26 --pockets absent.csv
! counterfoil: cannot read absent.csv: No such file or directory
? 3
$ counterfoil issue --turnaround TA26
! counterfoil: how many pairs?
!   give --count N, or --pockets FILE.csv
? 2
$ counterfoil issue --count 3
! counterfoil: a batch needs the name of its turnaround
!   give --turnaround NAME
? 2
$ counterfoil issue --turnaround TA26 --count three
! counterfoil: --count takes a whole number, not "three"
!   --count N: this many pairs, meant for no pocket yet
? 2
$ counterfoil issue --turnaround TA26 --count 3 --pockets pockets.csv
! counterfoil: --pockets says how many pairs and which parts, so it excludes --count and --part
? 2
$ counterfoil issue --turnaround TA26 --count 200000
! counterfoil: one batch takes at most 100000 pairs
? 2
$ counterfoil issue --turnaround TA26 --count 3 --json --csv
{"error":"--csv and --json exclude each other","hint":""}
! counterfoil: --csv and --json exclude each other
? 2
$ counterfoil isue
! counterfoil: there is no command "isue"
!   did you mean `counterfoil issue`?
? 2
$ counterfoil issue now
! counterfoil: not understood: now
!   see `counterfoil issue --help`
? 2
$ counterfoil verify | head -1
13 entries and 7 checkpoints recomputed: all holds.
