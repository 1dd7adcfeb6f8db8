/** Small courses for tests: lessons as their front matter and blocks as a teacher types them, read and surveyed. */
import { checkPath } from '../../src/curriculum/check.ts';
import { type Curriculum, curriculumOf } from '../../src/curriculum/curriculum.ts';
import type { LessonPlace, PathLesson, PathQuote } from '../../src/curriculum/lesson.ts';
import { surveyor } from '../../src/curriculum/survey.ts';
import { ALONE } from '../../src/notation/context.ts';
import { evaluate } from '../../src/notation/evaluate.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { type Repertoire, SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';

export interface Written {
  readonly stage?: string;
  readonly requires?: readonly string[];
  readonly teaches?: readonly string[];
  readonly order?: number;
  readonly draft?: boolean;
  readonly blocks?: readonly string[];
  /** Blocks quoted in the first block, as `lesson/block`. */
  readonly quotes?: readonly string[];
}

export type WrittenCourse = Readonly<Record<string, Written>>;

const RANGE = { start: { line: 9, column: 1 }, end: { line: 9, column: 2 } };

export function lessonOf(id: string, written: Written): PathLesson {
  const { stage, requires = [], teaches = [], order, draft = false } = written;
  const keys = ['title', ...Object.keys(written).filter((key) => key !== 'blocks' && key !== 'quotes')];
  const texts = written.blocks ?? (written.quotes ? ['slot: 1/1\n4'] : []);
  const blocks = texts.map((text, index) => {
    const tree = parseBlock(text);
    const { score } = evaluate(tree, ALONE);
    const quotes = (index === 0 ? (written.quotes ?? []) : []).map((quote): PathQuote => {
      const [lesson, block] = quote.split('/') as [string, string];
      return { lesson, block, range: RANGE };
    });
    return { id: `${index}`, index, score, tree, quotes };
  });
  const frontMatter = {
    title: `Lesson ${id}`,
    requires,
    teaches,
    draft,
    ...(stage === undefined ? {} : { stage }),
    ...(order === undefined ? {} : { order }),
  };
  return { id, frontMatter, places: { has: (path) => keys.includes(path) }, blocks };
}

const STAGES = ['start', 'middle', 'end'];

export function curriculum(course: WrittenCourse, repertoire: Repertoire = SHIPPED_REPERTOIRE): Curriculum {
  const lessons = Object.entries(course).map(([id, written]) => lessonOf(id, written));
  const survey = surveyor(repertoire);
  return curriculumOf({ lessons, stages: STAGES, repertoire, surveys: lessons.map(survey) });
}

/** What is found wrong, as `lesson place code`, in the order of the lessons as written. */
export function problems(course: WrittenCourse): string[] {
  return findings(course).map(
    ({ lesson, place, diagnostic }) => `${lesson} ${shown(course, lesson, place)} ${diagnostic.code}`,
  );
}

export function findings(course: WrittenCourse) {
  const stages = STAGES.map((id) => ({ id, title: `Stage ${id}` }));
  return checkPath(curriculum(course), stages);
}

function shown(course: WrittenCourse, lesson: string, place: LessonPlace): string {
  if ('frontMatter' in place) return place.frontMatter;
  if ('range' in place) return `line ${place.range.start.line}`;
  const text = course[lesson]?.blocks?.[place.block] ?? '';
  return place.span ? `${place.block}:${text.slice(place.span.from, place.span.to)}` : `${place.block}`;
}
