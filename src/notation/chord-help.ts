/** What to write in place of a text that is not a chord symbol. */
import { readNumeral } from '../harmony/numeral.ts';
import { isChordSymbol } from '../harmony/symbol.ts';

/** What to write where nothing more is known of a text that is not a chord symbol. */
export const CHORD_EXAMPLES = 'Write a numeral ("IV7", "bVI7", "ii7") or a name ("A7", "F#m7b5").';

/** What is wrong with a text that is not a chord symbol, and how to write it; undefined where that cannot be seen. */
export function chordHelp(text: string): string | undefined {
  const slash = text.lastIndexOf('/');
  if (slash < 0) return undefined;
  const [before, behind] = [text.slice(0, slash), text.slice(slash + 1)];
  return readNumeral(before) ? ofHelp(before, behind) : undefined;
}

/** Behind the slash of a numeral is something other than a numeral. */
function ofHelp(before: string, behind: string): string {
  const step = /^[b♭#♯]?[IViv]+(?=.)/.exec(behind)?.[0];
  const meant = `${before}/${step}`;
  if (step !== undefined && isChordSymbol(meant)) return `Behind the slash is a numeral alone. Did you mean ${meant}?`;
  return 'Behind the slash of a numeral is one other numeral, the step it counts from: V7/V, viidim7/ii, V7/bVI.';
}
