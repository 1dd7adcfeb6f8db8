/** What a shell has to know of a command to complete it, and what the scripts for several shells have in common. */
import type { Completes } from '../command.ts';

/** An option: with its hyphens, and what its value is, if it takes one. */
export interface CompletedOption {
  readonly name: string;
  readonly takes: Completes | undefined;
  /** In one sentence. */
  readonly about: string;
}

/** A command with its options and arguments. */
export interface CompletedCommand {
  readonly name: string;
  readonly summary: string;
  readonly options: readonly CompletedOption[];
  /** By their places. */
  readonly arguments: readonly Completes[];
  /** Whether the last of them may be repeated. */
  readonly more: boolean;
}

/** What may stand in place of a command. */
export const WITHOUT_COMMAND = ['--help', '--version'];

/** A text between single quotation marks, as sh, bash and zsh read it. */
export const shellQuoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;

/** The function that prints the names of the lessons of the course around, in sh: it asks the disk alone, so it is quick. */
export const LESSONS_FUNCTION = `_reedway_lessons() {
  local dir=$PWD
  while [[ ! -f $dir/course.yaml ]]; do
    [[ -z $dir ]] && return
    dir=\${dir%/*}
  done
  (cd "$dir/lessons" 2>/dev/null && find . -name '*.mdx' -type f) | sed -e 's|^\\./||' -e 's|\\.mdx$||' | sort
}`;
