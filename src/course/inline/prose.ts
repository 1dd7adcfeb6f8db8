/** What the sentences of a lesson say of the music and of words, read from its text: its components, and its headings with them. */
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';
import type { SourceRange } from '../../diagnostics/place.ts';
import { inlineText } from '../../engrave/inline/words.ts';
import { isInline, isWord } from '../../lesson/component.ts';
import type { HeadingText, LessonText } from '../../lesson/lesson-text.ts';
import type { Heading, LessonInline, LessonWord } from '../course.ts';
import type { FigureScope } from '../figures/figure.ts';
import { readInline } from './inline.ts';
import { readWord, type WordScope } from './word.ts';

/** The parts of a lesson that are within its sentences, with the problems found in them. */
export interface ProseRead {
  readonly inlines: readonly LessonInline[];
  readonly words: readonly LessonWord[];
  readonly headings: readonly Heading[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads the components within the sentences of a lesson. */
export function readProse(
  text: LessonText,
  scope: FigureScope & WordScope,
  rangeOf: (span: TextSpan) => SourceRange,
): ProseRead {
  const diagnostics: Diagnostic[] = [];
  /** What a component shows, by its place. */
  const shown = new Map<number, string>();
  const inlines = text.components.filter(isInline).map((component): LessonInline => {
    const { diagnostics: found, ...read } = readInline(component, text.source, scope);
    diagnostics.push(...found);
    if (read.inline) shown.set(component.span.from, inlineText(read.inline));
    return { range: rangeOf(component.span), ...read };
  });
  const words = text.components.filter(isWord).map((component): LessonWord => {
    const { diagnostics: found, word } = readWord(component, text.source, scope);
    diagnostics.push(...found);
    if (word) shown.set(component.span.from, word.text);
    return { range: rangeOf(component.span), word };
  });
  const headings = text.headings.map(
    ({ depth, slug, span, parts }: HeadingText): Heading => ({
      range: rangeOf(span),
      depth,
      slug,
      text: parts.map((part) => (typeof part === 'string' ? part : (shown.get(part) ?? ''))).join(''),
    }),
  );
  return { inlines, words, headings, diagnostics };
}
