/** The help, made from the same tables the commands are read by. */
import type { Command, CommandRow } from './command.ts';
import { COMMANDS } from './commands.ts';
import { wrap } from './terminal/wrap.ts';

/** The help that lists all commands. */
export function helpOfAll(version: string): string {
  const width = Math.max(...COMMANDS.map(({ name }) => name.length));
  return [
    `Reedway ${version}: a site generator for harmonica courses.`,
    '',
    'reedway COMMAND …',
    '',
    ...COMMANDS.map(({ name, summary }) => `  ${name.padEnd(width)}  ${summary}`),
    '',
    'reedway COMMAND --help (or -h) shows what a command takes; reedway --version prints the version.',
    'What follows -- is an argument, also where it begins with a hyphen.',
    'Exit codes: 0 success, 1 errors in the course, 2 wrong usage.',
    '',
  ].join('\n');
}

/** The help of one command. */
export function helpOf(row: CommandRow, command: Command): string {
  const options = Object.entries(command.options);
  const args = command.arguments.map((one): Entry => [one.name, one.about]);
  const lines = [
    usageOf(row.name, command),
    '',
    ...wrap(command.about, 0),
    ...(args.length > 0 ? ['', ...table(args)] : []),
    '',
    ...table([
      ...options.map(
        ([name, { value, about }]): Entry => [`--${name}${value === undefined ? '' : ` ${value}`}`, about],
      ),
      ['--help, -h', 'Show this help.'],
    ]),
    '',
  ];
  return lines.join('\n');
}

/** `reedway check [COURSE] [--json] [--strict]` */
function usageOf(name: string, command: Command): string {
  const args = command.arguments.map((one) => {
    const written = one.name + (one.many ? '…' : '');
    return one.required ? written : `[${written}]`;
  });
  const options = Object.entries(command.options).map(
    ([key, { value }]) => `[--${key}${value === undefined ? '' : ` ${value}`}]`,
  );
  return ['reedway', name, ...args, ...options].join(' ');
}

type Entry = readonly [string, string];

function table(entries: readonly Entry[]): string[] {
  const width = Math.max(...entries.map(([name]) => name.length));
  return entries.flatMap(([name, about]) => {
    const [first = '', ...rest] = wrap(about, width + 4);
    return [`  ${name.padEnd(width)}  ${first.trimStart()}`, ...rest];
  });
}
