/** `reedway overview`: what each lesson of a course has and lacks. */
import { type Course, harpsOf, isPublishable, type Lesson } from '../../course/course.ts';
import { stepOf } from '../../curriculum/curriculum.ts';
import { hardest } from '../../curriculum/survey.ts';
import { plural } from '../../diagnostics/catalogue.ts';
import { harpName } from '../../instrument/harp.ts';
import { readLessonText } from '../../lesson/lesson-text.ts';
import { wordsIn } from '../../lesson/prose-words.ts';
import type { Command } from '../command.ts';
import { wrap } from '../terminal/wrap.ts';
import { COURSE_ARGUMENT, problemReport, readCourse } from './check.ts';

export const command: Command = {
  arguments: [COURSE_ARGUMENT],
  options: {
    json: {
      type: 'boolean',
      about:
        'Print one object: lessons, an array in the order of the path with id, file, title, stage, draft, summary, minutes, words, blocks, clips, teaches, uses, harps, difficulty and lacks; and totals with lessons, drafts, blocks, clips, words and minutes. What a lesson does not say is null.',
    },
  },
  about:
    'Shows what each lesson has: minutes, words of prose, blocks, clips, the difficulty of its hardest block from 0 to 10, how many techniques it teaches and uses, and its harps; and below it what it lacks.',
  run({ arguments: [dir], options }, terminal) {
    const course = readCourse(dir, terminal);
    const entries = course.lessons.map((lesson) => entryOf(course, lesson));
    terminal.out(
      options['json']
        ? `${JSON.stringify({ lessons: entries, totals: totalsOf(entries) }, null, 2)}\n`
        : overviewInText(course, entries, Math.min(terminal.columns ?? WIDEST, WIDEST)),
    );
    if (isPublishable(course)) return 0;
    const problems = course.problems.filter(({ severity }) => severity === 'error');
    terminal.err(problemReport({ ...course, problems }, terminal.cwd));
    return 1;
  },
};

/** What is said of one lesson; as `--json` prints it. */
interface OverviewEntry {
  readonly id: string;
  readonly file: string;
  readonly title: string;
  readonly stage: string | null;
  readonly draft: boolean;
  readonly summary: string | null;
  readonly minutes: number | null;
  readonly words: number;
  readonly blocks: number;
  readonly clips: number;
  readonly teaches: readonly string[];
  readonly uses: readonly string[];
  /** By name, each once. */
  readonly harps: readonly string[];
  /** Of its hardest block; null where no block could be read. */
  readonly difficulty: number | null;
  /** In words: `no summary`. */
  readonly lacks: readonly string[];
}

function entryOf(course: Course, lesson: Lesson): OverviewEntry {
  const { id, file, frontMatter, blocks, clips } = lesson;
  const { title, stage = null, draft, summary = null, minutes = null, teaches } = frontMatter;
  const { survey } = stepOf(course.path, id);
  const { source, prose } = readLessonText(lesson.source);
  const words = wordsIn(source, prose, course.file.language);
  const lacks = [
    ...(summary === null ? ['no summary'] : []),
    ...(minutes === null ? ['no minutes'] : []),
    ...(words === 0 ? ['no text'] : []),
    ...(blocks.length === 0 ? ['no block'] : []),
    ...(stage === null && course.file.stages.length > 0 ? ['no stage'] : []),
    // A course that teaches no technique by name is one without that check.
    ...(teaches.length === 0 && course.path.teachers.size > 0 ? ['teaches nothing'] : []),
  ];
  const uses = new Set(survey.flatMap((block) => (block?.found ?? []).map(({ technique }) => technique.id)));
  return {
    id,
    file,
    title,
    stage,
    draft,
    summary,
    minutes,
    words,
    blocks: blocks.length,
    clips: clips.length,
    teaches,
    uses: [...uses],
    harps: [...new Set(harpsOf(lesson).map(harpName))],
    difficulty: hardest(survey)?.level ?? null,
    lacks,
  };
}

function totalsOf(entries: readonly OverviewEntry[]) {
  const sum = (value: (entry: OverviewEntry) => number): number => entries.reduce((all, one) => all + value(one), 0);
  return {
    lessons: entries.length,
    drafts: sum(({ draft }) => (draft ? 1 : 0)),
    blocks: sum(({ blocks }) => blocks),
    clips: sum(({ clips }) => clips),
    words: sum(({ words }) => words),
    minutes: sum(({ minutes }) => minutes ?? 0),
  };
}

