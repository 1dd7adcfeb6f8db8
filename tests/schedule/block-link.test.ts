/** What the address of a block asks for: written and read again it is the same, and what cannot be read is a problem, never an exception. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tempoScale } from '../../src/browser/player/tempo.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import {
  type BlockLink,
  LINK_PARAMETERS,
  type LinkedBlock,
  linkTempo,
  readBlockLink,
  writeBlockLink,
} from '../../src/schedule/block-link.ts';
import { cases } from '../setup/long.ts';

/** A pickup, bars 1 and 2, and bar 3 in two endings. */
const BARS = [{ number: 0 }, { number: 1 }, { number: 2 }, { number: 3, endings: [1] }, { number: 3, endings: [2] }];
const BLOCK: LinkedBlock = { bars: BARS, tempo: 80, tunings: TUNINGS.map(({ id }) => id) };

const harp = fc
  .constantFrom('A', 'Bb', 'F#', 'low F', 'high G', 'C')
  .map((name) => readHarp(name, RICHTER))
  .filter((one) => one !== undefined)
  .map(({ key, register }) => ({ key, register }));
const link: fc.Arbitrary<BlockLink> = fc.record(
  {
    bars: fc.tuple(fc.nat(4), fc.nat(4)).map(([a, b]) => ({ first: Math.min(a, b), last: Math.max(a, b) })),
    tempo: fc.integer({ min: 2400, max: 12_000 }).map((hundredths) => linkTempo(hundredths / 100)),
    harp,
    tuning: fc.constantFrom(...TUNINGS.map(({ id }) => id)),
    loop: fc.boolean(),
  },
  { requiredKeys: ['loop'] },
);

describe('laws', () => {
  test('a link that is written reads back as the same link, without a problem', () => {
    fc.assert(
      fc.property(link, (one) => {
        const { link: again, problems } = readBlockLink(writeBlockLink(one, BARS), BLOCK);
        expect(problems).toEqual([]);
        expect(again).toEqual(one);
      }),
      { numRuns: cases(300, 20_000) },
    );
  });

  test('whatever is written, reading ends, and problems are within it', () => {
    const part = fc.tuple(
      fc.oneof(fc.constantFrom(...LINK_PARAMETERS), fc.string()),
      fc.oneof(fc.string(), fc.stringMatching(/^[\d.%–+a-z-]{0,8}$/)),
    );
    const query = fc.oneof(
      fc.string(),
      fc.array(part).map((parts) => `?${parts.map(([name, value]) => `${name}=${value}`).join('&')}`),
    );
    fc.assert(
      fc.property(query, fc.constantFrom(BLOCK, {}), (text, block) => {
        for (const { from, to } of readBlockLink(text, block).problems) {
          expect(from).toBeGreaterThanOrEqual(0);
          expect(to).toBeGreaterThanOrEqual(from);
          expect(to).toBeLessThanOrEqual(text.length);
        }
      }),
      { numRuns: cases(500, 50_000) },
    );
  });

  test('what one browser function reads of a query is what is read here', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', '5', '+', '.', '-', '%20', '%41', '%2B', '%E2%80%93')), (parts) => {
        const value = parts.join('');
        const { problems } = readBlockLink(`?loop=!${value}`);
        expect(problems).toMatchObject([{ value: new URLSearchParams(`loop=!${value}`).get('loop') }]);
      }),
      // A lone escape that is no character reads as a replacement sign there, and as it is written here.
      { numRuns: cases(200, 5000), examples: [[['60%']], [['a+b']]] },
    );
  });

  test('a tempo goes as far as the player’s own', () => {
    fc.assert(
      fc.property(fc.integer({ min: 30, max: 240 }), (tempo) => {
        const { least, most } = tempoScale(tempo);
        const codes = (asked: number) => readBlockLink(`tempo=${asked}`, { tempo }).problems.map(({ kind }) => kind);
        expect([least, most].map(codes)).toEqual([[], []]);
        expect([least - 1, most + 1].map(codes)).toEqual([['tempo-range'], ['tempo-range']]);
      }),
    );
  });
});

