/** `reedway export`: blocks as files for other programs. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Block, Course, Lesson } from '../../course/course.ts';
import { nearest } from '../../diagnostics/nearest.ts';
import { readHarp } from '../../instrument/harp.ts';
import type { Credits } from '../../interchange/credits.ts';
import {
  FORMAT_NAMES,
  type FormatName,
  fileNameOf,
  formatOf,
  isFormatName,
  PLAYERS,
  type Players,
} from '../../interchange/formats.ts';
import { compressedMusicXmlOf } from '../../interchange/musicxml/compressed.ts';
import { svgOf } from '../../interchange/svg.ts';
import { isWritten, writerOf } from '../../interchange/writers.ts';
import { type FileBrowser, NoBrowser, startBrowser } from '../../publish/browser-files.ts';
import { ROOT } from '../../publish/root.ts';
import { moveToHarp } from '../../score/harp/move.ts';
import { playbackOf } from '../../score/playback-of.ts';
import type { Score } from '../../score/score.ts';
import { creditsOf } from '../../site/credits.ts';
import { askedBlocks, type NamedBlocks, namedBlocks, reportBroken } from '../block/named-blocks.ts';
import { type Command, type Input, orMeant, type Terminal, textOption, UsageError } from '../command.ts';
import { COURSE_OPTION, readCourse } from '../course/check.ts';
import { AS_OPTION, INPUT_ABOUT, STANDARD_INPUT } from '../course/standard-input.ts';
import { shownPath } from '../terminal/shown-path.ts';
import { CannotWrite, destinationOf, type NewFile, putFiles } from './destination.ts';

/** The formats and what they are for, for the help. */
const FORMAT_LIST = FORMAT_NAMES.map((name) => `${name} (${formatOf(name).about})`).join(', ');

export const command: Command = {
  arguments: [
    {
      name: 'LESSON[/BLOCK]',
      completes: 'lesson',
      many: true,
      about: `The name of a lesson, and the id of a block or its number from 0. Without a block: all blocks. Without any name: the whole course. ${INPUT_ABOUT}`,
    },
  ],
  options: {
    to: { type: 'string', value: 'FORMAT', completes: FORMAT_NAMES, about: `The format: ${FORMAT_LIST}.` },
    harp: {
      type: 'string',
      value: 'KEY',
      about: 'The harp to play it on, such as A or "low F". Default: the harp of each block.',
    },
    players: {
      type: 'string',
      value: 'WHO',
      completes: PLAYERS,
      about: `Who plays, in midi and wav: ${PLAYERS.join(', ')}. Default: ${PLAYERS[0]}.`,
    },
    out: {
      type: 'string',
      value: 'PATH',
      completes: 'file',
      about:
        'Where to write: a folder, or for a single block a file with the ending of its format. Default: the current folder.',
    },
    course: COURSE_OPTION,
    as: AS_OPTION,
  },
  about:
    'Writes blocks as files for other programs, each as LESSON/BLOCK with the ending of its format. If any block has an error or a file cannot be written, none is. png and wav are made by the Chromium on this machine.',
  async run({ arguments: names, options }, terminal) {
    const format = formatOption(options);
    const players = playersOption(options, format);
    const { course, chosen } = await choose(names, options, terminal);
    if (chosen.some((one) => reportBroken(course, one, terminal) !== 0)) {
      terminal.err('Nothing was written.\n');
      return 1;
    }
    const jobs = jobsOf(chosen, textOption(options, 'harp'));
    if (jobs.length === 0) {
      terminal.err('There is no block in what was named. Nothing was written.\n');
      return 1;
    }
    const out = textOption(options, 'out') ?? '.';
    const destination = destinationOf(out, formatOf(format).extension, jobs.length, terminal.cwd);
    try {
      const paths = putFiles(destination, await filesOf(jobs, format, players, course, terminal));
      terminal.out(summary(paths, terminal.cwd));
      return 0;
    } catch (error) {
      if (!(error instanceof NoBrowser || error instanceof CannotWrite)) throw error;
      terminal.err(`${error.message} Nothing was written.\n`);
      return 1;
    }
  },
};

/** Each path for a few, their number for many. */
const FEW = 10;
const summary = (paths: readonly string[], cwd: string): string =>
  paths.length <= FEW
    ? paths.map((path) => `${shownPath(path, cwd)}\n`).join('')
    : `${paths.length} files were written.\n`;

