# Sizes of designs and a second language.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,جيب 1 HE,discharge,V-311\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv >issued.txt
$ counterfoil issue --turnaround TA26 --count 1 >issued.txt
$ counterfoil print --turnaround TA26 --stock a4-2x2 --second-language es --json | grep -o '"design":"[a-z-]*"'
"design":"bag-tall-second"
"design":"box-tall-second"
"design":"spare-bag-tall-second"
"design":"spare-box-tall-second"
$ counterfoil print --turnaround TA26 --design small --out small.pdf --json 2>note.txt | grep -o '"design":"[a-z-]*"'
"design":"bag-small"
"design":"box-small"
"design":"spare-bag-small"
"design":"spare-box-small"
$ counterfoil print --turnaround TA26 --stock roll-2x1in --second-language ar
! counterfoil: no design for a bag for two languages fits a place of 48.8 x 20.2 mm, the smallest, bag-wide-second, is 92.9 x 34 mm
!   the smallest stock that would do: --stock a4-2x7
? 1
$ counterfoil print --turnaround TA26 --second-language xx
! counterfoil: there are no words in "xx"
!   there are words in ar, cs, es
? 2
$ counterfoil print --turnaround TA26 --design huge
! counterfoil: there is no design bag-huge
!   the sizes are broad, large, long, medium, narrow, small, strip, tall, upright, wide
? 2
$ counterfoil print --turnaround TA26 --design tall
! counterfoil: no design for a bag fits a place of 92.9 x 63.7 mm, the smallest, bag-tall, is 95 x 129.5 mm
!   the smallest stock on such pages that would do: --stock a4-2x2
? 1
$ counterfoil reprint K7QCHX65GA --half bag --reason torn --design wide --second-language cs --json | grep -o '"design":"[a-z-]*"'
"design":"bag-wide-second"
