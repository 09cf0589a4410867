# Needs: cupsd
# The queues of a print server; this one is its own, and keeps what it is sent.

$ counterfoil desk . --name Storeroom --role storeroom --prefix K7 >desk.txt
$ counterfoil issue --turnaround TA26 --count 5 --csv >numbers.csv
$ "$TOOLS"/print_server.py server >server.txt
$ CUPS_SERVER=$(cat server.txt) counterfoil queues
QUEUE         WHAT AND WHERE
office-laser  Laser in the office
store-roll    Roll in the store
$ CUPS_SERVER=$(cat server.txt) counterfoil print --turnaround TA26 --to office-laser | grep -A1 "^Sent"
Sent to office-laser as job 1, to be printed at actual size. Whether it came out, only
the paper tells.
$ for i in 1 2 3 4 5 6 7 8 9; do test -e server/out/1 && break; sleep 0.2; done; cmp tags.pdf server/out/1; grep -oE '[a-z-]*(scaling|fidelity)[^ ]*' server/out/1.options
noipp-attribute-fidelity
print-scaling=none
$ counterfoil events --csv | tail -1
6,2026-11-25T09:30:00+01:00,logged,printing,,,"sheet printed; note: 5 pairs on a4-2x4, sent to office-laser",,TA26,2026-11-25T09:30:00+01:00,,counterfoil/K7-<...>

# No queue of that name, one that takes no jobs: nothing is sent, nothing is logged.

$ CUPS_SERVER=$(cat server.txt) counterfoil print --turnaround TA26 --to ofice-laser
! counterfoil: there is no print queue ofice-laser
!   did you mean office-laser? the queues are office-laser, store-roll
? 1
$ CUPS_SERVER=$(cat server.txt) counterfoil print --turnaround TA26 --to label-printer
! counterfoil: there is no print queue label-printer
!   the queues are office-laser, store-roll
? 1
$ CUPS_SERVER=$(cat server.txt) counterfoil print --turnaround TA26 --to store-roll
! counterfoil: the printer store-roll takes no jobs now
!   let it take jobs again where it is kept, or send the sheet elsewhere
? 1
$ counterfoil print --turnaround TA26 --to "ipp://$(cat server.txt)/ipp/print"
! counterfoil: there is no printer behind ipp://127.0.0.1:<...>/ipp/print
!   the printer's own page or display tells its address; most end in /ipp/print
? 1
$ counterfoil events --csv | wc -l; ls server/out
8
1
1.options
$ "$TOOLS"/print_server.py server --stop
$ CUPS_SERVER=$(cat server.txt) counterfoil print --turnaround TA26 --to office-laser
! counterfoil: the print server of this computer does not answer (127.0.0.1, port <...>)
!   without one there are no queues; a printer on the network can be named by its address, such as ipp://192.168.1.20/ipp/print
? 3
