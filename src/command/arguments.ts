/** Reads what was typed after a command's name. */
import { parseArgs } from 'node:util';
import { nearest } from '../diagnostics/nearest.ts';
import { type Command, type Input, UsageError } from './command.ts';

const HELP = { help: { type: 'boolean', about: 'Show this help.' } } as const;

/** The one option with a short form. */
export const SHORT_HELP = '-h';

const looksLikeOption = (text: string | undefined): boolean => text?.startsWith('--') === true || text === SHORT_HELP;

/** Throws a UsageError for what the command does not take. */
export function readArguments(command: Command, typed: readonly string[]): Input | 'help' {
  const options: Command['options'] = { ...command.options, ...HELP };
  const taken = new Map<string, string>();
  // A draw hole would be read as an option, so it is replaced by another text before parsing.
  const args = typed.map((text, index) => {
    if (!command.hyphened?.test(text)) return text;
    taken.set(`argument ${index}`, text);
    return `argument ${index}`;
  });
  const { tokens } = parseArgs({ args, options, strict: false, allowPositionals: true, tokens: true });

  const values: Record<string, string | boolean | undefined> = {};
  const positionals: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'option-terminator') continue;
    if (token.kind === 'positional') {
      positionals.push(taken.get(token.value) ?? token.value);
      continue;
    }
    const { rawName } = token;
    if (rawName === SHORT_HELP) return 'help';
    // What looks like another option is no value, unless it follows `=`.
    const value = token.inlineValue || !looksLikeOption(token.value) ? token.value : undefined;
    const option = Object.hasOwn(options, token.name) && rawName.startsWith('--') ? options[token.name] : undefined;
    if (!option) throw new UsageError(unknownOption(rawName, Object.keys(options)));
    if (option.type === 'boolean' && value !== undefined) throw new UsageError(`${rawName} takes no value.`);
    if (option.type === 'string' && value === undefined) {
      throw new UsageError(`${rawName} needs a value: ${rawName} ${option.value ?? 'VALUE'}.`);
    }
    values[token.name] = value === undefined ? true : (taken.get(value) ?? value);
  }
  if (values['help']) return 'help';
  checkCount(command, positionals);
  return { arguments: positionals, options: values };
}

function unknownOption(name: string, known: readonly string[]): string {
  const near = nearest(name.replace(/^-+/, ''), known);
  return `There is no option ${name}.${near === undefined ? '' : ` Did you mean --${near}?`}`;
}

function checkCount(command: Command, typed: readonly string[]): void {
  const missing = command.arguments[typed.length];
  if (missing?.required) throw new UsageError(`${missing.name} is missing: ${missing.about}`);
  const extra = typed[command.arguments.length];
  if (extra !== undefined && !command.arguments.at(-1)?.many)
    throw new UsageError(`“${extra}” is one argument too many.`);
}
