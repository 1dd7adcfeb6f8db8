/** What a reader has to know before each bar. */
import { expect, test } from 'vitest';
import { changesOf } from '../../src/score/changes.ts';
import { meterName } from '../../src/time/meter.ts';
import { scoreOf } from '../engrave/pictures.ts';

const shown = (...lines: string[]) =>
  changesOf(scoreOf(`tempo: 60\nslot: 1/4\n${lines.join('\n')}`)).map(({ meter, tempo, feel, signature }) =>
    [meter && meterName(meter), tempo?.from, feel?.name, signature && 'signature'].filter(Boolean).join(' '),
  );

test('a later ending says what another ending has changed', () => {
  expect(shown('|: 4 = = = |1', 'meter: 3/4', 'tempo: 90', '4 = = :|2 4 = = = | 4 = = = |]')).toEqual([
    '',
    '3/4 90',
    '4/4 60',
    '',
  ]);
  expect(shown('|: 4 = = = |1', 'feel: shuffle', '4 = = = :|2 4 = = = |]')).toEqual(['', 'shuffle', 'straight']);
});

test('a later ending says what it has not as the bar before all endings, although the ending before it has the same', () => {
  expect(
    shown('|: 4 = = = |1', 'meter: 3/4', 'tempo: 90', '4 = = :|2', 'meter: 3/4', 'tempo: 90', '4 = = | 4 = = |]'),
  ).toEqual(['', '3/4 90', '3/4 90', '']);
  expect(shown('|: 4 = = = |1', 'position: 2', '4 = = = :|2', 'position: 2', '4 = = = |]')).toEqual([
    '',
    'signature',
    'signature',
  ]);
});

test('the coda says what it has not as the bar of the jump to it, and has the settings of the bar written before it', () => {
  const [first, ...after] = [
    '4 = = = |to-coda',
    'meter: 3/4',
    'tempo: 90',
    '4 = = | 4 = = |D.C.,coda 4 = = | 4 = = |]',
  ];
  expect(shown(first ?? '', ...after)).toEqual(['', '3/4 90', '', '3/4 90', '']);
  expect(shown('4 = = = |to-coda 4 = = = |D.C.,coda 4 = = = |]')).toEqual(['', '', '']);
});
