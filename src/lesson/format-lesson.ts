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

/**
 * Formats the blocks of a lesson. `errorsOf` says how many errors a block has, by its number in the lesson: what only the whole course
 * knows. Errors of the block's own text are found without it.
 */
export function formatLesson(source: string, errorsOf: (index: number) => number = () => 0): FormattedLesson {
  const { blocks } = readLessonText(source);
  const left: LeftBlock[] = [];
  let text = source;
  // From the last one on, so that the places of the others hold.
  for (let index = blocks.length - 1; index >= 0; index--) {
    const block = itemAt(blocks, index);
    const leave = (errors: number): void => {
      left.unshift({ at: block.range.start, id: block.tree.header.get('id')?.value, errors });
    };
    if (!block.closed) {
      leave(1);
      continue;
    }
    const formatted = formatBlock(block.text);
    if ('errors' in formatted) leave(formatted.errors);
    else if (errorsOf(index) > 0) leave(errorsOf(index));
    else if ('fault' in formatted) leave(0);
    else if (plainBreaks(block.text) !== formatted.lines.join('\n')) {
      const changed = putBlock(text, block, formatted.lines);
      if (isBlockOf(changed, index, formatted.lines, blocks.length)) text = changed;
      else leave(0);
    }
  }
  return { text, left };
}

const plainBreaks = (text: string): string => text.replace(/\r\n?/g, '\n');

/** Whether the lesson has these lines for its block with a number. */
function isBlockOf(source: string, index: number, lines: readonly string[], count: number): boolean {
  const { blocks } = readLessonText(source);
  return blocks.length === count && plainBreaks(blocks[index]?.text ?? '') === lines.join('\n');
}

/** The lesson with other lines in a block. Each gets what the list or the quotation around the block puts before it. */
function putBlock(source: string, { placed, range }: BlockText, lines: readonly string[]): string {
  const file = placeOf(source).lines;
  const offsetOf = (line: number): number => file[line - 1]?.offset ?? source.length;
  const first = range.start.line + 1;
  const from = offsetOf(first);
  const to = offsetOf(range.end.line);
  const opening = source.slice(offsetOf(range.start.line), from);
  const lineBreak = /\r\n|\r|\n/.exec(opening)?.[0] ?? '\n';
  const filled = placed.lines.find(({ at }) =>
    /\S/.test(source.slice(offsetOf(at.line) + at.column - 1, offsetOf(at.line + 1))),
  );
  const at = filled?.at ?? { line: first, column: 1 };
  const prefix = source.slice(offsetOf(at.line), offsetOf(at.line) + at.column - 1);
  const own = lines.map((line) => (line === '' ? prefix.trimEnd() : prefix + line) + lineBreak).join('');
  return source.slice(0, from) + own + source.slice(to);
}
