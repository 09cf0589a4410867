# Straight to a printer; this one keeps the files that it is sent.

$ counterfoil desk . --name Storeroom --role storeroom --prefix K7 >desk.txt
$ counterfoil issue --turnaround TA26 --count 5 --csv >numbers.csv
$ "$TOOLS"/file_printer.py printer >address.txt
$ counterfoil print --turnaround TA26 --by Jana --to "$(cat address.txt)" | grep -A1 "^Sent"
Sent to ipp://localhost:<...>/ipp/print as job 1, to be printed at actual size. Whether it came out, only
the paper tells.
$ for i in 1 2 3 4 5 6 7 8 9; do test -e printer/1.attributes && break; sleep 0.2; done; grep -E 'NAME=Tag|SCALING=|COL=|COPIES=' printer/1.attributes
IPP_COPIES=1
IPP_JOB_NAME=Tag pairs TA26
IPP_MEDIA_COL={media-size={x-dimension=21000 y-dimension=29700}}
IPP_PRINT_SCALING=none
$ cmp tags.pdf printer/jobs/1-*.pdf
$ counterfoil events --csv | tail -1
6,2026-11-25T09:30:00+01:00,logged,printing,,,"sheet printed, by Jana; note: 5 pairs on a4-2x4, sent to ipp://localhost:<...>

# Dots, page by page.

$ counterfoil reprint K7CBBF4YKC --reason "washed out" --stock roll-4x6in --dpi 203.2 --out again.png --to "$(cat address.txt)" --json | grep -o '"sent":{[^}]*}'
"sent":{"jobs":[2],"to":"ipp://localhost:<...>/ipp/print","unscaled":true}

# Encrypted.

$ counterfoil print K765NQJFMJ --to "$(sed s/ipp:/ipps:/ address.txt)" | grep -A1 "^Sent"
Sent to ipps://localhost:<...>/ipp/print as job 3, to be printed at actual size. Whether it came out, only
the paper tells.
! note: K765 NQJF MJ was printed before, on 2026-11-25 09:30: destroy what came out then, so that no tag exists twice

# A medium that the printer has not, a printer that is not there: nothing is printed, and nothing is logged.

$ counterfoil print --turnaround TA26 --stock letter-2x3 --to "$(cat address.txt)"
! counterfoil: the printer ipp://localhost:<...>/ipp/print has no medium of 215.9 x 279.4 mm
!   it has, in mm: 210 x 297, 20 to 110 x 20 to 300
? 1
$ counterfoil print --turnaround TA26 --out tags.svg --to "$(cat address.txt)"
! counterfoil: a printer is sent a PDF or PNG file, not tags-1.svg
!   end the name in .pdf or .png
? 2
$ ls printer/jobs/*.p[dn]* | wc -l
3
$ counterfoil events --csv | wc -l
10
$ "$TOOLS"/file_printer.py printer --stop
$ counterfoil print --turnaround TA26 --to "$(cat address.txt)"
! counterfoil: the printer ipp://localhost:<...>/ipp/print does not answer
!   see that it is switched on and on the network, and that this is its address
? 3
$ counterfoil print --turnaround TA26 --to http://localhost/
! counterfoil: "http://localhost/" is not the address of a printer
!   such as ipp://192.168.1.20/ipp/print
? 2
$ CUPS_SERVER=localhost:9 counterfoil queues
! counterfoil: the print server of this computer does not answer (localhost, port 9)
!   without one there are no queues; a printer on the network can be named by its address, such as ipp://192.168.1.20/ipp/print
? 3
$ CUPS_SERVER=localhost:9 counterfoil print --turnaround TA26 --to office-laser
! counterfoil: the print server of this computer does not answer (localhost, port 9)
!   without one there are no queues; a printer on the network can be named by its address, such as ipp://192.168.1.20/ipp/print
? 3
