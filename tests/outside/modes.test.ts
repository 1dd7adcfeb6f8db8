/**
 * The signature and the scale of every mode on every tonic, against tonal, a general-purpose library of music theory, which gets the
 * names of tonic and mode. Signatures of modal songs are those of the notes of their mode, as ABC 2.1 has them (“K: - key”).
 */
import { Note, Scale } from 'tonal';
import { describe, expect, test } from 'vitest';
import { isInScale, MODE_NAMES, signatureOf, songKey } from '../../src/harmony/key.ts';
import { plainName, readPitchClass } from '../../src/instrument/pitch.ts';
import { readBlock } from '../../src/notation/read.ts';
import { present } from '../../src/values/checked.ts';

const TONICS = ['C', 'G', 'D', 'A', 'E', 'B', 'F', 'Bb', 'Eb', 'Ab', 'Db', 'F#'];

describe.each(MODE_NAMES)('%s', (mode) => {
  test.each(TONICS)('on %s', (named) => {
    const key = songKey(present(readPitchClass(named), named), mode);
    const { notes } = Scale.get(`${plainName(key.tonic)} ${mode}`);
    expect(notes.length).toBe(7);
    const signs = notes.reduce((sum, note) => sum + Note.get(note).alt, 0);
    expect(signatureOf(key)).toBe(signs);
    expect(Math.abs(signs)).toBeLessThanOrEqual(7);
    for (const note of notes) expect(isInScale(60 + (Note.chroma(note) ?? Number.NaN), key)).toBe(true);
    // Minor is one key with its sixth and seventh in two forms.
    if (mode === 'minor') return;
    const chromas = new Set(notes.map((note) => Note.chroma(note)));
    for (let chroma = 0; chroma < 12; chroma++) expect(isInScale(60 + chroma, key)).toBe(chromas.has(chroma));
  });
});

test('a block in third position of a C harp is in D dorian without signs, with one flat where it is in minor', () => {
  const signs = (key: string) => {
    const score = present(readBlock(`position: 3\nkey: ${key}\n\n-4 =7`).score, key);
    return [plainName(score.key.tonic), score.key.mode, signatureOf(score.key)];
  };
  expect(signs('dorian')).toEqual(['D', 'dorian', 0]);
  expect(signs('D minor')).toEqual(['D', 'minor', -1]);
  expect(signs('major')).toEqual(['D', 'major', 2]);
});
