# A sheet is printed, scanned, and held against what should be on it. The scans are the printer's own dots, spoiled as
# printers and scanners do.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\nU2,1 HE D1,discharge,V-311\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv >issued.txt
$ counterfoil print K7QCHX65GA --stock roll-100x150 --out pair.png >printed.txt
$ counterfoil check-sheet pair.png K7QCHX65GA --stock roll-100x150

# The driver shrank the page, and it starts too far to the right.

$ $TOOLS/degrade.py pair.png small.png scale=0.961,0.961 shift=1.5,0
$ counterfoil check-sheet small.png K7QC HX65 GA --stock roll-100x150 --scan-dpi 300 --marked marked.png
$ head -c 4 marked.png | tail -c 3; echo

# A dead dot of the head, and a pale print; for a script.

$ $TOOLS/degrade.py pair.png dots.png column=70,1
$ counterfoil check-sheet dots.png K7QCHX65GA --stock roll-100x150
$ $TOOLS/degrade.py pair.png pale.png tones=110,225
$ counterfoil check-sheet pale.png K7QCHX65GA --stock roll-100x150 --dpi 300 --page 1 --json | sed 's/"outline":[^}]*\]\]/"outline":[...]/g'

# One half was not printed; the sheet of another number; the scan of another order.

$ $TOOLS/degrade.py pair.png half.png blank=0,0,100,70
$ counterfoil check-sheet half.png K7QCHX65GA --stock roll-100x150
$ counterfoil check-sheet pair.png K7ES3TCAZC --stock roll-100x150

# A turnaround of two sheets, one of which was scanned.

$ counterfoil check-sheet pair.png --turnaround TA26 --stock roll-100x150 --order sheet-by-sheet

# A label in copies, on a sheet that was begun.

$ counterfoil log removing --label --unit U9 --pocket "1 D1" --out label.pdf >logged.txt 2>&1
$ counterfoil print K765NQJFMJ --copies 2 --start-at 2 --spoiled 4 --dpi 203.2 --out labels.png >printed.txt
$ counterfoil check-sheet labels.png K765NQJFMJ --copies 2 --start-at 2 --spoiled 4 --dpi 203.2

# Wrong input.

$ counterfoil check-sheet --turnaround TA26
$ counterfoil check-sheet K7QCHX65GA
$ counterfoil check-sheet pair.png
$ counterfoil check-sheet pair.png K7QCHX65GA --page 7
$ counterfoil check-sheet pair.png K7QCHX65GA --scan-dpi 3
$ counterfoil check-sheet pair.png K7QCHX65GA --marked marked.jpg
$ counterfoil check-sheet gone.png K7QCHX65GA
