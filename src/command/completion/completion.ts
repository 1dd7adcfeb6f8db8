/** `reedway completion`: a script by which a shell completes the command, made from what the commands declare. */
import { nearest } from '../../diagnostics/nearest.ts';
import { type Command, type CommandRow, type Completes, UsageError } from '../command.ts';
import { bashScript } from './bash.ts';
import type { CompletedCommand } from './completed.ts';
import { fishScript } from './fish.ts';
import { zshScript } from './zsh.ts';

const SCRIPTS = { bash: bashScript, zsh: zshScript, fish: fishScript } as const;
const SHELLS = Object.keys(SCRIPTS);

/** The command, for the list of commands that it is itself in. */
export const completionOf = (rows: readonly CommandRow[]): Command => ({
  arguments: [{ name: 'SHELL', required: true, completes: SHELLS, about: `${SHELLS.join(', ')}.` }],
  options: {},
  about:
    'Prints a script for a shell that completes commands, options and their values, and the lessons of the course around the current folder. For bash write in ~/.bashrc: source <(reedway completion bash). For zsh: reedway completion zsh > _reedway, in a folder of your fpath. For fish: reedway completion fish > ~/.config/fish/completions/reedway.fish.',
  async run({ arguments: [shell = ''] }, terminal) {
    const name = Object.keys(SCRIPTS).find((one): one is keyof typeof SCRIPTS => one === shell);
    if (name === undefined) {
      const near = nearest(shell, SHELLS);
      throw new UsageError(
        `There is no script for ${shell}. ${near === undefined ? `There are ${SHELLS.join(', ')}.` : `Did you mean ${near}?`}`,
      );
    }
    terminal.out(SCRIPTS[name](await completedCommands(rows)));
    return 0;
  },
});

/** All commands as a shell has to know them. */
export async function completedCommands(rows: readonly CommandRow[]): Promise<CompletedCommand[]> {
  const commands = await Promise.all(
    rows.map(async ({ name, summary, load }): Promise<CompletedCommand> => {
      const loaded = (await load()).command;
      return {
        name,
        summary,
        options: [
          ...Object.entries(loaded.options).map(([option, { type, completes, about }]) => ({
            name: `--${option}`,
            takes: type === 'boolean' ? undefined : (completes ?? NOTHING),
            about: firstSentence(about),
          })),
          { name: '--help', takes: undefined, about: 'Show this help.' },
        ],
        arguments: loaded.arguments.map(({ completes = NOTHING }) => completes),
        more: loaded.arguments.at(-1)?.many === true,
      };
    }),
  );
  const names = rows.map(({ name }) => name);
  return [
    ...commands,
    { name: 'help', summary: 'Show the help of a command', options: [], arguments: [names], more: false },
  ];
}

const NOTHING: Completes = [];
const firstSentence = (about: string): string => /^.*?[.:;](?= |$)/s.exec(about)?.[0].replace(/[.:;]$/, '') ?? about;
