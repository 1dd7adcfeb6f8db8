/** The words in brackets behind a note, read as marks. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { type Known, nearest } from '../diagnostics/nearest.ts';
import { isMarkName, MARK_NAMES, type Mark, type SmallNote, takesHole, takesNote } from '../score/mark.ts';
import type { Mouth } from '../score/score.ts';
import { nameOfText } from './characters.ts';
import { report } from './problems.ts';
import { OTHER_MARK_WORDS } from './suggestions.ts';

const MOUTHS: readonly Mouth[] = ['lips', 'tongue'];
const KNOWN_MARKS: readonly Known[] = [...MARK_NAMES, ...MOUTHS, ...OTHER_MARK_WORDS];

/** What is named beside a mark. */
export interface BesideMark {
  readonly hole: string | undefined;
  readonly small: SmallNote | undefined;
}

/** The mark that a word means; reported, and undefined, where it means none or where what it names is missing. */
export function readMark(
  word: string,
  { hole, small }: BesideMark,
  span: TextSpan,
  diagnostics: Diagnostic[],
): Mark | undefined {
  if (!isMarkName(word)) {
    diagnostics.push(report('mark-unknown', span, { text: nameOfText(word), nearest: nearest(word, KNOWN_MARKS) }));
    return undefined;
  }
  if (takesNote(word)) {
    if (small) return { name: word, note: small };
    diagnostics.push(report('mark-grace', span, {}));
    return undefined;
  }
  if (!takesHole(word)) return { name: word };
  if (hole !== undefined) return { name: word, hole: Number(hole) };
  diagnostics.push(report('mark-shake', span, {}));
  return undefined;
}
