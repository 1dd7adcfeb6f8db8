/** `reedway techniques`: what the blocks of a lesson take, with the very notes. */
import type { Block, Course, Lesson } from '../../course/course.ts';
import { stepOf } from '../../curriculum/curriculum.ts';
import type { BlockSurvey } from '../../curriculum/survey.ts';
import { tabOfNotes } from '../../instrument/playable.ts';
import { isSoundEvent } from '../../score/queries.ts';
import type { Bar, Sound } from '../../score/score.ts';
import type { Match } from '../../technique/detect.ts';
import { VOCABULARY } from '../../technique/vocabulary.ts';
import { NAMED, namedBlocks, reportBroken, textOfBlocks } from '../block/named-blocks.ts';
import { type Command, textOption, UsageError } from '../command.ts';
import { wrap } from '../terminal/wrap.ts';
import { COURSE_OPTION, readCourse } from './check.ts';

export const command: Command = {
  arguments: [{ ...NAMED, required: false, about: `${NAMED.about} Default: list the techniques of the course.` }],
  options: {
    course: COURSE_OPTION,
    json: { type: 'boolean', about: 'Print an array of blocks with their techniques, or of techniques.' },
    words: { type: 'boolean', about: 'Print the words of rules in techniques.yaml, with their meaning.' },
  },
  about: 'Finds the techniques that blocks use, note by note, and shows how hard each block is, from 0 to 10, and why.',
  run({ arguments: [name], options }, terminal) {
    const json = options['json'] === true;
    if (options['words']) {
      if (name !== undefined || json) throw new UsageError('--words cannot be combined with other arguments.');
      terminal.out(wordsInText());
      return 0;
    }
    const course = readCourse(textOption(options, 'course'), terminal);
    const print = (data: readonly object[]) => terminal.out(`${JSON.stringify(data, null, 2)}\n`);
    if (name === undefined) {
      if (json) print(course.repertoire.techniques);
      else terminal.out(listInText(course));
      return 0;
    }
    const found = namedBlocks(course, name, terminal);
    const { survey } = stepOf(course.path, found.lesson.id);
    if (json) print(found.blocks.map((block) => blockAsData(found.lesson, block, survey[block.index])));
    else terminal.out(textOfBlocks(found, (block) => blockInText(found.lesson, block, survey[block.index])));
    return reportBroken(course, found, terminal);
  },
};

/** One place where a technique is found, in the words of a block. */
interface Place {
  /** Bar numbers as musicians count; none for the block as a whole. */
  readonly bar: number | null;
  /** Of the event to point at. */
  readonly at: number | null;
  readonly events: readonly number[];
  /** The notes as tab, in the order they are played. */
  readonly notes: string;
}

function placesOf(block: Block, matches: readonly Match[]): Place[] {
  const where = new Map<number, { bar: Bar; sound: Sound }>();
  for (const bar of block.score?.bars ?? []) {
    for (const event of bar.events) if (isSoundEvent(event)) where.set(event.index, { bar, sound: event });
  }
  return matches.map(({ events, at }) => {
    const sounds = events.flatMap((event) => where.get(event)?.sound ?? []);
    const struck = sounds.filter(({ tied }, index) => !tied || index === 0);
    return {
      bar: (at === undefined ? undefined : where.get(at)?.bar.number) ?? null,
      at: at ?? null,
      events,
      notes: struck.map(({ notes, breath }) => tabOfNotes(notes, breath)).join(' '),
    };
  });
}

function blockAsData(lesson: Lesson, block: Block, survey: BlockSurvey | undefined): object {
  const place = { lesson: lesson.id, block: block.id, index: block.index };
  if (!survey) return { ...place, difficulty: null, techniques: null };
  const { level, parts } = survey.difficulty;
  return {
    ...place,
    difficulty: { level, parts },
    techniques: survey.found.map(({ technique, matches }) => ({
      id: technique.id,
      title: technique.title,
      taughtHere: lesson.frontMatter.teaches.includes(technique.id),
      places: placesOf(block, matches),
    })),
  };
}

function blockInText(lesson: Lesson, block: Block, survey: BlockSurvey | undefined): string {
  const name = `${lesson.id}/${block.id}${block.id === `${block.index}` ? '' : ` (block ${block.index})`}`;
  if (!survey) return `${name}\nThis block has an error.\n`;
  const { level, parts } = survey.difficulty;
  const lines = [`${name}: difficulty ${level} of 10`];
  for (const { words, points } of parts) lines.push(`  ${points.toFixed(1)}  ${words}`);
  for (const { technique, matches } of survey.found) {
    lines.push('', `  ${technique.id} (${technique.title})`);
    lines.push(...wrap(placesInText(placesOf(block, matches)), 4));
  }
  return `${lines.join('\n')}\n`;
}

/** `Bar 1: -4', -4'. Bar 3: -4'.` */
function placesInText(places: readonly Place[]): string {
  const bars = new Map<number | null, string[]>();
  for (const { bar, notes } of places) bars.set(bar, [...(bars.get(bar) ?? []), notes]);
  return [...bars]
    .map(([bar, notes]) => (bar === null ? 'The whole block.' : `Bar ${bar}: ${notes.join(', ')}.`))
    .join(' ');
}

function listInText({ repertoire, path }: Course): string {
  const lines: string[] = [];
  let group: string | undefined;
  const groups = [...new Set(repertoire.techniques.map((technique) => technique.group))];
  for (const technique of groups.flatMap((one) => repertoire.techniques.filter((other) => other.group === one))) {
    if (technique.group !== group) lines.push(...(group === undefined ? [] : ['']), technique.group, '');
    group = technique.group;
    const teachers = path.teachers.get(technique.id) ?? [];
    const taught =
      teachers.length > 0 ? ` Taught in ${teachers.join(', ')}.` : technique.assumed ? ' Taken for granted.' : '';
    lines.push(`  ${technique.id} (${technique.title})`, ...wrap(`${technique.about}${taught}`, 4));
  }
  return `${lines.join('\n')}\n`;
}

function wordsInText(): string {
  const lines = VOCABULARY.flatMap(({ title, about, words }, index) => [
    ...(index === 0 ? [] : ['']),
    title,
    ...wrap(about, 2),
    ...words.flatMap(([word, meaning]) => ['', `  ${word}`, ...wrap(meaning, 4)]),
  ]);
  return `${lines.join('\n')}\n`;
}
