/**
 * MIDI files against what the oracle says is played, as two parsers made by others read them: the library midi-file, and mido of Python
 * (Debian's package python3-mido). The oracle gives pitches and times alone. The pitch bend is read as “MIDI 1.0 Detailed
 * Specification” says: 14 bits around 8192, for so many half steps as registered parameter 0 was set to.
 */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type MidiEvent, parseMidi } from 'midi-file';
import { beforeAll, describe, expect, test } from 'vitest';
import { midiOf } from '../../../src/interchange/midi/file.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { run } from '../../setup/debian.ts';
import { cases } from '../../setup/long.ts';
import { type Attacks, attacksAt, differencesOf, playedBy } from './attacks.ts';
import { type Asked, changingScores, demoBlocks, HARD_CREDITS, randomBlocks } from './samples.ts';

/** One message with its tick, as plain numbers. */
type Message = readonly number[];

let blocks: Asked[];
beforeAll(() => {
  blocks = randomBlocks(cases(90, 2000));
});

/** What begins when: keys as they are bent, where one is pressed or the pitch bend moves what sounds. */
function attacksIn(file: Uint8Array): Attacks {
  const { header, tracks } = parseMidi(file);
  const whole = 4 * present(header.ticksPerBeat, 'ticks of a quarter note');
  const states = new Map<number, readonly number[]>();
  const pressed = new Set<number>();
  const parameter = { coarse: 127, fine: 127 };
  let [tick, bend, range] = [0, 0, 2];
  for (const event of itemAt(tracks, 1)) {
    tick += event.deltaTime;
    if (event.type === 'controller') {
      if (event.controllerType === 101) parameter.coarse = event.value;
      if (event.controllerType === 100) parameter.fine = event.value;
      if (event.controllerType === 6 && parameter.coarse === 0 && parameter.fine === 0) range = event.value;
    } else if (event.type === 'pitchBend') bend = (event.value / 8192) * range;
    else if (event.type === 'noteOff') pressed.delete(event.noteNumber);
    if (event.type === 'noteOn') pressed.add(event.noteNumber);
    if (event.type === 'noteOn' || (event.type === 'pitchBend' && pressed.size > 0))
      states.set(
        tick,
        [...pressed].map((key) => Math.round((key + bend) * 1000) / 1000),
      );
  }
  return attacksAt([...states].map(([at, keys]) => ({ at: at / whole, keys })));
}

/** Marks that move the pitch within a note or add notes: times of their own, which the oracle does not know. */
const isPlain = ({ asked }: Asked): boolean => !/\[[^\]]*(?:dip|fall|shake|slap|pull)/.test(asked.text);

test('what the oracle plays is in the file, and nothing else', () => {
  const plain = blocks.filter(isPlain);
  expect(plain.length).toBeGreaterThan(blocks.length / 2);
  for (const { seed, asked, score } of plain) {
    const found = differencesOf(playedBy(asked), attacksIn(midiOf(score, HARD_CREDITS)));
    if (found.length > 0) expect({ seed, block: asked.text, found }).toEqual({ seed, found: [] });
  }
});

test('one wrong pitch or one wrong time is found', () => {
  const { asked, score } = itemAt(
    blocks.filter((block) => isPlain(block) && block.asked.played.length > 3),
    0,
  );
  const played = playedBy(asked);
  const file = attacksIn(midiOf(score, HARD_CREDITS));
  const second = itemAt([...file.keys()], 1);
  const changed = (change: (place: number, keys: readonly number[]) => [number, readonly number[]]): Attacks =>
    new Map(
      [...file].map(([place, keys]): [number, readonly number[]] =>
        place === second ? change(place, keys) : [place, keys],
      ),
    );
  expect(differencesOf(played, file)).toEqual([]);
  expect(
    differencesOf(
      played,
      changed((place, [low = 0, ...keys]) => [place, [low + 1, ...keys]]),
    ).length,
  ).toBe(1);
  expect(
    differencesOf(
      played,
      changed((place, keys) => [place + 3, keys]),
    ).length,
  ).toBe(1);
});

