/** The blocks of all lessons, understood: each against its lesson's settings and the blocks it quotes. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { type FormerNames, nearestNow } from '../diagnostics/nearest.ts';
import { type Placed, pointAt, type SourceRange } from '../diagnostics/place.ts';
import type { FoundBlock, ReadContext } from '../notation/context.ts';
import { type Evaluated, evaluate } from '../notation/evaluate.ts';
import { quotationName } from '../notation/quotation/quotation.ts';
import type { BlockTree, Item } from '../notation/tree.ts';
import type { Score } from '../score/score.ts';
import { itemAt } from '../values/checked.ts';
import type { CourseFileRead } from './course-file.ts';
import { formerIn } from './former/names.ts';
import type { LessonRead, NamedBlock } from './lesson.ts';

/** A tab block of a lesson, read and evaluated. */
export interface Block {
  /** As the header says, or the block's number in the lesson from 0. */
  readonly id: string;
  /** The block's number in the lesson, from 0. */
  readonly index: number;
  /** The fenced code as it reads in Markdown: without the indentation of a list or quotation around it. */
  readonly text: string;
  readonly placed: Placed;
  /** The whole fence in the file. */
  readonly range: SourceRange;
  readonly tree: BlockTree;
  /** Undefined where the block has an error. */
  readonly score: Score | undefined;
  /** The blocks it quotes that exist, each once, in the order written. */
  readonly quotes: readonly Quoted[];
}

/** A block that another one quotes. */
export interface Quoted {
  readonly lesson: string;
  readonly block: string;
  /** The quotation, in the file. */
  readonly range: SourceRange;
}

/** A block with the problems found in it. */
export interface BlockRead {
  readonly block: Block;
  /** Spans count from the start of the block's text. */
  readonly diagnostics: readonly Diagnostic[];
  /** What it was read against. */
  readonly context: ReadContext;
  /** The trees its quotations led to; undefined where one led nowhere. */
  readonly found: readonly (BlockTree | undefined)[];
}

/** All blocks of a course, by their trees. */
export interface BlocksRead {
  readonly blocks: ReadonlyMap<BlockTree, BlockRead>;
  /** What the blocks of a lesson are read against, and its figures. */
  readonly contextOf: (lesson: LessonRead) => ReadContext;
}

