/** What a reader has to know before each bar. */
import { describe, expect, test } from 'vitest';
import { plainKey } from '../../src/harmony/key.ts';
import { changesOf, tempoSaidAgain } from '../../src/score/changes.ts';
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

test('another position is said with its key, and so is another mode, which may keep the signature', () => {
  const keys = (...lines: string[]) =>
    changesOf(scoreOf(`slot: 1/4\n${lines.join('\n')}`)).map(({ position, key, signature }) =>
      [position, key && plainKey(key), signature].filter(Boolean).join(' '),
    );
  expect(keys('harp: C', '4 =3 |', 'position: 2', '4 =3 | 4 =3 |]')).toEqual(['', '2 G major true', '']);
  expect(keys('harp: C', 'position: 3', 'key: D minor', '4 =3 |', 'key: D major', '4 =3 |]')).toEqual([
    '',
    '3 D major true',
  ]);
});

test('a tempo that moves from the first bar on is said before it, and what it begins with is not', () => {
  const tempos = (...lines: string[]) =>
    changesOf(scoreOf(`tempo: 60\nslot: 1/4\n${lines.join('\n')}`)).map(({ tempo }) => tempo);
  expect(tempos('4 =3 | 4 =3 |]')).toEqual([undefined, undefined]);
  expect(tempos('4 =3 |', 'tempo: to 90', '4 =3 |]')).toEqual([undefined, { to: 90, at: 60 }]);
  expect(tempos('4 =3 |', 'tempo: 80 to 90', '4 =3 |]')).toEqual([undefined, { from: 80, to: 90, at: 80 }]);
});

test('the tempo is said again where the meter counts another note, although it goes on as before', () => {
  expect(shown('4 = = = |', 'meter: 6/8', '4 = = |]')).toEqual(['', '6/8 60']);
  expect(shown('4 = = = |', 'meter: 3/4', '4 = = |]')).toEqual(['', '3/4']);
});

describe('where the tempo changes, it is said again', () => {
  const again = (...lines: string[]): number[] => {
    const score = scoreOf(`tempo: 60\nslot: 1/4\n${lines.join('\n')}`);
    return [...tempoSaidAgain(score, changesOf(score))].sort((a, b) => a - b);
  };
  const FASTER = ['tempo: 90', '4 =3'];

  test('in the bars that a repeat goes back to, with its sign or without', () => {
    expect(again('4 =3 |: 4 =3 |', ...FASTER, ':|]')).toEqual([1]);
    expect(again('4 =3 | 4 =3 |', ...FASTER, ':|]')).toEqual([0]);
  });
  test('in the first bar of each ending', () => {
    expect(again('|: 4 =3 |1 4 =3 | 4 =3 :|2 4 =3 |', ...FASTER, '|]')).toEqual([0, 1, 3]);
  });
  test('where a jump arrives', () => {
    expect(again('4 =3 |segno 4 =3 |to-coda', ...FASTER, '|D.S.,coda 4 =3 | 4 =3 |]')).toEqual([1, 3]);
    expect(again('4 =3 | 4 =3 |', ...FASTER, '|D.C.')).toEqual([0]);
    expect(again('4 =3 | 4 =3 |fine', ...FASTER, '|D.C.')).toEqual([0]);
  });
  test('nowhere else', () => {
    expect(again('4 =3 | 4 =3 |', ...FASTER, '|]')).toEqual([]);
    expect(again('4 =3 |: 4 =3 :|]')).toEqual([]);
  });
});
