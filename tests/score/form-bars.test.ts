import { describe, expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { formBarsOf } from '../../src/score/form-bars.ts';
import { present } from '../../src/values/checked.ts';

/** Of each bar of a block in quarters, the bar of its progression. */
const formBars = (text: string) => formBarsOf(present(readBlock(`slot: 1/4\n${text}`).score, text));

describe('the bar of the progression that a bar of the music is on', () => {
  test('begins again after the last one', () => {
    expect(formBars('chords: I | IV\n4 =3 | 4 =3 | 4 =3 | 4 =3')).toEqual([0, 1, 0, 1]);
  });
  test('is none in a pickup, and the first one in the bar after it', () => {
    expect(formBars('chords: I | IV\npickup: 1\n4 | 4 =3 | 4 =2')).toEqual([undefined, 0, 1]);
  });
  test('is counted as the music is played: the second ending is on the same one as the first', () => {
    expect(formBars('chords: I | IV\n|: 4 =3 |1 4 =3 :|2 4 =3 |]')).toEqual([0, 1, 1]);
    expect(formBars('chords: I | I | IV\n|: 4 =3 :| 4 =3')).toEqual([0, 2]);
  });
  test('is counted over jumps: a coda is where it is played', () => {
    expect(formBars('chords: I | IV | I | V\n4 =3 |to-coda 4 =3 |D.C.,coda 4 =3')).toEqual([0, 1, 3]);
  });
  test('is none where there is no progression', () => {
    expect(formBars('4 =3 | 4 =3')).toEqual([undefined, undefined]);
  });
});
