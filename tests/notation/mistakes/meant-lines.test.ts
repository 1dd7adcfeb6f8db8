/** Lines that are not written as they have to be, and what their fixes make of them. */
import { describe, expect, test } from 'vitest';
import { applyEdits } from '../../../src/diagnostics/edit.ts';
import { readBlock } from '../../../src/notation/read.ts';

/** The codes of the problems, and the block after the fixes of all of them. */
function fixed(...lines: string[]): { readonly codes: string[]; readonly lines: string[]; readonly certain: boolean } {
  const text = lines.join('\n');
  const { diagnostics } = readBlock(text);
  const fixes = diagnostics.flatMap(({ fix }) => (fix ? [fix] : []));
  const edits = fixes.flatMap((fix) => fix.edits);
  return {
    codes: diagnostics.map(({ code }) => code),
    lines: applyEdits(text, edits).split('\n'),
    certain: fixes.length > 0 && fixes.every(({ certain }) => certain),
  };
}

describe('a comment as elsewhere', () => {
  test.each([
    ['4 5 6 7 // the end', '4 5 6 7 # the end'],
    ['4 5 6 7 //the end', '4 5 6 7 # the end'],
    ['4 5 6 7 /// the end', '4 5 6 7 # the end'],
    ['// all of it', '# all of it'],
    ['//all of it', '# all of it'],
  ])('%s is %s', (line, meant) => {
    expect(fixed('slot: 1/4', line, '| 4 5 6 7')).toEqual({
      codes: ['comment-unmarked'],
      lines: ['slot: 1/4', meant, '| 4 5 6 7'],
      certain: true,
    });
  });
  test('is none within a word or before a number', () => {
    expect(fixed('slot: 1/4', '4 5 6 //7').codes).not.toContain('comment-unmarked');
    expect(fixed('slot: 1/4', '4 5 6 7//x').codes).not.toContain('comment-unmarked');
  });
});

describe('a setting that is not marked as one', () => {
  test('has its colon, and is read as it is meant', () => {
    expect(fixed('harp A', 'slot = 1/4', '', "-3' 5 6 7")).toEqual({
      codes: ['setting-unmarked', 'setting-unmarked'],
      lines: ['harp: A', 'slot: 1/4', '', "-3' 5 6 7"],
      certain: true,
    });
  });
  test('is a part in brackets, which end behind it', () => {
    expect(fixed('slot: 1/4', '[Chorus] ', '4 5 6 7').lines).toEqual(['slot: 1/4', 'part: Chorus', '4 5 6 7']);
    expect(fixed('slot: 1/4', 'part Chorus', '4 5 6 7')).toMatchObject({ codes: ['setting-unmarked'], certain: false });
  });
});

describe('chords above the music', () => {
  test('are brought into it', () => {
    expect(fixed('slot: 1/4', 'C       G7', '4 5 6 7 | 4 5 6 7')).toMatchObject({
      codes: ['chords-above'],
      lines: ['slot: 1/4', '', '"C" 4 5 6 7 | "G7" 4 5 6 7'],
    });
  });
  test.each([
    ['', '4 5 6 7'],
    ['part: B', '4 5 6 7'],
    ['C G7', '4 5 6 7'],
  ])('are left alone where what is below them is no music: “%s”', (below, music) => {
    const text = ['slot: 1/4', 'Am Em', below, music].join('\n');
    const [problem] = readBlock(text).diagnostics;
    expect([problem?.code, problem?.fix]).toEqual(['chords-above', undefined]);
    expect(problem && text.slice(problem.span.from, problem.span.to)).toBe('Am Em');
  });
});

describe('a name that is no setting', () => {
  test('is certain where only its capitals are wrong, or its value fits no other', () => {
    expect(fixed('Slot: 1/4', '4 5 6 7')).toEqual({
      codes: ['header-unknown'],
      lines: ['slot: 1/4', '4 5 6 7'],
      certain: true,
    });
    expect(fixed('slto: 1/4', '4 5 6 7')).toMatchObject({ lines: ['slot: 1/4', '4 5 6 7'], certain: true });
    expect(fixed('slot: 1/4', 'tepmo: fast', '4 5 6 7')).toMatchObject({ certain: false });
  });
  test('is not certain where the setting is there already', () => {
    expect(fixed('slot: 1/4', 'tempo: 90', 'Tempo: 100', '4 5 6 7')).toMatchObject({
      codes: ['header-unknown'],
      certain: false,
    });
  });
  test('has no fix without a value', () => {
    expect(fixed('slot: 1/4', 'Chorus:', '4 5 6 7')).toMatchObject({ codes: ['header-unknown'], certain: false });
  });
  test('is read as what it is meant for, so that nothing else is wrong', () => {
    expect(fixed('Meter: 3/4', 'Slot: 1/4', '4 5 6 | 4 5 6').codes).toEqual(['header-unknown', 'header-unknown']);
  });
});

describe('two settings on one line', () => {
  const codes = (...lines: string[]) => fixed(...lines).codes;
  test('are read as two', () => {
    expect(codes('slot: 1/4, meter: 3/4', '4 5 6 | 4 5 6')).toEqual(['settings-together']);
  });
  test('that are one and the same are said to be so', () => {
    expect(fixed('slot: slot: 1/4', '4 5 6 7')).toEqual({
      codes: ['header-twice'],
      lines: ['slot: 1/4', '4 5 6 7'],
      certain: true,
    });
    expect(fixed('slot: 1/4 slot: 1/4', '4 5 6 7')).toMatchObject({ codes: ['header-twice'], certain: false });
  });
  test('may be in a title, which is text', () => {
    expect(codes('title: In the key: C', 'slot: 1/4', '4 5 6 7')).toEqual([]);
  });
});

describe('bars that are all in another meter', () => {
  const meterOf = (music: string) => {
    const found = readBlock(`slot: 1/4\n${music}`).diagnostics;
    return found.map(({ code, help }) => `${code} ${/meter: (\S+)/.exec(help ?? '')?.[1] ?? ''}`.trim());
  };
  test('are one problem, which names the meter', () => {
    expect(meterOf('4 =2 | 4 =2 | 4 =2 | 4 =2')).toEqual(['bars-in-another-meter 3/4']);
    expect(meterOf('4 =4 | 4 =4 | 4 =4 | 4 =4')).toEqual(['bars-in-another-meter 5/4']);
  });
  test('may begin and end with shorter ones', () => {
    expect(meterOf('4 | 4 =2 | 4 =2 | 4 =')).toEqual(['bars-in-another-meter 3/4']);
  });
  test('are at least four, which agree, and none is longer', () => {
    expect(meterOf('4 =2 | 4 =2 | 4 =2')).not.toContain('bars-in-another-meter 3/4');
    expect(meterOf('4 =2 | 4 =2 | 4 = | 4 =2')).not.toContain('bars-in-another-meter 3/4');
    expect(meterOf('4 =2 | 4 =2 | 4 =2 | 4 =3')).not.toContain('bars-in-another-meter 3/4');
  });
});
