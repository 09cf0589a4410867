# A desk is made once, shown any time, and never made over another.

$ counterfoil desk žďár --name "Storeroom Žďár" --role storeroom --prefix k7
desk     Storeroom Žďár
role     storeroom
prefix   K7  (all its numbers begin with it)
key      counterfoil/K7-<...>  (public: give it to those who check your proofs)
ledger   žďár/counterfoil.ledger, entries: 1

The private key lies in žďár/counterfoil.key, not sealed: keep it to yourself.
Next: counterfoil issue --ledger žďár --turnaround NAME --count N
$ counterfoil desk žďár
desk     Storeroom Žďár
role     storeroom
prefix   K7  (all its numbers begin with it)
key      counterfoil/K7-<...>  (public: give it to those who check your proofs)
ledger   žďár/counterfoil.ledger, entries: 1
$ counterfoil desk žďár --json
{"entries":1,"host":"","key":"counterfoil/K7-<...>","ledger":"žďár/counterfoil.ledger","name":"Storeroom Žďár","prefix":"K7","role":"storeroom"}
$ counterfoil desk žďár --name "Other" --role vendor --prefix Q2
! counterfoil: there is a ledger already: žďár/counterfoil.ledger
!   show it with `counterfoil desk žďár`
? 1
$ stat -c %a žďár/counterfoil.key žďár/counterfoil.ledger
600
600

# What is wrong is said before anything is made.

$ counterfoil desk bad --name "Bad" --role clerk --prefix K7
! counterfoil: "clerk" is not a role
!   the roles are storeroom, mechanic and vendor
? 2
$ counterfoil desk bad --name "Bad" --role vendor --prefix KU
! counterfoil: "KU" is not a prefix
!   a prefix is two characters, digits or letters but not U
? 2
$ counterfoil desk bad --name "Bad" --role vendor --prefix K7 --host "no host"
! counterfoil: "no host" is not a host name
!   write it like tags.example.org: letters, digits, hyphens and dots, at most 60 characters
? 2
$ counterfoil desk bad --role vendor --prefix K7
! counterfoil: a desk needs a name
!   give --name, such as --name "Storeroom Hollow Creek"
? 2
$ ls
sample-labels
žďár
$ counterfoil desk nowhere
! counterfoil: no ledger here: nowhere/counterfoil.ledger
!   name one with --ledger, or make a desk with `counterfoil desk nowhere --name NAME --role storeroom --prefix K7`
? 3
$ cd žďár && counterfoil issue --turnaround TA26 --count 1 | head -2
NUMBER
K7QC HX65 GA

# A ledger can be a file, and its key sealed; then writing needs the passphrase, reading does not.

$ printf 'hřebík 7\n' > pass; counterfoil desk vendor.ledger --name "Kettle Valve Works" --role vendor --prefix Q2 --host tags.kettle.example --passphrase-file pass
desk     Kettle Valve Works
role     vendor
prefix   Q2  (all its numbers begin with it)
host     TAGS.KETTLE.EXAMPLE  (its symbols are links)
key      counterfoil/Q2-<...>  (public: give it to those who check your proofs)
ledger   vendor.ledger, entries: 1

The private key lies in vendor.key, sealed with the passphrase.
Next: counterfoil log --ledger vendor.ledger receiving PHOTO...
$ ls
pass
sample-labels
vendor.key
vendor.ledger
žďár
$ counterfoil issue --ledger vendor.ledger --turnaround TA26 --count 1
! counterfoil: the key is sealed with a passphrase and none was given
!   give --passphrase-file FILE, or set COUNTERFOIL_PASSPHRASE
? 1
$ counterfoil issue --ledger vendor.ledger --turnaround TA26 --count 1 --passphrase-file pass --csv
number,unit,pocket,side,part,turnaround,entry
Q2QCHX65EF,,,,,TA26,1
$ COUNTERFOIL_PASSPHRASE=wrong counterfoil issue --ledger vendor.ledger --turnaround TA26 --count 1
! counterfoil: the passphrase does not open the key
!   give --passphrase-file FILE, or set COUNTERFOIL_PASSPHRASE
? 1
$ COUNTERFOIL_LEDGER=vendor.ledger counterfoil events --csv | cut -d, -f1-5
entry,at,known,step,number
0,2026-11-25T09:30:00+01:00,logged,founding,
1,2026-11-25T09:30:00+01:00,logged,commissioning,Q2QCHX65EF
