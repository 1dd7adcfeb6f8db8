/** The syllables of a written line, each at its note. */
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import type { Lyric, Source } from '../score/score.ts';
import { report } from './problems.ts';
import type { Syllable } from './tree.ts';

/** Gives the sounds of a written line their syllables, in order. */
export function sing(
  sounds: readonly { lyric?: Lyric }[],
  { syllables, source }: { readonly syllables: readonly Syllable[]; readonly source: Source },
  diagnostics: Diagnostic[],
): void {
  const counts = { syllables: syllables.length, notes: sounds.length };
  if (syllables.length > 0 && syllables.length < sounds.length)
    diagnostics.push(report('words-too-few', source.span, counts));
  syllables.forEach((syllable, index) => {
    const sound = sounds[index];
    if (!sound) {
      if (index === sounds.length) {
        const span = { from: syllable.span.from, to: (syllables.at(-1) ?? syllable).span.to };
        diagnostics.push(report('words-too-many', span, counts));
      }
    } else if (syllable.kind === 'text') sound.lyric = { text: syllable.text, hyphen: syllable.hyphen, extends: false };
    else if (syllable.kind === 'extend') sound.lyric = { text: '', hyphen: false, extends: true };
  });
}
