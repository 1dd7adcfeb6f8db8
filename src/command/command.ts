/** What a command of `reedway` is: its words for the help, what it takes, and what it does. */

/** Where a command prints and where it was run; a test passes its own. */
export interface Terminal {
  /** Paths are relative to it: where the command was typed. */
  readonly cwd: string;
  /** The width of the window, in characters; undefined where the output is not shown in one. */
  readonly columns?: number | undefined;
  /** Empties the window; undefined where the output is not shown in one. */
  readonly clear?: (() => void) | undefined;
  /** All bytes of standard input; undefined where there is none. */
  readonly input?: (() => Promise<Buffer>) | undefined;
  out(text: string): void;
  err(text: string): void;
  /** Shows how far long work has come, where a person is looking; an empty text clears it. */
  progress(text: string): void;
}

/** What a shell offers for an argument or the value of an option: folders, files, the lessons of the course around, or these words. */
export type Completes = 'folder' | 'file' | 'lesson' | readonly string[];

/** An option of a command. */
export interface Option {
  readonly type: 'boolean' | 'string';
  /** What stands for its value in the help: `DIR`. */
  readonly value?: string;
  readonly completes?: Completes;
  readonly about: string;
}

/** An argument of a command, by its place. */
export interface Argument {
  /** As it is in the help: `COURSE`. */
  readonly name: string;
  readonly completes?: Completes;
  readonly about: string;
  readonly required?: boolean;
  /** Takes all arguments that are left. */
  readonly many?: boolean;
}

/** What was typed after the command’s name, checked against its declaration. */
export interface Input {
  /** The arguments, in order. */
  readonly arguments: readonly string[];
  readonly options: Readonly<Record<string, string | boolean | undefined>>;
}

/** The value of an option that takes one; undefined where it was not given. */
export function textOption(options: Input['options'], name: string): string | undefined {
  const value = options[name];
  return typeof value === 'string' ? value : undefined;
}

/** One command: what it takes, what its help says, and what it does. */
export interface Command {
  readonly arguments: readonly Argument[];
  readonly options: Readonly<Record<string, Option>>;
  /** What it does, in sentences, for its help. */
  readonly about: string;
  /** Arguments that begin with a hyphen and are no options: draw holes. */
  readonly hyphened?: RegExp;
  /** The exit code: 0, or 1 where the course has an error or the work could not be done. */
  run(input: Input, terminal: Terminal): number | Promise<number>;
}

/** The end of a message about a name that there is not: the nearest there is, if one is near. */
export const orMeant = (near: string | undefined): string => (near === undefined ? '' : ` Did you mean ${near}?`);

/** The option of commands that can do without progress and closing line. */
export const QUIET_OPTION: Option = {
  type: 'boolean',
  about: 'Print only problems and errors: no progress and no closing line.',
};

/** The terminal without progress, where `--quiet` was given. */
export const quietTerminal = (terminal: Terminal, options: Input['options']): Terminal =>
  options['quiet'] ? { ...terminal, progress: () => {} } : terminal;

/** A row of the list of commands: the command itself is loaded when it is called. */
export interface CommandRow {
  readonly name: string;
  /** In one line. */
  readonly summary: string;
  load(): Promise<{ readonly command: Command }>;
}

/** A usage error: reported together with the command that prints the help, exit code 2. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}
