/** The commands, in the order of the help. */
import type { CommandRow } from './command.ts';

export const COMMANDS: readonly CommandRow[] = [
  {
    name: 'check',
    summary: 'Find everything that is wrong with a course',
    load: () => import('./course/check.ts'),
  },
  {
    name: 'build',
    summary: 'Build the site of a course',
    load: () => import('./publish/build.ts'),
  },
  {
    name: 'serve',
    summary: 'Show a course while it is being written',
    load: () => import('./publish/serve.ts'),
  },
  {
    name: 'host',
    summary: 'Serve a site that was built',
    load: () => import('./publish/host.ts'),
  },
  {
    name: 'show',
    summary: 'Show a block note by note, as Reedway has read it',
    load: () => import('./block/show.ts'),
  },
  {
    name: 'explain',
    summary: 'Explain notes on a harp and over the chords of a form',
    load: () => import('./block/explain.ts'),
  },
  {
    name: 'path',
    summary: 'Print the lessons of a course in order, and what ties them together',
    load: () => import('./course/path.ts'),
  },
  {
    name: 'techniques',
    summary: 'Find the techniques a block takes, with the very notes',
    load: () => import('./course/techniques.ts'),
  },
  {
    name: 'messages',
    summary: 'Explain the codes of problems',
    load: () => import('./course/messages.ts'),
  },
];
