/**
 * Target notes against brute force over the oracle's own reeds and chords (./oracle, which shares no code with src): which notes of a
 * range are tones of a chord, and which notes lead into each of them. What counts as a way in, and which is easier, is our own choice,
 * as the guide states it.
 */
import { expect, test } from 'vitest';
import { songKey } from '../../../src/harmony/key.ts';
import { readChord } from '../../../src/harmony/symbol.ts';
import { targetNotes } from '../../../src/harmony/target-notes.ts';
import { readHarp, tonicInPosition } from '../../../src/instrument/harp.ts';
import { tabOf } from '../../../src/instrument/playable.ts';
import { TUNINGS } from '../../../src/instrument/tuning.ts';
import { present } from '../../../src/values/checked.ts';
import { cases } from '../../setup/long.ts';
import { plainNumeral, resolve } from '../oracle/chords.ts';
import { firstHole, HARP_KEYS, type Playable, playables, tonicFifth, tonicOf } from '../oracle/instrument.ts';
import { keyOf, mod12, pcOf } from '../oracle/pitch.ts';
import { Random } from '../oracle/random.ts';

const CHORDS = ['I7', 'i7', 'IV7', 'iv', 'V7', 'V', 'bVII7', 'ii7', 'vi'];
const depth = ({ text }: Playable): number => text.split("'").length - 1;

function leadsInto(from: Playable, to: Playable): boolean {
  const sameBreath = from.draw === to.draw;
  const plain = from.kind === 'plain';
  if (from.text === to.text) return false;
  if (from.hole === to.hole && sameBreath && from.kind !== 'overbend' && to.kind !== 'overbend') {
    // One reed: up by letting go a half step, down from the reed itself or by a half step.
    return from.half - to.half === -1 || (from.half > to.half && (plain || from.half - to.half === 1));
  }
  if (!plain) return false;
  const down = from.half - to.half;
  return down === 1 || down === 2 || (sameBreath && Math.abs(from.hole - to.hole) <= 1);
}

/** A plain reed is 0, a bend 2 and 2 more for each half step, an overbend 20; then 1 for each hole moved and for a turn of the breath. */
const weight = (note: Playable): number =>
  note.kind === 'overbend' ? 20 : note.kind === 'bend' ? 2 + 2 * depth(note) : 0;
const effort = (from: Playable, to: Playable): number =>
  weight(from) + weight(to) + Math.abs(from.hole - to.hole) + (from.draw === to.draw ? 0 : 1);

test('every tone of a chord in the range is there, with every way into it, the easiest first', () => {
  let ways = 0;
  for (let seed = 1; seed <= cases(200, 3000); seed++) {
    const random = new Random(seed);
    const tuning = random.pick([
      'richter',
      'raised-third-blow',
      'raised-fifth-draw',
      'natural-minor',
      'harmonic-minor',
    ] as const);
    const name = random.pick(HARP_KEYS);
    const position = random.int(1, 12);
    const symbol = random.pick(CHORDS);
    const first = random.int(1, 10);
    const holes: [number, number] = [first, random.int(first, 10)];
    const [bends, overbends] = [random.int(0, 1) === 1, random.int(0, 1) === 1];

    const key = keyOf(tonicOf(name, position), 'major', tonicFifth(name, position));
    const chord = resolve(plainNumeral(symbol), key, new Set());
    const own = playables(tuning).filter(
      ({ hole, kind }) =>
        hole >= holes[0] &&
        hole <= holes[1] &&
        (kind === 'plain' || (kind === 'bend' && bends) || (kind === 'overbend' && overbends)),
    );
    const tones = new Set(chord.tones.map((tone) => mod12(pcOf(chord.root) + tone)));
    const expected = own
      .filter(({ half }) => tones.has(mod12(firstHole(name, '') + half)))
      .sort((a, b) => a.half - b.half || a.hole - b.hole)
      .map(
        (to) =>
          [
            to.text,
            own.filter((from) => leadsInto(from, to)).map((from): [number, string] => [effort(from, to), from.text]),
          ] as const,
      );

    const harp = present(
      readHarp(
        name,
        present(
          TUNINGS.find(({ id }) => id === tuning),
          tuning,
        ),
      ),
      name,
    );
    const song = songKey(tonicInPosition(harp.key, position), 'major');
    const found = targetNotes(harp, present(readChord(symbol, song), symbol), song, { holes, bends, overbends });
    const label = `${tuning} ${name}, position ${position}, ${symbol}, ${holes.join('-')}`;
    expect(
      found.map(({ note }) => tabOf(note)),
      label,
    ).toEqual(expected.map(([text]) => text));
    for (const [index, { approaches }] of found.entries()) {
      const theirs = present(expected[index], label)[1];
      expect(approaches.map(({ from }) => tabOf(from)).sort(), label).toEqual(theirs.map(([, text]) => text).sort());
      expect(
        approaches.map((way) => way.effort),
        label,
      ).toEqual(theirs.map(([cost]) => cost).sort((a, b) => a - b));
      ways += approaches.length;
    }
  }
  expect(ways).toBeGreaterThan(1000);
});
