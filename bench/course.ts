/**
 * Courses of any size, for measuring: made up, varied, and valid. The same size and seed make the same files, byte for
 * byte, and a smaller course is the beginning of a larger one. Everything in them is invented.
 *
 *     node bench/course.ts FOLDER [LESSONS] [BLOCKS] [SEED]
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { itemAt } from '../src/values/checked.ts';
import { HARPS, makeBlock, type Quotable } from './music.ts';
import { prose, sentence, title } from './prose.ts';
import { type Random, seeded } from './random.ts';

export interface CourseSize {
  readonly lessons: number;
  readonly blocks: number;
  /** Words of prose in each lesson, about. */
  readonly words?: number;
  readonly seed?: number;
}

/** The first lessons, one after the other; each is built on by all that follow. */
const FOUNDATION: readonly (readonly string[])[] = [
  ['single-notes', 'breath-turns', 'hole-jumps', 'chords'],
  ['tongue-blocking', 'embouchure-switches', 'splits'],
  ['draw-bends'],
  ['second-position', 'twelve-bar', 'shuffle'],
  ['bend-releases', 'bend-drops', 'glides-between-bends'],
  ['triplets', 'compound-time'],
  ['slaps', 'pulls', 'flutters', 'shakes'],
  ['dips', 'falls', 'vibrato', 'hand-effects'],
  ['sixteenths', 'quick-runs', 'chord-rhythm'],
  ['high-holes', 'blow-bends'],
  ['third-position', 'quick-change', 'minor-blues', 'eight-bar'],
  ['overblows', 'overdraws', 'tongue-blocked-bends'],
];
const POSITION_NAMES: Readonly<Record<string, number>> = { 'second-position': 2, 'third-position': 3 };

const idOf = (index: number): string => `lesson-${`${index + 1}`.padStart(4, '0')}`;

/** What is in each file of the course, by its path below the course folder. */
export function courseFiles({ lessons, blocks, words = 600, seed = 1 }: CourseSize): Map<string, string> {
  const plan = planOf(lessons, seed);
  const files = new Map<string, string>([['course.yaml', courseYaml(plan)]]);
  const offers: (readonly Quotable[])[] = [];
  plan.forEach((planned, index) => {
    const lesson = makeLesson(planned, plan, offers, blocks, words, seeded(seed, index));
    offers.push(lesson.offers);
    files.set(`lessons/${idOf(index)}.mdx`, lesson.text);
  });
  return files;
}

/** Writes the course into a folder, which is made where it is missing. */
export function writeCourse(dir: string, size: CourseSize): void {
  for (const [file, text] of courseFiles(size)) {
    const path = join(dir, file);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
}

interface Planned {
  readonly index: number;
  readonly stage: number;
  readonly requires: readonly number[];
  readonly teaches: readonly string[];
  /** Everything taught on the way here, and here. */
  readonly taught: ReadonlySet<string>;
}

/** Lessons in layers: each requires up to three of the layer before. */
function planOf(count: number, seed: number): Planned[] {
  const random = seeded(seed, 0x70617468);
  const plan: Planned[] = [];
  let before: readonly number[] = [];
  for (let layer = 0; plan.length < count; layer++) {
    const foundation = FOUNDATION[layer];
    const width = foundation ? 1 : random.whole(2, 8);
    const here: number[] = [];
    for (let place = 0; place < width; place++) {
      const index = plan.length;
      const requires = random.some(before, random.whole(1, 3)).sort((a, b) => a - b);
      const taught = new Set([...requires.flatMap((one) => [...itemAt(plan, one).taught]), ...(foundation ?? [])]);
      here.push(index);
      if (index < count)
        plan.push({ index, stage: Math.floor(layer / 6), requires, teaches: foundation ?? [], taught });
    }
    before = here;
  }
  return plan;
}

function courseYaml(plan: readonly Planned[]): string {
  const stages = Array.from({ length: (plan.at(-1)?.stage ?? 0) + 1 }, (_, stage) => [
    `  - id: stage-${stage + 1}`,
    `    title: Stage ${stage + 1}`,
  ]);
  return [
    'title: A course for measuring',
    'summary: Made up by a program. It teaches nothing.',
    'stages:',
    ...stages.flat(),
    'harp: C',
    'slot: 1/8',
    '',
  ].join('\n');
}

interface MadeLesson {
  readonly text: string;
  readonly offers: readonly Quotable[];
}

function makeLesson(
  planned: Planned,
  plan: readonly Planned[],
  offers: readonly (readonly Quotable[])[],
  blocks: number,
  words: number,
  random: Random,
): MadeLesson {
  const id = idOf(planned.index);
  const { taught, teaches, requires } = planned;
  const ancestors = ancestorsOf(planned, plan, random);
  const quotable = ancestors.flatMap((index) => offers[index] ?? []);
  const positions = teaches.flatMap((technique) => POSITION_NAMES[technique] ?? []);
  const known = [1, ...Object.entries(POSITION_NAMES).flatMap(([name, number]) => (taught.has(name) ? [number] : []))];
  const frontMatter = [
    '---',
    `title: ${title(random)} ${planned.index + 1}`,
    `summary: ${sentence(random).replace(/[*;]/g, '')}`,
    `stage: stage-${planned.stage + 1}`,
    ...(requires.length > 0 ? [`requires: [${requires.map(idOf).join(', ')}]`] : []),
    ...(teaches.length > 0 ? [`teaches: [${teaches.join(', ')}]`] : []),
    `harp: ${random.pick(HARPS)}`,
    `position: ${positions[0] ?? random.pick(known)}`,
    `minutes: ${random.whole(10, 40)}`,
    '---',
  ];
  const mine: Quotable[] = [];
  const sections: string[] = [];
  for (let block = 0; block < blocks; block++) {
    const share = teaches.filter((_, index) => index % blocks === block);
    const made = makeBlock({ random, lesson: id, id: `block-${block + 1}`, taught, practised: share, quotable });
    mine.push(...made.offers);
    const linked = ancestors.length > 0 && random.percent(30) ? [idOf(random.pick(ancestors))] : [];
    const text = prose(random, words / Math.max(1, blocks), linked);
    sections.push(`## ${title(random)}`, text, `\`\`\`tab\n${made.text}\n\`\`\``);
  }
  return { text: `${[...frontMatter, '', sentence(random), '', sections.join('\n\n')].join('\n')}\n`, offers: mine };
}

/** A few lessons on the way to this one, near and far. */
function ancestorsOf(planned: Planned, plan: readonly Planned[], random: Random): number[] {
  const found = new Set<number>();
  for (let walk = 0; walk < 3; walk++) {
    let at = planned;
    for (let steps = random.whole(1, 8); steps > 0 && at.requires.length > 0; steps--) {
      at = itemAt(plan, random.pick(at.requires));
      found.add(at.index);
    }
  }
  return [...found].sort((a, b) => a - b);
}

if (import.meta.main) {
  const [dir, lessons = '200', blocks = '6', seed = '1'] = process.argv.slice(2);
  if (dir === undefined) throw new Error('Give the folder to write the course into.');
  writeCourse(dir, { lessons: Number(lessons), blocks: Number(blocks), seed: Number(seed) });
}
