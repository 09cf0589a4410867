# Completion of counterfoil for fish.
set -l commands desk issue print check-sheet reprint void stocks paper queues calibrate read log match trace outstanding findings settle events \
    verify prove check-proof
set -l steps removing packing shipping receiving unpacking inspecting repairing storing installing destroying

function __counterfoil_stocks
    counterfoil stocks --csv 2>/dev/null | sed '1d;s/,.*//'
end

function __counterfoil_stacks
    counterfoil paper --csv 2>/dev/null | sed '1d;s/,.*//;s/"//g'
end

function __counterfoil_queues
    counterfoil queues --csv 2>/dev/null | sed '1d;s/,.*//'
end

complete -c counterfoil -f
complete -c counterfoil -l ledger -r -F -d 'Folder or file of the ledger'
complete -c counterfoil -l json -d 'Answer in JSON'
complete -c counterfoil -l csv -d 'Answer with a CSV list'
complete -c counterfoil -l passphrase-file -r -F -d 'File with the passphrase of the key'
complete -c counterfoil -l help -d 'Say how it is used'
complete -c counterfoil -l version -d 'Say which version this is'

set -l none "not __fish_seen_subcommand_from $commands"
complete -c counterfoil -n "$none" -a desk -d 'Make a desk, or show it'
complete -c counterfoil -n "$none" -a issue -d 'Give out numbered pairs'
complete -c counterfoil -n "$none" -a print -d 'Draw their sheet'
complete -c counterfoil -n "$none" -a check-sheet -d 'Check a scan of a printed sheet'
complete -c counterfoil -n "$none" -a reprint -d 'Draw the next copy of a half'
complete -c counterfoil -n "$none" -a void -d 'Withdraw numbers'
complete -c counterfoil -n "$none" -a stocks -d 'List what can be printed on'
complete -c counterfoil -n "$none" -a paper -d 'List stacks of label sheets'
complete -c counterfoil -n "$none" -a queues -d 'List print queues'
complete -c counterfoil -n "$none" -a calibrate -d 'Measure what a printer does to a page'
complete -c counterfoil -n "$none" -a read -d 'Find the tags in photographs'
complete -c counterfoil -n "$none" -a log -d 'Record a step of a journey'
complete -c counterfoil -n "$none" -a match -d 'Hold bags against boxes'
complete -c counterfoil -n "$none" -a trace -d 'Show all that is known of a valve'
complete -c counterfoil -n "$none" -a outstanding -d 'Show where every valve is'
complete -c counterfoil -n "$none" -a findings -d 'Show contradictions and holes'
complete -c counterfoil -n "$none" -a settle -d 'Close findings that were looked into'
complete -c counterfoil -n "$none" -a events -d 'Show every entry'
complete -c counterfoil -n "$none" -a verify -d 'Recompute the ledger'
complete -c counterfoil -n "$none" -a prove -d 'Write a proof of one entry'
complete -c counterfoil -n "$none" -a check-proof -d 'Check such a proof'

complete -c counterfoil -n '__fish_seen_subcommand_from read log match check-sheet check-proof calibrate' -F
complete -c counterfoil -n "__fish_seen_subcommand_from log; and not __fish_seen_subcommand_from $steps" -a "$steps"

complete -c counterfoil -n '__fish_seen_subcommand_from issue print check-sheet log match outstanding findings events' \
    -l turnaround -x -d 'The outage'
complete -c counterfoil -n '__fish_seen_subcommand_from issue print reprint void paper log match settle' -l by -x -d 'Who does it'
complete -c counterfoil -n '__fish_seen_subcommand_from issue reprint void paper log settle' -l reason -x -d 'Why'
complete -c counterfoil -n '__fish_seen_subcommand_from outstanding findings' -l transit-days -x \
    -d 'Days in transit until overdue'
complete -c counterfoil -n '__fish_seen_subcommand_from issue log' -l part -x -d 'Part number'
complete -c counterfoil -n '__fish_seen_subcommand_from log settle' -l unit -x -d 'The unit'
complete -c counterfoil -n '__fish_seen_subcommand_from issue print check-sheet reprint log paper calibrate' -l stock -x -a '(__counterfoil_stocks)' \
    -d 'What is printed on'
complete -c counterfoil -n '__fish_seen_subcommand_from print check-sheet reprint log' -l design -x -a 'small narrow medium upright wide long large tall' -d 'Size of the designs'
complete -c counterfoil -n '__fish_seen_subcommand_from print check-sheet reprint log' -l second-language -x -a 'ar cs es' -d 'Standing words in it too'
complete -c counterfoil -n '__fish_seen_subcommand_from print check-sheet reprint log calibrate' -l dpi -x -d 'Dots per inch of the printer'
complete -c counterfoil -n '__fish_seen_subcommand_from print reprint log' -l stack -x -a '(__counterfoil_stacks)' \
    -d 'Stack that the sheets come from'
complete -c counterfoil -n '__fish_seen_subcommand_from paper' -a '(__counterfoil_stacks)'
complete -c counterfoil -n '__fish_seen_subcommand_from print check-sheet reprint log paper' -l start-at -x -d 'First label that is left'
complete -c counterfoil -n '__fish_seen_subcommand_from print check-sheet reprint log paper' -l spoiled -x -d 'Labels to leave out'
complete -c counterfoil -n '__fish_seen_subcommand_from paper' -l new-sheet -d 'A whole sheet lies on top'
complete -c counterfoil -n '__fish_seen_subcommand_from print check-sheet' -l order -x -a 'sheet-by-sheet cut-and-stack' \
    -d 'How the tags follow'
