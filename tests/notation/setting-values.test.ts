/** Which values each setting takes, up to which limit, and what is said of the others. */
import { describe, expect, test } from 'vitest';
import { FORMS } from '../../src/harmony/form.ts';
import {
  homeSymbols,
  readSetting,
  SETTING_KEYS,
  type SettingKey,
  slotName,
} from '../../src/notation/setting-values.ts';
import { present } from '../../src/values/checked.ts';

const isRead = (key: SettingKey, text: string): boolean => 'value' in readSetting(key, text);
const said = (key: SettingKey, text: string) => {
  const read = readSetting(key, text);
  if ('value' in read) throw new Error(`${text} is read`);
  return read;
};

describe('the values a setting takes', () => {
  test.each<readonly [SettingKey, taken: readonly string[], refused: readonly string[]]>([
    ['position', ['1', '2', '12', '02'], ['0', '13', '2.', 'x2', '002', '-1']],
    ['tempo', ['20', '400', '60.5', '92.25'], ['19', '19.99', '401', '400.01', '60.125', '60.', 'x60', '60x']],
    [
      'slot',
      ['1/1', '1/2', '1/4', '1 / 8', '1/16', '1/32', '3/4', '3/8', '3/64'],
      ['3/2', '1/64', '2/4', '1/3', 'x1/4', '1/4x'],
    ],
    ['mouth', ['lips', 'tongue'], ['Lips', 'tongue ', 'x']],
    ['meter', ['4/4', '1/2', '16/16'], ['0/4', '17/4', '4/1']],
    ['feel', ['straight', 'shuffle', '60:40', '4:1'], ['5:1', '1:2', '60']],
    ['harp', ['C', 'low F', 'high G', 'Bb'], ['H', 'deep F']],
    ['tuning', ['richter', 'natural-minor'], ['Richter', 'x']],
    ['chords', ['I7', 'I7 | IV7', 'I7 = IV7 |', 'i7 V7 |]'], ['', '=', 'I7 | | IV7', 'H7']],
    [
      'form',
      ['none', 'twelve-bar', 'twelve-bar bar 3', 'twelve-bar bars 1-12', 'twelve-bar  bars 1 – 2'],
      ['twelve-bar bars', 'twelve-bar bars 1-', 'twelve-bar bars 1000', 'x twelve-bar'],
    ],
  ])('%s', (key, taken, refused) => {
    expect(taken.filter((text) => !isRead(key, text))).toEqual([]);
    expect(refused.filter((text) => isRead(key, text))).toEqual([]);
  });
  test('may be long, but not without end', () => {
    expect(said('harp', 'x'.repeat(200)).message).toBe(`“${'x'.repeat(200)}” is no harp.`);
    expect(said('harp', 'x'.repeat(201)).message).toBe('The value of “harp” is too long to be one.');
    const bars = Array.from({ length: 4000 }, () => 'I7 |').join(' ');
    expect(bars.length).toBe(19_999);
    expect(isRead('chords', `${bars} `)).toBe(true);
    expect(said('chords', `${bars}  `).message).toBe('The value of “chords” is too long to be one.');
  });
});

describe('what is said of a value that cannot be read', () => {
  test.each<readonly [SettingKey, string]>([
    ['harp', '“?” is no harp.'],
    ['position', '“?” is no position.'],
    ['meter', '“?” is no meter.'],
    ['tempo', '“?” is no tempo.'],
    ['feel', '“?” is no feel.'],
    ['slot', '“?” is no slot length.'],
    ['mouth', '“?” is no embouchure.'],
    ['tuning', 'There is no tuning “?”.'],
    ['form', 'There is no form “?”.'],
    ['chords', '“?” is not a chord symbol.'],
  ])('%s: %s', (key, message) => {
    expect(said(key, '?').message).toBe(message);
  });
  test('no value at all: its example', () => {
    for (const key of SETTING_KEYS) {
      expect(said(key, '').message).toBe(`The setting “${key}” has no value.`);
      expect(said(key, '').help).toMatch(/^(?:Write|Divide) /);
    }
  });
  test('in a list of chords only the wrong part is pointed at', () => {
    const wrong = (text: string) => {
      const { place = { from: 0, to: 0 }, help } = said('chords', text);
      return [text.slice(place.from, place.to), place.from, help];
    };
    expect(wrong('I7 | X7 V7')).toEqual(['X7', 5, expect.stringMatching(/^Write a numeral/)]);
    expect(wrong('I7 || V7')).toEqual(['|', 4, expect.stringMatching(/^Divide bars/)]);
    expect(wrong('I7 | = V7')).toEqual(['=', 5, expect.stringMatching(/^Write a numeral/)]);
  });
  test('bars that a form has not', () => {
    expect(said('form', 'twelve-bar bars 3-13')).toEqual({
      message: 'The form “twelve-bar” has bars 1 to 12.',
      help: 'Write twelve-bar bars 1-4, for one.',
    });
    for (const range of ['0-2', '4-3', '13']) expect(isRead('form', `twelve-bar bars ${range}`)).toBe(false);
  });
  test('a form of the course that is broken', () => {
    const forms = [{ id: 'own', title: 'Own', bars: 'I7 | H7', source: '' }];
    expect(readSetting('form', 'own', { tunings: [], forms })).toEqual({
      message: 'The form “own” is broken at “H7”.',
    });
  });
});

describe('the bars of a form', () => {
  const progression = (text: string) => {
    const read = readSetting('form', text);
    return 'value' in read ? read.value.progression : undefined;
  };
  const symbols = (text: string) =>
    progression(text)
      ?.bars.map((bar) => bar.map(({ symbol }) => symbol).join(' '))
      .join(' | ');
  test('are all of them, or those that are named', () => {
    expect(symbols('twelve-bar')).toBe('I7 | I7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | IV7 | I7 | I7');
    expect(symbols('twelve-bar bars 9-10')).toBe('V7 | IV7');
    expect(symbols('twelve-bar bar 9')).toBe('V7');
    expect(progression('twelve-bar')).not.toHaveProperty('range');
    expect(progression('twelve-bar bar 9')?.range).toEqual([9, 9]);
  });
  test('decide on major or minor: those that are played first, then those of the whole form', () => {
    const home = (text: string) => homeSymbols(progression(text), { forms: FORMS });
    expect(home('minor-twelve-bar bar 9')).toEqual([
      present(symbols('minor-twelve-bar bar 9'), 'bar 9'),
      ...present(symbols('minor-twelve-bar'), 'the form').split(/ \| | /),
    ]);
    expect(home('twelve-bar')).toEqual(present(symbols('twelve-bar'), 'the form').split(' | '));
    expect(homeSymbols(undefined, { forms: FORMS })).toEqual([]);
  });
});

test('the name of a slot is the fraction as it is written', () => {
  for (const slot of ['1/1', '1/8', '3/16']) {
    const read = readSetting('slot', slot);
    expect('value' in read && read.value.slot && slotName(read.value.slot)).toBe(slot);
  }
});
