/** Recordings written byte by byte as their standards lay them out, and the lengths that follow. */
import { describe, expect, test } from 'vitest';
import { lengthOf } from '../../../src/course/clips/recording.ts';

/** As a file on a disk: a part past the end is shorter, and a number that is not all there throws. */
const measure = (...parts: readonly Uint8Array[]): number | undefined => {
  const file = Buffer.concat(parts);
  return lengthOf({ size: file.length, read: (from, length) => file.subarray(from, from + length) });
};

const text = (words: string): Buffer => Buffer.from(words, 'latin1');
const zeros = (count: number): Buffer => Buffer.alloc(count);
function numbers(size: number, write: (bytes: Buffer) => void): Buffer {
  const bytes = Buffer.alloc(size);
  write(bytes);
  return bytes;
}
const little = (value: number): Buffer => numbers(4, (bytes) => bytes.writeUInt32LE(value));
const big = (value: number): Buffer => numbers(4, (bytes) => bytes.writeUInt32BE(value));
const long = (value: number): Buffer => numbers(8, (bytes) => bytes.writeBigUInt64BE(BigInt(value)));

describe('a WAVE file', () => {
  const head = [text('RIFF'), little(0), text('WAVE')];
  /** 8,000 frames of 4 bytes a second. */
  const format = [text('fmt '), little(16), zeros(4), little(8000), little(32_000), zeros(4)];
  test('lasts as long as its data at so many bytes a second', () => {
    expect(measure(...head, ...format, text('data'), little(64_000), zeros(64_000))).toBe(2);
  });
  test('may have other chunks before its data, each filled up to an even length', () => {
    const list = [text('LIST'), little(3), zeros(4)];
    expect(measure(...head, ...list, ...format, ...list, text('data'), little(32_000), zeros(32_000))).toBe(1);
  });
  test('that was cut off lasts as long as what is there of it', () => {
    expect(measure(...head, ...format, text('data'), little(0), zeros(16_000))).toBe(0.5);
    expect(measure(...head, ...format, text('data'), little(64_000), zeros(16_000))).toBe(0.5);
  });
  test('without data, or without a format before it, does not say', () => {
    expect(measure(...head, ...format)).toBeUndefined();
    expect(measure(...head, text('data'), little(64_000), zeros(64_000))).toBeUndefined();
    expect(
      measure(text('RIFF'), little(0), text('AVI '), ...format, text('data'), little(8), zeros(8)),
    ).toBeUndefined();
  });
});

describe('a FLAC file', () => {
  const flac = (rate: number, samples: number): Buffer =>
    Buffer.concat([
      text('fLaC'),
      zeros(14),
      // 20 bits for the rate, 8 for channels and sample size, 36 for the samples.
      numbers(8, (bytes) => bytes.writeBigUInt64BE((BigInt(rate) << 44n) | (0xffn << 36n) | BigInt(samples))),
      zeros(20),
    ]);
  test('lasts as long as its samples at its rate', () => {
    expect(measure(flac(44_100, 441_000))).toBe(10);
    expect(measure(flac(96_000, 2 ** 35))).toBe(2 ** 35 / 96_000);
  });
  test('of an unknown number of samples does not say', () => expect(measure(flac(44_100, 0))).toBeUndefined());
});

describe('an Ogg file', () => {
  const page = (serial: number, samples: number, ...packet: readonly Buffer[]): Buffer =>
    Buffer.concat([
      text('OggS'),
      zeros(2),
      numbers(8, (bytes) => bytes.writeBigInt64LE(BigInt(samples))),
      little(serial),
      zeros(8),
      // Two segments: their number, and their lengths.
      Buffer.from([2, 1, 1]),
      ...packet,
    ]);
  const opus = [text('OpusHead'), Buffer.from([1, 2]), Buffer.from([0x38, 0x01]), zeros(8)];
  const vorbis = [text('\u0001vorbis'), zeros(5), little(44_100), zeros(14)];
  test('of Opus counts 48,000 samples a second, without those before the sound', () => {
    expect(measure(page(7, 0, ...opus), zeros(100), page(7, 96_312, zeros(9)))).toBe(2);
  });
  test('of Vorbis counts samples at its own rate', () => {
    expect(measure(page(7, 0, ...vorbis), page(7, 1, zeros(9)), page(7, 132_300, zeros(9)))).toBe(3);
  });
  test('is asked for the last of its pages, however long it is', () => {
    expect(measure(page(7, 0, ...vorbis), zeros(200_000), page(7, 44_100, zeros(9)))).toBe(1);
  });
  test('of several streams, or of another kind, does not say', () => {
    expect(measure(page(7, 0, ...vorbis), page(8, 132_300, zeros(9)))).toBeUndefined();
    expect(measure(page(7, 0, text('theora'), zeros(30)), page(7, 132_300, zeros(9)))).toBeUndefined();
  });
});

