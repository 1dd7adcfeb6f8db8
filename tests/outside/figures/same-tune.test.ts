/**
 * A tune on another harp or in another position, against brute force over the oracle's own reeds (./oracle, which shares no code with src):
 * every way to play the pitches is tried. Which of them is taken is our own choice, as the guide states it: the fewest missing notes, no
 * overbends, near pitches, then the least effort.
 */
import { expect, test } from 'vitest';
import { tuneOnHarp } from '../../../src/course/figures/same-tune.ts';
import { effortBetween, effortOf } from '../../../src/instrument/easiest-holes.ts';
import { readHarp } from '../../../src/instrument/harp.ts';
import { TUNINGS } from '../../../src/instrument/tuning.ts';
import { readBlock } from '../../../src/notation/read.ts';
import { soundsOf } from '../../../src/score/queries.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { cases } from '../../setup/long.ts';
import { firstHole, HARP_KEYS, type Playable, playables } from '../oracle/instrument.ts';
import { Random } from '../oracle/random.ts';

const TUNING_NAMES = ['richter', 'raised-third-blow', 'raised-fifth-draw', 'natural-minor', 'harmonic-minor'] as const;
const WEIGHTS: Readonly<Record<Playable['kind'], number>> = { plain: 0, slide: 1, bend: 2, quarter: 2, overbend: 20 };
const weightOf = (note: Playable): number =>
  WEIGHTS[note.kind] +
  (note.kind === 'bend' || note.kind === 'quarter' ? 2 * (note.text.match(/['q]/g)?.length ?? 0) : 0);
const between = (a: Playable, b: Playable): number => Math.abs(a.hole - b.hole) + (a.draw === b.draw ? 0 : 1);

type Rank = readonly [missing: number, overbends: number, far: number, effort: number];
const isLess = (a: Rank, b: Rank): boolean => {
  for (const [at, own] of a.entries()) if (own !== itemAt(b, at)) return own < itemAt(b, at);
  return false;
};

/** The best of all ways to play some pitches, as half steps above the harp's first hole. Moves are not counted over a missing note. */
function best(all: readonly Playable[], wanted: readonly number[], far: number): Rank {
  const choices = wanted.map((half) => all.filter((note) => note.half === half));
  const missing = choices.filter((own) => own.length === 0).length;
  let [overbends, effort] = [0, 0];
  for (let from = 0; from < choices.length; from++) {
    let to = from;
    while (to < choices.length && itemAt(choices, to).length > 0) to++;
    const run = choices.slice(from, to);
    const ways = run.reduce<Playable[][]>(
      (before, own) => before.flatMap((way) => own.map((one) => [...way, one])),
      [[]],
    );
    const costs = ways.map((way) => ({
      over: way.some(({ kind }) => kind === 'overbend') ? 1 : 0,
      cost: way.reduce((sum, note, at) => sum + weightOf(note) + (at > 0 ? between(itemAt(way, at - 1), note) : 0), 0),
    }));
    const least = costs.reduce((a, b) => (b.cost < a.cost ? b : a));
    overbends = Math.max(overbends, least.over);
    effort += least.cost;
    from = to;
  }
  return [missing, overbends, far, effort];
}

test('has the pitches of the tune, and no way to play them is better', () => {
  let [played, missed] = [0, 0];
  for (let seed = 1; seed <= cases(300, 5000); seed++) {
    const random = new Random(seed);
    const tuning = random.pick([...TUNING_NAMES]);
    const [from, to] = [random.pick(HARP_KEYS), random.pick(HARP_KEYS)];
    const all = playables(tuning);
    const tune = Array.from({ length: random.int(1, 5) }, () => random.pick(all));
    const shifts = random.pick([[0, 12, -12], [5, -7, 17, -19], [0]]);

    const text = `harp: ${from}\ntuning: ${tuning}\n\n${tune.map((note) => note.text).join(' ')} .${8 - tune.length} |]`;
    const score = present(readBlock(text).score, text);
    const harp = present(
      readHarp(
        to,
        present(
          TUNINGS.find(({ id }) => id === tuning),
          tuning,
        ),
      ),
      to,
    );
    const found = tuneOnHarp(score, harp, shifts);
    const wantedAt = (shift: number): number[] =>
      tune.map(({ half }) => half + firstHole(from, '') + shift - firstHole(to, ''));
    const ranks = shifts.map((shift) => best(all, wantedAt(shift), Math.abs(shift) >= 12 ? 1 : 0));
    const mine = itemAt(ranks, shifts.indexOf(found.shift));
    expect(
      ranks.filter((rank) => isLess(rank, mine)),
      text,
    ).toEqual([]);

    const events = soundsOf(score);
    let before: ReturnType<typeof found.held.get>;
    let effort = 0;
    events.forEach(({ index }, at) => {
      const held = found.held.get(index);
      const wanted = itemAt(wantedAt(found.shift), at);
      if (!held) missed++;
      else {
        played++;
        const [note] = held.notes;
        const reed = present(note, 'a note');
        const theirs = all.find(
          (one) =>
            one.hole === reed.hole &&
            one.draw === (held.breath === 'draw') &&
            one.half === wanted &&
            (one.kind === 'overbend') === reed.over,
        );
        expect(theirs, `${text}\nnote ${at + 1}`).toBeDefined();
        effort += effortOf(reed) + (before ? effortBetween(before, held) : 0);
      }
      before = held;
    });
    expect(effort, text).toBe(mine[3]);
  }
  expect(played).toBeGreaterThan(200);
  expect(missed).toBeGreaterThan(20);
});
