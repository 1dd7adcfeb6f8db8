/**
 * What chord symbols mean, against two general-purpose chord libraries that share no code with ours: chord-symbol and
 * teoria. They get the symbol alone, and answer with the half steps of its tones above the root.
 */
import { chordParserFactory } from 'chord-symbol/lib/chord-symbol-esm.js';
import * as teoria from 'teoria';
import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { songKey } from '../../src/harmony/key.ts';
import { QUALITIES, readQuality } from '../../src/harmony/quality.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { chromaOf, mod } from '../../src/instrument/pitch.ts';
import { present } from '../../src/values/checked.ts';

const parse = chordParserFactory();
const chromas = (semitones: readonly number[]): string =>
  [...new Set(semitones.map((each) => mod(each, 12)))].sort((a, b) => a - b).join(' ');

function byChordSymbol(symbol: string): string | undefined {
  const { error, normalized } = parse(symbol);
  return error?.length || !normalized ? undefined : chromas(normalized.semitones);
}
function byTeoria(symbol: string): string | undefined {
  try {
    return chromas(teoria.chord(symbol).intervals.map((interval) => interval.semitones()));
  } catch {
    return undefined;
  }
}
const ours = (suffix: string): string | undefined => {
  const quality = readQuality(suffix);
  return quality && chromas(quality.tones.map(({ semitones }) => semitones));
};

const ALTERED = [
  '7b5', '7(#5)', '7b9', '7#9', '7#11', '7b5b9', '7b5#9', '7#5b9', '7#5#9', '7b9#11', '7(b9)', '7(b9,#11)', '7(#9,#11)', '9b5', '9#11',
  '13b9', '13#9', '13#11', 'maj7#11', 'maj9#11', 'maj7b5', 'm9b5', 'm11b5', 'm7add11', '7add11', '7no5', '7-5', '7+5', '7b13', '7b9b13',
]; // biome-ignore format: a list
// Directly behind a root, “#5” would make it sharp.
const SPELLINGS = [...QUALITIES.flatMap(({ spellings }) => spellings), ...ALTERED].filter(
  (each) => !/^[#b]/.test(each),
);

/**
 * Where teoria reads the spelling we show in another way: a thirteenth brings the ninth and the eleventh below it, an
 * eleventh the third and the ninth; it leaves added fourths out, and takes “sus24” for a compound interval.
 */
const TEORIA_DIFFERS = /11|13|sus24/;

describe('every spelling of a chord', () => {
  it('means what at least one of two libraries says it means, wherever one knows it', () => {
    for (const suffix of SPELLINGS) {
      const theirs = [byChordSymbol(`C${suffix}`), byTeoria(`C${suffix}`)].filter((each) => each !== undefined);
      if (theirs.length > 0) expect(theirs, suffix).toContain(ours(suffix));
    }
  });

  it('is known to at least one of them, with no exception', () => {
    const unknown = SPELLINGS.filter((suffix) => !byChordSymbol(`C${suffix}`) && !byTeoria(`C${suffix}`));
    expect(unknown).toEqual([]);
  });

  it('means the same to both, wherever teoria does not add tones of its own', () => {
    const shown = [...QUALITIES.map(({ suffix }) => suffix), ...ALTERED].filter((each) => !/^[#b]/.test(each));
    const differ = shown.filter((suffix) => {
      const theirs = byTeoria(`C${suffix}`);
      return theirs !== undefined && theirs !== ours(suffix);
    });
    expect(differ.filter((suffix) => !TEORIA_DIFFERS.test(suffix))).toEqual([]);
  });
});

describe('every root', () => {
  const key = songKey({ letter: 'C', alter: 0 }, 'major');
  const ROOTS = ['C', 'Db', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'Gb', 'G', 'Ab', 'A', 'Bb', 'B'];
  it.each(ROOTS)('%s carries its chords to the pitches chord-symbol gives above the root tonal names', (root) => {
    for (const suffix of ['', 'm', '7', 'm7', 'maj7', 'm7b5', 'dim7', 'aug', '6', '9', '7b9', 'sus4']) {
      const chord = present(readChord(root + suffix, key), root + suffix);
      const pitches = chromas(chord.tones.map(({ semitones }) => chromaOf(chord.root) + semitones));
      const theirRoot = Note.chroma(root);
      const theirs = present(byChordSymbol(root + suffix), root + suffix)
        .split(' ')
        .map(Number);
      expect(pitches).toBe(chromas(theirs.map((each) => theirRoot + each)));
    }
  });
});
