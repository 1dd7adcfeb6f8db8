/** What the sentences of a lesson say of the music and of words, read from its text: its components, and its headings with them. */
import { reporter } from '../../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';
import type { SourceRange } from '../../diagnostics/place.ts';
import { inlineText } from '../../engrave/inline/words.ts';
import { isFigure, isInline, isWord } from '../../lesson/component.ts';
import { attributeText } from '../../lesson/component-text.ts';
import type { HeadingText, LessonText } from '../../lesson/lesson-text.ts';
import { oneLine } from '../../lesson/line.ts';
import type { BlockTree } from '../../notation/tree.ts';
import type { Heading, LessonInline, LessonWord } from '../course.ts';
import type { FigureScope } from '../figures/written-figure.ts';
import { readInline } from './inline.ts';
import { plainLettersIn } from './plain-letters.ts';
import { INLINE_PROBLEMS } from './problems.ts';
import { readWord, type WordScope } from './word.ts';

const report = reporter(INLINE_PROBLEMS);

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
  if (scope.scores.length > 0)
    for (const { from, to } of text.prose)
      for (const { span, text: letters, kind } of plainLettersIn(text.source.slice(from, to))) {
        const place = { from: from + span.from, to: from + span.to };
        diagnostics.push(report('letter-in-prose', place, { text: oneLine(letters), kind }));
      }
  for (const component of text.components.filter(isFigure)) {
    const title = component.attributes.find(({ name }) => name === 'title');
    if (title) diagnostics.push(...lettersInTitle(attributeText(title), title.valueSpan, title.verbatim));
  }
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

/** What the title of a block says of a harp, in the block's own offsets. */
export function lettersInTitleOf({ header }: BlockTree): Diagnostic[] {
  const title = header.get('title');
  return title ? lettersInTitle(title.value, title.valueSpan, true) : [];
}

/** `verbatim` is whether the title is in the file letter for letter; else a problem points at all of it. */
const lettersInTitle = (title: string, { from, to }: TextSpan, verbatim: boolean): Diagnostic[] =>
  plainLettersIn(title).map(({ span, text }) =>
    report('letter-in-title', verbatim ? { from: from + span.from, to: from + span.to } : { from, to }, { text }),
  );
