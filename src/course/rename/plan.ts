/** What a rename changes: every file with its edits, worked out before anything is written. */
import type { TextEdit } from '../../diagnostics/diagnostic.ts';
import { applyEdits, editsInOrder } from '../../diagnostics/edit.ts';
import { type Problem, placeOf, pointAt, type SourcePoint } from '../../diagnostics/place.ts';
import type { Course } from '../course.ts';
import { bytesBehind, encodeLike, type FileChange } from '../edits/change.ts';
import type { Files } from '../files.ts';
import { LESSONS } from '../folder.ts';
import { editOfLink, placesAfter, type Renaming } from './links.ts';
import { mentionsIn } from './mentions.ts';
import { isSameName, ownName } from './name.ts';
import { formerRecord } from './record.ts';

/** A file that a rename changes. */
export interface RenamedFile {
  /** Relative to the course folder, as it is called before. */
  readonly file: string;
  /** As it is called afterwards: another name for the file of a renamed lesson. */
  readonly to: string;
  readonly before: string;
  /** In the order of their places; none for a file that only gets another name. */
  readonly edits: readonly TextEdit[];
  readonly after: string;
}

/** The same as bytes of the files in which the course was read. */
export const fileChanges = (files: Files, changes: readonly RenamedFile[]): FileChange[] =>
  changes.map(({ file, to, before: text, after }) => {
    const before = bytesBehind(files, file, text) ?? Buffer.from(text);
    return { file, to, before, after: encodeLike(before, after) };
  });

/** Where the edits of each of these files are. */
export const placesOfEdits =
  (changes: readonly RenamedFile[]) =>
  ({ file }: Pick<FileChange, 'file'>): SourcePoint[] => {
    const change = changes.find((one) => one.file === file);
    if (!change) return [];
    const placed = placeOf(change.before);
    return change.edits.map(({ span }) => pointAt(placed, span.from));
  };

/** A rename, worked out. */
export interface RenamePlan extends Renaming {
  readonly changes: readonly RenamedFile[];
  /** Those of the edits that no check of the course would miss: the record of the old name, and links that lead there in spite of their path. */
  readonly unchecked: readonly TextEdit[];
}

/** A place that stands in the way of a rename: `lessons/first.mdx:3:5`, and why. */
export interface Obstacle {
  readonly place: string;
  readonly why: string;
}

/** A plan, or what stands in its way. */
export type Planned = { readonly plan: RenamePlan } | { readonly obstacles: readonly Obstacle[] };

/**
 * Errors that hide names: what is behind them was not read, or not as it is meant, so that a name in it would keep its old form.
 */
export const HIDING: ReadonlySet<string> = new Set([
  'block-lost', 'block-twice', 'bracket-unclosed', 'clip-cues', 'component-key', 'component-unknown', 'course-file-missing', 'fence-settings',
  'fence-unclosed', 'fence-word', 'file-control-character', 'file-not-utf8', 'file-too-long', 'file-unreadable', 'front-matter-missing',
  'front-matter-unclosed', 'group-crossed', 'header-late', 'header-twice', 'header-unknown', 'key-reserved', 'key-twice', 'key-unknown',
  'lesson-expression', 'lesson-twice', 'mdx-syntax', 'phrase-twice', 'phrase-without-name', 'quote-unreadable', 'technique-twice',
  'value-wrong', 'yaml-syntax',
]); // biome-ignore format: a list to read across

/** The errors of a course that may hide names. */
export const hidingErrors = ({ problems }: Course): readonly Problem[] =>
  problems.filter(({ severity, code }) => severity === 'error' && HIDING.has(code));

/** Works out a rename. Nothing is read from the disk or written to it. */
export function planRename(course: Course, renaming: Renaming): Planned {
  const { from, to } = renaming;
  const edits = new Map<string, TextEdit[]>();
  const obstacles: Obstacle[] = [];
  const add = (file: string, edit: TextEdit): void => {
    edits.set(file, [...(edits.get(file) ?? []), edit]);
  };
  const stop = (file: string, at: number, why: string): void => {
    const { line, column } = pointAt(placeOf(course.sources.get(file) ?? ''), at);
    obstacles.push({ place: `${file}:${line}:${column}`, why });
  };
  const unchecked: TextEdit[] = [];
  const mentions = mentionsIn(course);
  for (const { file, named, span, exact } of mentions.names) {
    if (!isSameName(named, from)) continue;
    if (exact) add(file, { span, text: quotedIfNeeded(course.sources.get(file) ?? '', span.from, ownName(to)) });
    else stop(file, span.from, UNPLACED);
  }
  const places = placesAfter(course, renaming);
  for (const mention of mentions.links) {
    const edit = editOfLink(mention, course, renaming, places);
    if (edit === 'unplaced') stop(mention.file, mention.span.from, UNPLACED);
    else if (edit === 'unwritable') stop(mention.file, mention.span.from, CAPTURED);
    else if (edit) {
      add(mention.file, edit.edit);
      if (!edit.isNeeded) unchecked.push(edit.edit);
    }
  }
  const record = formerRecord(course, renaming);
  for (const edit of record?.edits ?? []) add(record?.file ?? '', edit);
  if (record && !record.edits) stop(record.file, 0, UNRECORDED);
  if (obstacles.length > 0) return { obstacles };
  const moved = from.kind === 'lesson' && to.kind === 'lesson' ? course.byId.get(from.lesson)?.file : undefined;
  const files = [...new Set([...(moved === undefined ? [] : [moved]), ...edits.keys()])].sort();
  const changes = files.map((file): RenamedFile => {
    const before = course.sources.get(file) ?? '';
    const own = editsInOrder(edits.get(file) ?? []);
    const target = file === moved ? `${LESSONS}/${ownName(to)}.mdx` : file;
    return { file, to: target, before, edits: own, after: applyEdits(before, own) };
  });
  return { plan: { ...renaming, changes, unchecked: [...unchecked, ...(record?.edits ?? [])] } };
}

const UNPLACED = 'The name is written here with escapes, entities or comments. Write it letter for letter first.';
const UNRECORDED =
  'The old name cannot be added to what is written under “formerly”. Write it there as a list in brackets first.';
const CAPTURED = 'This link would lead somewhere else then, whatever it is written like. Choose another name.';

/** In YAML, null without quotation marks is no text. */
const quotedIfNeeded = (source: string, at: number, name: string): string =>
  name === 'null' && /[\s[,]/.test(source[at - 1] ?? '') ? `"${name}"` : name;
