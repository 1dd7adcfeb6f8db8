/**
 * Quarter steps: which a harp has, as the oracle works it out from the reeds; how they sound in a file; and what other programs read
 * in ours. That 50 cents are a quarter of a whole step is the definition of the cent.
 */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import abcjs from 'abcjs';
import { parseMidi } from 'midi-file';
import { expect, test } from 'vitest';
import { abcOf } from '../../src/interchange/abc/document.ts';
import { midiOf } from '../../src/interchange/midi/file.ts';
import { musicXmlOf } from '../../src/interchange/musicxml/document.ts';
import { readBlock } from '../../src/notation/read.ts';
import { soundsOf } from '../../src/score/queries.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { parsed, scoreOf } from '../engrave/pictures.ts';
import { run } from '../setup/debian.ts';
import { HARD_CREDITS } from './exchange/samples.ts';
import { firstHole, playables, TUNINGS } from './oracle/instrument.ts';
import { verovioReading } from './verovio.ts';

test.each(TUNINGS)('every hole, breath and bend with q is there where the oracle has it: %s', (tuning) => {
  const theirs = new Map(playables(tuning).map(({ text, half }) => [text, firstHole('C', '') + half]));
  for (let hole = 1; hole <= (tuning === 'solo-chromatic' ? 12 : 10); hole++)
    for (const sign of ['', '-'])
      for (const bend of ['', "'", "''", "'''", "''''", 'o'])
        for (const slide of tuning === 'solo-chromatic' ? ['', '*'] : ['']) {
          const text = `${sign}${hole}${bend}q${slide}`;
          const { score } = readBlock(`harp: C\ntuning: ${tuning}\n\n${text} =7`);
          const midi = score && soundsOf(score)[0]?.notes[0]?.pitch.midi;
          expect({ text, midi }).toEqual({ text, midi: theirs.get(text) });
        }
});

/** Keys as they sound, by the pitch bend of their channels: (tick, MIDI number) pairs. */
function soundsIn(file: Uint8Array, reach: number): (readonly [number, number])[] {
  const bends = new Map<number, number>();
  return parseMidi(file).tracks.flatMap((track) => {
    let tick = 0;
    return track.flatMap((event): (readonly [number, number])[] => {
      tick += event.deltaTime;
      if (event.type === 'pitchBend') bends.set(event.channel, (event.value / 8192) * reach);
      return event.type === 'noteOn' ? [[tick, event.noteNumber + (bends.get(event.channel) ?? 0)]] : [];
    });
  });
}

// Draw 3 of a C harp is B4, its half-step bend Bb4.
test('a quarter step is 50 cents, within 2, in a MIDI file', () => {
  const score = scoreOf("harp: C\nslot: 1/4\n\n-3 -3q -3 -3'q | 7 7q 7 .");
  const sounds = soundsIn(midiOf(score, HARD_CREDITS), 8).map(([, midi]) => midi);
  expect(sounds).toHaveLength(7);
  for (const [index, midi] of [71, 70.5, 71, 69.5, 84, 83.5, 84].entries())
    expect(Math.abs(itemAt(sounds, index) - midi) * 100).toBeLessThan(2);
});

test('a quarter step bends none of the notes that sound with it', () => {
  const score = scoreOf('harp: C\nslot: 1/4\n\n-(2 3q) -(2 3) -(2q 3q) -(1 2q 3)');
  const sounds = soundsIn(midiOf(score, HARD_CREDITS), 8);
  const [first = 0] = sounds.map(([tick]) => tick);
  const at = (quarter: number): number[] =>
    sounds
      .flatMap(([tick, midi]) => (Math.round((tick - first) / 960) === quarter ? [midi] : []))
      .sort((a, b) => a - b);
  expect([0, 1, 2, 3].map(at)).toEqual([
    [67, 70.5],
    [67, 71],
    [66.5, 70.5],
    [62, 66.5, 71],
  ]);
});

/** Second position on C is in G: draw 3 is B, and F# has a sharp in the signature. */
const NEIGHBOURS = "harp: C\nposition: 2\nslot: 1/4\n\n\"I7\" -3q -3 -3q -3' | -3'q -3 -2'q -2 | -5q -5 7q .";

test('Verovio reads the accidentals of quarter steps', async () => {
  const engraver = await verovioReading('xml');
  const score = scoreOf(NEIGHBOURS);
  expect(engraver.loadData(musicXmlOf(score, HARD_CREDITS))).toBeTruthy();
  const mei = parsed(engraver.getMEI().replace(/<\?.*?\?>/g, ''));
  const read = [...mei.querySelectorAll('note')].map(
    (note) =>
      `${note.getAttribute('pname')}${note.getAttribute('oct')} ${note.querySelector('accid')?.getAttribute('accid') ?? ''}`,
  );
  // MEI’s names: 1qf a quarter tone flat, 3qf three, 1qs a quarter tone sharp.
  expect(read).toEqual([
    ...['b4 1qf', 'b4 n', 'b4 1qf', 'b4 f'],
    ...['b4 3qf', 'b4 n', 'f4 1qs', 'g4 '],
    ...['f5 1qf', 'f5 n', 'c6 1qf'],
  ]);
});

test('abc2midi plays quarter steps, and abcjs reads their accidentals', () => {
  const score = scoreOf(NEIGHBOURS);
  const abc = abcOf(score, HARD_CREDITS);
  const dir = mkdtempSync(join(tmpdir(), 'reedway-quarter-'));
  const [text, midi] = [join(dir, 'tune.abc'), join(dir, 'tune.mid')];
  writeFileSync(text, abc.replace(/^X:1$/m, 'X:1\n%%MIDI gchordoff'));
  run('abc2midi', [text, '-o', midi], { fails: true });
  expect(soundsIn(readFileSync(midi), 2).map(([, sound]) => sound)).toEqual(
    soundsOf(score).map(({ notes }) => present(notes[0], 'a note').pitch.midi),
  );
  const tune = itemAt(abcjs.parseOnly(abc) as unknown as readonly { readonly warnings?: readonly string[] }[], 0);
  expect(tune.warnings ?? []).toEqual([]);
});