/** In characters: a table that fits a wide window. */
const WIDEST = 100;

/** The columns behind the name of the lesson: their heads, and how an entry fills them. */
const COLUMNS: readonly (readonly [head: string, cell: (entry: OverviewEntry) => string])[] = [
  ['min', ({ minutes }) => `${minutes ?? '–'}`],
  ['words', ({ words }) => `${words}`],
  ['blocks', ({ blocks }) => `${blocks}`],
  ['clips', ({ clips }) => `${clips}`],
  ['level', ({ difficulty }) => `${difficulty ?? '–'}`],
  ['teaches', ({ teaches }) => `${teaches.length}`],
  ['uses', ({ uses }) => `${uses.length}`],
];

const INDENT = 5;

function overviewInText(course: Course, entries: readonly OverviewEntry[], width: number): string {
  if (entries.length === 0) return 'This course has no lesson.\n';
  const harpsWidth = Math.max(5, ...entries.map(({ harps }) => harps.join(', ').length));
  const numbers = COLUMNS.reduce((sum, [head]) => sum + head.length + 2, 0);
  const longest = Math.max(...entries.map(({ id }) => id.length), 'lesson'.length);
  // The names get what the other columns leave; a longer one has a line of its own. Many harps run over the edge of a
  // narrow window rather than take the place of the names.
  const name = Math.min(longest, Math.max(12, width - INDENT - numbers - 2 - Math.min(harpsWidth, 14)));
  const row = (number: string, id: string, cells: readonly string[], harps: string): string =>
    `${number.padStart(3)}  ${id.padEnd(name)}${cells.map((cell, at) => `  ${cell.padStart(COLUMNS[at]?.[0].length ?? 0)}`).join('')}  ${harps}`.trimEnd();
  const lines = [
    row(
      '',
      'lesson',
      COLUMNS.map(([head]) => head),
      'harps',
    ),
  ];
  const stages = new Map(course.file.stages.map(({ id, title }) => [id, title]));
  let stage: string | null | undefined;
  for (const [index, entry] of entries.entries()) {
    if (entry.stage !== stage && stages.size > 0)
      lines.push('', stages.get(entry.stage ?? '') ?? entry.stage ?? 'No stage');
    stage = entry.stage;
    const cells = COLUMNS.map(([, cell]) => cell(entry));
    const harps = entry.harps.join(', ');
    const isLong = entry.id.length > name;
    if (isLong) lines.push(`${`${index + 1}`.padStart(3)}  ${entry.id}`);
    lines.push(row(isLong ? '' : `${index + 1}`, isLong ? '' : entry.id, cells, harps));
    const notes = [...(entry.draft ? ['draft'] : []), ...entry.lacks];
    if (notes.length > 0) lines.push(...wrap(`- ${notes.join(', ')}`, INDENT, width));
  }
  return `${[...lines, '', ...wrap(totalsInWords(entries), 0, width)].join('\n')}\n`;
}

/** `8 lessons (1 draft), 20 blocks, 2 clips, 3120 words, 140 minutes. 2 have no summary, 1 has no minutes.` */
function totalsInWords(entries: readonly OverviewEntry[]): string {
  const { lessons, drafts, blocks, clips, words, minutes } = totalsOf(entries);
  const counts = new Map<string, number>();
  for (const { lacks } of entries) for (const lack of lacks) counts.set(lack, (counts.get(lack) ?? 0) + 1);
  const lacking = [...counts].map(([lack, count]) => {
    const verb = lack.startsWith('no ') ? (count === 1 ? 'has ' : 'have ') : '';
    return `${count} ${verb}${count === 1 ? lack : lack.replace(/^teaches/, 'teach')}`;
  });
  return `${plural(lessons, 'lesson')}${drafts > 0 ? ` (${plural(drafts, 'draft')})` : ''}, ${[
    plural(blocks, 'block'),
    plural(clips, 'clip'),
    plural(words, 'word'),
    plural(minutes, 'minute'),
  ].join(', ')}.${lacking.length > 0 ? ` Of the lessons, ${lacking.join(', ')}.` : ' No lesson lacks anything.'}`;
}
