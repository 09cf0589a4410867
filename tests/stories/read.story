# Photographs in, numbers out; a bad file is told and the rest goes on.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ counterfoil issue --turnaround TA26 --count 1 --csv | cut -d, -f1
number
K7QCHX65GA
$ counterfoil print K7QC HX65 GA --stock roll-4x6in --dpi 203.2 --out "pár 1.png" >print.txt
$ echo "no picture" > broken.jpg
$ counterfoil read "pár 1.png"
pár 1.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
$ counterfoil read broken.jpg "pár 1.png" absent.png .
pár 1.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
! counterfoil: cannot read broken.jpg: it is no picture in a format that is known
!   JPEG, PNG, TIFF and WebP are read
! counterfoil: cannot read absent.png: No such file or directory
! counterfoil: cannot read .: it is not a file
? 3
$ counterfoil read --json broken.jpg "pár 1.png" | sed 's/"corners":[^a-z]*\]\]/"corners":[...]/g; s/"ms":[0-9]*/"ms":0/; s/"pass":"[a-z-]*"/"pass":"..."/g'
{"error":"cannot read broken.jpg: it is no picture in a format that is known","file":"broken.jpg","ms":0}
{"codes":[{"copy":1,"corners":[...],"half":"bag","number":"K7QCHX65GA","pass":"...","symbology":"QR Code","text":"CF1.K7QCHX65GA.BAG1"},{"copy":1,"corners":[...],"half":"box","number":"K7QCHX65GA","pass":"...","symbology":"QR Code","text":"CF1.K7QCHX65GA.BOX1"}],"file":"pár 1.png","ms":0,"taken":null}
$ counterfoil read --any "pár 1.png"
pár 1.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
$ counterfoil read
! counterfoil: `read` needs FILE...: photographs
!   see `counterfoil read --help`
? 2
$ counterfoil read --csv x.png
! counterfoil: `read` makes no list, so --csv says nothing
? 2
