/** Where a lesson's front matter is: between a first line of three hyphens and the next such line. */
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { certainly } from '../diagnostics/edit.ts';
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
  if (!isFence(source, first)) return none(source, missing(source, first));
  const last = closingFence(source, first);
  if (!last) {
    const odd = oddFence(source, first);
    const facts = { odd: odd !== undefined };
    return none(source, report('front-matter-unclosed', odd ?? first, facts, odd && certainly(odd, MARK)));
  }
  return { ...readYaml(source, nextLine(source, first.to), last.from), written: true };
}

/** Where the line begins that closes the front matter; undefined where there is none. */
export function frontMatterEnd(source: string): number | undefined {
  const first = lineFrom(source, 0);
  return isFence(source, first) ? closingFence(source, first)?.from : undefined;
}

/** A line that draws what is no fence, with hyphens, dashes or other signs. */
const ODD_FENCE = /^[ \t]*(?:-+|[–—]+|\++|=+|\*{3,}|_{3,}|~{3,})[ \t]*$/;
/** A key as it may begin a line of front matter. */
const KEY_LINE = /^[ \t]*["“]?[A-Za-z][\w-]*["”]?[ \t]*[:=]/;
/** Front matter is looked for so far. */
const NEAR_TOP = 3000;

/** What is there in the place of the first line of front matter. */
function missing(source: string, first: TextSpan): Diagnostic {
  const START = { from: 0, to: 0 };
  const above = /^\s*(?=---[ \t]*[\r\n])/.exec(source)?.[0].length ?? 0;
  const isKeyBelow = (line: TextSpan): boolean => KEY_LINE.test(lineText(source, nextLine(source, line.to)));
  const isIndented = above > 0 && source[above - 1] !== '\n' && source[above - 1] !== '\r';
  const isFirst = source.slice(first.from, first.to).trim() !== '';
  if (above > 0 && !(isIndented && isFirst))
    return report('front-matter-missing', START, { how: 'late' }, certainly({ from: 0, to: above }, ''));
  if (ODD_FENCE.test(source.slice(first.from, first.to)) && isKeyBelow(first)) {
    const last = closingFence(source, first) ?? oddFence(source, first);
    const edits = [first, ...(last ? [last] : [])].map((span) => ({ span, text: MARK }));
    return report('front-matter-missing', first, { how: 'odd' }, { edits, certain: last !== undefined });
  }
  const fences = [...source.slice(0, NEAR_TOP).matchAll(/^---[ \t]*$/gm)].map(({ index }) => lineFrom(source, index));
  if (fences.length > 0 && KEY_LINE.test(source.slice(first.from, first.to)))
    return report('front-matter-missing', first, { how: 'unopened' });
  const late = fences.find(isKeyBelow);
  return late
    ? report('front-matter-missing', late, { how: 'late' })
    : report('front-matter-missing', START, { how: 'none' });
}

/** The first line below another that is meant to close front matter, and does not. */
function oddFence(source: string, first: TextSpan): TextSpan | undefined {
  for (let at = nextLine(source, first.to); at < Math.min(source.length, NEAR_TOP); ) {
    const line = lineFrom(source, at);
    if (ODD_FENCE.test(source.slice(line.from, line.to))) return line;
    at = nextLine(source, line.to);
  }
  return undefined;
}

const lineText = (source: string, at: number): string => {
  const { from, to } = lineFrom(source, Math.min(at, source.length));
  return source.slice(from, to);
};

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

const none = (source: string, why: Diagnostic): FrontMatter => ({
  value: {},
  spans: new Map(),
  diagnostics: [why],
  source,
  written: false,
});

const nextLine = (source: string, lineEnd: number): number => lineEnd + (source.startsWith('\r\n', lineEnd) ? 2 : 1);
