// @vitest-environment jsdom
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawFigure } from '../../../src/engrave/figure/draw.ts';
import { type Figure, type FigureOnHarp, moveFigure, type TabNote } from '../../../src/engrave/figure/figure.ts';
import { songKey } from '../../../src/harmony/key.ts';
import { readChord } from '../../../src/harmony/symbol.ts';
import { type Harp, readHarp, tonicInPosition } from '../../../src/instrument/harp.ts';
import { notesOf } from '../../../src/instrument/playable.ts';
import { SCALES } from '../../../src/instrument/scale.ts';
import { TEMPERAMENTS } from '../../../src/instrument/temperament.ts';
import { RICHTER, TUNINGS } from '../../../src/instrument/tuning.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { someHarp } from '../../instrument/some-harp.ts';
import { cases } from '../../setup/long.ts';
import { page, textOf, wellFormed } from './figure-page.ts';

const A = present(readHarp('A', RICHTER), 'the harp');
const plain = (harp: Harp, count: number): TabNote[] =>
  notesOf(harp)
    .filter((_, index) => index % count === 0)
    .map(({ midi: _, ...note }) => note);

/** One of each figure on a harp, as a lesson in a position would have it. */
function figuresOn(harp: Harp, position: number, mode: 'major' | 'minor' = 'major'): FigureOnHarp[] {
  const key = songKey(tonicInPosition(harp.key, position), mode);
  const placed = { harp, position, key };
  const chord = (symbol: string) => {
    const read = readChord(symbol, key);
    if (!read) throw new Error(symbol);
    return read;
  };
  const notes = plain(harp, 3);
  const map = { kind: 'harp-map', ...placed, bends: true, overbends: true } as const;
  return [
    { kind: 'role-table', ...placed, notes, chords: ['I7', 'IV7', 'bVI7'].map(chord) },
    ...SCALES.map(({ id }): FigureOnHarp => ({ ...map, show: 'degrees', lit: { by: 'scale', scale: id } })),
    { ...map, show: 'roles', lit: { by: 'chord', chord: chord('V9') } },
    { ...map, show: 'notes', lit: { by: 'notes', notes, what: 'the phrase “a<b”' } },
    { ...map, show: 'roles', bends: false, overbends: false, chord: chord('ii7') },
    {
      kind: 'form-chart',
      ...placed,
      form: 'A form',
      title: '<b>"&',
      bars: [{ chords: [chord('I7')], target: itemAt(notes, 0) }, { chords: ['IV7', 'V7'].map(chord) }, { chords: [] }],
    },
    { kind: 'target-notes', ...placed, chords: ['I7', 'iv6'].map(chord), holes: [2, 5], bends: true, overbends: true },
    { kind: 'bend-ladder', harp, hole: 1 },
    { kind: 'bend-ladder', harp, hole: 1, overbends: true, cents: true, hertz: true },
    { kind: 'position-list', harp },
    { kind: 'temperament-table', harp },
  ];
}

describe('every figure', () => {
  it('is well-formed on any harp, in any position and temperament', () => {
    fc.assert(
      fc.property(
        someHarp(),
        fc.integer({ min: 1, max: 12 }),
        fc.constantFrom(...TEMPERAMENTS),
        (harp, position, temperament) => {
          for (const figure of figuresOn(harp, position))
            wellFormed(drawFigure(figure, { temperament, concertA: 442 }));
        },
      ),
      { numRuns: cases(4, 60) },
    );
  });

  it('moved to another harp is drawn as if it had been written for it', () => {
    fc.assert(
      fc.property(someHarp(), someHarp(), fc.integer({ min: 1, max: 12 }), (harp, other, position) => {
        const target = { ...other, tuning: harp.tuning };
        const written = figuresOn(target, position);
        figuresOn(harp, position).forEach((figure, index) => {
          const moved = JSON.parse(JSON.stringify(figure)) as FigureOnHarp;
          expect(drawFigure(moveFigure(moved, target))).toBe(drawFigure(itemAt(written, index)));
        });
      }),
      { numRuns: cases(3, 30) },
    );
  });

  it('escapes what an author wrote', () => {
    const chart = present(
      figuresOn(A, 2).find(({ kind }) => kind === 'form-chart'),
      'the figure',
    );
    expect(drawFigure(chart)).toContain('&lt;b&gt;&quot;&amp;');
  });

  it('has a title that names the harp it stands for', () => {
    for (const figure of figuresOn(present(readHarp('low F', RICHTER), 'the harp'), 2)) {
      const title = page(drawFigure(figure)).querySelector('caption, figcaption');
      expect(textOf(title)).toContain('a low F harp');
    }
  });

  it('carries no style of its own, which the page’s policy would refuse', () => {
    for (const figure of figuresOn(A, 2)) expect(drawFigure(figure)).not.toMatch(/ style=|<script|<style/);
  });
});

