/** Recordings that sox makes, by the lengths given to sox; of the kinds sox does not make, the head as its standard has it. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { lengthOf } from '../../../src/course/clips/recording.ts';
import { run } from '../../setup/debian.ts';

const measure = (file: Buffer): number | undefined =>
  lengthOf({ size: file.length, read: (from, length) => file.subarray(from, from + length) });

const word = (value: number): Buffer => {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32BE(value);
  return bytes;
};
const box = (name: string, ...content: readonly Buffer[]): Buffer => {
  const inner = Buffer.concat(content);
  return Buffer.concat([word(8 + inner.length), Buffer.from(name, 'latin1'), inner]);
};
const element = (id: string, content: Buffer): Buffer =>
  Buffer.concat([Buffer.from(id, 'hex'), Buffer.from([0x80 | content.length]), content]);
const float = (value: number): Buffer => {
  const bytes = Buffer.alloc(8);
  bytes.writeDoubleBE(value);
  return bytes;
};

/** `mvhd` after its name: version and flags, made, changed, units a second, units. */
const film = (scale: number, length: number): Buffer =>
  Buffer.concat([
    box('ftyp', Buffer.from('isom....')),
    box('mdat', Buffer.alloc(50)),
    box('moov', box('mvhd', ...[0, 0, 0, scale, length].map(word), Buffer.alloc(80))),
  ]);

/** An endless segment, as recorders that do not know the end write it. */
const matroska = (info: Buffer): Buffer =>
  Buffer.concat([
    element('1a45dfa3', Buffer.alloc(4)),
    Buffer.from('1853806701ffffffffffffff', 'hex'),
    element('ec', Buffer.alloc(5)),
    element('1549a966', info),
    element('1f43b675', Buffer.alloc(20)),
  ]);

describe('how long a recording lasts', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'recording-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test.each([
    ['wav', 8000],
    ['wav', 44_100],
    ['flac', 44_100],
    ['ogg', 48_000],
  ])('is read from a %s file of %i Hz', (kind, rate) => {
    const file = join(folder, `tone-${rate}.${kind}`);
    run('sox', ['-n', '-r', `${rate}`, file, 'synth', '3.25', 'sine', '300']);
    expect(measure(readFileSync(file))).toBeCloseTo(3.25, 3);
  });

  test('is read from an MP3 file, frame by frame', () => {
    // A frame of 64 kilobits at 48 kHz, mono, is 192 bytes and 24 milliseconds long.
    const frame = Buffer.concat([Buffer.from([0xff, 0xfb, 0x54, 0xc0]), Buffer.alloc(188)]);
    const tag = Buffer.concat([Buffer.from('ID3\u0004\0\0\0\0\u0001\u0002', 'latin1'), Buffer.alloc(130)]);
    const frames = Buffer.concat(Array(100).fill(frame));
    expect(measure(frames)).toBeCloseTo(2.4, 6);
    expect(measure(Buffer.concat([tag, frames, Buffer.from('TAG a name')]))).toBeCloseTo(2.4, 6);
    // What is unreadable halfway may be anything.
    expect(measure(Buffer.concat([frames, Buffer.alloc(9000), frames]))).toBeUndefined();
  });

  test('is read from the box of a film, wherever it stands', () => {
    expect(measure(film(600, 7500))).toBe(12.5);
  });

  test('is read from Matroska', () => {
    expect(measure(matroska(Buffer.concat([element('2ad7b1', word(1_000_000)), element('4489', float(12_003))])))).toBe(
      12.003,
    );
    expect(measure(matroska(element('4489', float(500))))).toBe(0.5);
  });

  test('is not known of what does not tell', () => {
    expect(measure(film(600, 0))).toBeUndefined();
    expect(measure(matroska(element('2ad7b1', word(1_000_000))))).toBeUndefined();
    expect(measure(Buffer.from('a text that is called a recording'))).toBeUndefined();
  });
});
