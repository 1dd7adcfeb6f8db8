/** Loads a course: reads its folder, checks everything in it, and holds the result. Nothing is thrown; nothing is written. */
import { basename, resolve as resolvePath } from 'node:path';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { locate, type Problem, pointAt, type SourceRange } from '../diagnostics/place.ts';
import { fieldOf } from '../document/unknown.ts';
import { nearestPlace } from '../document/yaml.ts';
import { isClip, isFigure } from '../lesson/component.ts';
import type { BlockTree } from '../notation/tree.ts';
import type { Score } from '../score/score.ts';
import { append } from '../values/append.ts';
import { itemAt, valueAt } from '../values/checked.ts';
import { type BlockRead, type BlocksRead, readBlocks } from './block.ts';
import { cachedSurvey, type Keep } from './cached-survey.ts';
import { ALL_PROBLEMS } from './catalogue.ts';
import { CHECKS, type CheckedCourse } from './checks.ts';
import { readClips } from './clips/clips.ts';
import type { Course, Lesson, LessonFigure, Link } from './course.ts';
import { readCourseFile } from './course-file.ts';
import { readFigure } from './figures/figure.ts';
import { type Files, filesOnDisk } from './files.ts';
import { COURSE_FILE, type CourseFolder, readFolder } from './folder.ts';
import { type FormerOfCourse, formerIn, formerStages } from './former/names.ts';
import { readGlossary } from './inline/glossary.ts';
import { lettersInTitleOf, readProse } from './inline/prose.ts';
import type { WordScope } from './inline/word.ts';
import { type LessonRead, readLesson } from './lesson.ts';
import { type LessonPlaces, type Places, resolve } from './link.ts';
import { coursePath } from './path.ts';
import { COURSE_PROBLEMS } from './problems.ts';
import { withoutRepeated } from './repeated.ts';
import { settle } from './severity.ts';
import { readTechniques } from './techniques.ts';

/** How strictly a course is read, and what was read before. */
export interface LoadOptions {
  /** Warnings count as errors. */
  readonly strict?: boolean;
  /** Called as lessons are read, with how many of how many. */
  readonly progress?: (done: number, all: number) => void;
  /** What takes long to find out is kept here from one run of the program to the next. */
  readonly keep?: Keep;
}

const report = reporter(COURSE_PROBLEMS);

/**
 * Reads the course in a folder. `previous` is an earlier load of the same folder: what has not changed since is taken over
 * from it, and unchanged blocks are the same objects.
 */
export const loadCourse = (dir: string, previous?: Course, options?: LoadOptions): Course =>
  loadFrom(filesOnDisk(resolvePath(dir)), previous, options);

/** The same from files that need not be on the disk. */
export function loadFrom(files: Files, previous?: Course, options: LoadOptions = {}): Course {
  const root = files.dir;
  const memory = previous?.dir === root ? previous.memory : undefined;

  const folder = readFolder(files);
  const head = readCourseFile(folder.courseFile, basename(root) || 'Course', memory?.head);
  const glossary = readGlossary(folder.glossary, memory?.glossary);
  const techniques = readTechniques(folder.techniques, memory?.techniques);
  const read = folder.lessons.map((file, index) => {
    options.progress?.(index, folder.lessons.length);
    return readLesson(file, head, memory?.lessons.get(file.file));
  });
  const { blocks, contextOf } = readBlocks(read, head, memory?.blocks ?? new Map());
  const scoreOf = scoresOf(read, blocks);
  const former = { ...formerIn(read), stages: formerStages(head.file) };
  const places = { ...placesOf(read, folder.media, former, scoreOf), tunings: head.tables.tunings.map(({ id }) => id) };
  const { repertoire } = techniques;
  const parts = read.map((lesson) =>
    assemble(lesson, { blocks, contextOf }, scoreOf, places, folder, { repertoire, glossary }),
  );

  const unordered = parts.map((part) => part.lesson);
  const byId = new Map(unordered.map((lesson) => [lesson.id, lesson]));
  const { file, defaults, tables } = head;
  const survey = options.keep
    ? cachedSurvey(techniques.survey, { ...tables, repertoire, byId }, options.keep)
    : techniques.survey;
  const path = coursePath(unordered, file.stages, repertoire, survey);
  const lessons = path.order.map((id) => valueAt(byId, id));
  const course: CheckedCourse = {
    dir: root,
    file,
    places: head.places,
    defaults,
    tunings: tables.tunings,
    forms: tables.forms,
    repertoire,
    glossary,
    path,
    lessons,
    byId,
    media: folder.media,
    publicFiles: folder.publicFiles,
    former,
    sources: new Map(
      [folder.courseFile, folder.techniques, folder.glossary, ...folder.lessons].flatMap((one) =>
        one ? [[one.file, one.text]] : [],
      ),
    ),
  };
  const problems = settle(
    [
      ...folder.problems,
      ...head.problems,
      ...techniques.problems,
      ...glossary.problems,
      ...nameClashes(read),
      ...parts.flatMap((part) => part.problems),
      ...CHECKS.flatMap((check) => check(course)),
    ],
    {
      course: { file: COURSE_FILE, places: head.places, severity: file.severity },
      lessons: lessons.map(({ file, places, frontMatter }) => ({ file, places, allow: frontMatter.allow })),
      strict: options.strict ?? false,
    },
    ALL_PROBLEMS,
  );
  return {
    ...course,
    problems: withoutRepeated(problems, course.sources).sort(inOrder),
    memory: { head, techniques, glossary, lessons: new Map(read.map((lesson) => [lesson.file, lesson])), blocks },
  };
}

