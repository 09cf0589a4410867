# A tag that rust has eaten into, one that is worse, and a number that can be read in part. The pictures are drawn, then
# spoiled: spoil.py turns modules of the bag half's symbol over, 15 or 35 of a hundred.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,1 HE D1,discharge,V-311\nU2,2 HE S1,suction,V-310\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv --csv | cut -d, -f1
number
K7QCHX65GA
K7ES3TCAZC
K765NQJFMJ
$ counterfoil print K7QC HX65 GA --stock roll-4x6in --dpi 203.2 --out whole.png >print.txt
$ cp whole.png rusty.png; python3 $TOOLS/spoil.py rusty.png 177 87 175 15
$ cp whole.png worse.png; python3 $TOOLS/spoil.py worse.png 177 87 175 35
$ counterfoil read --effort quick whole.png rusty.png worse.png
whole.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
rusty.png
  K7QC HX65 GA  bag half  identified by likeness to the tags in use, not decoded: compare the number
  K7QC HX65 GA  box half
worse.png
  K7QC HX65 GA  box half
  a symbol was seen and not read; hold it against these tags, likeliest first (it may be none of them):
    K7QC HX65 GA  U2 / 1 HE S1 (suction), TA26, tag only, no valve on it yet
    K765 NQJF MJ  U2 / 2 HE S1 (suction), TA26, tag only, no valve on it yet
    then log the right one by its number, such as: counterfoil log STEP K7QCHX65GA --photo worse.png
$ counterfoil read --effort quick --json rusty.png worse.png | sed 's/"corners":\[\[[^a-z]*\]\]/"corners":[...]/g; s/"pass":"[a-z-]*"/"pass":"..."/g'
{"camera":null,"codes":[{"copy":1,"corners":[...],"half":"bag","identified":true,"number":"K7QCHX65GA","page":1,"pass":"...","symbology":"QR Code","text":"CF1.K7QCHX65GA.BAG1"},{"copy":1,"corners":[...],"half":"box","identified":false,"number":"K7QCHX65GA","page":1,"pass":"...","symbology":"QR Code","text":"CF1.K7QCHX65GA.BOX1"}],"damage":null,"file":"rusty.png","ms":0,"pages":1,"taken":null,"taken_ms":null,"time_ran_out":false,"unread":[]}
{"camera":null,"codes":[{"copy":1,"corners":[...],"half":"box","identified":false,"number":"K7QCHX65GA","page":1,"pass":"...","symbology":"QR Code","text":"CF1.K7QCHX65GA.BOX1"}],"damage":null,"file":"worse.png","ms":0,"pages":1,"taken":null,"taken_ms":null,"time_ran_out":false,"unread":[{"corners":[...],"likely":[{"copy":1,"half":"bag","number":"K7QCHX65GA"},{"copy":1,"half":"bag","number":"K765NQJFMJ"}],"page":1}]}

# Without the desk nobody knows which tags are in use.

$ mkdir elsewhere; cd elsewhere; counterfoil read --effort quick ../rusty.png
../rusty.png
  K7QC HX65 GA  box half
  a symbol was seen and not read; take it again, or type the number
$ cd elsewhere; counterfoil read --ledger .. --effort quick ../rusty.png
../rusty.png
  K7QC HX65 GA  bag half  identified by likeness to the tags in use, not decoded: compare the number
  K7QC HX65 GA  box half
$ counterfoil read --ledger nowhere rusty.png
! counterfoil: no ledger here: nowhere/counterfoil.ledger
!   name one with --ledger, or make a desk with `counterfoil desk nowhere --name NAME --role storeroom --prefix K7`
? 3

# The bag half alone: nothing is logged for what was not read, and the person is told what it may be.

