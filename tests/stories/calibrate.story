# A printer's errors, measured with a rule, and corrected.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 >desk.txt
$ counterfoil issue --turnaround TA26 --count 1 --csv | cut -d, -f1
number
K7QCHX65GA
$ counterfoil calibrate --sheet sheet.png --stock roll-100x150 --dpi 203.2
calibration sheet for 203.2 dots per inch: sheet.png
Print it at actual size (100 %), on the stock itself. Then scan all of it with something dark behind it:
counterfoil calibrate SCAN.png --write my-printer.json
$ counterfoil calibrate --stock roll-100x150 --dpi 203.2 --left 7.1,7.4 --top 5.6 --across 87.6 --down 120.3 --name "Printer by the scales" --write printer.json
Calibration sheet of 100 x 150 mm for 203.2 dots per inch
  offset  1.11 mm to the right, 0.30 mm up
  scale   99.55 % across, 98.61 % down
  turn    0.14 degrees anticlockwise, shear 0.00 degrees
  rests on lengths by a rule, offset by a rule (a steel rule reads to 0.2 mm or so)
written to printer.json; print with --printer printer.json
$ cat printer.json
{
  "name": "Printer by the scales",
  "dots_per_inch": 203.2,
  "offset_x_mm": 1.113,
  "offset_y_mm": -0.301,
  "scale_x": 0.995455,
  "scale_y": 0.986066,
  "turn_deg": -0.1429,
  "shear_deg": 0,
  "dead_columns": [],
  "measured": "2026-11-25T09:30:00+01:00",
  "rests_on": "lengths by a rule, offset by a rule (a steel rule reads to 0.2 mm or so)"
}
$ counterfoil print --turnaround TA26 --stock roll-100x150 --printer printer.json --out tags.png
2 tags on 1 page at 203.2 dots per inch: tags.png
  spare-bag-large: modules of 7 dots, 0.863 mm; symbol 21.6 mm wide, level H; read from up to 22 cm
    why: 8 dots a module would need a slot of 32.5 mm, and it has 31; level H is the highest that 25 modules hold
  spare-box-large: modules of 8 dots, 0.986 mm; symbol 24.7 mm wide, level H; read from up to 25 cm
    why: 9 dots a module would need a slot of 36.6 mm, and it has 35; level H is the highest that 25 modules hold
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
$ counterfoil read tags.png
tags.png
  K7QC HX65 GA  bag half
  K7QC HX65 GA  box half
$ counterfoil print --turnaround TA26 --stock roll-100x150 --printer printer.json --dpi 300
! counterfoil: the printer profile printer.json is for other dots per inch
!   leave out --dpi, or measure a profile for it
? 2
$ counterfoil reprint K7QCHX65GA --reason "torn off" --stock roll-100x150 --printer printer.json --json
{"copies":[{"copy":2,"half":"bag","number":"K7QCHX65GA"},{"copy":2,"half":"box","number":"K7QCHX65GA"}],"dots_per_inch":203.2,"files":["reprint.pdf"],"least_module_um":863,"logged":true,"named_again":[],"numbers":["K7QCHX65GA"],"numbers_before":[],"pages":1,"paper":null,"previews":[],"printed_before":null,"symbols":[{"design":"spare-bag-large","dots":7,"level":"H","module_um":863,"modules":25,"reading_distance_mm":216,"slot":"symbol","slot_um":31000,"tags":1,"version":2,"why":"8 dots a module would need a slot of 32.5 mm, and it has 31; level H is the highest that 25 modules hold","width_um":21570},{"design":"spare-box-large","dots":8,"level":"H","module_um":986,"modules":25,"reading_distance_mm":247,"slot":"symbol","slot_um":35000,"tags":1,"version":2,"why":"9 dots a module would need a slot of 36.6 mm, and it has 35; level H is the highest that 25 modules hold","width_um":24652}],"tags":2}
$ counterfoil log removing --label --unit U9 --pocket "1 D1" --printer printer.json --out label.pdf
K7ES 3TCA ZC  removed from U9 / 1 D1, 2026-11-25 09:30 (logged)  entry 5
label written to label.pdf: print it and stick it on the valve's bag or box
! note: K7ES 3TCA ZC: pocket U9 / 1 D1 is new to the record
! note: before a cap is loosened: lock-out and zero energy verified, both passages vented; if the cap pushes outward, stop and vent. Do not clean or dismantle the valve; deposits may be toxic or pyrophoric
$ counterfoil log removing K7QCHX65GA --printer printer.json
! counterfoil: --printer goes with --label
? 2
$ counterfoil calibrate --sheet check.pdf --stock roll-100x150 --printer printer.json --json
{"files":["check.pdf"]}

# A dead dot column runs through the symbols; a printer that shrinks pages cannot be corrected to the edge.

$ echo '{"name": "worn", "dots_per_inch": 203.2, "dead_columns": [150], "unreached_mm": {"left": 4, "top": 8, "right": 4, "bottom": 4}}' > worn.json
$ counterfoil print K7QCHX65GA --stock roll-100x150 --printer worn.json --out worn.png
2 tags on 1 page at 203.2 dots per inch: worn.png
  spare-bag-large: modules of 7 dots, 0.875 mm; symbol 21.9 mm wide, level H; read from up to 22 cm
    why: 8 dots a module would need a slot of 33 mm, and it has 31; level H is the highest that 25 modules hold
  spare-box-large: modules of 8 dots, 1 mm; symbol 25 mm wide, level H; read from up to 25 cm
    why: 9 dots a module would need a slot of 37.1 mm, and it has 35; level H is the highest that 25 modules hold
