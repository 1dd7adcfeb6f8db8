/** A lesson with its blocks in their clean form. Everything around them keeps every character. */
import { placeOf, type SourcePoint } from '../diagnostics/place.ts';
import { formatBlock } from '../notation/format/format.ts';
import { itemAt } from '../values/checked.ts';
import { type BlockText, readLessonText } from './lesson-text.ts';

/** A block that was left as it is. */
export interface LeftBlock {
  /** Of its opening fence. */
  readonly at: SourcePoint;
  /** Its id, where it has one. */
  readonly id: string | undefined;
  /** How many errors it has; 0 where it could not be printed without a change of what it says, which is a fault of Reedway. */
  readonly errors: number;
}

/** A lesson, formatted. */
export interface FormattedLesson {
  readonly text: string;
  /** In the order of the lesson. */
  readonly left: readonly LeftBlock[];
}

/** Other lines for a block. */
interface NewBlock {
  readonly index: number;
  readonly block: BlockText;
  readonly lines: readonly string[];
}

/**
 * Formats the blocks of a lesson. `errorsOf` says how many errors a block has, by its number in the lesson: what only the whole course
 * knows. Errors of the block's own text are found without it.
 */
export function formatLesson(source: string, errorsOf: (index: number) => number = () => 0): FormattedLesson {
  const { blocks } = readLessonText(source);
  const left = new Map<number, number>();
  const wanted: NewBlock[] = [];
  blocks.forEach((block, index) => {
    const formatted = block.closed ? formatBlock(block.text) : { errors: 1 };
    if ('errors' in formatted) left.set(index, formatted.errors);
    else if (errorsOf(index) > 0) left.set(index, errorsOf(index));
    else if ('fault' in formatted) left.set(index, 0);
    else wanted.push({ index, block, lines: formatted.lines });
  });
  const { text, refused } = putBlocks(source, blocks, wanted);
  for (const index of refused) left.set(index, 0);
  return {
    text,
    left: blocks.flatMap(({ range, tree }, index) => {
      const errors = left.get(index);
      return errors === undefined ? [] : [{ at: range.start, id: tree.header.get('id')?.value, errors }];
    }),
  };
}

/** The lesson with these blocks, and the numbers of those that it would not have as they were given. */
function putBlocks(source: string, blocks: readonly BlockText[], formatted: readonly NewBlock[]) {
  const every = editsOf(source, formatted);
  const isChange = ({ from, to, text }: LessonEdit): boolean => source.slice(from, to) !== text;
  const edits = every.filter(isChange);
  const wanted = formatted.filter((_, place) => isChange(itemAt(every, place)));
  if (wanted.length === 0) return { text: source, refused: [] };
  const all = applied(source, edits);
  if (hasBlocks(all, blocks, wanted)) return { text: all, refused: [] };
  const kept: number[] = [];
  const refused: number[] = [];
  const only = (places: readonly number[]): string =>
    applied(
      source,
      edits.filter((_, place) => places.includes(place)),
    );
  wanted.forEach(({ index }, place) => {
    const tried = [...kept, place];
    const isRight = hasBlocks(
      only(tried),
      blocks,
      wanted.filter((_, one) => tried.includes(one)),
    );
    if (isRight) kept.push(place);
    else refused.push(index);
  });
  return { text: only(kept), refused };
}

/** Whether a lesson has the same blocks but for these, which have their new lines. */
function hasBlocks(source: string, before: readonly BlockText[], wanted: readonly NewBlock[]): boolean {
  const { blocks } = readLessonText(source);
  const lines = new Map(wanted.map((one) => [one.index, one.lines.join('\n')]));
  return (
    blocks.length === before.length &&
    blocks.every(({ text }, index) => {
      const old = before[index]?.text ?? '';
      return withPlainBreaks(text) === (lines.get(index) ?? withPlainBreaks(old));
    })
  );
}

const withPlainBreaks = (text: string): string => text.replace(/\r\n?/g, '\n');

interface LessonEdit {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** Where the lines of blocks are in the file, and what is to be there: each line with what the list or the quotation around it puts before it. */
function editsOf(source: string, wanted: readonly NewBlock[]): LessonEdit[] {
  const file = placeOf(source).lines;
  const offsetOf = (line: number): number => file[line - 1]?.offset ?? source.length;
  return wanted.map(({ block: { placed, range }, lines }) => {
    const first = range.start.line + 1;
    const from = offsetOf(first);
    const lineBreak = /\r\n|\r|\n/.exec(source.slice(offsetOf(range.start.line), from))?.[0] ?? '\n';
    const { at } = placed.lines.find((line) => {
      const begin = offsetOf(line.at.line) + line.at.column - 1;
      return /\S/.test(source.slice(begin, offsetOf(line.at.line + 1)));
    }) ?? { at: { line: first, column: 1 } };
    const prefix = source.slice(offsetOf(at.line), offsetOf(at.line) + at.column - 1);
    const text = lines.map((line) => (line === '' ? prefix.trimEnd() : prefix + line) + lineBreak).join('');
    return { from, to: offsetOf(range.end.line), text };
  });
}

function applied(source: string, edits: readonly LessonEdit[]): string {
  let at = 0;
  const parts: string[] = [];
  for (const { from, to, text } of edits) {
    parts.push(source.slice(at, from), text);
    at = to;
  }
  return parts.join('') + source.slice(at);
}