$ cp whole.png bag-worse.png; python3 $TOOLS/spoil.py bag-worse.png 177 87 175 35 500
$ cp whole.png bag-rusty.png; python3 $TOOLS/spoil.py bag-rusty.png 177 87 175 15 500
$ counterfoil log removing bag-worse.png --effort quick --by Åse
! counterfoil: 1 symbol seen on bag-worse.png and not read; nothing was logged for it
!   take it again from nearer and straight on, or type the number from the tag
!   hold these numbers against the tag, likeliest first (it may be none of them):
!     K7QC HX65 GA  U2 / 1 HE S1 (suction), TA26, tag only, no valve on it yet
!     K765 NQJF MJ  U2 / 2 HE S1 (suction), TA26, tag only, no valve on it yet
!   log the right one by number: counterfoil log removing K7QCHX65GA --photo bag-worse.png
? 1
$ counterfoil log removing bag-rusty.png --effort quick --by Åse
K7QC HX65 GA  removed from U2 / 1 HE S1 (suction), by Åse; bag half read by likeness, 2026-11-25 09:30 (logged)  entry 5
! note: K7QC HX65 GA: the photograph does not tell its time; the time of logging was taken, state it with --time
! note: K7QC HX65 GA: bag half read by likeness to the tags in use, not decoded: compare the number printed on the tag with K7QC HX65 GA
! note: K7QC HX65 GA: pocket taken from the tag: U2 / 1 HE S1
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil log packing bag-rusty.png --effort quick --json | cut -d, -f1-6
{"added":true,"at":"2026-11-25T09:30:00+01:00","entry":6,"identified":true,"known":"logged","notes":["the photograph does not tell its time; the time of logging was taken
$ counterfoil trace K7QC HX65 GA
valve       K7QC HX65 GA
turnaround  TA26
meant for   U2 / 1 HE S1, suction
came from   U2 / 1 HE S1, suction
part        V-310
now         packed, not shipped

entry 1  2026-11-25 09:30 (logged)  tag pair issued for U2 / 1 HE S1 (suction), part V-310
entry 4  2026-11-25 09:30 (logged)  sheet printed; note: 1 pair on roll-4x6in
entry 5  2026-11-25 09:30 (logged)  removed from U2 / 1 HE S1 (suction), by Åse; bag half read by likeness
    photograph bag-rusty.png, SHA-256 <...>, kept as ./photos/<...>.png
entry 6  2026-11-25 09:30 (logged)  packed; bag half read by likeness
    photograph bag-rusty.png, SHA-256 <...>, kept as ./photos/<...>.png

FINDING: K7QC HX65 GA was removed from U2 / 1 HE S1 at 2026-11-25 09:30, and no valve was installed in U2 / 1 HE S1 since
  next: install a valve there and log it, or settle why the pocket stays open; entry 5 has its bag half read by likeness: compare the number on the tag first
$ counterfoil findings --turnaround TA26 | head -3
1. K7ES 3TCA ZC: not removed
   K7ES 3TCA ZC is meant for U2 / 1 HE D1 and no removal is logged, while other valves of TA26 are out
   next: look at the pocket; log the removal with its time, or void the pair with the reason; entry 5 has its bag half read by likeness: compare the number on the tag first
$ counterfoil match rusty.png --effort quick --dry-run
VERDICT  NUMBER        WHAT                                                                 SEEN ON
matched  K7QC HX65 GA  bag and box belong together; bag half read by likeness, not decoded  rusty.png

What to do:
  K7QC HX65 GA: compare the number printed on the tag

1 pair matched, 0 not as they should be, 0 photographs without a tag of ours. Nothing was written.
$ counterfoil match rusty.png bag-worse.png --effort quick --budget 30 --dry-run --json
{"identified":true,"next":"compare the number printed on the tag","number":"K7QCHX65GA","other":"","seen":"rusty.png","verdict":"matched","what":"bag and box belong together; bag half read by likeness, not decoded"}
{"identified":false,"next":"look at the tag, and type the numbers: BAG=BOX","number":"","other":"","seen":"","verdict":"unreadable","what":"bag-worse.png: a symbol was seen and not read, likeliest K7QC HX65 GA (bag half) of U2 / 1 HE S1 or K765 NQJF MJ (bag half) of U2 / 2 HE S1"}
? 1

# A voided number is in use no more, and is not told by likeness.

$ counterfoil void K7QCHX65GA --reason "soaked in oil" >void.txt
$ counterfoil read --effort quick rusty.png
rusty.png
  K7QC HX65 GA  box half
  a symbol was seen and not read; hold it against these tags, likeliest first (it may be none of them):
    K7ES 3TCA ZC  U2 / 1 HE D1 (discharge), TA26, tag only, no valve on it yet
    K765 NQJF MJ  U2 / 2 HE S1 (suction), TA26, tag only, no valve on it yet
    then log the right one by its number, such as: counterfoil log STEP K7ES3TCAZC --photo rusty.png

# Time that runs out: a clock that goes, and a budget that is not enough for a glance.

$ COUNTERFOIL_NOW= counterfoil read --budget 0.000001 rusty.png
rusty.png
  no tag found; take it again from nearer and straight on, or type the number
  time ran out; --budget 10 or --effort thorough looks longer
? 1
$ COUNTERFOIL_NOW= counterfoil read --budget 0.000001 --json rusty.png | grep -o '"time_ran_out":[a-z]*'
"time_ran_out":true
$ COUNTERFOIL_NOW= counterfoil log removing bag-rusty.png --budget 0.000001
! counterfoil: no tag was found on bag-rusty.png
!   time ran out; --budget 10 or --effort thorough looks longer; else take it again from nearer and straight on, or type the number from the tag
? 1
$ counterfoil log removing rusty.png --budget 0
! counterfoil: "0" is no time for a photograph
!   --budget takes seconds, more than 0, such as 0.5 or 10
? 2
$ counterfoil match rusty.png --budget soon
! counterfoil: "soon" is no time for a photograph
!   --budget takes seconds, more than 0, such as 0.5 or 10
? 2
$ counterfoil read --effort hard rusty.png
! counterfoil: "hard" is no effort
!   the efforts are quick, normal and thorough
? 2

# Numbers that can be read in part.

$ counterfoil trace "K7E? 3TCA ZC"
NUMBER        UNIT  POCKET   SIDE       TURNAROUND  NOW                           FITS
K7ES 3TCA ZC  U2    1 HE D1  discharge  TA26        tag only, no valve on it yet  as typed
! note: likeliest first; hold them against the tag, then `counterfoil trace` with the right one
? 1
$ counterfoil trace K7?? ??65 G?
NUMBER        UNIT  POCKET   SIDE     TURNAROUND  NOW                  RETIRED                FITS
K7QC HX65 GA  U2    1 HE S1  suction  TA26        packed, not shipped  voided: soaked in oil  as typed
! note: likeliest first; hold them against the tag, then `counterfoil trace` with the right one
? 1
$ counterfoil trace "K7?? ???? ??" --csv
number,unit,pocket,side,turnaround,now,place,retired,fits
K765NQJFMJ,U2,2 HE S1,suction,TA26,"tag only, no valve on it yet",,,as typed
K7ES3TCAZC,U2,1 HE D1,discharge,TA26,"tag only, no valve on it yet",,,as typed
K7QCHX65GA,U2,1 HE S1,suction,TA26,"packed, not shipped",,voided: soaked in oil,as typed
? 1
$ counterfoil trace "K7E? 3TC4 ZC" --json
{"fits":"with one slip besides","now":"tag only, no valve on it yet","number":"K7ES3TCAZC","place":"","pocket":"1 HE D1","retired":"","side":"discharge","turnaround":"TA26","unit":"U2"}
? 1
$ counterfoil trace "Q7E? 3TC4 AC"
! counterfoil: no valve with the serial "Q7E? 3TC4 AC" is known, and number Q7E? 3TC4 AC is not read in full
!   read the number from the tag again
? 2
$ counterfoil trace "K7E?"
! counterfoil: no valve with the serial "K7E?" is known, and number K7E? is too short: 4 characters, not 10
!   write one ? for each character that cannot be read
? 2
$ counterfoil log packing "K7E? 3TCA ZC"
! counterfoil: number K7E? 3TCA ZC is not read in full
!   hold these numbers on record against the tag, likeliest first, and type the right one:
!     K7ES 3TCA ZC  U2 / 1 HE D1 (discharge), TA26, tag only, no valve on it yet
? 2
$ counterfoil log packing K7E? 3TCA ZC K765NQJFMJ
! counterfoil: number K7E? 3TCA ZC is not read in full
!   hold these numbers on record against the tag, likeliest first, and type the right one:
!     K7ES 3TCA ZC  U2 / 1 HE D1 (discharge), TA26, tag only, no valve on it yet
? 2
$ counterfoil match "K7E? 3TCA ZC=K7ES 3TCA ZC"
! counterfoil: number K7E? 3TCA ZC is not read in full
!   hold these numbers on record against the tag, likeliest first, and type the right one:
!     K7ES 3TCA ZC  U2 / 1 HE D1 (discharge), TA26, tag only, no valve on it yet
? 2
$ counterfoil match "K7E?3TCAZC"
! counterfoil: is K7E?3TCAZC a bag or a box?
!   type what was found together as BAG=BOX, or give --bag or --box
? 2
$ counterfoil void "K7E? 3TCA ZC" --reason torn
! counterfoil: number K7E? 3TCA ZC is not read in full
!   hold these numbers on record against the tag, likeliest first, and type the right one:
!     K7ES 3TCA ZC  U2 / 1 HE D1 (discharge), TA26, tag only, no valve on it yet
? 2
$ counterfoil reprint "K7QC HX6? GA" --half bag --reason torn
! counterfoil: number K7QC HX6? GA is not read in full
!   hold these numbers on record against the tag, likeliest first, and type the right one:
!     K7QC HX65 GA  U2 / 1 HE S1 (suction), TA26, RETIRED, voided: soaked in oil
? 2
$ counterfoil log packing K7ES3TC4ZC
! counterfoil: number K7ES 3TC4 ZC does not check: one character looks wrong
!   the only number on record that is near is K7ES 3TCA ZC: read the tag again
? 2
$ counterfoil events | tail -2
6      2026-11-25T09:30:00+01:00  logged    packing        K7QCHX65GA  packed; bag half read by likeness                                       bag-rusty.png
7      2026-11-25T09:30:00+01:00  logged    voiding        K7QCHX65GA  number voided; reason: soaked in oil
