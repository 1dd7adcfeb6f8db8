/**
 * Techniques against facts that come from elsewhere: tables of what a Richter harp gives, and what the oracle of this folder
 * knows of the random blocks it writes (pitches, roles and what it put in, never our rules).
 */
import { describe, expect, it } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import type { Score } from '../../src/score/score.ts';
import { detector } from '../../src/technique/detect.ts';
import { SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';
import { present } from '../../src/values/checked.ts';
import { cases } from '../setup/long.ts';
import { type Sample, sample } from './oracle/oracle.ts';

const detect = detector(SHIPPED_REPERTOIRE);
const foundIn = (score: Score): ReadonlySet<string> => new Set(detect(score).map(({ technique }) => technique.id));
const found = (text: string): ReadonlySet<string> => foundIn(present(readBlock(text).score, text));
const alone = (tab: string): ReadonlySet<string> => found(`slot: 1/4\n${tab} . . .`);

describe('on a Richter harp', () => {
  // Encyclopaedia article “Richter-tuned harmonica”; half steps by the rule of two reeds (Bahnson, Antaki & Beery 1998).
  const DEPTHS = { draw: [1, 2, 3, 1, 0, 1, 0, 0, 0, 0], blow: [0, 0, 0, 0, 0, 0, 0, 1, 1, 2] } as const;
  const NAMES = ['half-step', 'whole-step', 'step-and-a-half'];

  it.each(['draw', 'blow'] as const)('each %s bend of the table is a technique of its hole and depth', (breath) => {
    DEPTHS[breath].forEach((deepest, index) => {
      for (let depth = 1; depth <= deepest; depth++) {
        const ids = alone(`${breath === 'draw' ? '-' : ''}${index + 1}${"'".repeat(depth)}`);
        expect(ids).toContain(`${breath}-${index + 1}-${NAMES[depth - 1]}`);
        expect(ids).toContain(`${breath}-bends`);
        expect([...ids].filter((id) => /^(draw|blow)-\d/.test(id))).toHaveLength(1);
      }
    });
  });

  // Worked out from the same layout: draw 2 and 5 are a seventh, 2 and 6 a ninth, 1 and 5 a tenth.
  it.each([
    ['(1 4)', true], ['(2 5)', true], ['(3 6)', true], ['(4 7)', true], ['(5 8)', true], ['(6 9)', true], ['(7 10)', true],
    ['-(1 4)', true], ['-(3 7)', true], ['-(4 8)', true], ['-(5 9)', true], ['-(6 10)', true],
    ['-(2 5)', false], ['-(2 6)', false], ['-(1 5)', false], ['(1 3)', false],
  ] as const)('the split %s is an octave: %s', (tab, octave) => {
    const ids = alone(`${tab}[tongue]`);
    expect([ids.has('octave-splits'), ids.has('other-splits')]).toEqual([octave, !octave]);
  }); // biome-ignore format: a table

  // Overbends of the same table: overblows on 1 to 6, overdraws on 7 to 10.
  it.each([1, 2, 3, 4, 5, 6])('hole %i overblows', (hole) => {
    expect(alone(`${hole}o`)).toContain(`overblow-${hole}`);
  });
  it.each([7, 8, 9, 10])('hole %i overdraws', (hole) => {
    expect(alone(`-${hole}o`)).toContain(`overdraw-${hole}`);
  });
});

/** What the oracle says of a block, as techniques: each from the definition in words, read off pitches, roles and features. */
const FROM_FACTS: Readonly<Record<string, (block: Sample) => boolean>> = {
  // The flat third over a major or a dominant chord: a major third, and a fifth or a minor seventh. A sharp ninth is the same note.
  'blue-thirds': ({ bars }) =>
    someRole(
      bars,
      (role, tones) => /^(♭3|♯9)$/.test(role) && tones.includes(4) && (tones.includes(7) || tones.includes(10)),
    ),
  // The flat fifth over a chord without one.
  'flat-fifths': ({ bars }) => someRole(bars, (role, tones) => role === '♭5' && !tones.includes(6)),
  overblows: ({ features }) => features.includes('overblow'),
  overdraws: ({ features }) => features.includes('overdraw'),
  slide: ({ features }) => features.includes('slide'),
  bends: ({ features }) => features.includes('bend') || features.includes('quarter-step'),
  'quarter-step-bends': ({ features }) => features.includes('quarter-step:draw'),
  splits: ({ features }) => features.includes('split'),
  chords: ({ features }) => features.includes('hole-chord'),
  pickups: ({ features }) => features.includes('pickup'),
  shuffle: ({ features }) => features.includes('shuffle') || features.includes('feel-ratio'),
  'three-four': ({ features }) => features.includes('meter:3/4'),
  'compound-time': ({ features }) => features.some((feature) => /^meter:\d+\/8$/.test(feature)),
  'second-position': ({ features }) => features.includes('position:2'),
  'minor-blues': ({ features }) => features.includes('form:minor-twelve-bar'),
};

function someRole(bars: Sample['bars'], fits: (role: string, tones: readonly number[]) => boolean): boolean {
  return bars.some(({ chords, sounds }) =>
    sounds.some(({ onset, notes }) => {
      const at = onset[0] / onset[1];
      const tones = chords.filter((chord) => chord.onset[0] / chord.onset[1] <= at).at(-1)?.tones ?? [];
      return notes.some(({ role }) => role !== undefined && fits(role, tones));
    }),
  );
}

describe('in random blocks', () => {
  const SEEDS = Array.from({ length: cases(400, 5000) }, (_, index) => index + 1);
  const blocks = SEEDS.map((seed) => {
    const block = sample(seed);
    return { block, ids: found(block.text) };
  });
  it.each(Object.entries(FROM_FACTS))('%s is found where the facts say so, and only there', (id, holds) => {
    const wrong: string[] = [];
    let there = 0;
    blocks.forEach(({ block, ids }, index) => {
      const expected = holds(block);
      if (expected) there++;
      if (ids.has(id) !== expected) wrong.push(`${SEEDS[index]}: ${expected ? 'missed' : 'not there'}`);
    });
    expect(wrong).toEqual([]);
    expect(there).toBeGreaterThan(0);
    expect(there).toBeLessThan(SEEDS.length);
  });
});
