/** One lesson, read on its own: its text, its front matter, and which block goes by which id. */
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import { locate, type Problem } from '../diagnostics/place.ts';
import { checkYaml } from '../document/check-yaml.ts';
import { nameMeant } from '../document/meant.ts';
import { type YamlPlaces, yamlPlaces } from '../document/yaml.ts';
import { isLessonName, lessonNameFrom } from '../lesson/lesson-name.ts';
import { type BlockText, type LessonText, readLessonText } from '../lesson/lesson-text.ts';
import { BLOCK_ID } from '../notation/header.ts';
import type { Settings } from '../notation/settings.ts';
import type { CourseFileRead } from './course-file.ts';
import { lessonIdOf, type TextFile } from './folder.ts';
import { formerStages } from './former/names.ts';
import type { LessonFrontMatter } from './lesson-schema.ts';
import { COURSE_PROBLEMS } from './problems.ts';

/** A lesson as far as its own file tells. */
export interface LessonRead {
  readonly id: string;
  readonly file: string;
  readonly text: LessonText;
  /** The course it was read for. */
  readonly head: CourseFileRead;
  readonly frontMatter: LessonFrontMatter;
  readonly places: YamlPlaces;
  readonly defaults: Settings;
  /** What hides what its front matter says of its place on the path: lines that cannot be read, or keys. */
  readonly unsure: 'lines' | 'keys' | undefined;
  readonly blocks: readonly NamedBlock[];
  /** Problems of the lesson's text, without the music of its blocks. */
  readonly problems: readonly Problem[];
}

/** A tab block of a lesson, not yet evaluated. */
export interface NamedBlock extends BlockText {
  /** As its header says, or its number from 0. */
  readonly id: string;
  readonly index: number;
}

const report = reporter(COURSE_PROBLEMS);

/** Reads one lesson; what is unchanged since `before` is reused. */
export function readLesson(
  { file, text: source }: TextFile,
  head: CourseFileRead,
  before: LessonRead | undefined,
): LessonRead {
  const same = before?.text.source === source;
  if (same && before.head === head) return before;
  const text = same ? before.text : readLessonText(source);
  const id = lessonIdOf(file).normalize();
  const { frontMatter, unsure, diagnostics } = readFront(text, head, id);
  const { blocks, problems } = nameBlocks(text, file);
  const here = (diagnostic: Diagnostic): Problem => locate(diagnostic, file, text.placed);
  return {
    id,
    file,
    text,
    head,
    frontMatter,
    places: yamlPlaces(text.frontMatter.spans, text.placed),
    defaults: { ...head.defaults, ...frontMatter.settings },
    unsure,
    blocks,
    problems: [
      ...[...nameFaults(id), ...text.diagnostics, ...text.frontMatter.diagnostics, ...diagnostics].map(here),
      ...problems,
    ],
  };
}

interface FrontRead {
  readonly frontMatter: LessonFrontMatter;
  readonly unsure: 'lines' | 'keys' | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

function readFront(text: LessonText, head: CourseFileRead, id: string): FrontRead {
  const front = text.frontMatter;
  const { value: frontMatter, wrong, diagnostics } = checkYaml(head.lessonSchema, front, { title: id }, 'lesson');
  // Front matter that is missing altogether has been reported as such.
  if (!front.written) return { frontMatter, unsure: 'lines', diagnostics: [] };
  const isMisread = front.diagnostics.some(({ code }) => code === 'yaml-syntax');
  // An unknown name may be that of any key.
  const isHidden =
    ['requires', 'teaches'].some((key) => wrong.has(key)) ||
    [...front.diagnostics, ...diagnostics].some(({ code }) => code === 'key-unknown' || code === 'key-twice');
  const unsure = isMisread ? 'lines' : isHidden ? 'keys' : undefined;
  const { stages } = head.file;
  const { stage } = frontMatter;
  const isKnown = stage === undefined || stages.some((one) => one.id === stage);
  if (isKnown || hidesStages(head)) return { frontMatter, unsure, diagnostics };
  const span = front.spans.get('stage')?.value ?? { from: 0, to: 0 };
  const meant = nameMeant(stage, stages, formerStages(head.file));
  const facts = { stage, ...meant, known: stages.map((one) => one.id) };
  return { frontMatter, unsure, diagnostics: [...diagnostics, report('stage-unknown', span, facts)] };
}

/** Whether the stages of a course are not known, for a reason that is reported once. */
const hidesStages = ({ text, file, wrong, problems }: CourseFileRead): boolean =>
  text === undefined ||
  wrong.has('stages') ||
  problems.some(({ code, severity }) => code === 'yaml-syntax' || (file.stages.length === 0 && severity === 'error'));

function nameFaults(id: string): Diagnostic[] {
  return id.split('/').flatMap((name) => {
    if (isLessonName(name)) return [];
    return report('lesson-name', { from: 0, to: 0 }, { name, suggestion: lessonNameFrom(name) });
  });
}

/** A block goes by the id in its header, or else by its number. Whether the id is well-formed is the notation's affair. */
function nameBlocks(text: LessonText, file: string): { blocks: NamedBlock[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const lines = new Map<string, number>();
  const blocks = text.blocks.map((block, index): NamedBlock => {
    const written = block.tree.header.get('id');
    const line = lines.get(written?.value ?? '');
    if (!written || !BLOCK_ID.test(written.value)) return { ...block, id: `${index}`, index };
    if (line === undefined) {
      lines.set(written.value, block.range.start.line);
      return { ...block, id: written.value, index };
    }
    problems.push(locate(report('block-twice', written.valueSpan, { id: written.value, line }), file, block.placed));
    return { ...block, id: `${index}`, index };
  });
  return { blocks, problems };
}