function formatOption(options: Input['options']): FormatName {
  const text = textOption(options, 'to');
  if (text === undefined) throw new UsageError(`--to is missing: the format, one of ${FORMAT_NAMES.join(', ')}.`);
  const name = text.toLowerCase();
  if (isFormatName(name)) return name;
  const near = nearest(name, FORMAT_NAMES);
  throw new UsageError(`There is no format “${text}”.${orMeant(near)} There are ${FORMAT_NAMES.join(', ')}.`);
}

function playersOption(options: Input['options'], format: FormatName): Players {
  const text = textOption(options, 'players') ?? PLAYERS[0];
  const players = PLAYERS.find((name) => name === text);
  if (players === undefined) throw new UsageError(`“${text}” is not who plays: ${PLAYERS.join(', ')}.`);
  if (players !== 'tune' && !formatOf(format).holdsBand)
    throw new UsageError(`A file in the format ${format} holds the tune alone: leave --players out.`);
  return players;
}

async function choose(
  names: readonly string[],
  options: Input['options'],
  terminal: Terminal,
): Promise<{ readonly course: Course; readonly chosen: readonly NamedBlocks[] }> {
  const [first, ...more] = names;
  if (first !== undefined && more.length === 0) {
    const { course, found } = await askedBlocks(first, options, terminal);
    return { course, chosen: [found] };
  }
  if (names.includes(STANDARD_INPUT)) throw new UsageError('- is the only argument where it is one.');
  if (options['as'] !== undefined) throw new UsageError('--as goes with the argument -.');
  const course = readCourse(textOption(options, 'course'), terminal);
  const chosen = first === undefined ? wholeCourse(course) : names.map((name) => namedBlocks(course, name, terminal));
  return { course, chosen };
}

const wholeCourse = ({ lessons }: Course): NamedBlocks[] =>
  lessons.map((lesson) => ({ lesson, blocks: lesson.blocks }));

/** A block to write, on the harp it is to be played on. */
interface Job {
  readonly lesson: Lesson;
  readonly block: Block;
  readonly score: Score;
}

/** Each block once, in the order of the course or the command line. */
function jobsOf(chosen: readonly NamedBlocks[], key: string | undefined): Job[] {
  const jobs = new Map<Block, Job>();
  for (const { lesson, blocks } of chosen)
    for (const block of blocks) if (block.score) jobs.set(block, { lesson, block, score: onHarp(block.score, key) });
  return [...jobs.values()];
}

function onHarp(score: Score, key: string | undefined): Score {
  if (key === undefined) return score;
  const harp = readHarp(key, score.harp.tuning);
  if (!harp)
    throw new UsageError(`“${key}” is no harp: a key such as A, Bb or F#, perhaps with low or high before it.`);
  return moveToHarp(score, harp);
}

async function filesOf(
  jobs: readonly Job[],
  format: FormatName,
  players: Players,
  course: Course,
  terminal: Terminal,
): Promise<NewFile[]> {
  const make = await makerOf(format, players, course);
  const files: NewFile[] = [];
  try {
    for (const job of jobs) {
      terminal.progress(`${files.length} of ${jobs.length} blocks made`);
      const { lesson, block } = job;
      const name = fileNameOf(lesson.id, block.id, format, players);
      files.push({ name, content: await make.content(job) });
    }
  } finally {
    terminal.progress('');
    await make.close?.();
  }
  return files;
}

/** Makes the files of one format. */
interface Maker {
  content(job: Job): Promise<string | Uint8Array> | string | Uint8Array;
  close?(): Promise<void>;
}

async function makerOf(format: FormatName, players: Players, course: Course): Promise<Maker> {
  const credits = ({ lesson, block }: Job): Credits => creditsOf(course, lesson, block);
  if (format === 'mxl') return { content: (job) => compressedMusicXmlOf(job.score, credits(job)) };
  if (isWritten(format)) {
    const write = await writerOf(format);
    return { content: (job) => write(job.score, credits(job), players) };
  }
  const css = readFileSync(join(ROOT, 'src/engrave/block.css'), 'utf8');
  const svg = (job: Job): string => svgOf(job.score, credits(job), css);
  if (format === 'svg') return { content: svg };
  const { concertA, temperament } = course.file;
  const browser: FileBrowser = await startBrowser();
  return {
    content: (job) =>
      format === 'png'
        ? browser.png(svg(job))
        : browser.wav({ playback: playbackOf(job.score), players, pitching: { concertA, temperament } }),
    close: browser.close,
  };
}
