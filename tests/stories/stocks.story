# A description of one's own labels: measured, drawn, printed on.

$ counterfoil desk . --name "Storeroom" --role storeroom --prefix K7 >desk.txt
$ printf 'unit,pocket,side,part\nU2,1 HE S1,suction,V-310\n' > pockets.csv
$ counterfoil issue --turnaround TA26 --pockets pockets.csv --csv | tail -1 | cut -d, -f1
K7QCHX65GA
$ printf '{"title": "Shelf labels", "page_width_mm": 210, "page_height_mm": 297, "columns": 2, "rows": 3, "left_mm": 4,\n' > shelf.json
$ printf '"top_mm": 20, "label_width_mm": 100, "label_height_mm": 85, "gap_x_mm": 2, "margin_mm": 2, "pairing": "columns"}' >> shelf.json
$ counterfoil stocks --measure shelf.json --draw shelf.pdf
stock shelf closes on its page of 210 x 297 mm
  labels          6 a page (2 across, 3 down), each 100 x 85 mm
  pairs           3 a page
  left over       4 mm at the right edge, 22 mm at the bottom
  bag half        93.8 x 81 mm to print on
  box half        93.8 x 81 mm to print on
  match bars      at the right edge of the bag half and the left edge of the box half
  bag             bag-large: modules of 0.875 mm at 203.2, 0.931 mm at 300, 0.917 mm at 304.8, 0.931 mm at 600 dpi
  box             box-large: modules of 1 mm at 203.2, 1.02 mm at 300, 1 mm at 304.8, 1.06 mm at 600 dpi
  spare-bag       spare-bag-large: modules of 0.875 mm at 203.2, 0.931 mm at 300, 0.917 mm at 304.8, 0.931 mm at 600 dpi
  spare-box       spare-box-large: modules of 1 mm at 203.2, 1.02 mm at 300, 1 mm at 304.8, 1.06 mm at 600 dpi
  label           label-large: modules of 0.75 mm at 203.2, 0.847 mm at 300, 0.833 mm at 304.8, 0.847 mm at 600 dpi
  carton          carton-large: modules of 1 mm at 203.2, 1.02 mm at 300, 1 mm at 304.8, 1.06 mm at 600 dpi
drawn to shelf.pdf
! note: the page has 20 mm above the labels (top_mm) and 22 mm below them
$ head -c 5 shelf.pdf; echo
%PDF-
$ counterfoil stocks --measure tag-1 --draw tag.png --json
{"bag_um":[30925,33650],"box_um":[30925,33650],"designs":[{"design":"bag-narrow","kind":"bag","modules":[{"dots":4,"dpi":"203.2","module_um":500},{"dots":6,"dpi":"300","module_um":508},{"dots":6,"dpi":"304.8","module_um":500},{"dots":12,"dpi":"600","module_um":508}]},{"design":"box-narrow","kind":"box","modules":[{"dots":4,"dpi":"203.2","module_um":500},{"dots":6,"dpi":"300","module_um":508},{"dots":6,"dpi":"304.8","module_um":500},{"dots":12,"dpi":"600","module_um":508}]},{"design":"spare-bag-narrow","kind":"spare-bag","modules":[{"dots":4,"dpi":"203.2","module_um":500},{"dots":6,"dpi":"300","module_um":508},{"dots":6,"dpi":"304.8","module_um":500},{"dots":12,"dpi":"600","module_um":508}]},{"design":"spare-box-narrow","kind":"spare-box","modules":[{"dots":4,"dpi":"203.2","module_um":500},{"dots":6,"dpi":"300","module_um":508},{"dots":6,"dpi":"304.8","module_um":500},{"dots":12,"dpi":"600","module_um":508}]},{"design":"label-narrow","kind":"label","modules":[{"dots":4,"dpi":"203.2","module_um":500},{"dots":6,"dpi":"300","module_um":508},{"dots":6,"dpi":"304.8","module_um":500},{"dots":12,"dpi":"600","module_um":508}]},{"design":null,"kind":"carton","modules":[]}],"files":["tag-1.png","tag-2.png"],"labels":1,"left_over_bottom_um":0,"left_over_right_um":0,"name":"tag-1","pairs":"1/2","remarks":[],"single_labels":0,"title":"Shipping tag 1, 1 3/8 x 2 3/4 in, hole at the head: 1 pair on 2 tags"}
$ head -c 4 tag-2.png | tail -c 3; echo
PNG
$ counterfoil print --turnaround TA26 --stock shelf.json --dpi 600 --out own.pdf --preview look.png
2 tags on 1 page at 600 dots per inch: own.pdf
  bag-large: modules of 22 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm
    why: 23 dots a module would need a slot of 32.1 mm, and it has 31; level H is the highest that 25 modules hold
  box-large: modules of 25 dots, 1.06 mm; symbol 26.5 mm wide, level H; read from up to 26 cm
    why: 26 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold
