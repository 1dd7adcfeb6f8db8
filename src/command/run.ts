/** Runs what was typed: finds the command, reads its arguments, and says what is wrong with them. */
import { nearest } from '../diagnostics/nearest.ts';
import { readArguments, SHORT_HELP } from './arguments.ts';
import { orMeant, type Terminal, UsageError } from './command.ts';
import { COMMANDS } from './commands.ts';
import { helpOf, helpOfAll } from './help.ts';
import { packageVersion } from './package.ts';

/** The exit code: 0, 1 where the course has an error or work failed, 2 where something was typed that cannot be done. */
export async function run(typed: readonly string[], terminal: Terminal): Promise<number> {
  const [name, ...remaining] = typed;
  if (name === undefined || name === '--help' || name === SHORT_HELP || name === 'help') {
    const asked = COMMANDS.find((row) => row.name === remaining[0]);
    terminal.out(asked ? helpOf(asked, (await asked.load()).command) : helpOfAll(packageVersion()));
    return name === undefined ? 2 : 0;
  }
  if (name === '--version') {
    terminal.out(`${packageVersion()}\n`);
    return 0;
  }
  const row = COMMANDS.find((one) => one.name === name);
  if (!row) {
    const near = nearest(
      name,
      COMMANDS.map((one) => one.name),
    );
    const what = name.startsWith('-') ? 'option' : 'command';
    terminal.err(`There is no ${what} ${name}.${orMeant(near)}\nreedway --help lists what there is.\n`);
    return 2;
  }
  const { command } = await row.load();
  try {
    const input = readArguments(command, remaining);
    if (input === 'help') {
      terminal.out(helpOf(row, command));
      return 0;
    }
    return await command.run(input, terminal);
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    terminal.err(`${error.message}\nreedway ${name} --help shows what it takes.\n`);
    return 2;
  }
}
