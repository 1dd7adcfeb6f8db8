import { describe, expect, test } from 'vitest';
import { FORMAT_NAMES, fileNameOf, formatOf } from '../../src/interchange/formats.ts';

describe('the name of a file', () => {
  test('is that of its block, in the folder of its lesson', () => {
    expect(fileNameOf('first', 'riff', 'midi')).toBe('first/riff.mid');
    expect(fileNameOf('unit/first', '0', 'musicxml')).toBe('unit/first/0.musicxml');
  });
  test('says who plays where it is not the tune alone', () => {
    expect(fileNameOf('first', 'riff', 'wav', 'both')).toBe('first/riff-with-band.wav');
    expect(fileNameOf('first', 'riff', 'midi', 'band')).toBe('first/riff-band.mid');
  });
  test('is none that a system keeps for a device', () => {
    expect(fileNameOf('con', 'NUL', 'text')).toBe('con_/NUL_.txt');
    expect(fileNameOf('unit/aux', 'com1', 'abc')).toBe('unit/aux_/com1_.abc');
    expect(fileNameOf('console', 'null', 'abc')).toBe('console/null.abc');
  });
  test('is another one for every format', () => {
    expect(new Set(FORMAT_NAMES.map((name) => formatOf(name).extension)).size).toBe(FORMAT_NAMES.length);
  });
});
