import { describe, expect, test } from 'vitest';
import { feelName, readFeel } from '../../src/time/feel.ts';
import {
  barLength,
  beatLength,
  beatsInBar,
  isCompound,
  type Meter,
  meterName,
  readMeter,
  secondsOfWhole,
} from '../../src/time/meter.ts';
import { present } from '../../src/values/checked.ts';

const meter = (text: string): Meter => present(readMeter(text), 'the meter');

describe('a meter', () => {
  test.each(['4/4', '3/4', '2/2', '6/8', '12/8', '5/4', '7/8', '1/4', '16/16'])('reads %s', (text) => {
    expect(meterName(meter(text))).toBe(text);
  });
  test.each(['', '4', '4/3', '0/4', '17/8', '4/4/4', 'C'])('does not read “%s”', (text) => {
    expect(readMeter(text)).toBeUndefined();
  });
  test('is read with spaces around its numbers', () => {
    expect(meterName(meter(' 6 / 8 '))).toBe('6/8');
  });
  test('is felt in dotted beats where it is compound', () => {
    const compound = (text: string): boolean => isCompound(meter(text));
    expect(['6/8', '9/8', '12/8', '6/16'].map(compound)).toEqual([true, true, true, true]);
    expect(['4/4', '6/4', '3/8', '7/8'].map(compound)).toEqual([false, false, false, false]);
    expect([beatsInBar(meter('4/4')), beatsInBar(meter('12/8')), beatsInBar(meter('3/4'))]).toEqual([4, 4, 3]);
    expect(beatLength(meter('12/8'))).toEqual({ n: 3, d: 8 });
    expect(barLength(meter('12/8'))).toEqual({ n: 3, d: 2 });
  });
  test('gives a tempo its seconds: at 60 a quarter lasts one, or in compound time a dotted quarter', () => {
    expect(secondsOfWhole(meter('4/4'), 60)).toBe(4);
    expect(secondsOfWhole(meter('12/8'), 60)).toBeCloseTo(8 / 3);
    expect(secondsOfWhole(meter('2/2'), 120)).toBe(2);
  });
});

describe('a feel', () => {
  const nameOf = (text: string): string => feelName(present(readFeel(text), text));
  test.each(['straight', 'shuffle', '60:40', '3:2', '80:20'])('reads %s', (text) => {
    expect(nameOf(text)).toBe(text);
  });
  test('is read with spaces around its words and numbers, and straight as a ratio', () => {
    expect([' shuffle ', ' 60 : 40 ', '50:50'].map(nameOf)).toEqual(['shuffle', '60:40', 'straight']);
  });
  test.each([
    '',
    'swing',
    '40:60',
    '1:0',
    '0:0',
    '9:1',
    '60-40',
    '60%:40',
    '1000:900',
    '60:400',
    'of 60:40',
    '60:40 or so',
  ])('does not read “%s”', (text) => {
    expect(readFeel(text)).toBeUndefined();
  });
});
