/** The words in brackets behind a note, read as marks. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { certainly, perhaps } from '../diagnostics/edit.ts';
import { type Known, nearest } from '../diagnostics/nearest.ts';
import { isMarkName, MARK_NAMES, type Mark, type SmallNote, takesHole, takesNote } from '../score/mark.ts';
import type { Mouth } from '../score/score.ts';
import { itemAt } from '../values/checked.ts';
import { nameOfText } from './characters.ts';
import { report } from './problems.ts';
import { OTHER_MARK_WORDS } from './suggestions.ts';
import type { WrittenMark } from './tree.ts';

const MOUTHS: readonly Mouth[] = ['lips', 'tongue'];
const KNOWN_MARKS: readonly Known[] = [...MARK_NAMES, ...MOUTHS, ...OTHER_MARK_WORDS];

/** A word of a bracket, and where it was written. */
export interface MarkWord {
  readonly text: string;
  readonly span: TextSpan;
}

/** Adds the marks of a bracket to those of its note, and returns the embouchure that it names. `noteAt` reads a word that is a note. */
export function readMarks(
  words: readonly MarkWord[],
  marks: WrittenMark[],
  noteAt: (span: TextSpan) => SmallNote | undefined,
  diagnostics: Diagnostic[],
): Mouth | undefined {
  let mouth: Mouth | undefined;
  for (let i = 0; i < words.length; i++) {
    const word = itemAt(words, i);
    if (word.text === 'lips' || word.text === 'tongue') {
      mouth = word.text;
      continue;
    }
    const beside: MarkWord[] = [];
    // What is beside a word that is unknown belongs to it.
    if (!isMarkName(word.text) || takesHole(word.text) || takesNote(word.text))
      for (let next = words[i + 1]; next && NOTE_LIKE.test(next.text); next = words[i + 1]) {
        beside.push(next);
        i++;
      }
    const mark = readMark(word, beside, noteAt, diagnostics);
    if (mark && marks.some((other) => other.mark.name === mark.name)) {
      diagnostics.push(report('mark-twice', word.span, { text: mark.name }));
    } else if (mark) marks.push({ mark, span: word.span });
  }
  return mouth;
}

/** A hole, or a piece of several in parentheses. */
const NOTE_LIKE = /^[-+]?\(?[-+]?\d{1,4}['"*oq]*\)?$/;

/** What is said of a word that is no mark. */
function unknownMark(text: string, span: TextSpan, beside: readonly MarkWord[]): Diagnostic {
  const near = nearest(text, KNOWN_MARKS) ?? (beside.length === 1 && /^sh?/i.test(text) ? 'shake' : undefined);
  const isShake = near === 'shake 5' && beside.length > 0;
  const meant = isShake ? 'shake' : near;
  const isCase = meant !== undefined && (meant === text.toLowerCase() || SAME_MARKS.has(text.toLowerCase()));
  const fix = meant === undefined || near === 'shake 5' ? undefined : (isCase ? certainly : perhaps)(span, meant);
  return report(
    'mark-unknown',
    span,
    { text: nameOfText(text), nearest: meant },
    isShake ? certainly(span, 'shake') : fix,
  );
}

/** Words for marks that are the same word, written in full. */
const SAME_MARKS: ReadonlySet<string> = new Set(
  'pianissimo piano forte fortissimo crescendo diminuendo ten stacc'.split(' '),
);

/** The mark that a word means; reported, and undefined, where it means none or where what it names is missing. */
function readMark(
  { text, span }: MarkWord,
  beside: readonly MarkWord[],
  noteAt: (span: TextSpan) => SmallNote | undefined,
  diagnostics: Diagnostic[],
): Mark | undefined {
  if (!isMarkName(text)) {
    diagnostics.push(unknownMark(text, span, beside));
    return undefined;
  }
  const [first, last] = [beside[0], beside.at(-1)];
  const only = beside.length === 1 ? first : undefined;
  const at = first && last ? { from: first.span.from, to: last.span.to } : span;
  const written = first && beside.map((word) => word.text).join(' ');
  if (takesNote(text)) {
    const note = only && noteAt(only.span);
    if (note) return { name: text, note };
    diagnostics.push(report('mark-grace', at, { written }));
    return undefined;
  }
  if (!takesHole(text)) return { name: text };
  if (only && /^\d+$/.test(only.text)) return { name: text, hole: Number(only.text) };
  diagnostics.push(report('mark-shake', at, { written }));
  return undefined;
}
