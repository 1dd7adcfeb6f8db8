import { describe, expect, it } from 'vitest';
import { hardest, surveyor } from '../../src/curriculum/survey.ts';
import { readSurvey, writeSurvey } from '../../src/curriculum/survey-text.ts';
import { repertoireOf, SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';
import { itemAt } from '../../src/values/checked.ts';
import { lessonOf } from './some-course.ts';

const survey = surveyor(SHIPPED_REPERTOIRE);
const EASY = 'slot: 1/1\n4';
const HARD = "slot: 1/8\n-3' 6 -3'' 4 -1 5 6 -3";
const BROKEN = 'slot: 1/4\n4 4 4 4 4';

describe('the survey of a lesson', () => {
  it('has what each block takes, and nothing of one with an error', () => {
    const surveyed = survey(lessonOf('a', { blocks: [HARD, BROKEN, EASY] }));
    expect(surveyed.map((block) => block && block.difficulty.level > 2)).toEqual([true, undefined, false]);
    const found = surveyed[0]?.found.map(({ technique }) => technique.id);
    expect(found).toEqual(expect.arrayContaining(['draw-3-half-step', 'draw-3-whole-step', 'hole-jumps']));
    expect(survey(lessonOf('a', {}))).toEqual([]);
  });

  it('reads a block once, however often it is asked', () => {
    const lesson = lessonOf('a', { blocks: [HARD] });
    expect(survey(lesson)[0]).toBe(survey(lesson)[0]);
  });

  it('knows the hardest block, the first of several', () => {
    const of = (...blocks: string[]) => hardest(survey(lessonOf('a', { blocks })));
    expect(of(EASY, HARD, EASY)?.block).toBe(1);
    expect(of(HARD, HARD)?.block).toBe(0);
    expect(of(BROKEN, EASY)).toMatchObject({ block: 1 });
    expect(of(BROKEN)).toBeUndefined();
    expect(of(EASY, HARD)?.level).toBe(itemAt(survey(lessonOf('a', { blocks: [HARD] })), 0)?.difficulty.level);
  });
});

describe('a survey as text', () => {
  const surveyed = survey(lessonOf('a', { blocks: [`feel: shuffle\n${HARD}`, BROKEN, EASY] }));
  it('is read as what was written', () => {
    expect(readSurvey(writeSurvey(surveyed), SHIPPED_REPERTOIRE)).toEqual(surveyed);
  });
  it('has each match once, however many techniques share it', () => {
    const { matches, found } = JSON.parse(writeSurvey(surveyed))[0];
    const uses = found.flatMap(([, numbers]: [string, number[]]) => numbers);
    expect(new Set(uses).size).toBe(matches.length);
    expect(uses.length).toBeGreaterThan(matches.length);
  });
  it('leaves out what a repertoire has no more', () => {
    const some = repertoireOf(SHIPPED_REPERTOIRE.techniques.filter(({ id }) => id === 'shuffle'));
    const [first] = readSurvey(writeSurvey(surveyed), some);
    expect(first?.found.map(({ technique }) => technique.id)).toEqual(['shuffle']);
  });
});
