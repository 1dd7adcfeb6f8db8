import { expect, test } from 'vitest';
import { ALONE, readBlock } from '../../src/notation/read.ts';
import { soundsOf } from '../../src/score/queries.ts';
import { detector } from '../../src/technique/detect.ts';
import { repertoireFromFile } from '../../src/technique/repertoire.ts';
import { noteSchema } from '../../src/technique/rule.ts';
import { techniquesFileSchema } from '../../src/technique/technique.ts';
import { traitsNeeded, traitsOf } from '../../src/technique/traits.ts';
import { itemAt } from '../../src/values/checked.ts';

/** One sound, read from a block that holds it for a bar. */
function sound(text: string) {
  const { score, diagnostics } = readBlock(`${text} =7`, ALONE);
  if (!score) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  return { score, sound: itemAt(soundsOf(score), 0) };
}

const CASES: readonly (readonly [string, Record<string, unknown>, string, string])[] = [
  ['a bend', { bend: 1 }, "-3'", '-3'],
  ['a bend of any depth', { bend: { least: 1 } }, "-3''", '-3'],
  ['a bend of one hole', { hole: 3, bend: 1 }, "-3'", "-4'"],
  ['a bend of some holes', { hole: '2-3', bend: 1 }, "-2'", "-4'"],
  ['a bend among others', { hole: 3, bend: 1 }, "-(3' 4)", "-(3 4')"],
  ['an overblow of one hole', { hole: 6, overbend: true }, '6o', '5o'],
  ['a bend or none', { bend: { least: 0 } }, '-3', '6o'],
  ['no bend', { bend: 0 }, '-3', "-3'"],
  ['an overblow', { overbend: true }, '6o', '6'],
  ['no overblow', { overbend: false }, '6', '6o'],
  ['several holes', { holes: { least: 2 } }, '(1 2)', '1'],
  ['one hole', { holes: 1 }, '1', '(1 2)'],
  ['a split', { split: true }, '(1 4)[tongue]', '(1 2)'],
  ['no split', { split: false }, '1', '(1 4)[tongue]'],
  ['an octave', { octave: true }, '(1 4)[tongue]', '(1 3)[tongue]'],
  ['the tongue', { mouth: 'tongue' }, '4[tongue]', '4'],
  ['the lips', { mouth: 'lips' }, '4', '4[tongue]'],
  ['a mark', { mark: 'dip' }, '4[dip]', '4[fall]'],
];

test.each(CASES)(
  'traits rule out no sound that is %s, and the rule itself the others',
  (_, written, fitting, other) => {
    const rule = noteSchema.parse(written);
    const needed = traitsNeeded(rule);
    expect(traitsOf(sound(fitting).sound) & needed).toBe(needed);
    const techniques = [{ id: 'one', title: 'One', about: 'One.', group: 'tone', find: { note: written } }];
    const { repertoire } = repertoireFromFile(techniquesFileSchema.parse({ catalogue: 'replace', techniques }));
    const detect = detector(repertoire);
    expect(detect(sound(fitting).score)).toHaveLength(1);
    expect(detect(sound(other).score)).toHaveLength(0);
  },
);

test.each([
  ['-3', "-3'", { bend: 1 }],
  ['6', '6o', { overbend: true }],
  ['1', '(1 2)', { holes: 2 }],
  ['4', '4[tongue]', { mouth: 'tongue' }],
  ['4', '4[dip]', { mark: 'dip' }],
])('%s lacks a trait that %s has', (without, having, written) => {
  const needed = traitsNeeded(noteSchema.parse(written));
  expect(traitsOf(sound(without).sound) & needed).toBe(0);
  expect(traitsOf(sound(having).sound) & needed).toBe(needed);
});
