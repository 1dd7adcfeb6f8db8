/** `reedway techniques`: what the blocks of a lesson take, with the very notes. */
import type { Block, Course, Lesson } from '../../course/course.ts';
import { stepOf } from '../../curriculum/curriculum.ts';
import type { BlockSurvey } from '../../curriculum/survey.ts';
import { CATALOGUE } from '../../technique/catalogue.ts';
import { VOCABULARY } from '../../technique/vocabulary.ts';
import { askedBlocks, type NamedBlocks, namedBlocks, reportBroken, textOfBlocks } from '../block/named-blocks.ts';
import { type Command, type Terminal, textOption, UsageError } from '../command.ts';
import { wrap } from '../terminal/wrap.ts';
import { COURSE_OPTION, readCourse } from './check.ts';
import { AS_OPTION, INPUT_ABOUT, STANDARD_INPUT } from './standard-input.ts';
import { placesInText, techniquePlaces } from './technique-places.ts';
import { isTechnique, printUses } from './technique-uses.ts';

export const command: Command = {
  arguments: [
    {
      name: 'NAME',
      completes: 'lesson',
      about:
        'A lesson or a block of one (LESSON/BLOCK): the techniques that it uses. Or the id of a technique: all its uses in the course. Default: list the techniques of the course. ' +
        INPUT_ABOUT,
    },
  ],
  options: {
    uses: {
      type: 'string',
      value: 'ID',
      completes: CATALOGUE.map(({ id }) => id),
      about: 'All uses of this technique, also where a lesson has the same name.',
    },
    course: COURSE_OPTION,
    as: AS_OPTION,
    json: {
      type: 'boolean',
      about:
        'Print an array of blocks with their techniques, or of techniques; for one technique an object with id, title, taughtIn and uses, an array of lesson, block, index, file, line, difficulty and places.',
    },
    words: { type: 'boolean', about: 'Print the words of rules in techniques.yaml, with their meaning.' },
  },
  about:
    'Finds the techniques that blocks use, note by note, and shows how hard each block is, from 0 to 10, and why; or all blocks of the course that use one technique, with the line of each and the bars.',
  async run({ arguments: [name], options }, terminal) {
    const json = options['json'] === true;
    if (options['words']) {
      if (name !== undefined || json || options['uses'] !== undefined)
        throw new UsageError('--words cannot be combined with other arguments.');
      terminal.out(wordsInText());
      return 0;
    }
    if (name === STANDARD_INPUT && options['uses'] === undefined)
      return printTechniques(await askedBlocks(name, options, terminal), json, terminal);
    if (options['as'] !== undefined) throw new UsageError('--as goes with the argument -.');
    const asked = textOption(options, 'uses');
    if (asked !== undefined && name !== undefined)
      throw new UsageError(`“${name}” is one argument too many: --uses names the technique.`);
    const course = readCourse(textOption(options, 'course'), terminal);
    if (asked !== undefined) return printUses(course, asked, json, terminal);
    const print = (data: readonly object[]) => terminal.out(`${JSON.stringify(data, null, 2)}\n`);
    if (name === undefined) {
      if (json) print(course.repertoire.techniques);
      else terminal.out(listInText(course));
      return 0;
    }
    if (isTechnique(course, name)) {
      if (!course.byId.has(name)) return printUses(course, name, json, terminal);
      terminal.err(
        `${name} is a lesson and a technique. This is the lesson; --uses ${name} lists the uses of the technique.\n`,
      );
    }
    const found = namedBlocks(course, name, terminal, techniqueIds(course));
    return printTechniques({ course, found }, json, terminal);
  },
};

/** Prints the techniques of blocks. The exit code: 1 where one of them has an error. */
function printTechniques(
  { course, found }: { readonly course: Course; readonly found: NamedBlocks },
  json: boolean,
  terminal: Terminal,
): number {
  const { survey } = stepOf(course.path, found.lesson.id);
  const surveyOf = ({ index }: Block): BlockSurvey | undefined => survey[index];
  terminal.out(
    json
      ? `${JSON.stringify(
          found.blocks.map((block) => blockAsData(found.lesson, block, surveyOf(block))),
          null,
          2,
        )}\n`
      : textOfBlocks(found, (block) => blockInText(found.lesson, block, surveyOf(block))),
  );
  return reportBroken(course, found, terminal);
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
      places: techniquePlaces(block, matches),
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
    lines.push(...wrap(placesInText(techniquePlaces(block, matches)), 4));
  }
  return `${lines.join('\n')}\n`;
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

const techniqueIds = ({ repertoire }: Course): string[] => repertoire.techniques.map(({ id }) => id);

function wordsInText(): string {
  const lines = VOCABULARY.flatMap(({ title, about, words }, index) => [
    ...(index === 0 ? [] : ['']),
    title,
    ...wrap(about, 2),
    ...words.flatMap(([word, meaning]) => ['', `  ${word}`, ...wrap(meaning, 4)]),
  ]);
  return `${lines.join('\n')}\n`;
}
