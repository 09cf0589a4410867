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
$ counterfoil read broken.jpg "pár 1.png" absent.png
pár 1.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
! counterfoil: cannot read broken.jpg: it is no picture in a format that is known
!   JPEG, PNG, TIFF, WebP, HEIC and PDF are read
! counterfoil: cannot read absent.png: No such file or directory
? 3
$ counterfoil read --json broken.jpg "pár 1.png" | sed 's/"corners":[^a-z]*\]\]/"corners":[...]/g; s/"ms":[0-9]*/"ms":0/; s/"pass":"[a-z-]*"/"pass":"..."/g'
{"error":"cannot read broken.jpg: it is no picture in a format that is known","file":"broken.jpg","ms":0}
{"camera":null,"codes":[{"copy":1,"corners":[...],"half":"bag","identified":false,"number":"K7QCHX65GA","page":1,"pass":"...","symbology":"QR Code","text":"CF1.K7QCHX65GA.BAG1"},{"copy":1,"corners":[...],"half":"box","identified":false,"number":"K7QCHX65GA","page":1,"pass":"...","symbology":"QR Code","text":"CF1.K7QCHX65GA.BOX1"}],"damage":null,"file":"pár 1.png","ms":0,"pages":1,"taken":null,"taken_ms":null,"time_ran_out":false,"unread":[]}
$ counterfoil read --any "pár 1.png"
pár 1.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
$ counterfoil read
! counterfoil: `read` needs FILE...: photographs, or folders of them
!   see `counterfoil read --help`
? 2
$ counterfoil read --csv x.png
! counterfoil: `read` makes no list, so --csv says nothing
? 2

# A file that is cut off: what it still shows is told, and that it is not whole.

$ head -c 9000 "pár 1.png" >cut.png
$ counterfoil read cut.png
cut.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
! note: cut.png can be read in part only: vipspng: libpng read error
$ counterfoil read --json cut.png | grep -o '"damage":"[^"]*"'
"damage":"cut.png can be read in part only: vipspng: libpng read error"
$ counterfoil log removing cut.png --by Åse >log.txt
! note: K7QC HX65 GA: the photograph does not tell its time; the time of logging was taken, state it with --time
! note: K7QC HX65 GA: cut.png can be read in part only: vipspng: libpng read error
! note: K7QC HX65 GA: NO POCKET WAS STATED, so the side was not checked; log it again with --unit and --pocket
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil match cut.png --dry-run >match.txt
! note: cut.png can be read in part only: vipspng: libpng read error

# A scan of several pages.

$ counterfoil issue --turnaround TA26 --count 2 >issue.txt
$ counterfoil print --turnaround TA26 --stock roll-4x6in --dpi 203.2 --out scan.pdf >print.txt
$ counterfoil read scan.pdf
scan.pdf  3 pages
  K7QC HX65 GA  bag half, page 1
  K7QC HX65 GA  box half, page 1
  K7ES 3TCA ZC  bag half, page 2
  K7ES 3TCA ZC  box half, page 2
  K765 NQJF MJ  bag half, page 3
  K765 NQJF MJ  box half, page 3
$ counterfoil read --json scan.pdf | grep -o '"page":[0-9]' | sort | uniq -c
      2 "page":1
      2 "page":2
      2 "page":3
$ head -c 3000 scan.pdf >half.pdf; counterfoil read half.pdf
! counterfoil: cannot read half.pdf: it is damaged
? 3

# What the camera says: its name in --json; its place only when asked for.

$ cat >place.py <<'END'
> import struct, sys, zlib
> first = struct.pack("<HHHIIHHI4s", 3, 0x10F, 2, 11, 140, 0x110, 2, 4, b"T4\0\0")
> first += struct.pack("<HHIII", 0x8825, 4, 1, 50, 0)
> gps = struct.pack("<HHHI4sHHII", 4, 1, 2, 2, b"N\0\0\0", 2, 5, 3, 151) + struct.pack("<HHI4sHHIII", 3, 2, 2, b"W\0\0\0", 4, 5, 3, 175, 0)
> angles = struct.pack("<12I", 33, 1, 51, 1, 30, 1, 70, 1, 40, 1, 0, 1)
> exif = b"II*\0" + struct.pack("<I", 8) + first + gps
> exif = exif.ljust(140, b"\0") + b"Brass Lens\0" + angles
> chunk = b"eXIf" + exif
> png = sys.stdin.buffer.read()
> sys.stdout.buffer.write(png[:33] + struct.pack(">I", len(exif)) + chunk + struct.pack(">I", zlib.crc32(chunk)) + png[33:])
> END
$ mkdir album; /usr/bin/python3 place.py <"pár 1.png" >album/placed.png
$ counterfoil read album/placed.png
album/placed.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
$ counterfoil read --position album/placed.png
album/placed.png  at 33.85833 N, 70.66667 W
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
$ counterfoil read --json album/placed.png | grep -o '"camera":{[^}]*}\|"position".*'
"camera":{"make":"Brass Lens","model":"T4","serial":""}
$ counterfoil read --json --position album/placed.png | grep -o '"position":{[^}]*}'
"position":{"east":-70.66667,"north":33.85833}

# A folder: every picture in it and below, and a word on what is none.

$ mkdir -p album/more; cp "pár 1.png" album/more/IMG_2.png; touch album/IMG_1.MOV album/IMG_2.mov album/IMG_2.AAE album/notes.txt
$ ln -s .. album/more/up; touch album/.hidden.png
$ counterfoil read album
album/more/IMG_2.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
album/placed.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
! note: left out (files that are no pictures): album/notes.txt
! note: left out (films): album/IMG_1.MOV and 1 more
! note: left out (links to folders): album/more/up
! note: left out (lists of edits): album/IMG_2.AAE
$ counterfoil match album --dry-run
VERDICT  NUMBER        WHAT                         SEEN ON
matched  K7QC HX65 GA  bag and box belong together  album/more/IMG_2.png album/placed.png

1 pair matched, 0 not as they should be, 0 photographs without a tag of ours. Nothing was written.
! note: left out (files that are no pictures): album/notes.txt
! note: left out (films): album/IMG_1.MOV and 1 more
! note: left out (links to folders): album/more/up
! note: left out (lists of edits): album/IMG_2.AAE
$ counterfoil log packing album --no-copy --by Åse
K7QC HX65 GA  packed, by Åse, 2026-11-25 09:30 (logged)  entry 7
! note: left out (files that are no pictures): album/notes.txt
! note: left out (films): album/IMG_1.MOV and 1 more
! note: left out (links to folders): album/more/up
! note: left out (lists of edits): album/IMG_2.AAE
! note: K7QC HX65 GA: the photograph does not tell its time; the time of logging was taken, state it with --time
$ counterfoil log storing album/placed.png --by Åse >log.txt; counterfoil events --json | grep -o 'position\|north\|Brass\|33\.8'
! note: K7QC HX65 GA: the photograph does not tell its time; the time of logging was taken, state it with --time
? 1
$ mkdir empty; counterfoil read empty
! counterfoil: no picture is in the folder empty
!   name the folder that the photographs are in
? 1
