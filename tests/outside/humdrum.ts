/** Scores in Humdrum, whose pitches are absolute: for an engraver that is to decide by itself which of them need a sign. */
import { clefOf } from '../../src/engrave/clef.ts';
import { signatureOf } from '../../src/harmony/key.ts';
import type { Pitch } from '../../src/instrument/pitch.ts';
import type { Score } from '../../src/score/score.ts';
import { staffNotes } from '../../src/score/spelling.ts';
import { writtenScore } from '../../src/score/written.ts';

/** `b-` for Bb4, `ccc#` for C#6, `f` for F natural: Humdrum's pitches are absolute, whatever the signature. */
export function kernPitch({ letter, alter, octave }: Pitch): string {
  const name = octave >= 4 ? letter.toLowerCase().repeat(octave - 3) : letter.repeat(4 - octave);
  return name + (alter < 0 ? '-'.repeat(-alter) : '#'.repeat(alter));
}

/** The score in Humdrum: our note values, its notation. */
export function humdrum(score: Score): string {
  const staff = staffNotes(score);
  const clef = { [-1]: '*clefGv2', 0: '*clefG2', 1: '*clefG^2', 2: '*clefG^^2' }[clefOf(score).octaves];
  const signs = signatureOf(score.key);
  const names = signs > 0 ? 'fcgdaeb' : 'beadgcf';
  const mark = signs > 0 ? '#' : '-';
  const signature = [...names.slice(0, Math.abs(signs))].map((name) => name + mark).join('');
  const lines = ['**kern', clef, `*k[${signature}]`, `*M${score.meter.beats}/${score.meter.unit}`];
  writtenScore(score).forEach(({ notes, tuplets }, index) => {
    const bar = score.bars[index];
    lines.push(`=${index + 1}`);
    for (const note of notes) {
      const event = bar?.events[note.event];
      const tuplet = note.tuplet === undefined ? undefined : tuplets[note.tuplet];
      const recip = (tuplet ? (note.value * tuplet.actual) / tuplet.normal : note.value) + '.'.repeat(note.dots);
      if (note.rest || !event) lines.push(`${note.wholeBar ? 1 : recip}r`);
      else {
        const open = note.tiedToNext && !note.tiedFromPrevious ? '[' : '';
        const close = note.tiedFromPrevious ? (note.tiedToNext ? '_' : ']') : '';
        const heads = (staff[event.index] ?? []).map((own) => `${open}${recip}${kernPitch(own.pitch)}${close}`);
        lines.push(heads.join(' ') || `${recip}r`);
      }
    }
  });
  return [...lines, '=', '*-', ''].join('\n');
}
