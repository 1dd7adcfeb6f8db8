/**
 * A course as loaded: every lesson and block read and checked, with everything wrong collected. The site is built from
 * this value alone.
 */
import type { Curriculum } from '../curriculum/curriculum.ts';
import type { Problem, SourceRange } from '../diagnostics/place.ts';
import type { YamlPlaces } from '../document/yaml.ts';
import { type Figure, harpOfFigure, isOnHarp } from '../engrave/figure/figure.ts';
import type { Inline } from '../engrave/inline/inline.ts';
import type { Form } from '../harmony/form.ts';
import type { Harp } from '../instrument/harp.ts';
import type { Tuning } from '../instrument/tuning.ts';
import type { Settings } from '../notation/settings.ts';
import type { Repertoire } from '../technique/repertoire.ts';
import type { Block } from './block.ts';
import type { Clip } from './clips/clips.ts';
import type { CourseFile } from './course-schema.ts';
import type { FormerOfCourse } from './former/names.ts';
import type { Glossary } from './inline/glossary.ts';
import type { WordLink } from './inline/word.ts';
import type { LessonFrontMatter } from './lesson-schema.ts';
import type { LinkTarget } from './link.ts';
import type { Memory } from './memory.ts';

export type { Block, Quoted } from './block.ts';

/** A course as read and checked: all that pages and commands ask about. */
export interface Course {
  /** Absolute path of the course folder. */
  readonly dir: string;
  /** What course.yaml says, with defaults filled in. */
  readonly file: CourseFile;
  /** Where course.yaml says it. */
  readonly places: YamlPlaces;
  /** What lessons start from: course.yaml's settings over the shipped ones. */
  readonly defaults: Settings;
  /** Those that ship, then the course's own. */
  readonly tunings: readonly Tuning[];
  readonly forms: readonly Form[];
  /** What lessons teach and blocks take. */
  readonly repertoire: Repertoire;
  /** What it explains. */
  readonly glossary: Glossary;
  /** How its lessons depend on each other, drafts included. */
  readonly path: Curriculum;
  /** In the order of the path, drafts included. */
  readonly lessons: readonly Lesson[];
  /** The same by id. */
  readonly byId: ReadonlyMap<string, Lesson>;
  /** Files of the media folder, relative to the course folder (`media/harp.svg`), in order. */
  readonly media: readonly string[];
  /** Files of the public folder, relative to the course folder (`public/favicon.ico`), in order. */
  readonly publicFiles: readonly string[];
  /** Names that lessons, blocks and stages had before; those of techniques are in the repertoire. */
  readonly former: FormerOfCourse;
  /** Everything wrong, in file and line order. A course with an error among them is not published. */
  readonly problems: readonly Problem[];
  /** The text of every file that was read, by its path relative to the course folder: what problems point into. */
  readonly sources: ReadonlyMap<string, string>;
  /** What the next load can take over. Only `load.ts` uses it. */
  readonly memory: Memory;
}

/** A lesson as read and checked. */
export interface Lesson {
  /** The file's name without `.mdx`, with its folders below `lessons`: its address and what others link to. */
  readonly id: string;
  /** Relative to the course folder, with forward slashes. */
  readonly file: string;
  /** The file's text without a byte order mark; line ends as they are. */
  readonly source: string;
  /** A lesson whose front matter cannot be read goes by its id and the defaults. */
  readonly frontMatter: LessonFrontMatter;
  /** Where the front matter says it, in the file. */
  readonly places: YamlPlaces;
  /** What hides what its front matter says of its place on the path: lines that cannot be read, or keys. */
  readonly unsure: 'lines' | 'keys' | undefined;
  /** What blocks of this lesson start from: its front matter over the course. */
  readonly defaults: Settings;
  readonly blocks: readonly Block[];
  /** Links, pictures and other references to files and addresses, in the order written. */
  readonly links: readonly Link[];
  /** In the order of the lesson. */
  readonly figures: readonly LessonFigure[];
  /** In the order of the lesson. */
  readonly clips: readonly LessonClip[];
  /** In the order of the lesson. */
  readonly inlines: readonly LessonInline[];
  /** In the order of the lesson. */
  readonly words: readonly LessonWord[];
  readonly headings: readonly Heading[];
}

/** A heading of a lesson. */
export interface Heading {
  readonly range: SourceRange;
  readonly depth: number;
  /** Without markup, with what its components say on the lesson's harp. */
  readonly text: string;
  /** Its anchor on the page. */
  readonly slug: string;
}

/** A component that says something of the music, and where it is written. */
export interface LessonInline {
  readonly range: SourceRange;
  /** Undefined where it has an error. */
  readonly inline: Inline | undefined;
  readonly follows: boolean;
}

/** A component that links to what a word means, and where it is written. */
export interface LessonWord {
  readonly range: SourceRange;
  /** Undefined where it has an error. */
  readonly word: WordLink | undefined;
}

/** A figure of a lesson, and where it is written. */
export interface LessonFigure {
  readonly range: SourceRange;
  /** Undefined where it has an error. */
  readonly figure: Figure | undefined;
}

/** A clip of a lesson, and where it is written. */
export interface LessonClip {
  readonly range: SourceRange;
  /** Undefined where it has an error. */
  readonly clip: Clip | undefined;
}

/** A link of a lesson, and what it leads to. */
export interface Link {
  /** As written. */
  readonly url: string;
  readonly range: SourceRange;
  readonly target: LinkTarget;
}

/** The harps of a lesson's blocks and figures, each as often as it is used. */
export const harpsOf = ({ blocks, figures }: Lesson): readonly Harp[] => [
  ...blocks.flatMap(({ score }) => score?.harp ?? []),
  ...figures.flatMap(({ figure }) => (figure && isOnHarp(figure) ? harpOfFigure(figure) : [])),
];

/** Whether a course may be published. */
export const isPublishable = ({ problems }: Pick<Course, 'problems'>): boolean =>
  !problems.some(({ severity }) => severity === 'error');

/** The block of a lesson with an id, or the number of one that has none. */
export const blockNamed = (lesson: Lesson, id: string): Block | undefined =>
  lesson.blocks.find((block) => block.id === id);
