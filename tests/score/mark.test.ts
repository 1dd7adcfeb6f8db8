/**
 * Every row of the table of marks is read, printed, drawn, read aloud and found by a technique. That each is heard is tested in
 * tests/browser/sound/marks.page.long.test.ts, where there is sound.
 */
import { describe, expect, test } from 'vitest';
import { engraveBlock } from '../../src/engrave/block.ts';
import { barSentences } from '../../src/engrave/text-alternative.ts';
import { printScore } from '../../src/notation/print/print.ts';
import {
  exampleOf,
  filledIn,
  graceAmong,
  graceLeadsInto,
  isMarkName,
  MARK_NAMES,
  MARKS,
  type MarkName,
  markText,
  rowOf,
  secondsOfBreath,
  takesHole,
} from '../../src/score/mark.ts';
import { SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';
import { scoreOf } from '../engrave/pictures.ts';

const plain = (name: MarkName): string =>
  `harp: C\nslot: 1/4\n${rowOf(name).needsTongue ? 'mouth: tongue\n' : ''}\n-4 = = =`;
const marked = (name: MarkName): string => plain(name).replace('-4', `-4[${markText(exampleOf(name))}]`);

describe.each(MARK_NAMES)('the mark %s', (name) => {
  test('is read with its row’s name, and printed as it is typed', () => {
    const score = scoreOf(marked(name));
    expect(score.bars[0]?.events[0]).toMatchObject({ marks: [exampleOf(name)] });
    expect(printScore(score)).toContain(`-4[${markText(exampleOf(name))}]`);
  });
  test('changes the drawing by more than the text alternative', () => {
    const drawing = (text: string): string =>
      engraveBlock(scoreOf(text), { id: 'b' }).html.replace(/<details.*?<\/details>/s, '');
    expect(drawing(marked(name))).not.toBe(drawing(plain(name)));
  });
  test('is read aloud in its row’s words, in which no hole is left to fill in', () => {
    const words = filledIn(rowOf(name).words, exampleOf(name));
    expect(words).not.toMatch(/[{}]/);
    expect(barSentences(scoreOf(marked(name))).join()).toContain(words);
    expect(barSentences(scoreOf(plain(name))).join()).not.toContain(words);
  });
  test('is what some technique of the catalogue is found by', () => {
    const finds = [...SHIPPED_REPERTOIRE.byId.values()].map(({ find }) => JSON.stringify(find));
    const named = new RegExp(`"mark":(?:\\[[^\\]]*)?"${name}"`);
    expect(finds.filter((find) => find !== undefined && named.test(find))).not.toEqual([]);
  });
  test('names a hole in its words and its drawing where it takes one, and only there', () => {
    const { words, drawing } = rowOf(name);
    const holes = [words, ...('word' in drawing ? [drawing.word] : [])].map((text) => text.includes('{hole}'));
    expect(new Set(holes)).toEqual(new Set([takesHole(name)]));
  });
});

test('words that are no marks are none, names of objects’ own properties among them', () => {
  for (const word of ['', 'Slap', 'toString', 'constructor', '__proto__', 'lips']) expect(isMarkName(word)).toBe(false);
  expect(Object.keys(MARKS)).toEqual(MARK_NAMES);
});

test('a grace note moves into a note of its own hole and breath, and is apart from all others', () => {
  const grace = { breath: 'draw', hole: 3 } as const;
  const into = (breath: 'blow' | 'draw', ...holes: number[]) =>
    graceLeadsInto(grace, { breath, notes: holes.map((hole) => ({ hole })) });
  expect([into('draw', 3), into('blow', 3), into('draw', 4), into('draw', 3, 4), into('draw', 2, 3)]).toEqual([
    true,
    false,
    false,
    false,
    false,
  ]);
});

test('the note that a mark names is found among others, which name none', () => {
  const note = { breath: 'draw', hole: 3, bend: 1, over: false, slide: false } as const;
  expect(graceAmong([{ name: 'accent' }, { name: 'shake', hole: 5 }, { name: 'grace', note }])).toBe(note);
  expect(graceAmong([{ name: 'accent' }, { name: 'shake', hole: 5 }])).toBeUndefined();
});

test('a breath takes a part of a short note, no more of a long one, and nothing without its mark', () => {
  const [short, long, longer] = [0.1, 10, 20].map((seconds) => secondsOfBreath(['breath'], seconds));
  expect(short).toBeGreaterThan(0);
  expect(short).toBeLessThan(0.1);
  expect([secondsOfBreath(['breath'], 0.2), long]).toEqual([2 * (short ?? 0), longer]);
  expect(secondsOfBreath(['accent'], 10)).toBe(0);
});
