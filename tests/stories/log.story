# The three ways in, by typed number; then the journey.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,1 HE D1,discharge,V-311\nU2,2 HE S1,suction,V-310\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv --csv | cut -d, -f1
number
K7QCHX65GA
K7ES3TCAZC
K765NQJFMJ
$ counterfoil log removing K7QC HX65 GA --time 2026-11-25T08:10+01:00 --by Åse --condition "plate cracked, oily"
K7QC HX65 GA  removed from U2 / 1 HE S1 (suction), by Åse; condition: plate cracked, oily, 2026-11-25 08:10 (stated)  entry 4
! note: K7QC HX65 GA: pocket taken from the tag: U2 / 1 HE S1
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil log removing --serial 88-1042 --unit U9 --pocket "1 S1" --side suction --turnaround TA26 --part V-900 --by Åse
serial 88-1042  removed from U9 / 1 S1 (suction), serial 88-1042, part V-900, by Åse, 2026-11-25 09:30 (logged)  entry 5
! note: serial 88-1042: pocket U9 / 1 S1 is new to the record
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ echo "stands for a picture" > plate.jpg; counterfoil log removing --label --unit U9 --pocket "1 D1" --side discharge --photo plate.jpg --by Åse --note "goes to scrap unless the vendor wants it"
K7MY SHYS 4E  removed from U9 / 1 D1 (discharge), by Åse; note: goes to scrap unless the vendor wants it, 2026-11-25 09:30 (logged)  entry 7
label written to label-K7MYSHYS4E.pdf: print it and stick it on the valve's bag or box
! note: K7MY SHYS 4E: the photograph does not tell its time; the time of logging was taken, state it with --time
! note: K7MY SHYS 4E: pocket U9 / 1 D1 is new to the record; U9 has 1 S1
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil log removing --label --unit U9 --pocket "2 D1" --photo plate.jpg --no-copy --out label2.png
K7CB BF4Y KC  removed from U9 / 2 D1, 2026-11-25 09:30 (logged)  entry 9
label written to label2.png: print it and stick it on the valve's bag or box
! note: K7CB BF4Y KC: the photograph does not tell its time; the time of logging was taken, state it with --time
! note: K7CB BF4Y KC: pocket U9 / 2 D1 is new to the record; U9 has 1 D1, 1 S1
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil read label2.png
label2.png
  K7CB BF4Y KC  identification label