describe('two parsers read the same', () => {
  /** Every message of every file, by each parser. */
  const MIDO = `
import json, mido, sys
for path in open(sys.argv[1]).read().split():
    file = mido.MidiFile(path)
    tracks = []
    for track in file.tracks:
        tick, messages = 0, []
        for message in track:
            tick += message.time
            if message.type == 'note_on': messages.append([tick, 144, message.channel, message.note, message.velocity])
            elif message.type == 'note_off': messages.append([tick, 128, message.channel, message.note])
            elif message.type == 'pitchwheel': messages.append([tick, 224, message.channel, message.pitch])
            elif message.type == 'control_change': messages.append([tick, 176, message.channel, message.control, message.value])
            elif message.type == 'program_change': messages.append([tick, 192, message.channel, message.program])
            elif message.type == 'set_tempo': messages.append([tick, 81, message.tempo])
            elif message.type == 'time_signature': messages.append([tick, 88, message.numerator, message.denominator])
            elif message.type in ('lyrics', 'text', 'marker', 'track_name', 'copyright'):
                text = message.name if message.type == 'track_name' else message.text
                messages.append([tick, message.type, text.encode('latin1').decode('utf8')])
            elif message.type == 'key_signature': messages.append([tick, 89, message.key])
        tracks.append(messages)
    print(json.dumps([file.type, file.ticks_per_beat, tracks]))
`;

  const TEXT_NAMES: ReadonlyMap<string, string> = new Map([
    ['lyrics', 'lyrics'],
    ['text', 'text'],
    ['marker', 'marker'],
    ['trackName', 'track_name'],
    ['copyrightNotice', 'copyright'],
  ]);

  function messagesOf(track: readonly MidiEvent[]): (Message | readonly (number | string)[])[] {
    let tick = 0;
    return track.flatMap((event) => {
      tick += event.deltaTime;
      switch (event.type) {
        case 'noteOn':
          return [[tick, 144, event.channel, event.noteNumber, event.velocity]];
        case 'noteOff':
          return [[tick, 128, event.channel, event.noteNumber]];
        case 'pitchBend':
          return [[tick, 224, event.channel, event.value]];
        case 'controller':
          return [[tick, 176, event.channel, event.controllerType, event.value]];
        case 'programChange':
          return [[tick, 192, event.channel, event.programNumber]];
        case 'setTempo':
          return [[tick, 81, event.microsecondsPerBeat]];
        case 'timeSignature':
          return [[tick, 88, event.numerator, event.denominator]];
        default: {
          const name = TEXT_NAMES.get(event.type);
          return name && 'text' in event ? [[tick, name, Buffer.from(event.text, 'latin1').toString('utf8')]] : [];
        }
      }
    });
  }

  test('in every message of random blocks, of some with changes and of the demo course, with the band and without', () => {
    const dir = mkdtempSync(join(tmpdir(), 'reedway-midi-'));
    const demo = demoBlocks();
    const files = [
      ...blocks.map(({ score }) => midiOf(score, HARD_CREDITS)),
      ...changingScores(60).map((score) => midiOf(score, HARD_CREDITS)),
      ...demo.map(({ score, credits }) => midiOf(score, credits)),
      ...demo.map(({ score, credits }) => midiOf(score, credits, 'both')),
    ];
    const paths = files.map((bytes, index) => {
      const path = join(dir, `${index}.mid`);
      writeFileSync(path, bytes);
      return path;
    });
    writeFileSync(join(dir, 'list'), paths.join('\n'));
    writeFileSync(join(dir, 'read.py'), MIDO);
    const lines = run('python3', [join(dir, 'read.py'), join(dir, 'list')])
      .trim()
      .split('\n');
    expect(lines.length).toBe(files.length);
    files.forEach((bytes, index) => {
      const [type, ticks, tracks] = JSON.parse(itemAt(lines, index)) as [number, number, Message[][]];
      const read = parseMidi(bytes);
      expect([type, ticks]).toEqual([read.header.format, read.header.ticksPerBeat]);
      const plain = tracks.map((track) => track.filter(([, kind]) => kind !== 89));
      expect(read.tracks.map(messagesOf), paths[index]).toEqual(plain);
    });
  });
});
