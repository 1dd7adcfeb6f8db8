/** What the path needs to know of a lesson: a part of what a loaded course holds. */
import type { TextSpan } from '../diagnostics/diagnostic.ts';
import type { SourceRange } from '../diagnostics/place.ts';
import type { Score } from '../score/score.ts';

/** What the path needs to know of a lesson. */
export interface PathLesson {
  readonly id: string;
  readonly frontMatter: {
    readonly title: string;
    readonly stage?: string | undefined;
    readonly requires: readonly string[];
    readonly teaches: readonly string[];
    readonly order?: number | undefined;
    readonly draft: boolean;
  };
  /** The keys its front matter gives, by path. */
  readonly places: { has(path: string): boolean };
  readonly blocks: readonly PathBlock[];
}

/** What the path needs to know of a block. */
export interface PathBlock {
  readonly id: string;
  /** The block's number in the lesson, from 0. */
  readonly index: number;
  /** Undefined where the block has an error. */
  readonly score: Score | undefined;
  readonly tree: { readonly header: ReadonlyMap<string, { readonly valueSpan: TextSpan }> };
  readonly quotes: readonly PathQuote[];
}

/** A block of some lesson, quoted. */
export interface PathQuote {
  readonly lesson: string;
  readonly block: string;
  readonly range: SourceRange;
}

/** Where in a lesson something is. */
export type LessonPlace =
  /** A value of its front matter by its path: `requires/2`, `teaches/0`, `order`, `title`. */
  | { readonly frontMatter: string }
  /** A run of characters of a block's text, or the whole block. */
  | { readonly block: number; readonly span?: TextSpan }
  /** Lines and columns of its file. */
  | { readonly range: SourceRange };