function placesOf(
  read: readonly LessonRead[],
  media: readonly string[],
  former: FormerOfCourse,
  scoreOf: ScoreOf,
): Places {
  const lessons = read.map(({ id, frontMatter: { draft }, blocks, text: { headings } }): [string, LessonPlaces] => [
    id,
    { id, draft, blocks, headings, scoreOf: (block) => scoreOf(id, block), former: former.blocks.get(id) },
  ]);
  return { lessons: new Map(lessons), media: new Set(media), former: former.lessons };
}

type ScoreOf = (lesson: string, block: string) => Score | undefined;

/** Scores by the names of their lesson and block. */
function scoresOf(read: readonly LessonRead[], blocks: ReadonlyMap<BlockTree, BlockRead>): ScoreOf {
  const byName = new Map(
    read.flatMap(({ id, blocks: named }) =>
      named.map((block) => [`${id}/${block.id}`, blocks.get(block.tree)?.block.score] as const),
    ),
  );
  return (lesson, block) => byName.get(`${lesson}/${block}`);
}

interface Part {
  readonly lesson: Lesson;
  readonly problems: readonly Problem[];
}

/** A lesson with its blocks understood and its links followed. */
function assemble(
  read: LessonRead,
  { blocks, contextOf }: BlocksRead,
  scoreOf: ScoreOf,
  places: Places,
  folder: CourseFolder,
  known: WordScope,
): Part {
  const { id, file, text, frontMatter, defaults } = read;
  const problems = [...read.problems];
  const here = (diagnostic: Diagnostic): Problem => locate(diagnostic, file, text.placed);
  const rangeOf = ({ from, to }: TextSpan): SourceRange => ({
    start: pointAt(text.placed, from),
    end: pointAt(text.placed, to),
  });
  const own = valueAt(places.lessons, id);
  const links = text.references.map((reference): Link => {
    const { target, diagnostics } = resolve(reference, own, places);
    append(problems, diagnostics.map(here));
    return { url: reference.url, range: rangeOf(reference.span), target };
  });
  const understood = read.blocks.map((block) => valueAt(blocks, block.tree));
  for (const [index, { block, diagnostics }] of understood.entries()) {
    append(
      problems,
      [...diagnostics, ...lettersInTitleOf(itemAt(read.blocks, index).tree)].map((diagnostic) =>
        locate(diagnostic, file, block.placed),
      ),
    );
  }
  const scores = understood.flatMap(({ block }) => block.score ?? []);
  const scope = { lesson: id, context: contextOf(read), scoreOf, scores };
  const figures = text.components.filter(isFigure).map((component): LessonFigure => {
    const { figure, diagnostics } = readFigure(component, scope);
    append(problems, diagnostics.map(here));
    return { range: rangeOf(component.span), figure };
  });
  const prose = readProse(text, { ...scope, ...known }, rangeOf);
  append(problems, prose.diagnostics.map(here));
  // A word that leads to a page is a link like any other: the page may be missing.
  const wordLinks = prose.words.flatMap(({ word, range }): Link[] =>
    word ? [{ url: `/${word.path}${word.rest}`, range, target: { kind: 'page', ...word } }] : [],
  );
  const clipTexts = text.components.filter(isClip);
  const clips = readClips(clipTexts, frontMatter.clips, {
    blocks: read.blocks.map((block) => block.id),
    formerBlocks: own.former,
    scoreOf: (block) => scoreOf(id, block),
    resolve: (url, span) => resolve({ url, span, use: 'play' }, own, places),
    textOf: folder.textOf,
    lengthOf: folder.lengthOf,
    // What is under clips may be in a shape without names.
    isWritten: (name) =>
      text.frontMatter.spans.has(`clips/${name}`) || Array.isArray(fieldOf(text.frontMatter.value, 'clips')),
    isCut: text.diagnostics.some(({ code }) => code === 'mdx-syntax'),
    placeOf: (path, which) => {
      const spans = nearestPlace(text.frontMatter.spans, path);
      return spans?.[which] ?? spans?.value ?? { from: 0, to: 0 };
    },
  });
  append(problems, clips.diagnostics.map(here));
  const lesson: Lesson = {
    id,
    file,
    source: text.source,
    frontMatter,
    places: read.places,
    unsure: read.unsure,
    defaults,
    blocks: understood.map(({ block }) => block),
    links: [...links, ...wordLinks],
    figures,
    clips: clipTexts.map((component, index) => ({ range: rangeOf(component.span), clip: clips.clips[index] })),
    inlines: prose.inlines,
    words: prose.words,
    headings: prose.headings,
  };
  return { lesson, problems };
}

/** Lessons whose names are the same on a machine that ignores case. */
function nameClashes(read: readonly LessonRead[]): Problem[] {
  const first = new Map<string, LessonRead>();
  return read.flatMap((lesson) => {
    const name = lesson.id.toLowerCase();
    const other = first.get(name);
    if (!other) {
      first.set(name, lesson);
      return [];
    }
    return [
      locate(
        report('lesson-twice', { from: 0, to: 0 }, { id: lesson.id, other: other.file }),
        lesson.file,
        lesson.text.placed,
      ),
    ];
  });
}

const inOrder = (a: Problem, b: Problem): number =>
  compareText(a.file, b.file) || a.line - b.line || a.column - b.column || compareText(a.code, b.code);

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
