import type { Completes } from '../command.ts';
import { type CompletedCommand, LESSONS_FUNCTION, shellQuoted, WITHOUT_COMMAND } from './completed.ts';

/** The script for bash. It asks nothing of newer versions than 3.2, and needs no package of completions. */
export function bashScript(commands: readonly CompletedCommand[]): string {
  const first = [...commands.map(({ name }) => name), ...WITHOUT_COMMAND].join(' ');
  return `# Completes reedway in bash. Load it with: source <(reedway completion bash)
${LESSONS_FUNCTION}

# Sets kind to what the value of an option is; fails for an option without one.
_reedway_value() {
  case "$1 $2" in
${commands.flatMap(valueCases).join('\n')}
    *) return 1 ;;
  esac
}

# Sets kind to what an argument is, by its place from 0.
_reedway_argument() {
  case "$1 $2" in
${commands.flatMap(argumentCases).join('\n')}
    *) kind= ;;
  esac
}

_reedway_options() {
  case "$1" in
${commands.map(({ name, options }) => `    ${name}) echo ${shellQuoted(options.map((one) => one.name).join(' '))} ;;`).join('\n')}
  esac
}

_reedway() {
  local cur=\${COMP_WORDS[COMP_CWORD]} prev=\${COMP_WORDS[COMP_CWORD-1]} command=\${COMP_WORDS[1]}
  local kind= count=0 at word words line
  COMPREPLY=()
  # bash takes --option=value apart.
  [[ $cur == = ]] && cur=
  [[ $prev == = ]] && prev=\${COMP_WORDS[COMP_CWORD-2]}
  if (( COMP_CWORD == 1 )); then
    kind=${shellQuoted(`words ${first}`)}
  elif ! _reedway_value "$command" "$prev"; then
    for (( at = 2; at < COMP_CWORD; at++ )); do
      word=\${COMP_WORDS[at]}
      if [[ $word == -?* || $word == = ]]; then
        _reedway_value "$command" "$word" && (( at++ ))
        [[ \${COMP_WORDS[at]} == = ]] && (( at++ ))
      else
        (( count++ ))
      fi
    done
    if [[ $cur == -* ]]; then
      kind="words $(_reedway_options "$command")"
    else
      _reedway_argument "$command" "$count"
    fi
  fi
  case "$kind" in
    folder) words=$(compgen -d -- "$cur"); compopt -o filenames 2>/dev/null ;;
    file) words=$(compgen -f -- "$cur"); compopt -o filenames 2>/dev/null ;;
    lesson) words=$(compgen -W "$(_reedway_lessons)" -- "$cur") ;;
    words*) words=$(compgen -W "\${kind#words}" -- "$cur") ;;
    *) return ;;
  esac
  while IFS= read -r line; do
    [[ -n $line ]] && COMPREPLY+=("$line")
  done <<< "$words"
}

complete -F _reedway reedway
`;
}

const kindOf = (completes: Completes): string =>
  typeof completes === 'string' ? completes : completes.length === 0 ? '' : shellQuoted(`words ${completes.join(' ')}`);

const valueCases = ({ name, options }: CompletedCommand): string[] =>
  options.flatMap(({ name: option, takes }) =>
    takes === undefined ? [] : [`    '${name} ${option}') kind=${kindOf(takes)} ;;`],
  );

function argumentCases({ name, arguments: all, more }: CompletedCommand): string[] {
  return all.map((completes, place) => {
    const last = more && place === all.length - 1;
    return `    ${last ? `'${name} '*` : `'${name} ${place}'`}) kind=${kindOf(completes)} ;;`;
  });
}
