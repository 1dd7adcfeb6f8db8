/**
 * Quotations that are moved to another chord, against brute force: the oracle's own reeds and chords (./oracle, which shares no code
 * with src) say which pitches keep the roles, and every way to play these on the harp is tried. What is the least effort is our own
 * choice, as the guide states it: plain reeds, then bends by their depth, then overbends; near holes before far ones.
 */
import { expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { isSoundEvent } from '../../src/score/queries.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { cases } from '../setup/long.ts';
import { type Chord, plainNumeral, resolve } from './oracle/chords.ts';
import { firstHole, HARP_KEYS, type Playable, playables, tonicFifth, tonicOf } from './oracle/instrument.ts';
import { keyOf, mod12, pcOf } from './oracle/pitch.ts';
import { Random } from './oracle/random.ts';

const TUNINGS = ['richter', 'raised-third-blow', 'raised-fifth-draw', 'natural-minor', 'harmonic-minor'] as const;
const CHORDS = ['I', 'i7', 'IV7', 'IV', 'iv', 'V7', 'V', 'bVII7', 'bVI', 'ii7', 'vi'];

/** Role labels without their signs: degrees by half steps above the root. */
const degrees = ({ quality }: Chord): Map<number, string> =>
  new Map([...quality.roles].map(([half, label]) => [half, label.replace(/[♭♯]/g, '')]));

function movedHalf(half: number, from: Chord, to: Chord): number {
  const degree = degrees(from).get(half);
  const there = [...degrees(to)].find(([, other]) => degree !== undefined && other === degree);
  return there ? there[0] : half;
}

interface Way {
  readonly notes: readonly Playable[];
  /** Overbends needed, an octave further, effort: what comes first counts first. */
  readonly rank: readonly [number, number, number];
}

const WEIGHTS: Readonly<Record<Playable['kind'], number>> = { plain: 0, slide: 1, bend: 2, quarter: 2, overbend: 20 };
const effortOf = (notes: readonly Playable[]): number =>
  notes.reduce((sum, note, index) => {
    const before = notes[index - 1];
    // A quarter step counts as the half step after it.
    const depth = note.kind === 'bend' || note.kind === 'quarter' ? 2 * (note.text.match(/['q]/g)?.length ?? 0) : 0;
    const between = before ? Math.abs(before.hole - note.hole) + (before.draw === note.draw ? 0 : 1) : 0;
    return sum + WEIGHTS[note.kind] + depth + between;
  }, 0);

const compare = (a: Way['rank'], b: Way['rank']): number =>
  a.map((own, at) => own - itemAt(b, at)).find((difference) => difference !== 0) ?? 0;

test('the notes keep their roles, and no way to play them is easier', () => {
  let [moved, impossible] = [0, 0];
  for (let seed = 1; seed <= cases(300, 5000); seed++) {
    const random = new Random(seed);
    const tuning = random.pick([...TUNINGS]);
    const harp = random.pick(HARP_KEYS);
    const position = random.int(1, 12);
    const symbol = random.pick(CHORDS);
    const all = playables(tuning);
    const figure = Array.from({ length: random.int(1, 4) }, () => random.pick(all));
    const key = keyOf(tonicOf(harp, position), 'major', tonicFifth(harp, position));
    const [from, to] = ['I7', symbol].map((text) => resolve(plainNumeral(text), key, new Set())) as [Chord, Chord];

    const ways: Way[] = [];
    const up = mod12(pcOf(to.root) - pcOf(from.root));
    for (const shift of [up - 24, up - 12, up, up + 12]) {
      const wanted = figure.map(({ half }) => {
        const midi = half + firstHole(harp, '');
        const above = mod12(midi - pcOf(from.root));
        return midi - above + shift + movedHalf(above, from, to) - firstHole(harp, '');
      });
      const sequences = wanted.reduce<Playable[][]>(
        (before, half) => before.flatMap((way) => all.filter((one) => one.half === half).map((one) => [...way, one])),
        [[]],
      );
      for (const notes of sequences) {
        const overbends = notes.some(({ kind }) => kind === 'overbend') ? 1 : 0;
        ways.push({ notes, rank: [overbends, Math.abs(shift) >= 12 ? 1 : 0, effortOf(notes)] });
      }
    }
    const text = [
      `harp: ${harp}`,
      `tuning: ${tuning}`,
      `position: ${position}`,
      'key: major',
      `phrase figure: ${figure.map((note) => note.text).join(' ')}`,
      `"I7" .4 <figure to "${symbol}"> ${figure.length < 4 ? `.${4 - figure.length}` : ''}`,
    ].join('\n');
    const { score, diagnostics } = readBlock(text);
    // What is only a hint is about how the figure sounds, not whether it can be played.
    const codes = diagnostics.filter(({ severity }) => severity !== 'hint').map(({ code }) => code);
    if (ways.length === 0) {
      impossible++;
      expect({ text, codes }).toEqual({ text, codes: ['moved-unplayable'] });
      continue;
    }
    moved++;
    expect({ text, codes }).toEqual({ text, codes: [] });
    const tabs = present(score, 'the score')
      .bars.flatMap(({ events }) => events.filter(isSoundEvent))
      .filter(({ tied }) => !tied)
      .map(({ breath, notes: [note] }) => ({ draw: breath === 'draw', ...present(note, 'the note') }));
    const chosen = ways.filter(({ notes }) =>
      notes.every(({ hole, draw, kind, half }, at) => {
        const own = itemAt(tabs, at);
        return (
          own.hole === hole &&
          own.draw === draw &&
          own.over === (kind === 'overbend') &&
          own.pitch.midi === half + firstHole(harp, '')
        );
      }),
    );
    const best = ways.reduce((least, way) => (compare(way.rank, least.rank) < 0 ? way : least));
    expect({ text, rank: chosen[0]?.rank }).toEqual({ text, rank: best.rank });
  }
  expect(moved).toBeGreaterThan(100);
  expect(impossible).toBeGreaterThan(5);
});
