/**
 * Harp maps without bends against the oracle's reeds (./oracle, which shares no code with src): what they show, and what of a scale they
 * list, is what the plain reeds sound. The blues scale: the encyclopaedia article "Blues scale", from memory; dorian is the white keys from D.
 */
import { expect, test } from 'vitest';
import { drawFigure } from '../../../src/engrave/figure/draw.ts';
import { songKey } from '../../../src/harmony/key.ts';
import { readHarp, tonicInPosition } from '../../../src/instrument/harp.ts';
import { TUNINGS } from '../../../src/instrument/tuning.ts';
import { present } from '../../../src/values/checked.ts';
import { firstHole, HARP_KEYS, playables, type Tuning, tonicOf } from '../oracle/instrument.ts';
import { mod12 } from '../oracle/pitch.ts';

const SCALES = [
  ['blues', [0, 3, 5, 6, 7, 10]],
  ['dorian', [0, 2, 3, 5, 7, 9, 10]],
] as const;

const TUNING_NAMES: readonly Tuning[] = [
  'richter',
  'raised-third-blow',
  'raised-fifth-draw',
  'natural-minor',
  'harmonic-minor',
];

test.each(TUNING_NAMES)('of a harp tuned %s', (name) => {
  const tuning = present(
    TUNINGS.find(({ id }) => id === name),
    name,
  );
  const reeds = playables(name).filter(({ kind }) => kind === 'plain');
  for (const key of HARP_KEYS)
    for (const position of [1, 2, 3, 12])
      for (const [scale, steps] of SCALES) {
        const harp = present(readHarp(key, tuning), key);
        const song = songKey(tonicInPosition(harp.key, position), 'major');
        const lit = { by: 'scale', scale } as const;
        const html = drawFigure({
          kind: 'harp-map',
          harp,
          position,
          key: song,
          show: 'degrees',
          bends: false,
          overbends: false,
          lit,
        });
        expect(html).not.toMatch(/bend|overblow|overdraw/);
        const tabs = (pattern: RegExp): string[] => [...html.matchAll(pattern)].map(([, tab = '']) => tab).sort();
        expect(tabs(/data-tab="([^"]*)"/g)).toEqual(reeds.map(({ text }) => text).sort());
        const inScale = reeds.filter(({ half }) =>
          steps.some((step) => step === mod12(half + firstHole(key, '') - tonicOf(key, position))),
        );
        expect(tabs(/class="lit" data-tab="([^"]*)"/g)).toEqual(inScale.map(({ text }) => text).sort());
        const run = /<ol class="run">(.*?)<\/ol>/.exec(html)?.[1] ?? '';
        const listed = [...run.matchAll(/<li>([^<]*)/g)].map(([, tab]) => reeds.find(({ text }) => text === tab)?.half);
        const pitches = [...new Set(inScale.map(({ half }) => half))].sort((a, b) => a - b);
        expect(listed).toEqual(pitches);
      }
});
