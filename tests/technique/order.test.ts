/** In which order the shipped techniques are to be taught, what a beginner is assumed to know, and what to take care of. */
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/technique/catalogue.ts';
import { cautionsFor, SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';

describe('a beginner', () => {
  it('is assumed to hold the harp, breathe, play open notes and chords in time, and play in first position', () => {
    expect(CATALOGUE.filter(({ assumed }) => assumed).map(({ id }) => id)).toEqual([
      ...['holding', 'relaxed-breathing', 'single-notes', 'long-notes', 'lip-pursing'],
      ...['chords', 'double-stops', 'full-chords', 'breath-turns'],
      ...['low-holes', 'middle-holes', 'hole-jumps'],
      // How bends are come to and held belongs to bending, and is missed only where a course teaches it.
      ...['bends-from-nothing', 'held-bends'],
      ...[
        'accents',
        'staccato',
        'breath-marks',
        'fermatas',
        'dynamics',
        'tenuto',
        'syncopation',
        'pickups',
        'three-four',
      ],
      ...['first-position', 'turnaround', 'blue-thirds', 'flat-fifths'],
    ]);
  });
});

/** What has to be there first, for every technique that builds on another. */
const BUILDS_ON: Readonly<Record<string, readonly string[]>> = {
  'embouchure-switches': ['tongue-blocking'],
  'embouchure-switches-within-a-beat': ['embouchure-switches'],
  'tongue-blocked-bends': ['tongue-blocking', 'draw-bends'],
  'chord-rhythm': ['chords'],
  'grace-notes': ['single-notes'],
  splits: ['tongue-blocking'],
  'octave-splits': ['tongue-blocking'],
  'octave-splits-four-holes': ['tongue-blocking'],
  'octave-splits-five-holes': ['octave-splits-four-holes'],
  'other-splits': ['tongue-blocking'],
  bends: ['single-notes'],
  'draw-bends': ['single-notes'],
  'half-step-bends': ['single-notes'],
  'whole-step-bends': ['half-step-bends'],
  'step-and-a-half-bends': ['whole-step-bends'],
  'quarter-step-bends': ['half-step-bends'],
  'draw-2-whole-step': ['draw-2-half-step'],
  'draw-2-step-and-a-half': ['draw-2-whole-step'],
  'draw-3-whole-step': ['draw-3-half-step'],
  'draw-3-step-and-a-half': ['draw-3-whole-step'],
  'blow-bends': ['high-holes'],
  'blow-10-whole-step': ['blow-10-half-step'],
  'blow-10-step-and-a-half': ['blow-10-whole-step'],
  'bends-from-nothing': ['bends'],
  'held-bends': ['bends'],
  'bend-releases': ['bends'],
  'bend-drops': ['bends'],
  'glides-between-bends': ['bends'],
  'bent-double-stops': ['double-stops', 'bends'],
  overblows: ['draw-bends'],
  overdraws: ['blow-bends'],
  slaps: ['tongue-blocking'],
  pulls: ['tongue-blocking'],
  flutters: ['tongue-blocking'],
  'bent-shakes': ['shakes', 'draw-bends'],
  vibrato: ['long-notes'],
  tremolo: ['long-notes'],
  'quick-change': ['twelve-bar'],
  'minor-blues': ['twelve-bar'],
};

/** The wider technique that each is a kind of; bends and overbends of one hole are named after theirs. */
const KINDS: Readonly<Record<string, string>> = {
  'embouchure-switches-within-a-beat': 'embouchure-switches',
  'double-stops': 'chords',
  'full-chords': 'chords',
  'octave-splits': 'splits',
  'octave-splits-four-holes': 'octave-splits',
  'octave-splits-five-holes': 'octave-splits',
  'other-splits': 'splits',
  'quick-breath-turns': 'breath-turns',
  'wide-jumps': 'hole-jumps',
  'draw-bends': 'bends',
  'half-step-bends': 'draw-bends',
  'whole-step-bends': 'draw-bends',
  'step-and-a-half-bends': 'draw-bends',
  'quarter-step-bends': 'draw-bends',
  'blow-bends': 'bends',
  'bent-shakes': 'shakes',
};

function kindsOf(id: string): readonly string[] {
  const [, breath, step] = /^(draw|blow)-\d+-(.+)$/.exec(id) ?? [];
  if (breath) return [breath === 'draw' ? `${step}-bends` : 'blow-bends'];
  const [, overbend] = /^(over(?:blow|draw))-\d+$/.exec(id) ?? [];
  if (overbend) return [`${overbend}s`];
  return KINDS[id] === undefined ? [] : [KINDS[id]];
}

describe('a technique', () => {
  it('builds on the easier ones it is made of', () => {
    const builtOn = CATALOGUE.filter(({ requires }) => requires.length > 0).map(({ id, requires }) => [id, requires]);
    expect(Object.fromEntries(builtOn)).toEqual(BUILDS_ON);
  });

  it.each(CATALOGUE.map(({ id, kindOf }) => [id, kindOf]))('%s is a kind of what its name says', (id, kinds) => {
    expect(kinds).toEqual(kindsOf(`${id}`));
  });
});

/** Ids of the techniques that say so themselves. */
const warning = (words: RegExp): string[] =>
  CATALOGUE.filter(({ cautions }) => cautions.some((one) => words.test(one))).map(({ id }) => id);

describe('the student is warned', () => {
  it('of what strains jaw, lips, tongue or neck', () => {
    expect(warning(/when jaw, lips, tongue or neck hurt/)).toEqual([
      ...['tongue-blocking', 'tongue-blocked-bends', 'octave-splits-five-holes'],
      ...['bends', 'draw-bends', 'half-step-bends', 'whole-step-bends', 'step-and-a-half-bends'],
      ...['quarter-step-bends', 'blow-bends'],
      ...['held-bends', 'overblows', 'overdraws'],
    ]);
    expect(warning(/^Keep the neck loose/)).toEqual(['shakes']);
  });
  it('of it at every single bend and overbend', () => {
    for (const { id, group } of CATALOGUE.filter(({ id }) => /^(?:draw|blow|overblow|overdraw)-\d/.test(id)))
      expect(cautionsFor(SHIPPED_REPERTOIRE, [id]).join(' '), `${group} ${id}`).toMatch(/hurt/);
  });
  it('of what makes light-headed', () => {
    expect(warning(/light-headed/)).toEqual(['relaxed-breathing', 'long-notes', 'chord-rhythm']);
  });
  it('of high notes close to the ear', () => expect(warning(/close to the ear/)).toEqual(['blow-bends']));
  it('of what a harp carries', () => expect(warning(/from mouth to mouth/)).toEqual(['holding']));
});

it('bears its id in its title', () => {
  const titles = new Map(CATALOGUE.map(({ id, title }) => [id, title]));
  expect(titles.get('draw-3-half-step')).toBe('Draw 3 bent a half step');
  expect(titles.get('blow-10-whole-step')).toBe('Blow 10 bent a whole step');
  expect(titles.get('draw-3-step-and-a-half')).toBe('Draw 3 bent a step and a half');
  expect(titles.get('overblow-6')).toBe('Overblow on hole 6');
  expect(titles.get('overdraw-9')).toBe('Overdraw on hole 9');
  expect(titles.get('second-position')).toBe('Second position');
  expect(new Set(titles.values()).size).toBe(titles.size);
});
