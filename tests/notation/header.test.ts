import { describe, expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { present } from '../../src/values/checked.ts';

const scoreOf = (text: string) => present(readBlock(text).score, text);

describe('the head of a block', () => {
  const wrong = (line: string) => {
    const text = `${line}\n1 =7`;
    return readBlock(text).diagnostics.map(({ code, span }) => `${code} ${text.slice(span.from, span.to)}`);
  };
  test('has ids that it had before, divided by commas or spaces', () => {
    for (const text of ['a, b-2', 'a b-2', 'a ,b-2,'])
      expect(scoreOf(`formerly: ${text}\n1 =7`).formerly).toEqual(['a', 'b-2']);
    expect(scoreOf('1 =7')).not.toHaveProperty('formerly');
    expect(wrong('formerly: a, B')).toEqual(['header-value B']);
    expect(wrong('formerly: a, B c')).toEqual(['header-value B']);
    expect(wrong('formerly: ,')).toEqual(['header-value ,']);
    expect(wrong('formerly:')).toEqual(['header-value formerly']);
  });
  test('has an id of small letters, digits and hyphens that begins with a letter', () => {
    for (const id of ['a', 'a1', 'two-holes', 'x-']) expect(scoreOf(`id: ${id}\n1 =7`).id).toBe(id);
    for (const id of ['1a', '-a', 'A', 'aB', 'a_b', 'a b']) expect(wrong(`id: ${id}`)).toEqual([`header-value ${id}`]);
    expect(wrong('id:')).toEqual(['header-value id']);
    expect(wrong('title:')).toEqual(['header-value title']);
    expect(scoreOf('title: x\n1 =7').title).toBe('x');
  });
  test('has a pickup of some slots, fewer than a bar', () => {
    const pickup = (slots: string) => scoreOf(`slot: 1/16\npickup: ${slots}\n1 =${Number(slots) - 1} | 1 =15`).pickup;
    expect([pickup('2'), pickup('12'), pickup('015')].map((length) => length && `${length.n}/${length.d}`)).toEqual([
      '1/8',
      '3/4',
      '15/16',
    ]);
    for (const value of ['0', 'x1', '1x', '1.5', '1000', '-1'])
      expect(wrong(`pickup: ${value}`)).toContain(`header-value ${value}`);
    expect(wrong('pickup: 8')[0]).toBe('pickup-too-long 8');
    expect(wrong('pickup: 7')).not.toContain('pickup-too-long 7');
  });
  test('says how many slots a bar has where a pickup is too long', () => {
    expect(readBlock('meter: 3/4\npickup: 6\n1 =5').diagnostics[0]?.message).toContain('(6 slots)');
  });
});
