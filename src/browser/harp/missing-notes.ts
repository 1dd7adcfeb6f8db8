/** What a block says below it of notes that the student's harp has not got. */
import { printedPitch } from '../../instrument/pitch.ts';
import type { Replaced } from '../../score/harp/relocate.ts';
import { listInWords } from '../../texts/list.ts';
import { harpText } from '../texts/harp.ts';

/** Bars that are named; the rest are counted. */
const MOST_BARS = 6;

/** The sentence that names them, bar by bar. */
export function missingNotes(replaced: readonly Replaced[]): string {
  const byBar = [...Map.groupBy(replaced, ({ bar }) => bar)];
  const bars = byBar.slice(0, MOST_BARS).map(([bar, own]) => {
    const notes = new Set(
      own.map(({ wanted, given }) => harpText('insteadOf', { given: inWords(given), wanted: inWords(wanted) })),
    );
    return harpText('inBar', { bar, notes: [...notes].join(', ') });
  });
  const others = byBar.slice(MOST_BARS).reduce((sum, [, own]) => sum + own.length, 0);
  const all = others > 0 ? [...bars, harpText('more', { count: others })] : bars;
  return harpText('notOnHarp', { bars: all.join('; ') });
}

const inWords = (pitches: Replaced['wanted']): string => listInWords(pitches.map(printedPitch));
