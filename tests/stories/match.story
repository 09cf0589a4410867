# Which bag goes with which box, typed and by photograph.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,1 HE D1,discharge,V-311\nU2,2 HE S1,suction,V-310\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv --csv | cut -d, -f1
number
K7QCHX65GA
K7ES3TCAZC
K765NQJFMJ
$ counterfoil log removing K7QC HX65 GA K7ES 3TCA ZC K765 NQJF MJ --by Åse >log.txt 2>&1
$ counterfoil match "K7QC HX65 GA=K7ES 3TCA ZC" "K7ES 3TCA ZC=K7QC HX65 GA" --by Jana
VERDICT  NUMBER        WHAT                                                                                          SEEN ON
swapped  K7ES 3TCA ZC  bag K7ES 3TCA ZC was found with box K7QC HX65 GA, and box K7ES 3TCA ZC with bag K7QC HX65 GA  typed
swapped  K7QC HX65 GA  bag K7QC HX65 GA was found with box K7ES 3TCA ZC, and box K7QC HX65 GA with bag K7ES 3TCA ZC  typed

What to do:
  K7ES 3TCA ZC: put each bag into its own box, look at the valves, and match again
  K7QC HX65 GA: put each bag into its own box, look at the valves, and match again

0 pairs matched, 2 not as they should be, 0 photographs without a tag of ours.
? 1
$ counterfoil findings --csv | cut -d, -f1-2
kind,subject
swapped,K7ES 3TCA ZC
swapped,K7QC HX65 GA
pocket open,U2 / 1 HE S1
pocket open,U2 / 1 HE D1
pocket open,U2 / 2 HE S1
$ counterfoil match K7QCHX65GA=K7QCHX65GA K7ES3TCAZC=K7ES3TCAZC --box K765NQJFMJ --json
{"identified":false,"next":"look for its bag half (pocket U2 / 2 HE S1); if it is lost, `counterfoil reprint K765NQJFMJ --half bag`","number":"K765NQJFMJ","other":"","seen":"typed","verdict":"alone","what":"K765 NQJF MJ has no bag half among what was seen"}
{"identified":false,"next":"","number":"K7ES3TCAZC","other":"","seen":"typed","verdict":"matched","what":"bag and box belong together"}
{"identified":false,"next":"","number":"K7QCHX65GA","other":"","seen":"typed","verdict":"matched","what":"bag and box belong together"}
? 1
$ counterfoil match --bag K765NQJFMJ --turnaround TA26 --dry-run --csv
verdict,number,what,next,other,seen,identified
alone,K765NQJFMJ,K765 NQJF MJ has no box half among what was seen,"look for its box half (pocket U2 / 2 HE S1); if it is lost, `counterfoil reprint K765NQJFMJ --half box`",,typed,no
alone,K7ES3TCAZC,K7ES 3TCA ZC was not seen at all,look for both halves,,,no
alone,K7QCHX65GA,K7QC HX65 GA was not seen at all,look for both halves,,,no
? 1
$ counterfoil print K7QC HX65 GA --stock roll-4x6in --out pair.png >print.txt
$ counterfoil match pair.png --bag K765NQJFMJ --box K765NQJFMJ --no-copy
VERDICT  NUMBER        WHAT                                        SEEN ON
matched  K765 NQJF MJ  bag and box were both seen, each by itself  typed
matched  K7QC HX65 GA  bag and box belong together                 pair.png

2 pairs matched, 0 not as they should be, 0 photographs without a tag of ours.
$ counterfoil findings --csv
kind,subject,what,next,entries,turnaround
pocket open,U2 / 1 HE S1,"K7QC HX65 GA was removed from U2 / 1 HE S1 at 2026-11-25 09:30, and no valve was installed in U2 / 1 HE S1 since","install a valve there and log it, or settle why the pocket stays open",4,TA26
pocket open,U2 / 1 HE D1,"K7ES 3TCA ZC was removed from U2 / 1 HE D1 at 2026-11-25 09:30, and no valve was installed in U2 / 1 HE D1 since","install a valve there and log it, or settle why the pocket stays open",5,TA26
pocket open,U2 / 2 HE S1,"K765 NQJF MJ was removed from U2 / 2 HE S1 at 2026-11-25 09:30, and no valve was installed in U2 / 2 HE S1 since","install a valve there and log it, or settle why the pocket stays open",6,TA26
? 1
$ counterfoil void K765 NQJF MJ --reason "tag torn" >void.txt
$ counterfoil match K765NQJFMJ=K765NQJFMJ
VERDICT  NUMBER        WHAT                              SEEN ON
voided   K765 NQJF MJ  K765 NQJF MJ is voided: tag torn  typed

What to do:
  K765 NQJF MJ: take the tag off; if a valve carries it, issue a new pair for that valve

0 pairs matched, 1 not as they should be, 0 photographs without a tag of ours.
? 1

# A photograph that shows nothing, or is none; a number that does not check.

$ echo "no picture" > broken.jpg; counterfoil match broken.jpg K7QCHX65GA=K7QCHX65GA
VERDICT  NUMBER        WHAT                         SEEN ON
matched  K7QC HX65 GA  bag and box belong together  typed
unreadable  cannot read broken.jpg: it is no picture in a format that is known
  unreadable: JPEG, PNG, TIFF, WebP, HEIC and PDF are read

1 pair matched, 0 not as they should be, 1 photograph without a tag of ours.
? 3
$ counterfoil match K7QCHX65GA=K7QCHX65AG
! counterfoil: number K7QC HX65 AG does not check: two neighbouring characters look swapped
!   the only number on record that is near is K7QC HX65 GA: read the tag again
? 2
$ counterfoil match K7QCHX65GA
! counterfoil: is K7QCHX65GA a bag or a box?
!   type what was found together as BAG=BOX, or give --bag or --box
? 2
$ counterfoil match K7QCHX65GA=K7ES3TCAZC K7ES3TCAZC=K765NQJFMJ K765NQJFMJ=K7QCHX65GA --dry-run --csv
verdict,number,what,next,other,seen,identified
swapped,K7ES3TCAZC,"bag K7ES 3TCA ZC was found with box K765 NQJF MJ, and box K7ES 3TCA ZC with bag K7QC HX65 GA","put each bag into its own box, look at the valves, and match again",K765NQJFMJ,typed,no
swapped,K7QCHX65GA,"bag K7QC HX65 GA was found with box K7ES 3TCA ZC, and box K7QC HX65 GA with bag K765 NQJF MJ","put each bag into its own box, look at the valves, and match again",K7ES3TCAZC,typed,no
voided,K765NQJFMJ,K765 NQJF MJ is voided: tag torn,"take the tag off; if a valve carries it, issue a new pair for that valve",,typed,no
? 1
$ counterfoil match --turnaround TA99 --bag K7QCHX65GA
! counterfoil: there is no turnaround "TA99" in the record
!   on record: TA26
? 1
$ counterfoil match
! counterfoil: nothing to match: no photograph and no number was given
!   name photographs that show a bag with its box, or type pairs as BAG=BOX
? 2
$ counterfoil events | tail -3
15     2026-11-25T09:30:00+01:00  logged    voiding        K765NQJFMJ  number voided; reason: tag torn
16     2026-11-25T09:30:00+01:00  logged    matching       K765NQJFMJ  halves of K765 NQJF MJ compared: voided
17     2026-11-25T09:30:00+01:00  logged    matching       K7QCHX65GA  halves of K7QC HX65 GA compared: matched