complete -c counterfoil -n '__fish_seen_subcommand_from print check-sheet' -l copies -x -d 'Of each identification label'
complete -c counterfoil -n '__fish_seen_subcommand_from print reprint' -l to -x -a '(__counterfoil_queues)' \
    -d 'Printer that is sent it'
complete -c counterfoil -n '__fish_seen_subcommand_from check-sheet' -l page -x -d 'Sheet that the scans show'
complete -c counterfoil -n '__fish_seen_subcommand_from check-sheet calibrate' -l scan-dpi -x -d 'Dots per inch of the scan'
complete -c counterfoil -n '__fish_seen_subcommand_from check-sheet' -l marked -r -F -d 'Where the marked picture goes'
complete -c counterfoil -n '__fish_seen_subcommand_from print reprint log prove' -l out -r -F -d 'Where it goes'
complete -c counterfoil -n '__fish_seen_subcommand_from print reprint log' -l preview -r -F -d 'A picture to look at'
complete -c counterfoil -n '__fish_seen_subcommand_from stocks' -l measure -r -F -a '(__counterfoil_stocks)' -d 'A description of your own'
complete -c counterfoil -n '__fish_seen_subcommand_from stocks' -l draw -r -F -d 'Its outlines'

complete -c counterfoil -n '__fish_seen_subcommand_from print check-sheet reprint log calibrate' -l printer -r -F -d 'Profile to correct by'

complete -c counterfoil -n '__fish_seen_subcommand_from calibrate' -l sheet -r -F -d 'Draw the sheet to print'
complete -c counterfoil -n '__fish_seen_subcommand_from calibrate' -l paper -x -d 'Measured size of the paper'
complete -c counterfoil -n '__fish_seen_subcommand_from calibrate' -l left -x -d 'Left edge to the upright line'
complete -c counterfoil -n '__fish_seen_subcommand_from calibrate' -l top -x -d 'Upper edge to the level line'
complete -c counterfoil -n '__fish_seen_subcommand_from calibrate' -l across -x -d 'Length of the level line'
complete -c counterfoil -n '__fish_seen_subcommand_from calibrate' -l down -x -d 'Length of the upright line'
complete -c counterfoil -n '__fish_seen_subcommand_from calibrate' -l name -x -d 'Name of the printer'
complete -c counterfoil -n '__fish_seen_subcommand_from calibrate' -l write -r -F -d 'Where the profile goes'

complete -c counterfoil -n '__fish_seen_subcommand_from desk' -l name -x -d 'What people call it'
complete -c counterfoil -n '__fish_seen_subcommand_from desk' -l role -x -a 'storeroom mechanic vendor' -d 'Its role'
complete -c counterfoil -n '__fish_seen_subcommand_from desk' -l prefix -x -d 'First two characters of its numbers'
complete -c counterfoil -n '__fish_seen_subcommand_from desk' -l host -x -d 'Host of the links'
complete -c counterfoil -n '__fish_seen_subcommand_from issue' -l count -x -d 'So many pairs'
complete -c counterfoil -n '__fish_seen_subcommand_from issue' -l pockets -r -F -d 'CSV list of pockets'
complete -c counterfoil -n '__fish_seen_subcommand_from reprint' -l half -x -a 'bag box' -d 'Which half'
complete -c counterfoil -n '__fish_seen_subcommand_from read' -l any -d 'Also codes that are not ours'
complete -c counterfoil -n '__fish_seen_subcommand_from read' -l position -d 'Also where it was taken'
complete -c counterfoil -n '__fish_seen_subcommand_from match' -l bag -x -d 'A bag half seen'
complete -c counterfoil -n '__fish_seen_subcommand_from match' -l box -x -d 'A box half seen'
complete -c counterfoil -n '__fish_seen_subcommand_from match' -l dry-run -d 'Write nothing'
complete -c counterfoil -n '__fish_seen_subcommand_from check-proof' -l key -x -d 'Verifier key of the desk'

complete -c counterfoil -n '__fish_seen_subcommand_from log settle' -l serial -x -d 'Mark on the valve'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l label -d 'Make an identification label'
complete -c counterfoil -n '__fish_seen_subcommand_from log settle' -l pocket -x -d 'The pocket'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l side -x -a 'suction discharge' -d 'Side of the pocket'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l time -x -d 'When it happened'
complete -c counterfoil -n '__fish_seen_subcommand_from issue log' -l second -x -d 'Second person'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l from -x -d 'Who sent it'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l to -x -d 'Who it goes to'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l carton -x -d 'Its carton'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l due -x -d 'When it is expected back'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l condition -x -d 'What it looks like'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l outcome -x -d 'What came of it'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l note -x -d 'Anything else'
complete -c counterfoil -n '__fish_seen_subcommand_from log' -l photo -r -F -d 'Evidence only'
complete -c counterfoil -n '__fish_seen_subcommand_from log match' -l no-copy -d 'Keep no copy of the photograph'
complete -c counterfoil -n '__fish_seen_subcommand_from read log match' -l effort -x -a 'quick normal thorough' -d 'How hard to look'
complete -c counterfoil -n '__fish_seen_subcommand_from read log match' -l budget -x -d 'Longest time for one photograph'
