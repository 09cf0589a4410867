# Sizes of designs and a second language.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,جيب 1 HE,discharge,V-311\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv >issued.txt
$ counterfoil issue --turnaround TA26 --count 1 >issued.txt
$ counterfoil print --turnaround TA26 --stock a4-2x2 --second-language es --json | grep -o '"design":"[a-z-]*"'
$ counterfoil print --turnaround TA26 --design small --out small.pdf --json 2>note.txt | grep -o '"design":"[a-z-]*"'
$ counterfoil print --turnaround TA26 --stock roll-2x1in --second-language ar
$ counterfoil print --turnaround TA26 --second-language xx
$ counterfoil print --turnaround TA26 --design huge
$ counterfoil print --turnaround TA26 --design tall
