import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Score } from '../../src/score/score.ts';
import { detect } from '../../src/technique/detect.ts';
import { repertoireOf, SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';
import { type TechniqueInput, techniqueOf, techniqueSchema } from '../../src/technique/technique.ts';
import { present } from '../../src/values/checked.ts';
import { cases } from '../setup/long.ts';
import { scoreOf, writtenAt } from './tab.ts';

type Find = TechniqueInput['find'];

/** What one rule finds: each match as the notes it is made of, as they are written. */
function found(find: Find, text: string): string[] {
  const technique = techniqueOf(techniqueSchema.parse({ id: 'asked', title: 'T', about: 'A.', group: 'tone', find }));
  const score = scoreOf(text);
  return (detect(score, repertoireOf([technique]))[0]?.matches ?? []).map(({ events }) =>
    events.length === 0 ? 'whole' : events.map((event) => writtenAt(text, score, event)).join(' '),
  );
}

describe('a rule', () => {
  it('asks everything of one note, or of one hole of several', () => {
    const draw3 = { note: { breath: 'draw', hole: 3, bend: 1 } } as const;
    expect(found(draw3, "slot: 1/4\n-3' 3 -3 -4'")).toEqual(["-3'"]);
    expect(found({ note: { hole: 2, bend: 1 } }, "slot: 1/2\n-(2 3') -(2' 3)")).toEqual(["-(2' 3)"]);
  });

  it('takes a list, a range or limits for a number', () => {
    const text = 'slot: 1/4\n1 2 3 4';
    expect(found({ note: { hole: [1, 4] } }, text)).toEqual(['1', '4']);
    expect(found({ note: { hole: '2-3' } }, text)).toEqual(['2', '3']);
    expect(found({ note: { hole: { least: 3 } } }, text)).toEqual(['3', '4']);
    expect(found({ note: { hole: { below: 3 } } }, text)).toEqual(['1', '2']);
    expect(found({ note: { length: '1/4' } }, text)).toHaveLength(4);
  });

  it('looks at two notes in a row, with or without a rest between', () => {
    const text = 'slot: 1/4\n4 . -4 -5';
    expect(found({ between: { breath: 'changes' } }, text)).toEqual(['4 -4']);
    expect(found({ between: { rest: true } }, text)).toEqual(['4 -4']);
    expect(found({ between: { rest: false } }, text)).toEqual(['-4 -5']);
    expect(found({ next: { hole: 5 } }, text)).toEqual(['-4 -5']);
    expect(found({ note: { hole: 4 }, next: { hole: 4 } }, text)).toEqual(['4 -4']);
  });

  it('measures how far the mouth moves by the less of what its edges move', () => {
    const jumps = { between: { jump: { least: 2 } } } as const;
    expect(found(jumps, 'slot: 1/4\n(1 2 3) 4 6 (5 6)')).toEqual(['4 6']);
    expect(found(jumps, 'slot: 1/2\nmouth: tongue\n(1 4) (5 8)')).toEqual(['(1 4) (5 8)']);
  });

  it('takes the longest run it finds, once', () => {
    const run = { between: { pitch: 'up' }, run: 3 } as const;
    expect(found(run, 'slot: 1/8\n4 5 6 7 4 5 4 =')).toEqual(['4 5 6 7']);
    expect(found(run, 'slot: 1/4\n4 5 4 5')).toEqual([]);
  });

  it('asks the block before its notes', () => {
    const find = { block: { position: 2, feel: 'shuffle' }, note: { hole: 2 } } as const;
    expect(found(find, 'slot: 1/2\nposition: 2\nfeel: shuffle\n2 -2')).toEqual(['2', '-2']);
    expect(found(find, 'slot: 1/2\nposition: 2\n2 -2')).toEqual([]);
    expect(found({ block: { repeats: true } }, 'slot: 1/1\n|: 4 :|')).toEqual(['whole']);
    expect(found({ block: { pickup: false } }, 'slot: 1/1\n4')).toEqual(['whole']);
  });

  it('is satisfied by any of several', () => {
    const either = { any: [{ note: { hole: 1 } }, { note: { breath: 'draw' } }] } as const;
    expect(found(either as never, 'slot: 1/4\n1 -1 2 -2')).toEqual(['1', '-1', '-2']);
  });

  it('knows the chord and what a note is to it, for as long as the note sounds', () => {
    const text = 'slot: 1/2\nposition: 2\n"I7" -3 = | "IV7" = -3';
    // Draw 3 is the third of I, and held over the change it becomes the major seventh of IV.
    expect(found({ note: { role: '3' } }, text)).toEqual(['-3 =']);
    expect(found({ note: { role: '7' } }, text)).toHaveLength(2);
    expect(found({ note: { role: '3', chord: 'IV7' } }, text)).toEqual([]);
  });

  it('sees a note held over a bar line as one, as long as it is', () => {
    const text = 'slot: 1/4\ntempo: 60\n4 4 4 4 | = = -4 .';
    expect(found({ note: { seconds: { least: 3 } } }, text)).toEqual(['4 =']);
    expect(found({ note: { beats: 3 } }, text)).toHaveLength(1);
  });

  it('counts the beats of a pickup from the bar line it leads to', () => {
    const offBeat = { note: { 'off-beat': true } } as const;
    expect(found(offBeat, 'slot: 1/8\npickup: 1\n4 | 5 = = = = = = ')).toEqual(['4']);
    expect(found(offBeat, 'slot: 1/8\npickup: 2\n4 = | 5 = = = = =')).toEqual([]);
  });

  it('plays repeats out: what happens over the repeat sign is found, and everything once', () => {
    expect(found({ between: { breath: 'changes' } }, 'slot: 1/2\n|: 4 -4 :|')).toEqual(['4 -4', '-4 4']);
    expect(found({ note: { hole: 5 } }, 'slot: 1/2\n|: 4 5 :|')).toEqual(['5']);
  });
});

/** Marks and holes a plain tune has none of; each is found by the techniques beside it. */
const PLANTS: readonly (readonly [word: string, techniques: readonly string[]])[] = [
  ["-4'", ['draw-4-half-step', 'half-step-bends', 'draw-bends', 'bends']],
  ["-3''", ['draw-3-whole-step', 'whole-step-bends', 'draw-bends', 'bends']],
  ['-3q', ['quarter-step-bends', 'draw-bends', 'bends']],
  ['7q', ['blow-bends', 'bends', 'high-holes']],
  ["-3'''", ['draw-3-step-and-a-half', 'step-and-a-half-bends', 'draw-bends', 'bends']],
  ["10''", ['blow-10-whole-step', 'blow-bends', 'bends', 'high-holes']],
  ['6o', ['overblow-6', 'overblows']],
  ['-9o', ['overdraw-9', 'overdraws', 'high-holes']],
  ['(1 4)[tongue]', ['octave-splits-four-holes', 'octave-splits', 'splits', 'tongue-blocking']],
  ['-(3 7)[tongue]', ['octave-splits-five-holes', 'octave-splits', 'splits', 'tongue-blocking', 'high-holes']],
  ['-(2 5)[tongue]', ['other-splits', 'splits', 'tongue-blocking']],
  ['-(1 2 3)', ['full-chords', 'chords']],
  ['-4[shake 5]', ['shakes']],
  ["-3'[shake 4]", ['bent-shakes', 'shakes', 'draw-3-half-step', 'half-step-bends', 'draw-bends', 'bends']],
  ['-4[dip]', ['dips']],
  ['4[hand]', ['hand-effects']],
  ['4[tongue slap]', ['slaps', 'tongue-blocking']],
];
const plain = fc.constantFrom('4', '-4', '5', '-5', '6', '-6', '3', '-3', '2', '-2', '.');

describe('detection, over random tunes', () => {
  const tune = fc
    .array(plain, { minLength: 8, maxLength: 64 })
    .map((words) => words.slice(0, words.length - (words.length % 8)));
  const textOf = (words: readonly string[]): string => {
    const bars = Array.from({ length: words.length / 8 }, (_, bar) => words.slice(8 * bar, 8 * bar + 8).join(' '));
    return `slot: 1/8\n${bars.join(' |\n')}`;
  };
  const planted = new Set(PLANTS.flatMap(([, ids]) => ids));

  it('finds every planted technique at the very note, and only there', () => {
    const plants = fc.array(fc.record({ at: fc.nat(), plant: fc.constantFrom(...PLANTS) }), { maxLength: 6 });
    fc.assert(
      fc.property(tune, plants, (words, choices) => {
        const played: string[] = [...words];
        const expected = new Map<string, Set<number>>();
        const where = new Map(choices.map(({ at, plant }) => [at % words.length, plant]));
        for (const [at, [word, ids]] of where) {
          played[at] = word;
          for (const id of ids) expected.set(id, (expected.get(id) ?? new Set()).add(at));
        }
        const score = scoreOf(textOf(played));
        const wordAt = wordsOf(score, played);
        const found = detect(score, SHIPPED_REPERTOIRE);
        for (const id of planted) {
          const matches = found.find(({ technique }) => technique.id === id)?.matches ?? [];
          const places = matches.map(({ at }) => wordAt.get(present(at, 'the number')));
          expect(places, id).toEqual([...(expected.get(id) ?? [])].sort((a, b) => a - b));
        }
      }),
      { numRuns: cases(300, 3000) },
    );
  });

  /** Which word of the tune each event was written as. */
  function wordsOf(score: Score, words: readonly string[]): Map<number, number> {
    const wordAt = new Map<number, number>();
    let offset = textOf(words).indexOf('\n') + 1;
    const places = words.map((word, place) => {
      const from = offset;
      offset += word.length + (place % 8 === 7 ? ' |\n'.length : 1);
      return from;
    });
    for (const { index, source } of score.bars.flatMap((bar) => bar.events))
      wordAt.set(index, places.indexOf(source.span.from));
    return wordAt;
  }

  it('finds no technique in a tune that has none of it', () => {
    fc.assert(
      fc.property(tune, (words) => {
        const ids = detect(scoreOf(textOf(words)), SHIPPED_REPERTOIRE).map(({ technique }) => technique.id);
        expect(ids.filter((id) => planted.has(id))).toEqual([]);
      }),
      { numRuns: cases(300, 3000) },
    );
  });
});