Print at actual size (100 %), never "fit to page". Bag half: film with resin ribbon or laser polyester,
never direct thermal.
! note: dead dots of the printer run through 1 symbol: read them before they are used, or take another printer
! note: by its profile the printer prints nothing where part of 1 tag lies: look for what is missing
! note: K7QC HX65 GA was printed before, on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice
$ echo '{"name": "shrinks", "dots_per_inch": 300, "scale_x": 0.9, "scale_y": 0.9}' > shrinks.json
$ counterfoil print K7QCHX65GA --stock roll-100x150 --printer shrinks.json
! counterfoil: what the printer's profile corrects would reach beyond the page on the tag K7QC HX65 GA
!   set the printer to actual size (100 %), then calibrate it again
? 1

# A page as it was drawn is no scan: no paper's edge shows. The lengths on it are right; a rule tells the rest.

$ counterfoil calibrate sheet.png --scan-dpi 203.2
! counterfoil: sheet.png: the paper's upper edge does not show
!   lay something dark behind the paper and have some of it in the picture all round; or type where the lines are, with --left and --top
? 1
$ counterfoil calibrate sheet.png --left 6 --top 6 --write right.json
Calibration sheet of 100 x 150 mm for 203.2 dots per inch
  offset  0.00 mm to the right, 0.00 mm down
  scale   100.00 % across, 100.00 % down
  turn    0.00 degrees clockwise, shear 0.00 degrees
  dead dot columns  none
  by 22 marks, 0.000 mm from a straight map; sure to 0.000 mm and 0.000 % by their scatter
  rests on offset by a rule (a steel rule reads to 0.2 mm or so); the rest: lengths by the scan's 203.2 dots per inch, as the file says (as good as the scanner: hold a scan of a steel rule against it)
written to right.json; print with --printer right.json
$ counterfoil calibrate sheet.png --left 6 --top 6 --json
{"corrected":false,"dead_columns":[],"dots_per_inch":203.2,"marks":22,"marks_left_out":0,"marks_missing":0,"offset_x_um":0,"offset_y_um":0,"rests_on":"offset by a rule (a steel rule reads to 0.2 mm or so); the rest: lengths by the scan's 203.2 dots per inch, as the file says (as good as the scanner: hold a scan of a steel rule against it)","rms_um":0,"scale_x_ppm":1000000,"scale_y_ppm":1000000,"shear_deg":0,"turn_deg":0}
$ counterfoil calibrate tags.png
! counterfoil: tags.png shows no calibration sheet
!   draw one with `counterfoil calibrate --sheet FILE.pdf`, print it, and scan all of it
? 1

# Wrong input.

$ counterfoil calibrate
! counterfoil: calibrate by what?
!   give a picture of the printed sheet, or --left, --top, --across and --down as measured on it; --sheet draws the sheet
? 2
$ counterfoil calibrate sheet.png --paper 100
! counterfoil: --paper is width x height in mm, not "100"
!   write it like 210.2x296.9
? 2
$ counterfoil calibrate sheet.png --scan-dpi 5
! counterfoil: a scan has 50 to 10000 dots per inch
? 2
$ counterfoil calibrate --stock roll-100x150 --left 7.1,7.4 --top 5.6 --across 87.6 --down 120.3 --write printer.json
! counterfoil: how many dots per inch has the printer? Without a picture nothing tells
!   give --dpi, as it stands on the sheet
? 2
$ counterfoil calibrate --left 7,8,9 --top 5 --across 87 --down 120
! counterfoil: --left takes 2 lengths, not "7,8,9"
? 2
$ counterfoil calibrate --left 7 --top five --across 87 --down 120
! counterfoil: --top is a length in mm, not "five"
!   write 12.3, or 12.3,12.6 for the line's two ends
? 2
$ counterfoil calibrate --stock roll-100x150 --dpi 203.2 --left 7 --top 5 --across 57 --down 120
! counterfoil: no printer is that far off: scale_x has to be a number from 0.8 to 1.25
!   was the sheet scanned upside down or from its back, or a length misread?
? 1
$ counterfoil calibrate --sheet sheet.doc
! counterfoil: cannot tell from "sheet.doc" what to write
!   end the name in .pdf, .png or .svg
? 2
$ counterfoil calibrate sheet.png --printer printer.json
! counterfoil: --printer goes with --sheet here
? 2
$ counterfoil calibrate nowhere.png
! counterfoil: cannot read nowhere.png: No such file or directory
? 3
$ printf '{"name": "worn",\n "dots_per_inch": 203.2\n "scale_x": 1.01}' > comma.json; counterfoil print K7QCHX65GA --printer comma.json
! counterfoil: comma.json: printer profile: not JSON at line 3, column 10
!   look there and just before it: a comma or a quote that is missing, or one too many
? 2
$ echo '{"name": "worn", "dots_per_inch": 203.2, "scale_x": 96}' > scale.json; counterfoil print K7QCHX65GA --printer scale.json
! counterfoil: scale.json: printer profile: scale_x is 96, and has to be a number from 0.8 to 1.25
? 2
$ echo '{"name": "worn", "dots_per_inch": 203.2, "dead_colums": [150]}' > slip.json
$ counterfoil print K7QCHX65GA --printer slip.json
! counterfoil: slip.json: printer profile: dead_colums is not a field of a profile
!   did you mean dead_columns? the fields are name, dots_per_inch, offset_x_mm, offset_y_mm, scale_x, scale_y, turn_deg, shear_deg, dead_columns, unreached_mm, measured, rests_on
? 2