/** Reads every block, or takes it over from before if neither it nor anything it builds on has changed. */
export function readBlocks(
  lessons: readonly LessonRead[],
  head: CourseFileRead,
  before: ReadonlyMap<BlockTree, BlockRead>,
): BlocksRead {
  const byId = new Map(lessons.map((lesson) => [lesson.id, lesson] as const).reverse());
  const former = formerIn(lessons);
  const contexts = new Map<LessonRead, ReadContext>();
  const known = new Map<BlockTree, boolean>();
  const read = new Map<BlockTree, BlockRead>();
  /** The blocks of all lessons by their names, once one is missing. */
  let holders: Map<string, { readonly id: string; readonly block: string }[]> | undefined;
  for (const lesson of lessons) {
    for (const block of lesson.blocks) {
      const earlier = before.get(block.tree);
      read.set(block.tree, earlier && unchanged(block.tree, lesson) ? earlier : readAnew(block, lesson));
    }
  }
  return { blocks: read, contextOf };

  function contextOf(lesson: LessonRead): ReadContext {
    const made = contexts.get(lesson) ?? {
      ...head.tables,
      defaults: lesson.defaults,
      find: (id = lesson.id, block) => find(id, block),
      otherMeaning: (name) => otherMeaning(name, lesson),
    };
    contexts.set(lesson, made);
    return made;
  }

  function look(lessonId: string, blockId: string): { lesson: LessonRead; block: NamedBlock } | FoundBlock {
    const lesson = byId.get(lessonId);
    if (!lesson) return { missing: 'lesson', ...near(lessonId, byId.keys(), former.lessons) };
    const block = lesson.blocks.find((one) => one.id === blockId);
    if (!block) {
      const ids = lesson.blocks.map((one) => one.id);
      const only = onlyLessonOf(blockId);
      return {
        missing: 'block',
        ...near(blockId, ids, former.blocks.get(lessonId)),
        ...(only === undefined ? {} : { elsewhere: only }),
      };
    }
    return { lesson, block };
  }

  /** The only lesson with a block of this name. A number is a place in its lesson, and no name. */
  function onlyLessonOf(blockId: string): string | undefined {
    if (/^\d+$/.test(blockId)) return undefined;
    holders ??= Map.groupBy(
      lessons.flatMap(({ id, blocks }) => blocks.map((block) => ({ id, block: block.id }))),
      ({ block }) => block,
    );
    const [first, ...others] = holders.get(blockId) ?? [];
    return others.length === 0 ? first?.id : undefined;
  }

  function find(lessonId: string, blockId: string): FoundBlock {
    const found = look(lessonId, blockId);
    return 'lesson' in found ? { tree: found.block.tree, context: contextOf(found.lesson) } : found;
  }

  function otherMeaning(name: string, { blocks }: LessonRead): string | undefined {
    const holder = blocks.find(({ tree }) => tree.phrases.has(name));
    if (holder) return quotationName({ block: holder.id, phrase: name });
    return blocks.some(({ id }) => id === name) ? quotationName({ block: name }) : undefined;
  }

  /** Whether a block, its lesson's settings and everything it quotes are what they were. */
  function unchanged(tree: BlockTree, lesson: LessonRead): boolean {
    const answer = known.get(tree);
    if (answer !== undefined) return answer;
    // Met again while it is being read: a cycle, which is read again.
    known.set(tree, false);
    const earlier = before.get(tree);
    const same =
      earlier?.context.defaults === lesson.defaults &&
      earlier.context.tunings === head.tables.tunings &&
      earlier.context.forms === head.tables.forms &&
      // What is not there may be suggested from anywhere.
      earlier.diagnostics.every(({ code }) => code !== 'quote-unknown') &&
      quotationsOf(tree, lesson).every((quote, index) => {
        const found = look(quote.lesson, quote.block);
        return (
          'lesson' in found && found.block.tree === earlier.found[index] && unchanged(found.block.tree, found.lesson)
        );
      });
    known.set(tree, same);
    return same;
  }

  function readAnew({ id, index, text, placed, range, tree, closed }: NamedBlock, lesson: LessonRead): BlockRead {
    const context = contextOf(lesson);
    const { score, diagnostics } = closed ? evaluate(tree, context) : UNCLOSED;
    const quotations = quotationsOf(tree, lesson);
    const found = quotations.map((quote) => look(quote.lesson, quote.block));
    const quotes = quotations.flatMap(({ lesson, block, span }, place): Quoted[] => {
      const at: SourceRange = { start: pointAt(placed, span.from), end: pointAt(placed, span.to) };
      return 'lesson' in itemAt(found, place) ? [{ lesson, block, range: at }] : [];
    });
    return {
      block: { id, index, text, placed, range, tree, score, quotes },
      diagnostics,
      context,
      found: found.map((one) => ('lesson' in one ? one.block.tree : undefined)),
    };
  }
}

/** That its fence is not closed has been reported. */
const UNCLOSED: Evaluated = { score: undefined, diagnostics: [] };

const near = (
  word: string,
  known: Iterable<string>,
  former: FormerNames | undefined,
): { nearest?: string; renamed?: true } => {
  const { nearest, ...more } = nearestNow(word, known, former);
  return nearest === undefined ? {} : { nearest, ...more };
};

interface Quotation {
  readonly lesson: string;
  readonly block: string;
  readonly span: TextSpan;
}

/** The blocks a tree of a lesson quotes, in its music or in a phrase, each where it is first quoted. */
function quotationsOf(tree: BlockTree, own: LessonRead): Quotation[] {
  const first = new Map<string, Quotation>();
  const gather = (items: readonly Item[]): void => {
    for (const item of items) {
      if (item.kind === 'group') gather(item.items);
      if (item.kind !== 'quote' || item.block === undefined) continue;
      const { lesson = own.id, block, span } = item;
      const name = `${lesson}/${block}`;
      if (!first.has(name)) first.set(name, { lesson, block, span });
    }
  };
  for (const phrase of tree.phrases.values()) gather(phrase.items);
  gather(tree.music);
  return [...first.values()].sort((a, b) => a.span.from - b.span.from);
}
