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
9 entries and 5 checkpoints recomputed: all holds.
