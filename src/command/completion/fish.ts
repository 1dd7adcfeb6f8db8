import type { Completes } from '../command.ts';
import { type CompletedCommand, WITHOUT_COMMAND } from './completed.ts';

/** The script for fish: a file \`reedway.fish\` in its folder of completions. */
export function fishScript(commands: readonly CompletedCommand[]): string {
  const first = [...commands.map(({ name, summary }) => [name, summary] as const)];
  return `# Completes reedway in fish. Put it into ~/.config/fish/completions, as reedway.fish.
function __reedway_lessons
    set -l dir $PWD
    while not test -f "$dir/course.yaml"
        test "$dir" = / -o "$dir" = ''; and return
        set dir (string replace -r '/[^/]*$' '' -- $dir)
    end
    test -d "$dir/lessons"; or return
    find "$dir/lessons" -name '*.mdx' -type f | string replace "$dir/lessons/" '' | string replace -r '\\.mdx$' '' | sort
end

# Whether an argument with this number, from 0, comes next after the command. Options and their values do not count.
function __reedway_at
    set -l words (commandline -opc)
    test (count $words) -ge 2; and test "$words[2]" = $argv[1]; or return 1
    set -l count 0
    set -l skip 0
    for word in $words[3..]
        if test $skip = 1
            set skip 0
        else if contains -- "$argv[1] $word" $__reedway_values
            set skip 1
        else if not string match -q -- '-?*' $word
            set count (math $count + 1)
        end
    end
    test $skip = 0; or return 1
    test "$argv[2]" = '*'; or test "$count" = "$argv[2]"
end

set -g __reedway_values ${commands
    .flatMap(({ name, options }) => options.filter(({ takes }) => takes).map((one) => quoted(`${name} ${one.name}`)))
    .join(' ')}

complete -c reedway -f
${first.map(([name, summary]) => `complete -c reedway -n __fish_use_subcommand -a ${name} -d ${quoted(summary)}`).join('\n')}
${WITHOUT_COMMAND.map((option) => `complete -c reedway -n __fish_use_subcommand -l ${option.slice(2)}`).join('\n')}
${commands.flatMap(linesOf).join('\n')}
`;
}

function linesOf({ name, options, arguments: all, more }: CompletedCommand): string[] {
  const seen = `-n ${quoted(`__fish_seen_subcommand_from ${name}`)}`;
  return [
    ...options.map(({ name: option, takes, about }) =>
      [
        `complete -c reedway ${seen} -l ${option.slice(2)}`,
        ...(takes === undefined ? [] : [takes === 'file' ? '-r -F' : `-x${offering(takes)}`]),
        `-d ${quoted(about)}`,
      ].join(' '),
    ),
    ...all.flatMap((completes, place) => {
      const at = more && place === all.length - 1 ? '*' : `${place}`;
      if (completes.length === 0) return [];
      const where = `-n ${quoted(`__reedway_at ${name} '${at}'`)}`;
      return [`complete -c reedway ${where}${completes === 'file' ? ' -F' : offering(completes)}`];
    }),
  ];
}

function offering(completes: Completes): string {
  if (completes === 'folder') return ` -a ${quoted('(__fish_complete_directories)')}`;
  if (completes === 'lesson') return ` -a ${quoted('(__reedway_lessons)')}`;
  return typeof completes === 'string' || completes.length === 0 ? '' : ` -a ${quoted(completes.join(' '))}`;
}

/** A text between single quotation marks, as fish reads it. */
const quoted = (text: string): string => `'${text.replace(/['\\]/g, '\\$&')}'`;
