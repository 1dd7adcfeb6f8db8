/**
 * What the band plays of chords with ninths, elevenths and thirteenths, against the tones that tonal, a general-purpose library of
 * music theory, gives them. That players keep third, seventh and colour and leave out first the fifth and then the root: common
 * practice, no source.
 */
import { Chord, Interval, Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import { voicing } from '../../src/schedule/band/voicing.ts';
import { chordAtTick } from '../../src/score/playback.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { playbackFrom } from '../schedule/some-block.ts';

const ROOTS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
/** [a suffix, the interval that makes its colour, the number of voices]. */
const COLOURED = [
  ['9', '9M', 3],
  ['maj9', '9M', 3],
  ['m9', '9M', 3],
  ['6/9', '9M', 3],
  ['add9', '9M', 3],
  ['7b9', '9m', 3],
  ['7#9', '9A', 3],
  ['9sus4', '9M', 3],
  ['11', '11P', 3],
  ['m11', '11P', 3],
  ['7#11', '11A', 3],
  ['maj7#11', '11A', 3],
  ['13', '13M', 3],
  ['maj13', '13M', 3],
  ['m13', '13M', 3],
  ['13#11', '11A', 4],
  ['13b9', '9m', 4],
] as const;

describe.each(COLOURED)('a chord %s', (suffix, colour, voices) => {
  test.each(ROOTS)('on %s has its third, its seventh and its colour, and no tone but its own', (root) => {
    const chord = chordAtTick(itemAt(playbackFrom(`slot: 1/1\n"${root}${suffix}" 4`).bars, 0), 0);
    const midis = voicing(present(chord, suffix));
    const chromas = midis.map((midi) => midi % 12);
    const theirs = Chord.get(root + suffix);
    const known = theirs.empty ? Chord.get(root + suffix.replace('6/9', '69')) : theirs;
    expect(known.notes.length, root + suffix).toBeGreaterThan(3);
    const tones = known.notes.map((note) => Note.chroma(note));
    expect(chromas.filter((chroma) => !tones.includes(chroma))).toEqual([]);
    const needed = known.intervals.filter((each) => /^[37]/.test(each) || each === colour);
    expect(needed).toContain(colour);
    for (const each of needed) expect(chromas).toContain((Note.chroma(root) + (Interval.semitones(each) ?? 0)) % 12);
    expect(midis.length).toBe(voices);
    expect(midis.filter((midi) => midi < 53 || midi > 75)).toEqual([]);
  });
});
