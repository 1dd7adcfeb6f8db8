/** Where a lesson's front matter is: between a first line of three hyphens and the next such line. */
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { readYaml, type YamlRead } from '../document/yaml.ts';
import { lineFrom } from './line.ts';
import { LESSON_PROBLEMS } from './problems.ts';

/** The front matter of a lesson, read as YAML. */
export interface FrontMatter extends YamlRead {
  /** Whether there is any. */
  readonly written: boolean;
}

const report = reporter(LESSON_PROBLEMS);

const MARK = '---';
const FENCE = /^---[ \t]*$/;

/** The front matter, which begins in the first line or not at all. */
export function readFrontMatter(source: string): FrontMatter {
  const first = lineFrom(source, 0);
  if (!isFence(source, first)) {
    return none(report('front-matter-missing', { from: 0, to: 0 }, { late: /^\s*---[ \t]*[\r\n]/.test(source) }));
  }
  const last = closingFence(source, first);
  if (!last) return none(report('front-matter-unclosed', first, {}));
  return { ...readYaml(source, nextLine(source, first.to), last.from), written: true };
}

/** Where the line begins that closes the front matter; undefined where there is none. */
export function frontMatterEnd(source: string): number | undefined {
  const first = lineFrom(source, 0);
  return isFence(source, first) ? closingFence(source, first)?.from : undefined;
}

/**
 * The text below the front matter, and blanks in the place of what is above: no character changes its place. A reader of MDX would
 * look for the end of front matter in a way of its own, and what it takes for text would not have been checked.
 */
export const withoutFrontMatter = (source: string): string => withFrontMatter(source, '   ') ?? source;

/**
 * The same with front matter that says nothing, for a compiler that looks for some. Undefined where there is no front matter and the
 * compiler might find some all the same.
 */
export function withEmptyFrontMatter(source: string): string | undefined {
  return withFrontMatter(source, MARK) ?? (/^\s*(?:---|\+\+\+)/.test(source) ? undefined : source);
}

/** The text with blanks between other marks. Undefined where there is no front matter. */
function withFrontMatter(source: string, mark: string): string | undefined {
  const first = lineFrom(source, 0);
  const last = isFence(source, first) ? closingFence(source, first) : undefined;
  if (!last) return undefined;
  // Not every reader takes a carriage return alone for the end of a line.
  const blank = (from: number, to: number): string =>
    source
      .slice(from, to)
      .replace(/[^\r\n]/g, ' ')
      .replace(/\r(?!\n)/g, '\n');
  const { from, to } = last;
  return mark + blank(MARK.length, from) + mark + blank(from + MARK.length, to) + source.slice(to);
}

const isFence = (source: string, { from, to }: TextSpan): boolean => FENCE.test(source.slice(from, to));

/** The line that closes front matter which opens in the `first`. */
function closingFence(source: string, first: TextSpan): TextSpan | undefined {
  for (let at = nextLine(source, first.to); at < source.length; ) {
    const line = lineFrom(source, at);
    if (isFence(source, line)) return line;
    at = nextLine(source, line.to);
  }
  return undefined;
}

const none = (why: Diagnostic): FrontMatter => ({ value: {}, spans: new Map(), diagnostics: [why], written: false });

const nextLine = (source: string, lineEnd: number): number => lineEnd + (source.startsWith('\r\n', lineEnd) ? 2 : 1);
