# Completion of counterfoil for bash, with or without the package bash-completion.
_counterfoil() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command= step= i
  local commands="desk issue print check-sheet reprint void stocks paper queues calibrate read log match trace outstanding findings settle events
                  verify prove check-proof"
  local steps="removing packing shipping receiving unpacking inspecting repairing storing installing destroying"
  local global="--ledger --json --csv --passphrase-file --help --version"
  declare -A options=(
    [desk]="--name --role --prefix --host"
    [issue]="--turnaround --count --part --pockets --stock --by --second --reason"
    [print]="--turnaround --stock --design --second-language --dpi --printer --out --preview --by --stack --start-at --spoiled --order --copies --to"
    [check-sheet]="--turnaround --page --scan-dpi --marked --order --copies --stock --design --second-language --dpi --printer --start-at --spoiled"
    [reprint]="--half --reason --by --stock --design --second-language --dpi --printer --out --preview --to --stack --start-at --spoiled"
    [void]="--reason --by"
    [stocks]="--measure --draw"
    [paper]="--new-sheet --start-at --spoiled --stock --reason --by"
    [calibrate]="--sheet --stock --dpi --printer --scan-dpi --paper --left --top --across --down --name --write"
    [read]="--any --position --effort --budget"
    [log]="--serial --label --stock --design --second-language --dpi --printer --stack --start-at --spoiled --out --preview --unit --pocket --side --turnaround --part --time --by --second --reason --from --to
           --carton --due --condition --outcome --note --photo --no-copy --effort --budget"
    [match]="--bag --box --turnaround --dry-run --by --no-copy --effort --budget"
    [outstanding]="--turnaround --transit-days"
    [findings]="--turnaround --transit-days"
    [settle]="--serial --unit --pocket --reason --by"
    [events]="--turnaround"
    [prove]="--out"
    [check-proof]="--key"
  )

  for ((i = 1; i < COMP_CWORD; ++i)); do
    case ${COMP_WORDS[i]} in
      --ledger | --passphrase-file) ((++i)) ;;
      -*) ;;
      *) command=${COMP_WORDS[i]} step=${COMP_WORDS[i + 1]:-}; break ;;
    esac
  done

  case $before in
    --role) COMPREPLY=($(compgen -W "storeroom mechanic vendor" -- "$word")); return ;;
    --effort) COMPREPLY=($(compgen -W "quick normal thorough" -- "$word")); return ;;
    --half) COMPREPLY=($(compgen -W "bag box" -- "$word")); return ;;
    --side) COMPREPLY=($(compgen -W "suction discharge" -- "$word")); return ;;
    --stock) COMPREPLY=($(compgen -W "$(counterfoil stocks --csv 2>/dev/null | sed '1d;s/,.*//')" -- "$word")); return ;;
    --to)
      if [[ $command == *print ]]; then
        COMPREPLY=($(compgen -W "$(counterfoil queues --csv 2>/dev/null | sed '1d;s/,.*//')" -- "$word"))
        return
      fi ;;
    --design) COMPREPLY=($(compgen -W "small narrow medium upright wide long large tall" -- "$word")); return ;;
    --second-language) COMPREPLY=($(compgen -W "ar cs es" -- "$word")); return ;;
    --order) COMPREPLY=($(compgen -W "sheet-by-sheet cut-and-stack" -- "$word")); return ;;
    --ledger | --passphrase-file | --out | --preview | --marked | --measure | --draw | --pockets | --photo | --printer | --sheet | --write) compopt -o default; COMPREPLY=(); return ;;
  esac
  if [[ $word == -* ]]; then
    COMPREPLY=($(compgen -W "$global ${options[${command:-none}]:-}" -- "$word"))
  elif [[ -z $command ]]; then
    COMPREPLY=($(compgen -W "$commands" -- "$word"))
  elif [[ $command == log && ($step == "$word" || -z $step) ]]; then
    COMPREPLY=($(compgen -W "$steps" -- "$word"))
  else
    compopt -o default 2>/dev/null
    COMPREPLY=()
  fi
}
complete -F _counterfoil counterfoil