describe('a role table', () => {
  const [figure] = figuresOn(A, 2) as [Figure];
  const rows = [...page(drawFigure(figure)).querySelectorAll('tr')].map((row) => [...row.children].map(textOf));

  it('has the chords of the form as columns and says every role in words', () => {
    expect(rows[0]?.slice(1)).toEqual(['I7 E7', 'IV7 A7', '♭VI7 C7']);
    expect(rows[1]).toEqual(['1 A blow 1', '4fourth', 'Rroot', '6sixth']);
  });
});

describe('a harp map', () => {
  const blues = itemAt(figuresOn(A, 2), 1);
  const map = page(drawFigure(blues));

  it('stacks what is blown above the comb and what is drawn below it, outwards from the reeds', () => {
    const heads = [...map.querySelectorAll('tr > th:first-child')].map((head) => textOf(head.querySelector('.aloud')));
    expect(heads).toEqual([
      'overblow',
      'blow, whole-step bend',
      'blow, half-step bend',
      'blow',
      'hole',
      'draw',
      'draw, half-step bend',
      'draw, whole-step bend',
      'draw, step-and-a-half bend',
      'overdraw',
    ]);
  });

  it('lights exactly the notes of the scale, and says so in words', () => {
    const lit = [...map.querySelectorAll('td.lit')].map((cell) => cell.getAttribute('data-tab'));
    expect(lit).toContain("-3'");
    expect(lit).not.toContain('-3');
    expect(textOf(map.querySelector(`td[data-tab="-3'"] .aloud`))).toBe('♭3, in the scale, G');
  });

  it('has rows for quarter steps only where they are lit', () => {
    const step = (hole: number, bend: number) => ({ breath: 'draw', hole, bend, over: false, slide: false }) as const;
    const notes = [step(3, 0.5), step(2, 1.5), step(3, 0)];
    const { kind, harp, position, key } = blues as Extract<Figure, { kind: 'harp-map' }>;
    const lit = { by: 'notes', notes, what: 'notes' } as const;
    const drawn = page(drawFigure({ kind, harp, position, key, show: 'degrees', bends: true, overbends: false, lit }));
    const cells = [...drawn.querySelectorAll('td.lit')].map((cell) => [cell.getAttribute('data-tab'), textOf(cell)]);
    expect(cells).toEqual([
      ['-3', '33, lit'],
      ['-3q', 'n3n3, lit'],
      ["-2'q", 'n7n7, lit'],
    ]);
    const heads = [...drawn.querySelectorAll('tr > th:first-child')].map(textOf);
    expect(heads).toContain('bend ¼draw, quarter-step bend');
    expect(heads).toContain('bend ¾draw, half-step bend and a quarter step');
    expect(map.querySelector('[data-tab="-3q"]')).toBe(null);
  });

  it('names what the harp lacks', () => {
    expect(textOf(map.querySelector('.lacks'))).toBe(
      'Not on this harp without overbends: G5 (overblow 6), B♭5 (overdraw 7).',
    );
  });

  it('without bends shows what the reeds have, and never speaks of overbends', () => {
    fc.assert(
      fc.property(someHarp(), fc.integer({ min: 1, max: 12 }), (harp, position) => {
        for (const figure of figuresOn(harp, position)) {
          if (figure.kind !== 'harp-map' || figure.lit?.by === 'notes') continue;
          expect(drawFigure({ ...figure, bends: false, overbends: false })).not.toMatch(/over(?:bend|blow|draw)/i);
        }
      }),
      { numRuns: cases(3, 30) },
    );
    const { kind, harp, position, key, lit } = blues as Extract<Figure, { kind: 'harp-map' }>;
    const bare = { kind, harp, position, key, show: 'degrees', bends: false, overbends: false } as const;
    const reeds = page(drawFigure({ ...bare, ...(lit ? { lit } : {}) }));
    expect([...reeds.querySelectorAll('.run li')].map(textOf).join(' ')).toBe('1 -1 -2 4 -4 -5 6 7 -8 -9 9 10');
    expect(textOf(reeds.querySelector('.lacks'))).toBe('Not on the reeds: B♭3, D4, G4, B♭4, G5, B♭5, G6.');
    expect(reeds.querySelectorAll('tr')).toHaveLength(3);
  });

  it('has rows for the slide of a harp that has one, and no bends', () => {
    const solo = { ...A, tuning: TUNINGS[5] };
    const heads = [
      ...page(drawFigure(itemAt(figuresOn(solo, 1), 1))).querySelectorAll('tr > th:first-child .aloud'),
    ].map(textOf);
    expect(heads).toEqual(['blow, slide pressed', 'blow', 'hole', 'draw', 'draw, slide pressed']);
  });
});

