/** `reedway path`: the lessons of a course in their order, their dependencies, what each teaches and uses. */
import { type Course, isPublishable, type Lesson } from '../../course/course.ts';
import { stepOf } from '../../curriculum/curriculum.ts';
import type { Dependency, DependencyReason } from '../../curriculum/dependencies.ts';
import { hardest } from '../../curriculum/survey.ts';
import { type Command, UsageError } from '../command.ts';
import { wrap } from '../terminal/wrap.ts';
import { COURSE_ARGUMENT, problemReport, readCourse } from './check.ts';

export const command: Command = {
  arguments: [COURSE_ARGUMENT],
  options: {
    json: { type: 'boolean', about: 'Print the order, the lessons and their dependencies as data.' },
    dot: {
      type: 'boolean',
      about: 'Print the dependencies as a graph in the DOT language, for programs that draw such graphs.',
    },
  },
  about:
    'Prints the path of a course: its lessons in order, what each needs and why, what it teaches, and what its blocks use. Where lessons need each other in a cycle, the cycle is left out of the order and reported as an error.',
  run({ arguments: [dir], options }, terminal) {
    if (options['json'] && options['dot']) throw new UsageError('--json and --dot do not go together.');
    const course = readCourse(dir, terminal);
    const print = options['json'] ? inData : options['dot'] ? inDot : inText;
    terminal.out(print(course));
    if (isPublishable(course)) return 0;
    const problems = course.problems.filter(({ severity }) => severity === 'error');
    terminal.err(problemReport({ ...course, problems }, terminal.cwd));
    return 1;
  },
};

interface Step {
  readonly lesson: Lesson;
  /** Along the path, from 1. */
  readonly number: number;
  /** Of its hardest block; null where no block could be read. */
  readonly level: number | null;
  /** What its blocks use: techniques, and the blocks that use each. */
  readonly uses: readonly { readonly technique: string; readonly blocks: readonly string[] }[];
  /** What it needs directly; and what it opens. */
  readonly needs: readonly string[];
  readonly opens: readonly string[];
}

function stepsOf({ lessons, path }: Course): Step[] {
  return lessons.map((lesson, index) => {
    const { survey, needs, opens } = stepOf(path, lesson.id);
    const uses = new Map<string, string[]>();
    survey.forEach((block, place) => {
      for (const { technique } of block?.found ?? []) {
        uses.set(technique.id, [...(uses.get(technique.id) ?? []), lesson.blocks[place]?.id ?? '']);
      }
    });
    return {
      lesson,
      number: index + 1,
      level: hardest(survey)?.level ?? null,
      uses: [...uses].map(([technique, blocks]) => ({ technique, blocks })),
      needs,
      opens,
    };
  });
}

function inData(course: Course): string {
  const steps = stepsOf(course);
  const needs = new Map(steps.map((step) => [step.lesson.id, step.needs]));
  const data = {
    order: steps.map(({ lesson }) => lesson.id),
    lessons: steps.map(({ lesson, number, level, uses, needs, opens }) => ({
      id: lesson.id,
      number,
      title: lesson.frontMatter.title,
      stage: lesson.frontMatter.stage ?? null,
      draft: lesson.frontMatter.draft,
      difficulty: level,
      teaches: lesson.frontMatter.teaches,
      uses,
      needs,
      opens,
    })),
    edges: course.path.links.map(({ from, to, reasons }) => ({
      from,
      to,
      // Whether no longer way leads there as well.
      direct: needs.get(to)?.includes(from) === true,
      reasons: reasons.map((reason) => ({
        ...reason,
        ...('block' in reason ? { block: blockIn(course, to, reason.block) } : {}),
      })),
    })),
  };
  return `${JSON.stringify(data, null, 2)}\n`;
}

const blockIn = ({ byId }: Course, lesson: string, index: number): string =>
  byId.get(lesson)?.blocks[index]?.id ?? `${index}`;

