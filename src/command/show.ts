/** `reedway show`: blocks as Reedway has read them, note by note. */
import type { Block, Course, Lesson } from '../course/course.ts';
import { nearest } from '../diagnostics/diagnostic.ts';
import { readCourse, told } from './check.ts';
import { type Command, type Terminal, UsageError } from './command.ts';
import { blockAsData } from './show-data.ts';
import { blockAsText } from './show-text.ts';

export const command: Command = {
  arguments: [
    {
      name: 'LESSON[/BLOCK]',
      required: true,
      about:
        'A lesson by its name, and one of its blocks by its id or by its number from 0; without a block, all of them.',
    },
  ],
  options: {
    course: { type: 'string', value: 'DIR', about: 'The folder of the course; the demo course if none is named.' },
    json: { type: 'boolean', about: 'Print an array of blocks as data.' },
  },
  about:
    'Prints blocks as Reedway has read them: for each bar and note its onset and duration (fractions of a whole note), the holes with breath and bend as tab, the pitch with its MIDI number, the chord it sounds over, its role there, the embouchure and the marks.',
  run({ arguments: [name = ''], options }, terminal) {
    const course = readCourse(options['course'] as string | undefined, terminal);
    const found = find(course, name);
    if ('missing' in found) {
      // Where the course itself cannot be read, that is what is wrong.
      if (course.lessons.length === 0) terminal.err(told(course, terminal.cwd));
      throw new UsageError(found.missing);
    }
    const { lesson, blocks } = found;
    if (options['json'])
      terminal.out(
        `${JSON.stringify(
          blocks.map((block) => blockAsData(lesson, block)),
          null,
          2,
        )}\n`,
      );
    else terminal.out(blocks.map((block) => blockAsText(lesson, block)).join('\n'));
    return reportBroken(course, lesson, blocks, terminal);
  },
};

type Found = { readonly lesson: Lesson; readonly blocks: readonly Block[] } | { readonly missing: string };

function find(course: Course, name: string): Found {
  const plain = name.replace(/^lessons\//, '').replace(/\.mdx$/, '');
  const whole = course.byId.get(plain);
  if (whole) return { lesson: whole, blocks: whole.blocks };
  const slash = plain.lastIndexOf('/');
  const lesson = slash < 0 ? undefined : course.byId.get(plain.slice(0, slash));
  if (!lesson) return { missing: missing('lesson', slash < 0 ? plain : plain.slice(0, slash), course.byId.keys()) };
  const id = plain.slice(slash + 1);
  const block =
    lesson.blocks.find((one) => one.id === id) ?? (/^\d+$/.test(id) ? lesson.blocks[Number(id)] : undefined);
  if (block) return { lesson, blocks: [block] };
  return {
    missing: missing(
      `block of ${lesson.id}`,
      id,
      lesson.blocks.map((one) => one.id),
    ),
  };
}

function missing(what: string, name: string, known: Iterable<string>): string {
  const near = nearest(name, known);
  return `There is no ${what} “${name}”.${near === undefined ? '' : ` Did you mean ${near}?`}`;
}

/** Blocks with an error have no score to show: what is wrong with them is told instead. */
function reportBroken(course: Course, lesson: Lesson, blocks: readonly Block[], terminal: Terminal): number {
  const broken = blocks.filter((block) => !block.score);
  if (broken.length === 0) return 0;
  const problems = course.problems.filter(
    ({ file, line }) =>
      file === lesson.file && broken.some(({ range }) => line >= range.start.line && line <= range.end.line),
  );
  terminal.err(told({ ...course, problems }, terminal.cwd));
  return 1;
}