describe('it reads', () => {
  test.each<[string, BlockLink]>([
    ['?bars=1-2', { bars: { first: 1, last: 2 }, loop: true }],
    ['bars=2', { bars: { first: 2, last: 2 }, loop: true }],
    ['?bars=0-3.2', { bars: { first: 0, last: 4 }, loop: true }],
    ['?bars=1–2&loop=no', { bars: { first: 1, last: 2 }, loop: false }],
    ['?bars=1%E2%80%932', { bars: { first: 1, last: 2 }, loop: true }],
    ['?tempo=60', { tempo: 60, loop: false }],
    ['?tempo=60%', { tempo: 48, loop: false }],
    ['?tempo=60%25&loop=yes', { tempo: 48, loop: true }],
    ['?tempo=66.5', { tempo: 66.5, loop: false }],
    ['?tuning=natural-minor', { tuning: 'natural-minor', loop: false }],
    ['', { loop: false }],
    ['?', { loop: false }],
    ['?&&=x', { loop: false }],
  ])('%s', (query, read) => expect(readBlockLink(query, BLOCK)).toMatchObject({ link: read, problems: [] }));

  test('a harp by its name', () =>
    expect(readBlockLink('?harp=low+F', BLOCK).link.harp).toEqual(
      expect.objectContaining({ register: 'low', key: readHarp('F', RICHTER)?.key }),
    ));
});

describe('it reports', () => {
  test.each([
    ['?bar=3', [{ kind: 'unknown', name: 'bar', from: 1, to: 4 }]],
    ['?bars=1&bars=2', [{ kind: 'twice', name: 'bars', from: 8, to: 12 }]],
    ['?bars=1-9', [{ kind: 'no-bar', value: '9', from: 8, to: 9 }]],
    ['?bars=3-3.2', [{ kind: 'which-bar', value: '3', names: ['3.1', '3.2'], from: 6, to: 7 }]],
    ['?bars=2-1', [{ kind: 'backwards', value: '2-1', meant: '1-2', from: 6, to: 9 }]],
    ['?bars=1+to+2', [{ kind: 'unreadable', name: 'bars', value: '1 to 2', meant: '1-2', from: 6, to: 12 }]],
    ['?bars=all', [{ kind: 'unreadable', name: 'bars', value: 'all', from: 6, to: 9 }]],
    ['?bars', [{ kind: 'unreadable', name: 'bars', value: '', from: 1, to: 5 }]],
    ['?tempo=60bpm', [{ kind: 'unreadable', name: 'tempo', value: '60bpm', meant: '60', from: 7, to: 12 }]],
    ['?tempo=200', [{ kind: 'tempo-range', value: '200', least: '24', most: '120', meant: '120', from: 7, to: 10 }]],
    ['?tempo=10%', [{ kind: 'tempo-range', value: '10%', least: '30%', most: '150%', meant: '30%', from: 7, to: 10 }]],
    ['?loop=off', [{ kind: 'unreadable', name: 'loop', value: 'off', meant: 'no', isSame: true, from: 6, to: 9 }]],
    ['?harp=H', [{ kind: 'no-harp', value: 'H', from: 6, to: 7 }]],
    ['?tuning=x', [{ kind: 'no-tuning', value: 'x', from: 8, to: 9 }]],
  ])('%s', (query, problems) => expect(readBlockLink(query, BLOCK).problems).toEqual(problems));

  test('only what can be known of a block that cannot be read', () => {
    expect(readBlockLink('?bars=9-10&tempo=999&tuning=x').problems).toEqual([]);
    expect(readBlockLink('?tempo=10%&bars=x').problems.map(({ kind }) => kind)).toEqual(['tempo-range', 'unreadable']);
  });
});
