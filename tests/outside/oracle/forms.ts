// Progressions: the named forms and lists of one's own.
// Sources: the encyclopaedia articles on twelve-, eight- and sixteen-bar blues. Where they give I, IV, V, the quality is
// the dominant seventh (common practice).

import type { ChordSymbol } from './chords.ts';
import { plainNumeral, randomSymbol } from './chords.ts';
import type { Frac } from './frac.ts';
import { add, div, frac, mul } from './frac.ts';
import type { Random } from './random.ts';

/** One bar of a progression: its chords with how many shares of the bar each has. */
export type Measure = { symbol: ChordSymbol; shares: number }[];

const FORMS: Record<string, string> = {
  // Bars 9 and 10 are V and IV (encyclopaedia: the usual default).
  'twelve-bar': 'I I I I / IV IV I I / V IV I I',
  'twelve-bar-turnaround': 'I I I I / IV IV I I / V IV I V',
  'twelve-bar-plain': 'I I I I / IV IV I I / V V I I',
  // Bar 10: the encyclopaedia allows V or IV; IV as in `twelve-bar`.
  'quick-change': 'I IV I I / IV IV I I / V IV I I',
  'quick-change-turnaround': 'I IV I I / IV IV I I / V IV I V',
  // Chords: from memory. Sevenths: guitar and piano lessons read say i7 iv7 bVI7 V7.
  'minor-twelve-bar': 'i i i i / iv iv i i / bVI V i i',
  // Encyclopaedia "Eight-bar blues", first table; a comma joins two halves of a bar.
  'eight-bar': 'I V IV IV / I V,IV I V',
  // The same article, "Worried Life Blues".
  'eight-bar-halves': 'I I IV IV / I V I,IV I,V',
  // Encyclopaedia "Sixteen-bar blues", first adaptation: bars 1 to 4 doubled.
  'sixteen-bar': 'I I I I / I I I I / IV IV I I / V IV I I',
};
export const FORM_NAMES = Object.keys(FORMS);

export function formBars(name: string): Measure[] {
  const bars = FORMS[name]!.split(' ').filter((w) => w !== '/');
  return bars.map((bar) => bar.split(',').map((figure) => ({ symbol: plainNumeral(`${figure}7`), shares: 1 })));
}

export function randomList(
  r: Random,
  bars: number,
  tonic: number,
  minor: boolean,
  names: number,
  odd: boolean,
): Measure[] {
  const out: Measure[] = [];
  for (let i = 0; i < bars; i++) {
    const shares = r.weighted<number>([
      [1, 6],
      [2, 4],
      [4, 2],
      [3, odd ? 3 : 0.4],
      [5, 0.2],
    ]);
    const measure: Measure = [];
    for (let s = 0; s < shares; s++) {
      if (s > 0 && r.chance(shares > 2 ? 0.5 : 0.15)) measure[measure.length - 1]!.shares += 1;
      else measure.push({ symbol: randomSymbol(r, tonic, minor, names), shares: 1 });
    }
    out.push(measure);
  }
  return out;
}

export function listText(list: Measure[]): string {
  return list.map((m) => m.map((c) => c.symbol.text + ' ='.repeat(c.shares - 1)).join(' ')).join(' | ');
}

/** Where the chords of a bar begin: they share the bar evenly. */
export function spread(measure: Measure, length: Frac): { onset: Frac; symbol: ChordSymbol }[] {
  const all = measure.reduce((sum, c) => sum + c.shares, 0);
  const share = div(length, frac(all));
  let before = 0;
  return measure.map((c) => {
    const onset = mul(share, frac(before));
    before += c.shares;
    return { onset: add(onset, [0, 1]), symbol: c.symbol };
  });
}
