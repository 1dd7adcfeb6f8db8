import type { Completes } from '../command.ts';
import { type CompletedCommand, LESSONS_FUNCTION, shellQuoted, WITHOUT_COMMAND } from './completed.ts';

/** The script for zsh: a file \`_reedway\` in a folder of \`fpath\`, or what is sourced after \`compinit\`. */
export function zshScript(commands: readonly CompletedCommand[]): string {
  const named = [
    ...commands.map(({ name, summary }) => shellQuoted(`${name}:${summary.replaceAll(':', '\\:')}`)),
    ...WITHOUT_COMMAND.map(shellQuoted),
  ];
  return `#compdef reedway
# Completes reedway in zsh. Put it into a folder of your fpath, as _reedway.
${LESSONS_FUNCTION}

_reedway_ids() {
  local -a lessons
  lessons=("\${(@f)$(_reedway_lessons)}")
  compadd -a lessons
}

_reedway() {
  local -a commands
  commands=(
${named.map((one) => `    ${one}`).join('\n')}
  )
  if (( CURRENT == 2 )); then
    _describe command commands
    return
  fi
  shift words
  (( CURRENT-- ))
  case $words[1] in
${commands.map(caseOf).join('\n')}
  esac
}

if [[ $funcstack[1] == _reedway ]]; then
  _reedway "$@"
else
  compdef _reedway reedway
fi
`;
}

function caseOf({ name, options, arguments: all, more }: CompletedCommand): string {
  const specs = [
    ...options.map(({ name: option, takes, about }) => {
      const label = option.slice(2);
      const value = takes === undefined ? '' : `:${label}:${actionOf(takes)}`;
      return `${option}${takes === undefined ? '' : '='}[${about.replace(/[[\]\\:]/g, '\\$&')}]${value}`;
    }),
    ...all.map((completes, place) =>
      more && place === all.length - 1 ? `*: :${actionOf(completes)}` : `${place + 1}: :${actionOf(completes)}`,
    ),
  ];
  return `    ${name})\n      _arguments -S \\\n${specs.map((spec) => `        ${shellQuoted(spec)}`).join(' \\\n')}\n      ;;`;
}

function actionOf(completes: Completes): string {
  if (completes === 'folder') return '_files -/';
  if (completes === 'file') return '_files';
  if (completes === 'lesson') return '_reedway_ids';
  return completes.length === 0 ? ' ' : `(${completes.join(' ')})`;
}
