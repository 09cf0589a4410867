# Completion of counterfoil for bash, with or without the package bash-completion.
_counterfoil() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command= step= i
  local commands="desk issue print check-sheet reprint void stocks paper read log match trace outstanding findings settle events
                  verify prove check-proof"
  local steps="removing packing shipping receiving unpacking inspecting repairing storing installing destroying"
  local global="--ledger --json --csv --passphrase-file --help --version"
  declare -A options=(
    [desk]="--name --role --prefix --host"
    [issue]="--turnaround --count --part --pockets --by --second --reason"
    [print]="--turnaround --stock --dpi --out --by --stack --start-at --spoiled --order --copies"
    [check-sheet]="--turnaround --page --scan-dpi --marked --order --copies --stock --dpi --start-at --spoiled"
    [reprint]="--half --reason --by --stock --dpi --out --stack --start-at --spoiled"
    [void]="--reason --by"
    [paper]="--new-sheet --start-at --spoiled --stock --reason --by"
    [read]="--any --position --effort --budget"
    [log]="--serial --label --stack --out --unit --pocket --side --turnaround --part --time --by --second --reason --from --to
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
    --order) COMPREPLY=($(compgen -W "sheet-by-sheet cut-and-stack" -- "$word")); return ;;
    --ledger | --passphrase-file | --out | --marked | --pockets | --photo) compopt -o default; COMPREPLY=(); return ;;
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