describe('a form chart', () => {
  it('reads bar by bar', () => {
    const chart = present(
      figuresOn(A, 2).find(({ kind }) => kind === 'form-chart'),
      'the figure',
    );
    const bars = [...page(drawFigure(chart)).querySelectorAll('li')];
    for (const hidden of bars.flatMap((bar) => [...bar.querySelectorAll('[aria-hidden]')])) hidden.remove();
    expect(bars.map(textOf)).toEqual(['Bar 1: I7 E7 target blow 1, A, the fourth', 'Bar 2: IV7 A7 V7 B7', 'Bar 3:']);
  });
});

describe('a bend ladder', () => {
  const rungs = (harp: Harp, hole: number, pitching = {}) => {
    const drawn = page(
      drawFigure({ kind: 'bend-ladder', harp, hole, overbends: true, cents: true, hertz: true }, pitching),
    );
    return [...drawn.querySelectorAll('tbody tr')].map((row) => [...row.children].map(textOf).join(' | '));
  };

  it('goes down from the overbend to the lower reed, in half steps, with what a tuner shows', () => {
    expect(rungs(A, 3)).toEqual([
      '3o overblow 3 | A4 | 0 | 440.0 | none',
      '-3 draw 3 | G♯4 | 0 | 415.3 | none',
      "-3' draw 3, half-step bend | G4 | 0 | 392.0 | −100",
      "-3'' draw 3, whole-step bend | F♯4 | 0 | 370.0 | −200",
      "-3''' draw 3, step-and-a-half bend | F4 | 0 | 349.2 | −300",
      '3 blow 3 | E4 | 0 | 329.6 | none',
    ]);
  });

  it('follows temperament and concert pitch', () => {
    const just = rungs(present(readHarp('C', RICHTER), 'the harp'), 2, { temperament: TEMPERAMENTS[2], concertA: 442 });
    expect(just[1]).toBe('-2 draw 2 | G4 | +2 | 394.2 | none');
    expect(just[3]).toBe("-2'' draw 2, whole-step bend | F4 | −29 | 344.9 | −231");
  });

  it('shows overbend, cents and frequency only where they are asked for', () => {
    const ladder = { kind: 'bend-ladder', harp: A, hole: 3 } as const;
    const pitching = { temperament: present(TEMPERAMENTS[2], 'a temperament'), concertA: 442 };
    const plain = page(drawFigure(ladder, pitching));
    expect([...plain.querySelectorAll('tr')].map((row) => [...row.children].map(textOf).join(' | '))).toEqual([
      'Played | Note',
      '-3 draw 3 | G♯4',
      "-3' draw 3, half-step bend | G4",
      "-3'' draw 3, whole-step bend | F♯4",
      "-3''' draw 3, step-and-a-half bend | F4",
      '3 blow 3 | E4',
    ]);
    expect(textOf(plain.body)).not.toMatch(/over|cent|hertz|Hz|temperament/i);
    const heads = (figure: Figure): string[] =>
      [...page(drawFigure(figure, pitching)).querySelectorAll('thead th')].map(textOf);
    expect(heads({ ...ladder, cents: true })).toEqual(['Played', 'Note', 'Tuner, cents', 'Bent by, cents']);
    expect(heads({ ...ladder, hertz: true })).toEqual(['Played', 'Note', 'Hertz']);
    expect(drawFigure({ ...ladder, hertz: true }, pitching)).toContain('A at 442 Hz');
  });

  it('says why a hole has no bend', () => {
    expect(drawFigure({ kind: 'bend-ladder', harp: A, hole: 5 })).toContain('half step apart');
    const solo = { ...A, tuning: TUNINGS[5] };
    expect(drawFigure({ kind: 'bend-ladder', harp: solo, hole: 5 })).toContain('valved');
  });
});

describe('the positions and the temperament of a harp', () => {
  it('name all twelve, with home, mode and what takes a bend', () => {
    const items = [...page(drawFigure({ kind: 'position-list', harp: A })).querySelectorAll('.position-list > li')];
    expect(items).toHaveLength(12);
    expect(textOf(items[1]?.querySelector('.position-head'))).toBe('2 E cross harp, Mixolydian');
    expect(textOf(items[4]?.querySelector('.position-head'))).toBe('5 C♯ Phrygian');
    expect(textOf(items[1])).toContain("♭3: -3' 10''");
  });

  it('tell each reed’s ratio to its chord and its cents', () => {
    const rows = [
      ...page(drawFigure({ kind: 'temperament-table', harp: A }, { temperament: TEMPERAMENTS[1] })).querySelectorAll(
        'tbody tr',
      ),
    ];
    expect(rows.map((row) => [...row.children].map(textOf).join(' | '))).toContain('D draw 5 9 | 7/4 | 0 | −15 | −29');
    expect(rows[0]?.querySelector('.chosen')).not.toBeNull();
  });
});