function inText(course: Course): string {
  const links = new Map<string, Dependency[]>();
  for (const link of course.path.links) links.set(link.to, [...(links.get(link.to) ?? []), link]);
  const stages = new Map(course.file.stages.map(({ id, title }) => [id, title]));
  const lines: string[] = [];
  let stage: string | undefined;
  for (const { lesson, number, level, uses } of stepsOf(course)) {
    const { frontMatter } = lesson;
    if (frontMatter.stage !== stage)
      lines.push(`${stages.get(frontMatter.stage ?? '') ?? frontMatter.stage ?? 'No stage'}`, '');
    stage = frontMatter.stage;
    const marks = [...(level === null ? [] : [`difficulty ${level} of 10`]), ...(frontMatter.draft ? ['draft'] : [])];
    lines.push(
      `${`${number}`.padStart(3)}  ${lesson.id}: ${frontMatter.title}${marks.length > 0 ? ` (${marks.join(', ')})` : ''}`,
    );
    for (const { from, reasons } of links.get(lesson.id) ?? [])
      lines.push(...entry('after', `${from}: ${reasonsInText(course, lesson.id, reasons)}`));
    if (frontMatter.teaches.length > 0) lines.push(...entry('teaches', frontMatter.teaches.join(', ')));
    if (uses.length > 0) lines.push(...entry('uses', uses.map(({ technique }) => technique).join(', ')));
    lines.push('');
  }
  return lines.length === 0 ? 'This course has no lesson.\n' : lines.join('\n');
}

const COLUMN = 14;

/** A label, and its text in a column beside it. */
function entry(label: string, text: string): string[] {
  const [first = '', ...rest] = wrap(text, COLUMN);
  return [`     ${label}`.padEnd(COLUMN) + first.trimStart(), ...rest];
}

function reasonsInText(course: Course, lesson: string, reasons: readonly DependencyReason[]): string {
  const techniques = new Map<string, string[]>();
  const sentences: string[] = [];
  for (const reason of reasons) {
    if (reason.kind === 'requires') sentences.push('required');
    else if (reason.kind === 'quotes')
      sentences.push(`${blockIn(course, lesson, reason.block)} quotes its ${reason.quoted}`);
    else {
      const block = blockIn(course, lesson, reason.block);
      techniques.set(block, [...(techniques.get(block) ?? []), reason.technique]);
    }
  }
  for (const [block, ids] of techniques) sentences.push(`${block} uses ${ids.join(', ')}`);
  return sentences.join('; ');
}

/** Stages as clusters; dependencies that a longer path implies as well are dashed. */
function inDot(course: Course): string {
  const steps = stepsOf(course);
  const direct = new Map(steps.map(({ lesson, needs }) => [lesson.id, needs]));
  const lines = ['digraph path {', '  node [shape=box]'];
  const stages = [...new Set(course.lessons.map(({ frontMatter }) => frontMatter.stage))];
  stages.forEach((stage, index) => {
    const title = course.file.stages.find(({ id }) => id === stage)?.title;
    const inside = steps.filter(({ lesson }) => lesson.frontMatter.stage === stage);
    const nodes = inside.map(({ lesson }) => `${quoted(lesson.id)} [label=${quoted(lesson.frontMatter.title)}]`);
    if (stage === undefined) lines.push(...nodes.map((node) => `  ${node}`));
    else
      lines.push(
        `  subgraph cluster_${index} {`,
        `    label=${quoted(title ?? stage)}`,
        ...nodes.map((node) => `    ${node}`),
        '  }',
      );
  });
  for (const { from, to, reasons } of course.path.links) {
    const why = [...new Set(reasons.map((reason) => (reason.kind === 'technique' ? reason.technique : reason.kind)))];
    const style = direct.get(to)?.includes(from) ? '' : ', style=dashed';
    lines.push(`  ${quoted(from)} -> ${quoted(to)} [tooltip=${quoted(why.join(', '))}${style}]`);
  }
  return `${lines.join('\n')}\n}\n`;
}

/** A text in DOT: only quotation marks and backslashes are special in one. */
const quoted = (text: string): string => `"${text.replace(/[\\"]/g, '\\$&').replace(/[\r\n]+/g, ' ')}"`;