Preview: look.png
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ head -c 4 look.png | tail -c 3; echo
PNG
$ counterfoil reprint K7QC HX65 GA --reason "washed out" --stock roll-4x3in --out again.pdf --preview again.png --json
{"copies":[{"copy":2,"half":"bag","number":"K7QCHX65GA"},{"copy":2,"half":"box","number":"K7QCHX65GA"}],"dots_per_inch":300,"files":["again.pdf"],"least_module_um":931,"logged":true,"named_again":[],"numbers":["K7QCHX65GA"],"numbers_before":[],"pages":2,"paper":null,"previews":["again-1.png","again-2.png"],"printed_before":null,"symbols":[{"design":"bag-large","dots":11,"level":"H","module_um":931,"modules":25,"reading_distance_mm":233,"slot":"symbol","slot_um":31000,"tags":1,"version":2,"why":"12 dots a module would need a slot of 33.5 mm, and it has 31; level H is the highest that 25 modules hold","width_um":23283},{"design":"box-large","dots":12,"level":"H","module_um":1016,"modules":25,"reading_distance_mm":254,"slot":"symbol","slot_um":35000,"tags":1,"version":2,"why":"13 dots a module would need a slot of 36.3 mm, and it has 35; level H is the highest that 25 modules hold","width_um":25400}],"tags":2}
$ counterfoil log removing --label --unit U9 --pocket "1 D1" --preview label.png
K7ES 3TCA ZC  removed from U9 / 1 D1, 2026-11-25 09:30 (logged)  entry 5
label written to label-K7ES3TCAZC.pdf: print it and stick it on the valve's bag or box
! note: K7ES 3TCA ZC: pocket U9 / 1 D1 is new to the record
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ head -c 4 label.png | tail -c 3; echo
PNG

# What has no room is refused with the smallest stock that has it.

$ counterfoil print K7QC HX65 GA --design large --stock roll-2x1in
! counterfoil: no design for a bag fits a place of 48.8 x 20.2 mm, the smallest, bag-large, is 91 x 63.6 mm
!   the smallest stock that would do: --stock a4-2x4
? 1
$ counterfoil print K7QC HX65 GA --stock roll-2x1in --dpi 140
! counterfoil: design bag-small: a symbol of 25 modules with its quiet zone has modules of 0.363 mm in 16.9 mm at 140 dpi, 0.38 mm is the least on the tag K7QC HX65 GA
!   the smallest stock that would do: --stock roll-57x32
? 1

# What does not close on the page, or cannot be drawn.

$ sed 's/"rows": 3/"rows": 4/' shelf.json > four.json; counterfoil stocks --measure four.json
! counterfoil: stock four: page_height_mm is 297 mm, less than the rows need, 360 mm
? 2
$ sed 's/"gap_x_mm": 2/"gap_x_mm": -2/' shelf.json > gap.json; counterfoil stocks --measure gap.json
! counterfoil: stock gap: gap_x_mm is -2, and has to be a length in mm from 0 to 2000
? 2
$ sed 's/gap_x_mm/gap_mm/' shelf.json > slip.json; counterfoil stocks --measure slip.json
! counterfoil: stock slip: gap_mm is not a field of a stock
!   did you mean gap_x_mm? the fields are blank_bottom_mm, blank_left_mm, blank_right_mm, blank_top_mm, columns, corner_radius_mm, gap_x_mm, gap_y_mm, hole_clear_mm, hole_diameter_mm, hole_x_mm, hole_y_mm, label_height_mm, label_width_mm, left_mm, margin_mm, page_height_mm, page_width_mm, pairing, rows, title, top_mm
? 2
$ sed 's/"left_mm": 4/"left_mm": 1/; s/"margin_mm": 2/"margin_mm": 0/' shelf.json > left.json; counterfoil stocks --measure left.json | head -1
stock left closes on its page of 210 x 297 mm
! note: the page has 1 mm left of the labels (left_mm) and 7 mm right of them
! note: the page has 20 mm above the labels (top_mm) and 22 mm below them
! note: print comes as near as 1 mm to the page's edge, where most printers leave 3 mm blank: a larger margin_mm keeps it away
! note: margin_mm is 0 mm: a printer that starts 1 mm off prints over a label's edge
$ counterfoil stocks --measure absent.json
! counterfoil: cannot read absent.json: No such file or directory
? 3
$ counterfoil stocks --measure shelf.json --draw shelf.doc
! counterfoil: cannot tell from "shelf.doc" what to write
!   end the name in .pdf, .png or .svg
? 2
$ counterfoil stocks --draw shelf.pdf
! counterfoil: --draw goes with --measure
? 2
$ counterfoil print --turnaround TA26 --preview look.pdf
! counterfoil: a preview is a picture, and cannot be "look.pdf"
!   end its name in .png
? 2
$ counterfoil print --turnaround TA26 --preview /nowhere/look.png
! counterfoil: cannot write /nowhere/look.png: No such file or directory
? 3
$ counterfoil print --turnaround TA26 --out look.png --preview look.png
! counterfoil: the sheet and its preview cannot both be "look.png"
!   give --preview another name
? 2
$ counterfoil log storing K7QCHX65GA --preview look.png
! counterfoil: --preview goes with --label
? 2
