/** The commands, in the order of the help. */
import type { CommandRow } from './command.ts';

/** All commands, in the order of the help. Each file is loaded when its command runs. */
export const COMMANDS: readonly CommandRow[] = [
  {
    name: 'new',
    summary: 'Make a new course, or a new lesson of one',
    load: () => import('./new/new.ts'),
  },
  {
    name: 'check',
    summary: 'Check a course and list every problem',
    load: () => import('./course/check.ts'),
  },
  {
    name: 'build',
    summary: 'Build the site of a course',
    load: () => import('./publish/build.ts'),
  },
  {
    name: 'serve',
    summary: 'Preview a course while you write it',
    load: () => import('./publish/serve.ts'),
  },
  {
    name: 'host',
    summary: 'Serve a built site on this machine',
    load: () => import('./publish/host.ts'),
  },
  {
    name: 'show',
    summary: 'Print a block note by note',
    load: () => import('./block/show.ts'),
  },
  {
    name: 'explain',
    summary: 'Explain notes on a harp and over the chords of a form',
    load: () => import('./block/explain.ts'),
  },
  {
    name: 'export',
    summary: 'Write blocks as files for other programs',
    load: () => import('./export/export.ts'),
  },
  {
    name: 'format',
    summary: 'Bring the blocks of lessons into one clean form',
    load: () => import('./course/format.ts'),
  },
  {
    name: 'path',
    summary: 'Print the lessons of a course in order, with their dependencies',
    load: () => import('./course/path.ts'),
  },
  {
    name: 'overview',
    summary: 'Show what each lesson has and lacks',
    load: () => import('./course/overview.ts'),
  },
  {
    name: 'techniques',
    summary: 'List techniques, or find those that a block uses',
    load: () => import('./course/techniques.ts'),
  },
  {
    name: 'rename',
    summary: 'Rename a lesson, block, phrase, technique or stage everywhere',
    load: () => import('./course/rename.ts'),
  },
  {
    name: 'messages',
    summary: 'Explain the codes of problems',
    load: () => import('./course/messages.ts'),
  },
  {
    name: 'completion',
    summary: 'Print a script by which a shell completes this command',
    // It is made from this list.
    load: async () => ({ command: (await import('./completion/completion.ts')).completionOf(COMMANDS) }),
  },
];