describe('a film of boxes', () => {
  const box = (name: string, ...content: readonly Buffer[]): Buffer => {
    const inner = Buffer.concat(content);
    return Buffer.concat([big(8 + inner.length), text(name), inner]);
  };
  const type = box('ftyp', text('isom....'));
  /** Version and flags, made, changed, units a second, units. */
  const short = box('mvhd', big(0), big(9), big(9), big(600), big(1500), zeros(80));
  const wide = box('mvhd', big(0x0100_0000), long(9), long(9), big(600), long(3000), zeros(80));
  test('lasts as its head says, in short numbers or in long ones', () => {
    expect(measure(type, box('moov', short))).toBe(2.5);
    expect(measure(type, box('moov', wide))).toBe(5);
  });
  test('may have other boxes before, of long size as well', () => {
    const large = Buffer.concat([big(1), text('mdat'), long(16 + 30), zeros(30)]);
    expect(measure(type, box('free', zeros(3)), large, box('moov', box('udta', zeros(5)), short))).toBe(2.5);
  });
  test('is not asked past a box that goes on to the end', () => {
    expect(measure(type, big(0), text('mdat'), box('moov', short))).toBeUndefined();
  });
  test('has its head in its own box alone', () => {
    expect(measure(type, box('moov', box('udta', zeros(5))), box('mvhd', zeros(100)))).toBeUndefined();
  });
  test('with a box shorter than its own beginning does not say', () => {
    expect(measure(type, big(7), text('free'), box('moov', short))).toBeUndefined();
    expect(measure(type, big(8), text('free'), box('moov', short))).toBe(2.5);
  });
});

describe('a Matroska file', () => {
  const id = (hex: string): Buffer => Buffer.from(hex, 'hex');
  const element = (name: string, content: Buffer): Buffer =>
    Buffer.concat([id(name), Buffer.from([0x80 | content.length]), content]);
  const head = element('1a45dfa3', zeros(4));
  const segment = id('1853806701ffffffffffffff');
  const sound = element('1f43b675', zeros(9));
  const seconds = element(
    '4489',
    numbers(8, (bytes) => bytes.writeDoubleBE(4000)),
  );
  test('lasts so many milliseconds, or units of its own', () => {
    expect(measure(head, segment, element('1549a966', seconds))).toBe(4);
    const scale = element('2ad7b1', Buffer.from([0x1e, 0x84, 0x80]));
    expect(measure(head, segment, element('1549a966', Buffer.concat([scale, seconds])))).toBe(8);
  });
  test('may have a short number, and sizes of two bytes', () => {
    const short = element(
      '4489',
      numbers(4, (bytes) => bytes.writeFloatBE(500)),
    );
    expect(measure(head, segment, element('1549a966', short), sound)).toBe(0.5);
    const wide = Buffer.concat([id('ec'), Buffer.from([0x40, 200]), zeros(200)]);
    expect(measure(head, segment, wide, element('1549a966', short), sound)).toBe(0.5);
  });
  test('is not read past the beginning of its sound', () => {
    expect(measure(head, segment, sound, element('1549a966', seconds))).toBeUndefined();
  });
});

describe('an MP3 file', () => {
  /** Frames of silence that begin with these bytes. */
  const frames = (count: number, length: number, ...head: readonly number[]): Buffer =>
    Buffer.concat(Array(count).fill(Buffer.concat([Buffer.from(head), zeros(length - head.length)])));
  test.each([
    ['128 kilobits at 44.1 kHz', 417, 1152 / 44_100, [0xff, 0xfb, 0x90, 0xc0]],
    ['the same, filled up by a byte', 418, 1152 / 44_100, [0xff, 0xfb, 0x92, 0xc0]],
    ['320 kilobits at 32 kHz', 1440, 1152 / 32_000, [0xff, 0xfb, 0xe8, 0xc0]],
    ['64 kilobits at 22.05 kHz, of the second version', 208, 576 / 22_050, [0xff, 0xf3, 0x80, 0xc0]],
    ['8 kilobits at 8 kHz, of the version between', 72, 576 / 8000, [0xff, 0xe3, 0x18, 0xc0]],
  ])('of %s', (_, length, seconds, head) => {
    expect(measure(frames(50, length, ...head))).toBeCloseTo(50 * seconds, 9);
  });
  test('may begin with a tag, whose size has seven bits to a byte', () => {
    const tag = Buffer.concat([text('ID3'), Buffer.from([4, 0, 0, 0, 0, 1, 2]), zeros(130)]);
    expect(measure(tag, frames(10, 417, 0xff, 0xfb, 0x90, 0xc0))).toBeCloseTo(11_520 / 44_100, 9);
  });
  test('may end with a text, but with nothing long', () => {
    const sound = frames(10, 417, 0xff, 0xfb, 0x90, 0xc0);
    expect(measure(sound, zeros(4096))).toBeCloseTo(11_520 / 44_100, 9);
    expect(measure(sound, zeros(4097))).toBeUndefined();
  });
  test.each([
    ['another layer', [0xff, 0xfd, 0x90, 0xc0]],
    ['a version that there is not', [0xff, 0xeb, 0x90, 0xc0]],
    ['a free speed', [0xff, 0xfb, 0x00, 0xc0]],
    ['a speed that there is not', [0xff, 0xfb, 0xf0, 0xc0]],
    ['a rate that there is not', [0xff, 0xfb, 0x9c, 0xc0]],
  ])('with %s does not say', (_, head) => expect(measure(frames(50, 417, ...head))).toBeUndefined());
});

test('a file that is cut short inside its head is an error, which is not taken for a length', () => {
  expect(() => measure(text('fLaC'), zeros(10))).toThrow(RangeError);
  expect(measure(text('no recording at all'))).toBeUndefined();
});