$ ls; ls photos/*
counterfoil.key
counterfoil.ledger
desk.txt
label-K7MYSHYS4E.pdf
label2.png
photos
plate.jpg
pockets.csv
sample-labels
baeee16db37c7aae098b0b6ae95f9194d49c3b9a21050d55803075e3395881bc.jpg

# Numbers that do not check; the slip is named.

$ counterfoil log removing K7QC XH65 GA
! counterfoil: number K7QC XH65 GA does not check: two neighbouring characters look swapped
!   the only number on record that is near is K7QC HX65 GA: read the tag again
? 2
$ counterfoil log removing K7QC HX65 G
! counterfoil: number K7QC is too short: 4 characters, not 10
!   read the number from the tag again
? 2
$ counterfoil log removing K7QC HX66 GA
! counterfoil: number K7QC HX66 GA does not check: one character looks wrong
!   the only number on record that is near is K7QC HX65 GA: read the tag again
? 2
$ counterfoil log removing nothere.jpg
! counterfoil: cannot read nothere.jpg: No such file or directory
? 3
$ counterfoil log removing K7QCUX65GA
! counterfoil: number K7QC UX65 GA holds U, a letter that is never used
!   the only number on record that is near is K7QC HX65 GA: read the tag again
? 2

# Suction and discharge disagree: the one contradiction that stops.

$ counterfoil log installing K7QC HX65 GA --unit U2 --pocket "1 HE D1" --by Åse
! counterfoil: STOP: the valve K7QC HX65 GA is for suction, and U2 / 1 HE D1 is a discharge pocket; nothing was logged
!   look at the valve before you go on: a valve on the wrong side can wreck the machine and hurt people. If the entry is right all the same, a second person looks too; then log it with --second NAME --reason TEXT
? 1
$ counterfoil log installing K7QC HX65 GA --unit U2 --pocket "1 HE D1" --by Åse --second Åse --reason "it fits"
! counterfoil: the second person must be another one than Åse
? 2
$ counterfoil log installing K7QC HX65 GA --unit U2 --pocket "1 HE D1" --by Åse --second Jana --reason "tag was tied to the wrong valve"
K7QC HX65 GA  installed in U2 / 1 HE D1 (discharge), by Åse, second person Jana; reason: tag was tied to the wrong valve, 2026-11-25 09:30 (logged)  entry 10
! note: K7QC HX65 GA: the valve K7QC HX65 GA is for suction, and U2 / 1 HE D1 is a discharge pocket; logged because Jana confirmed it
! note: look at the valve, not only at the tag: suction or discharge, and the push test as the maker has it. Old gasket out, new one in; torque, passes and lubricant are the maker's

# However the pocket is spelled; and what could not be checked is said.

$ counterfoil log installing K7ES 3TCA ZC --unit u2 --pocket "1-he  s1" --by Åse
! counterfoil: STOP: the valve K7ES 3TCA ZC is for discharge, and U2 / 1 HE S1 is a suction pocket; nothing was logged
!   look at the valve before you go on: a valve on the wrong side can wreck the machine and hurt people. If the entry is right all the same, a second person looks too; then log it with --second NAME --reason TEXT
? 1
$ counterfoil log installing K765 NQJF MJ --unit U2 --pocket "9 HE D9" --by Åse
K765 NQJF MJ  installed in U2 / 9 HE D9, by Åse, 2026-11-25 09:30 (logged)  entry 11
! note: K765 NQJF MJ: pocket U2 / 9 HE D9 is new to the record; U2 has 1 HE D1, 1 HE S1, 2 HE S1
! note: K765 NQJF MJ: SIDE NOT CHECKED: the record does not know the side of U2 / 9 HE D9; look, and say it with --side
! note: look at the valve, not only at the tag: suction or discharge, and the push test as the maker has it. Old gasket out, new one in; torque, passes and lubricant are the maker's
$ counterfoil log removing K765 NQJF MJ --unit U2 --pocket "9 HE D9" --by Åse --time 2026-11-25T09:31
K765 NQJF MJ  removed from U2 / 9 HE D9, by Åse, 2026-11-25 09:31 (stated)  entry 12
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil log removing K765 NQJF MJ --unit U2 --pocket "9 HE D9" --by Åse --time 2026-11-25T09:31
K765 NQJF MJ  logged already, in entry 12; nothing added
$ counterfoil log installing K765 NQJF MJ --pocket "7 S1"
! counterfoil: the unit is missing
!   give --unit: no unit on record has a pocket 7 S1
? 2
$ counterfoil log installing --serial "88 1042" --unit U2 --pocket "1 HE D1" --by Åse
! counterfoil: STOP: the valve 88-1042 is for suction, and U2 / 1 HE D1 is a discharge pocket; nothing was logged
!   look at the valve before you go on: a valve on the wrong side can wreck the machine and hurt people. If the entry is right all the same, a second person looks too; then log it with --second NAME --reason TEXT
? 1

# Other contradictions are logged, and found.

$ counterfoil log removing K7QC HX65 GA --by Åse
K7QC HX65 GA  removed from U2 / 1 HE D1 (discharge), by Åse, 2026-11-25 09:30 (logged)  entry 13
! note: K7QC HX65 GA: pocket taken from the record: U2 / 1 HE D1
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil log packing K7QC HX65 GA K7ES 3TCA ZC --carton C1
K7QC HX65 GA  packed, carton C1, 2026-11-25 09:30 (logged)  entry 14
K7ES 3TCA ZC  packed, carton C1, 2026-11-25 09:30 (logged)  entry 15
$ counterfoil log shipping K7QC HX65 GA K7ES 3TCA ZC --carton C1 --from Žďár --to "Kettle Valve Works" --due 2026-11-24
K7QC HX65 GA  shipped, from Žďár, to Kettle Valve Works, carton C1, due 2026-11-24, 2026-11-25 09:30 (logged)  entry 16
K7ES 3TCA ZC  shipped, from Žďár, to Kettle Valve Works, carton C1, due 2026-11-24, 2026-11-25 09:30 (logged)  entry 17
$ counterfoil log receiving K7QC HX65 GA --json
{"added":true,"at":"2026-11-25T09:30:00+01:00","entry":18,"identified":false,"known":"logged","notes":[],"number":"K7QCHX65GA","serial":"","step":"receiving","what":"received"}
$ counterfoil log inspecting K7QC HX65 GA --outcome "plate cracked, springs whole"
K7QC HX65 GA  inspected; outcome: plate cracked, springs whole, 2026-11-25 09:30 (logged)  entry 19
$ counterfoil outstanding
NUMBER        SERIAL   CAME FROM     NOW                       PLACE               SINCE             DUE         OVERDUE
K7ES 3TCA ZC           U2 / 1 HE D1  in transit, not received  Kettle Valve Works  2026-11-25 09:30  2026-11-24  due back on 2026-11-24
K765 NQJF MJ           U2 / 9 HE D9  pulled, not packed                            2026-11-25 09:31
K7QC HX65 GA           U2 / 1 HE D1  on the bench              Kettle Valve Works  2026-11-25 09:30
              88-1042  U9 / 1 S1     pulled, not packed                            2026-11-25 09:30

4 valves under way; besides: 0 installed, 0 destroyed, 2 not tracked, 0 with only a tag issued, 0 voided.
$ counterfoil outstanding --turnaround TA26 --csv
number,serial,from,now,place,since,due,overdue,turnaround
K7ES3TCAZC,,U2 / 1 HE D1,"in transit, not received",Kettle Valve Works,2026-11-25 09:30,2026-11-24,due back on 2026-11-24,TA26
K765NQJFMJ,,U2 / 9 HE D9,"pulled, not packed",,2026-11-25 09:31,,,TA26
K7QCHX65GA,,U2 / 1 HE D1,on the bench,Kettle Valve Works,2026-11-25 09:30,,,TA26
,88-1042,U9 / 1 S1,"pulled, not packed",,2026-11-25 09:30,,,TA26
$ counterfoil outstanding --turnaround TA26 --transit-days 0 --json
{"due":"2026-11-24","from":"U2 / 1 HE D1","now":"in transit, not received","number":"K7ES3TCAZC","overdue":"due back on 2026-11-24","place":"Kettle Valve Works","serial":"","since":"2026-11-25 09:30","turnaround":"TA26"}
{"due":"","from":"U2 / 9 HE D9","now":"pulled, not packed","number":"K765NQJFMJ","overdue":"","place":"","serial":"","since":"2026-11-25 09:31","turnaround":"TA26"}
{"due":"","from":"U2 / 1 HE D1","now":"on the bench","number":"K7QCHX65GA","overdue":"","place":"Kettle Valve Works","serial":"","since":"2026-11-25 09:30","turnaround":"TA26"}
{"due":"","from":"U9 / 1 S1","now":"pulled, not packed","number":"","overdue":"","place":"","serial":"88-1042","since":"2026-11-25 09:30","turnaround":"TA26"}
$ counterfoil findings --turnaround TA26 --transit-days 30
1. K7QC HX65 GA: after its end
   K7QC HX65 GA was used up when the valve was installed in U2 / 1 HE D1 at 2026-11-25 09:30, and was removed from U2 / 1 HE D1 at 2026-11-25 09:30: one tag used twice
   next: issue a new tag for the valve that was removed last, and void this number
   entries: 10 13
2. K765 NQJF MJ: after its end
   K765 NQJF MJ was used up when the valve was installed in U2 / 9 HE D9 at 2026-11-25 09:30, and was removed from U2 / 9 HE D9 at 2026-11-25 09:31: one tag used twice
   next: issue a new tag for the valve that was removed last, and void this number
   entries: 11 12
3. K765 NQJF MJ: wrong pocket
   K765 NQJF MJ is meant for U2 / 2 HE S1 and was removed from U2 / 9 HE D9 at 2026-11-25 09:31
   next: see which pocket the valve came from; if the tags of two pockets were exchanged, void both and issue new ones
   entries: 12
4. K7QC HX65 GA: wrong pocket
   K7QC HX65 GA is meant for U2 / 1 HE S1 and was removed from U2 / 1 HE D1 at 2026-11-25 09:30
   next: see which pocket the valve came from; if the tags of two pockets were exchanged, void both and issue new ones
   entries: 13
5. K7QC HX65 GA: other part
   K7QC HX65 GA, part V-310, was installed in U2 / 1 HE D1 at 2026-11-25 09:30, which takes part V-311
   next: read the part number on the valve and compare the spring set before the unit starts
   entries: 10
6. K765 NQJF MJ: step out of order
   K765 NQJF MJ was installed in U2 / 9 HE D9 at 2026-11-25 09:30, and no removal is logged before it
   next: log the removal with its pocket and its time; else read the number on the tag again
   entries: 11
7. K7ES 3TCA ZC: step out of order
   K7ES 3TCA ZC was packed in carton C1 at 2026-11-25 09:30, and no removal is logged before it
   next: log the removal with its pocket and its time; else read the number on the tag again
   entries: 15
8. K7ES 3TCA ZC: not back
   K7ES 3TCA ZC was due back on 2026-11-24; it is in transit, not received: Kettle Valve Works
   next: ask where it is, and log a new due date or its receiving
   entries: 17
9. U2 / 1 HE S1: pocket open
   K7QC HX65 GA was removed from U2 / 1 HE S1 at 2026-11-25 08:10, and no valve was installed in U2 / 1 HE S1 since
   next: install a valve there and log it, or settle why the pocket stays open
   entries: 4
10. U9 / 1 S1: pocket open
   88-1042 was removed from U9 / 1 S1 at 2026-11-25 09:30, and no valve was installed in U9 / 1 S1 since
   next: install a valve there and log it, or settle why the pocket stays open
   entries: 5
11. U2 / 9 HE D9: pocket open
   K765 NQJF MJ was removed from U2 / 9 HE D9 at 2026-11-25 09:31, and no valve was installed in U2 / 9 HE D9 since
   next: install a valve there and log it, or settle why the pocket stays open
   entries: 12
12. U2 / 1 HE D1: pocket open
   K7QC HX65 GA was removed from U2 / 1 HE D1 at 2026-11-25 09:30, and no valve was installed in U2 / 1 HE D1 since
   next: install a valve there and log it, or settle why the pocket stays open
   entries: 13

12 findings.
? 1
$ counterfoil findings --json | head -1
{"entries":[10,13],"kind":"after its end","next":"issue a new tag for the valve that was removed last, and void this number","subject":"K7QC HX65 GA","turnaround":"TA26","what":"K7QC HX65 GA was used up when the valve was installed in U2 / 1 HE D1 at 2026-11-25 09:30, and was removed from U2 / 1 HE D1 at 2026-11-25 09:30: one tag used twice"}
$ counterfoil findings --csv | head -2
kind,subject,what,next,entries,turnaround
after its end,K7QC HX65 GA,"K7QC HX65 GA was used up when the valve was installed in U2 / 1 HE D1 at 2026-11-25 09:30, and was removed from U2 / 1 HE D1 at 2026-11-25 09:30: one tag used twice","issue a new tag for the valve that was removed last, and void this number",10 13,TA26
$ counterfoil findings --turnaround ta27
! counterfoil: there is no turnaround "ta27" in the record
!   did you mean TA26? on record: TA26
? 1
$ counterfoil outstanding --turnaround ta27
! counterfoil: there is no turnaround "ta27" in the record
!   did you mean TA26? on record: TA26
? 1
$ counterfoil settle K7QC HX65 GA --by åse --reason "fine"
closed: K7QC HX65 GA was used up when the valve was installed in U2 / 1 HE D1 at 2026-11-25 09:30, and was removed from U2 / 1 HE D1 at 2026-11-25 09:30: one tag used twice
closed: K7QC HX65 GA is meant for U2 / 1 HE S1 and was removed from U2 / 1 HE D1 at 2026-11-25 09:30
closed: K7QC HX65 GA, part V-310, was installed in U2 / 1 HE D1 at 2026-11-25 09:30, which takes part V-311
$ counterfoil settle K7QC HX65 GA --by Jana --reason "tag was on the wrong valve; looked at both"
! counterfoil: there is no finding of that to close
!   `counterfoil findings` lists them
? 1
$ counterfoil settle --unit U9 --pocket "2 D1" --by Jana --reason "blanked off"
closed: K7CB BF4Y KC was removed from U9 / 2 D1 at 2026-11-25 09:30, and no valve was installed in U9 / 2 D1 since
$ counterfoil settle --serial 88-1042 --by Jana --reason "nothing"
! counterfoil: there is no finding of that to close
!   `counterfoil findings` lists them
? 1
$ counterfoil settle K7QC HX65 GA
! counterfoil: findings are closed for a reason
!   give --reason TEXT
? 2
$ counterfoil findings
1. K765 NQJF MJ: after its end
   K765 NQJF MJ was used up when the valve was installed in U2 / 9 HE D9 at 2026-11-25 09:30, and was removed from U2 / 9 HE D9 at 2026-11-25 09:31: one tag used twice
   next: issue a new tag for the valve that was removed last, and void this number
   entries: 11 12
2. K765 NQJF MJ: wrong pocket
   K765 NQJF MJ is meant for U2 / 2 HE S1 and was removed from U2 / 9 HE D9 at 2026-11-25 09:31
   next: see which pocket the valve came from; if the tags of two pockets were exchanged, void both and issue new ones
   entries: 12
3. K765 NQJF MJ: step out of order
   K765 NQJF MJ was installed in U2 / 9 HE D9 at 2026-11-25 09:30, and no removal is logged before it
   next: log the removal with its pocket and its time; else read the number on the tag again
   entries: 11
4. K7ES 3TCA ZC: step out of order
   K7ES 3TCA ZC was packed in carton C1 at 2026-11-25 09:30, and no removal is logged before it
   next: log the removal with its pocket and its time; else read the number on the tag again
   entries: 15
5. K7ES 3TCA ZC: not back
   K7ES 3TCA ZC was due back on 2026-11-24; it is in transit, not received: Kettle Valve Works
   next: ask where it is, and log a new due date or its receiving
   entries: 17
6. U2 / 1 HE S1: pocket open
   K7QC HX65 GA was removed from U2 / 1 HE S1 at 2026-11-25 08:10, and no valve was installed in U2 / 1 HE S1 since
   next: install a valve there and log it, or settle why the pocket stays open
   entries: 4
7. U9 / 1 S1: pocket open
   88-1042 was removed from U9 / 1 S1 at 2026-11-25 09:30, and no valve was installed in U9 / 1 S1 since
   next: install a valve there and log it, or settle why the pocket stays open
   entries: 5
8. U9 / 1 D1: pocket open
   K7MY SHYS 4E was removed from U9 / 1 D1 at 2026-11-25 09:30, and no valve was installed in U9 / 1 D1 since
   next: install a valve there and log it, or settle why the pocket stays open
   entries: 7
9. U2 / 9 HE D9: pocket open
   K765 NQJF MJ was removed from U2 / 9 HE D9 at 2026-11-25 09:31, and no valve was installed in U2 / 9 HE D9 since
   next: install a valve there and log it, or settle why the pocket stays open
   entries: 12
10. U2 / 1 HE D1: pocket open
   K7QC HX65 GA was removed from U2 / 1 HE D1 at 2026-11-25 09:30, and no valve was installed in U2 / 1 HE D1 since
   next: install a valve there and log it, or settle why the pocket stays open
   entries: 13

10 findings.
? 1

# Wrong input.

$ counterfoil log
! counterfoil: `log` needs STEP: what happened
!   see `counterfoil log --help`
? 2
$ counterfoil log losing K7QC HX65 GA
! counterfoil: "losing" is no step of a valve's journey
!   the steps are removing, packing, shipping, receiving, unpacking, inspecting, repairing, storing, installing, destroying
? 2
$ counterfoil log removing
! counterfoil: nothing to log: no number, photograph or serial was given
!   type a number, name photographs, or give --serial or --label
? 2
$ counterfoil log removing K7QC HX65 GA --time tomorrow
! counterfoil: "tomorrow" is not a time
!   write it as 2026-11-25 or 2026-11-25T09:30, with +01:00 behind it if you know it
? 2
$ counterfoil log shipping K7QC HX65 GA --pocket "1 HE S1"
! counterfoil: a pocket goes with removing and installing only
!   for shipping say where with --to
? 2
$ counterfoil log removing K7QC HX65 GA --side S
! counterfoil: "S" is not a side
!   write the whole word, suction or discharge: a lone letter is easily mistaken
? 2
$ counterfoil log removing K7QC HX65 GA --out x.pdf
! counterfoil: --out goes with --label
? 2
$ counterfoil log packing --label
! counterfoil: --label goes with removing: it is for a valve that will not be tracked
? 2
$ counterfoil outstanding --transit-days -1
! counterfoil: --transit-days cannot be negative
? 2

# Everything known of one valve.

$ counterfoil trace K7QC HX65 GA
valve       K7QC HX65 GA
turnaround  TA26
meant for   U2 / 1 HE S1, suction
came from   U2 / 1 HE D1, discharge
part        V-310
now         on the bench: Kettle Valve Works

entry 1  2026-11-25 09:30 (logged)  tag pair issued for U2 / 1 HE S1 (suction), part V-310
entry 4  2026-11-25 08:10 (stated)  removed from U2 / 1 HE S1 (suction), by Åse; condition: plate cracked, oily
entry 10  2026-11-25 09:30 (logged)  installed in U2 / 1 HE D1 (discharge), by Åse, second person Jana; reason: tag was tied to the wrong valve
entry 13  2026-11-25 09:30 (logged)  removed from U2 / 1 HE D1 (discharge), by Åse
entry 14  2026-11-25 09:30 (logged)  packed, carton C1
entry 16  2026-11-25 09:30 (logged)  shipped, from Žďár, to Kettle Valve Works, carton C1, due 2026-11-24
entry 18  2026-11-25 09:30 (logged)  received
entry 19  2026-11-25 09:30 (logged)  inspected; outcome: plate cracked, springs whole
entry 20  2026-11-25 09:30 (logged)  findings closed, by åse; reason: fine

FINDING: K7QC HX65 GA was removed from U2 / 1 HE S1 at 2026-11-25 08:10, and no valve was installed in U2 / 1 HE S1 since
  next: install a valve there and log it, or settle why the pocket stays open

FINDING: K7QC HX65 GA was removed from U2 / 1 HE D1 at 2026-11-25 09:30, and no valve was installed in U2 / 1 HE D1 since
  next: install a valve there and log it, or settle why the pocket stays open
$ counterfoil trace 88-1042
valve       88-1042
turnaround  TA26
came from   U9 / 1 S1, suction
part        V-900
now         pulled, not packed

entry 5  2026-11-25 09:30 (logged)  removed from U9 / 1 S1 (suction), serial 88-1042, part V-900, by Åse

FINDING: 88-1042 was removed from U9 / 1 S1 at 2026-11-25 09:30, and no valve was installed in U9 / 1 S1 since
  next: install a valve there and log it, or settle why the pocket stays open
$ counterfoil trace K7ES3TCAZC --csv | cut -d, -f1-5
entry,at,known,step,number
2,2026-11-25T09:30:00+01:00,logged,commissioning,K7ES3TCAZC
15,2026-11-25T09:30:00+01:00,logged,packing,K7ES3TCAZC
17,2026-11-25T09:30:00+01:00,logged,shipping,K7ES3TCAZC
$ counterfoil trace K7ES3TCAZC --json | head -1
{"at":"2026-11-25T09:30:00+01:00","by":"","entry":2,"known":"logged","log":"counterfoil/K7-<...>","logged":"2026-11-25T09:30:00+01:00","number":"K7ES3TCAZC","photographs":"","serial":"","step":"commissioning","turnaround":"TA26","what":"tag pair issued for U2 / 1 HE D1 (discharge), part V-311"}
$ counterfoil trace 99-0000
! counterfoil: no valve with the serial "99-0000" is known, and number 9900 00 is too short: 6 characters, not 10
!   read the number from the tag again
? 2
$ counterfoil trace K765 NQJF MJ
valve       K765 NQJF MJ
turnaround  TA26
meant for   U2 / 2 HE S1, suction
came from   U2 / 9 HE D9
part        V-310
now         pulled, not packed

entry 3  2026-11-25 09:30 (logged)  tag pair issued for U2 / 2 HE S1 (suction), part V-310
entry 11  2026-11-25 09:30 (logged)  installed in U2 / 9 HE D9, by Åse
entry 12  2026-11-25 09:31 (stated)  removed from U2 / 9 HE D9, by Åse

FINDING: K765 NQJF MJ was used up when the valve was installed in U2 / 9 HE D9 at 2026-11-25 09:30, and was removed from U2 / 9 HE D9 at 2026-11-25 09:31: one tag used twice
  next: issue a new tag for the valve that was removed last, and void this number

FINDING: K765 NQJF MJ is meant for U2 / 2 HE S1 and was removed from U2 / 9 HE D9 at 2026-11-25 09:31
  next: see which pocket the valve came from; if the tags of two pockets were exchanged, void both and issue new ones

FINDING: K765 NQJF MJ was installed in U2 / 9 HE D9 at 2026-11-25 09:30, and no removal is logged before it
  next: log the removal with its pocket and its time; else read the number on the tag again

FINDING: K765 NQJF MJ was removed from U2 / 9 HE D9 at 2026-11-25 09:31, and no valve was installed in U2 / 9 HE D9 since
  next: install a valve there and log it, or settle why the pocket stays open
$ counterfoil trace
! counterfoil: `trace` needs NUMBER...: one number, or a serial
!   see `counterfoil trace --help`
? 2
$ counterfoil trace K7ES3TCAZC K7QCHX65GA
! counterfoil: one valve at a time, please
!   put a serial with spaces into quotes
? 2
