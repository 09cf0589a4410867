# The ledger is recomputed; one entry is proved to somebody who has only the public key.

$ counterfoil desk . --name "Storeroom Žďár" --role storeroom --prefix K7 | grep ^key
key      <key:[^ ]+>  (public: give it to those who check your proofs)
$ counterfoil issue --turnaround TA26 --count 2 --csv | cut -d, -f1
number
K7QCHX65GA
K7ES3TCAZC
$ counterfoil log removing K7QC HX65 GA --by Åse >log.txt 2>&1
$ counterfoil verify
4 entries and 3 checkpoints recomputed: all holds.
root <...>
$ counterfoil verify --json
{"checkpoints":3,"entries":4,"faults":[],"root":"<...>"}
$ counterfoil prove 3 --out removal.tlog-proof
proof of entry 3 written to removal.tlog-proof
Whoever has this desk's public key can check it:
  counterfoil check-proof removal.tlog-proof --key counterfoil/K7-<...>
$ head -1 removal.tlog-proof
c2sp.org/tlog-proof@v1
$ mkdir elsewhere && cp removal.tlog-proof elsewhere && cd elsewhere && counterfoil check-proof removal.tlog-proof --key {key}
The proof holds: entry 3 of counterfoil/K7-<...>, which had 4 entries.
2026-11-25 09:30 (logged)  K7QC HX65 GA  removed, by Åse
$ counterfoil check-proof removal.tlog-proof --key {key} --json
{"entry":3,"event":{"at":"2026-11-25T09:30:00+01:00","by":"Åse","counterfoil":1,"known":"logged","logged":"2026-11-25T09:30:00+01:00","number":"K7QCHX65GA","step":"removing","turnaround":"TA26"},"log":"counterfoil/K7-<...>","size":4}
$ sed 's/^index 3$/index 2/' removal.tlog-proof > other.tlog-proof; counterfoil check-proof other.tlog-proof --key {key}
! counterfoil: entry 2 is not in the signed tree
? 1
$ counterfoil check-proof log.txt --key {key}
! counterfoil: proof has no blank line before its checkpoint
? 2
$ counterfoil check-proof removal.tlog-proof
! counterfoil: whose proof?
!   give --key, the public key that `counterfoil desk` shows at the desk that made it
? 2
$ counterfoil check-proof removal.tlog-proof --key nonsense
! counterfoil: verifier key is not name+id+key
? 2
$ counterfoil prove 99
! counterfoil: the ledger has no entry 99
!   it has entries 0 to 3; `counterfoil trace NUMBER` shows which are whose
? 1
$ counterfoil prove seven
! counterfoil: "seven" is not the position of an entry
!   `counterfoil trace NUMBER` shows the entries of a valve
? 2
$ counterfoil prove 0 --json
{"entry":0,"file":"entry-0.tlog-proof","key":"counterfoil/K7-<...>"}
$ counterfoil events --csv | cut -d, -f1-5
entry,at,known,step,number
0,2026-11-25T09:30:00+01:00,logged,founding,
1,2026-11-25T09:30:00+01:00,logged,commissioning,K7QCHX65GA
2,2026-11-25T09:30:00+01:00,logged,commissioning,K7ES3TCAZC
3,2026-11-25T09:30:00+01:00,logged,removing,K7QCHX65GA
$ counterfoil events --turnaround TA26 | tail -1
3      2026-11-25T09:30:00+01:00  logged    removing       K7QCHX65GA  removed, by Åse

# An entry changed behind the program's back, and a file that is no ledger.

$ cp counterfoil.ledger kept && python3 -c "
> data = bytearray(open('counterfoil.ledger','rb').read())
> at = data.index(b'\"by\":\"\xc3\x85se\"'); data[at+6] ^= 1
> open('counterfoil.ledger','wb').write(data)"
$ counterfoil verify
entry 3 of counterfoil/K7-<...>: entry 3 and its leaf hash disagree
4 entries and 3 checkpoints recomputed.
THE LEDGER DOES NOT HOLD from entry 3 on. Keep this file as it is, and work on from a copy that verifies.
? 1
$ echo "not a ledger" > counterfoil.ledger; counterfoil verify
! counterfoil: cannot use ledger ./counterfoil.ledger: file is not a database
? 3
$ cp kept counterfoil.ledger; counterfoil verify | head -1
4 entries and 3 checkpoints recomputed: all holds.

$ counterfoil --version
counterfoil 0.1.0
$ counterfoil --help | head -3
Example:
  counterfoil desk hollow-creek --name "Storeroom Hollow Creek" --role storeroom --prefix K7
  cd hollow-creek
$ counterfoil prove --help
Example:
  counterfoil prove 17 --out removal.tlog-proof

Write a proof that one entry is in the ledger.

Usage: counterfoil prove ENTRY [OPTION]...

  ENTRY  the entry's position, as trace and events show it

Options:
  --out FILE  where to write it (entry-N.tlog-proof)

The file is a C2SP tlog-proof with the entry in it; it needs no ledger to check.

Options for every command:
  --ledger PATH           the desk's folder or ledger file; else COUNTERFOIL_LEDGER, else this
                          folder
  --passphrase-file FILE  first line: what the key is sealed with; else COUNTERFOIL_PASSPHRASE
  --json                  JSON, one object a line
  --csv                   lists as CSV, for spreadsheets
