import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PATH_PROBLEMS } from '../../src/curriculum/problems.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { findings, problems, type WrittenCourse } from './some-course.ts';

const message = (course: WrittenCourse, code: string) => {
  const found = findings(course).find(({ diagnostic }) => diagnostic.code === code)?.diagnostic;
  return found && `${found.severity}: ${found.message}${found.help ? ` ${found.help}` : ''}`;
};
const OPEN = 'slot: 1/1\n4';
const BENT = "slot: 1/4\n4 -4' -4 4";

/** A sound course: forks, joins, teaching before use. */
const SOUND: WrittenCourse = {
  first: { stage: 'start', teaches: ['single-notes'], blocks: [OPEN] },
  bend: { stage: 'start', requires: ['first'], teaches: ['draw-4-half-step'], blocks: [BENT] },
  shuffle: { stage: 'start', requires: ['first'], teaches: ['shuffle'], blocks: ['feel: shuffle\nslot: 1/1\n4'] },
  both: { stage: 'middle', requires: ['bend', 'shuffle'], blocks: [`feel: shuffle\n${BENT}`] },
};

describe('the checks of a path', () => {
  it('find nothing in a sound course', () => {
    expect(problems(SOUND)).toEqual([]);
  });

  it('find nothing in a course that ties and teaches nothing', () => {
    expect(problems({ a: { blocks: [BENT] }, b: { blocks: [BENT] } })).toEqual([]);
  });

  it('find a lesson that requires itself', () => {
    expect(problems({ ...SOUND, bend: { ...SOUND['bend'], requires: ['first', 'bend'] } })).toEqual([
      'bend requires/1 requires-self',
    ]);
  });

  it('find a cycle, once, as its shortest way round, reported from the lesson that comes first', () => {
    const course: WrittenCourse = {
      a: { requires: ['e'] },
      b: { requires: ['a'] },
      c: { requires: ['b'], quotes: ['e/0'] },
      d: { requires: ['c'] },
      e: { requires: ['d', 'c'] },
    };
    expect(problems(course)).toEqual(['c line 9 path-cycle']);
    expect(message(course, 'path-cycle')).toBe(
      'error: These lessons need each other in a cycle: “c” quotes “e” requires “c”. Remove one of these requirements or quotations.',
    );
    expect(
      problems({ a: { requires: ['b'] }, b: { requires: ['a'] }, c: { requires: ['d'] }, d: { requires: ['c'] } }),
    ).toEqual(['a requires/0 path-cycle', 'c requires/0 path-cycle']);
  });

  it('tell of every cycle a way round that is one, in which no lesson comes twice', () => {
    const requirements = fc.array(fc.array(fc.nat(9), { maxLength: 2 }), { minLength: 2, maxLength: 10 });
    fc.assert(
      fc.property(requirements, (lists) => {
        const requires = lists.map((list) => list.filter((other) => other < lists.length));
        const course = Object.fromEntries(
          requires.map((list, number) => [`n${number}`, { requires: list.map((other) => `n${other}`) }]),
        );
        const rings = findings(course).filter(({ diagnostic }) => diagnostic.code === 'path-cycle');
        for (const { lesson, diagnostic } of rings) {
          const around = [...diagnostic.message.matchAll(/“(n\d+)”/g)].map(([, id]) => present(id, 'the text'));
          expect(around[0]).toBe(lesson);
          expect(around.at(-1)).toBe(lesson);
          expect(new Set(around.slice(1)).size).toBe(around.length - 1);
          for (let step = 1; step < around.length; step++) {
            expect(course[itemAt(around, step - 1)]?.requires).toContain(around[step]);
          }
        }
      }),
    );
  });

  it('find a published lesson that requires a draft', () => {
    const course = { a: {}, b: { requires: ['a'], draft: true }, c: { requires: ['b'] } };
    expect(problems(course)).toEqual(['c requires/0 requires-draft']);
    expect(problems({ ...course, c: { requires: ['b'], draft: true } })).toEqual([]);
  });

  it('find a published lesson that quotes a draft, once for each draft and not where it requires it as well', () => {
    const course = { a: { draft: true }, b: { draft: true, quotes: ['a/0'] }, c: { quotes: ['a/0', 'a/1', 'b/0'] } };
    expect(problems(course)).toEqual(['c line 9 quotes-draft', 'c line 9 quotes-draft']);
    expect(message(course, 'quotes-draft')).toBe(
      'warning: The lesson “a” is a draft, so students will not know what is quoted here. Remove draft: true there, make this lesson a draft as well, or write the music out here.',
    );
    expect(problems({ a: { draft: true }, c: { requires: ['a'], quotes: ['a/0'] } })).toEqual([
      'c requires/0 requires-draft',
    ]);
  });

  it('find an unknown technique, and the nearest one', () => {
    const course = { ...SOUND, bend: { ...SOUND['bend'], teaches: ['draw-4-half-step', 'shufle'] } };
    expect(problems(course)).toEqual(['bend teaches/1 teaches-unknown']);
    expect(message(course, 'teaches-unknown')).toBe(
      'error: There is no technique “shufle” to teach. Did you mean “shuffle”?',
    );
  });

  it('find a technique named by its title, once', () => {
    const course = { ...SOUND, bend: { ...SOUND['bend'], teaches: ['Draw 4 bent a half step'] } };
    expect(problems(course)).toEqual(['bend teaches/0 teaches-unknown']);
    expect(message(course, 'teaches-unknown')).toContain('Did you mean “draw-4-half-step”?');
  });

  it('find a mistyped technique once, and not again wherever it is used', () => {
    const course = { ...SOUND, bend: { ...SOUND['bend'], teaches: ['draw-4-halfstep'] } };
    expect(problems(course)).toEqual(['bend teaches/0 teaches-unknown']);
    expect(problems({ ...course, bend: { ...SOUND['bend'], teaches: ['draw-bend'] } })).toEqual([
      'bend teaches/0 teaches-unknown',
    ]);
  });

  it('find two lessons that teach the same thing first, and let a later one continue from there', () => {
    const twice = {
      ...SOUND,
      shuffle: { ...SOUND['shuffle'], teaches: ['shuffle', 'draw-4-half-step'], blocks: [`feel: shuffle\n${BENT}`] },
    };
    expect(problems(twice)).toEqual(['shuffle teaches/1 taught-twice']);
    expect(problems({ ...SOUND, both: { ...SOUND['both'], teaches: ['draw-4-half-step'] } })).toEqual([]);
  });

  it('find a technique used before any lesson on the way has taught it, at the very note', () => {
    const course = { ...SOUND, shuffle: { ...SOUND['shuffle'], blocks: [`feel: shuffle\n${BENT}`] } };
    expect(problems(course)).toEqual(["shuffle 0:-4' used-before-taught"]);
    expect(message(course, 'used-before-taught')).toBe(
      'warning: “Draw 4 bent a half step” (draw-4-half-step) is used here, and no lesson on the way to “shuffle” teaches it: “bend” does, which it does not require. Add “bend” to what “shuffle” requires, or teach it here.',
    );
    const later = { ...SOUND, first: { ...SOUND['first'], blocks: [BENT] } };
    expect(problems(later)).toEqual(["first 0:-4' used-before-taught"]);
    expect(message(later, 'used-before-taught')).toContain('“bend” does, which comes after it.');
  });

  it('find what a block as a whole uses at the setting that says so', () => {
    const course = { ...SOUND, bend: { ...SOUND['bend'], blocks: [`feel: shuffle\n${BENT}`] } };
    expect(problems(course)).toEqual(['bend 0:shuffle used-before-taught']);
  });

  it('find a technique never taught, once, at the first note that uses it, by its narrowest name', () => {
    const bent = "slot: 1/4\n4 -3'' 4 4 | -3'' -3'' 4 4";
    const course = {
      ...SOUND,
      bend: { ...SOUND['bend'], blocks: [BENT, bent] },
      both: { ...SOUND['both'], blocks: [bent] },
    };
    expect(problems(course)).toEqual(["bend 1:-3'' never-taught"]);
    expect(message(course, 'never-taught')).toContain(
      '(draw-3-whole-step) is used here, and no lesson of the course teaches it.',
    );
  });

  it('report together what nobody teaches where one lesson brings in more than three such, none of it left out', () => {
    const course = (block: string, others: WrittenCourse = {}) => ({
      first: { teaches: ['single-notes'], blocks: [OPEN] },
      many: { requires: ['first'], blocks: [block] },
      ...others,
    });
    const bends = "feel: shuffle\nslot: 1/4\n-4' -3' -2' -6'";
    const later = { later: { requires: ['many'], blocks: ["slot: 1/4\n-1' -4' . ."] } };
    const found = problems(course(bends, later)).filter((one) => one.endsWith('never-taught'));
    expect(found).toEqual(['many 0:shuffle never-taught', "later 0:-1' never-taught"]);
    const reported = message(course(bends), 'never-taught') ?? '';
    const each = problems(course("slot: 1/4\n-4' -3' . ."));
    expect(each).toEqual(["many 0:-4' never-taught", "many 0:-3' never-taught"]);
    for (const id of ['shuffle', 'draw-4-half-step', 'draw-3-half-step', 'draw-2-half-step', 'draw-6-half-step'])
      expect(reported).toContain(id);
    expect(reported).toMatch(/nor \d+ more .*; reedway techniques many shows where each is used\.$/);
  });

  it('take a wider technique for a narrower one that nobody teaches by name, and note by note the other way round', () => {
    const wide = (teaches: string[], notes: string) =>
      problems({
        ...SOUND,
        bend: { ...SOUND['bend'], teaches, blocks: [`slot: 1/4\n${notes} | 4 4 5 6 | 4 5 6 .`] },
        both: { requires: ['bend', 'shuffle'] },
      });
    expect(wide(['draw-bends'], "-4' -3' -3'' -2''")).toEqual([]);
    expect(wide(['draw-4-half-step', 'half-step-bends'], "-4' -3' . .")).toEqual([]);
    expect(wide(['draw-4-half-step'], "-4' -3' . .")).toEqual(["bend 0:-3' never-taught"]);
    const byName = {
      ...SOUND,
      bend: { ...SOUND['bend'], teaches: ['draw-bends'], blocks: ["slot: 1/4\n-4' -3' . ."] },
      both: { ...SOUND['both'], teaches: ['draw-3-half-step'], blocks: ["feel: shuffle\nslot: 1/4\n-3' . . ."] },
    };
    // As soon as a lesson teaches it by name, it is that lesson's.
    expect(problems(byName)).toEqual(["bend 0:-3' used-before-taught"]);
  });

  it('find a technique taught and used in none of the lesson’s blocks, unless no score shows it or a block is broken', () => {
    const teaching = (teaches: string[], blocks: string[]) =>
      problems({ ...SOUND, both: { ...SOUND['both'], teaches, blocks } });
    expect(teaching(['octave-splits'], [OPEN])).toEqual(['both teaches/0 taught-unused']);
    expect(teaching(['holding'], [OPEN])).toEqual([]);
    expect(teaching(['octave-splits'], [OPEN, 'slot: 1/4\n4 4 4 4 4'])).toEqual([]);
    expect(teaching(['octave-splits'], [])).toEqual(['both teaches/0 taught-unused']);
  });

  it('find a technique taught before one it builds on', () => {
    const blocks = ["slot: 1/2\n-4'> -4"];
    const course = {
      ...SOUND,
      shuffle: {
        ...SOUND['shuffle'],
        teaches: ['shuffle', 'bend-releases', 'bends'],
        blocks: [`feel: shuffle\n${blocks[0]}`],
      },
    };
    expect(problems(course)).not.toContain('shuffle teaches/1 taught-too-early');
    const early = {
      ...SOUND,
      shuffle: {
        ...SOUND['shuffle'],
        teaches: ['shuffle', 'slaps'],
        blocks: ['feel: shuffle\nslot: 1/1\n4[tongue slap]'],
      },
      tongue: { requires: ['both'], teaches: ['tongue-blocking'], blocks: ['slot: 1/1\n4[tongue]'] },
    };
    expect(problems(early)).toContain('shuffle teaches/1 taught-too-early');
  });

  it('find a lesson that nothing leads to, other than the first', () => {
    expect(problems({ ...SOUND, alone: { stage: 'middle', blocks: ['slot: 1/1\n(4 5)'] } })).toEqual([
      'alone title lesson-unreached',
    ]);
    expect(problems({ ...SOUND, alone: { stage: 'middle', quotes: ['both/0'] } })).toEqual([]);
  });

  it('find a requirement that others bring along, and one said twice', () => {
    expect(problems({ ...SOUND, both: { ...SOUND['both'], requires: ['bend', 'first', 'shuffle', 'bend'] } })).toEqual([
      'both requires/1 requirement-implied',
      'both requires/3 named-twice',
    ]);
    expect(
      message({ ...SOUND, both: { ...SOUND['both'], requires: ['first', 'shuffle', 'bend'] } }, 'requirement-implied'),
    ).toMatch(/^hint: “first”/);
  });

  it('find a stage that contradicts the ties', () => {
    const course = { ...SOUND, bend: { ...SOUND['bend'], stage: 'end' } };
    expect(problems(course)).toEqual(['both requires/0 stage-contradicts']);
  });

  it('find an order within a stage that contradicts the ties, through lessons between', () => {
    const course = (first: number, both: number): WrittenCourse => ({
      first: { stage: 'start', order: first },
      between: { stage: 'start', requires: ['first'] },
      both: { stage: 'start', requires: ['between'], order: both },
    });
    expect(problems(course(1, 2))).toEqual([]);
    expect(problems(course(2, 1))).toEqual(['both order order-contradicts']);
    expect(problems({ ...course(2, 1), both: { stage: 'middle', requires: ['between'], order: 1 } })).toEqual([]);
  });

  it('hint at a lesson far harder than all that leads to it, at its hardest block', () => {
    const hard = `slot: 1/16\ntempo: 120\n-4' 4 -4' 6 -4' 4 -4' 6 -4' 4 -4' 6 -4' 4 -4' 6`;
    const course = {
      ...SOUND,
      both: { ...SOUND['both'], blocks: [OPEN, hard], teaches: ['sixteenths', 'quick-breath-turns', 'quick-runs'] },
    };
    expect(problems(course)).toEqual(['both 1 difficulty-jump']);
    expect(message(course, 'difficulty-jump')).toMatch(/^hint: This block comes out at \d\.\d of 10/);
  });

  it('mark a breath that goes one way for too long, at the note where it gets too much', () => {
    const long = `tempo: 60\nslot: 1/4\n${Array(3).fill('-4 -4 -5 -5').join(' | ')}`;
    expect(problems({ ...SOUND, first: { ...SOUND['first'], blocks: [long] } })).toEqual(['first 0:-5 long-breath']);
  });

  it('have words for every kind, and a case in this file for each', () => {
    const cases = readFileSync(new URL(import.meta.url), 'utf8');
    for (const code of Object.keys(PATH_PROBLEMS)) expect(cases).toMatch(new RegExp(`[ '"\`]${code}['"\`\\]]`));
    for (const { about } of Object.values(PATH_PROBLEMS)) expect(about).toMatch(/\.$/);
  });
});

describe('what is said of', () => {
  it('a stage that contradicts the ties names both stages', () => {
    const course = { ...SOUND, bend: { ...SOUND['bend'], stage: 'end' } };
    expect(message(course, 'stage-contradicts')).toContain(
      '“both” is in the stage “Stage middle”, and needs “bend” of the later stage “Stage end”.',
    );
    // Once for two lessons, although one requires and quotes the other.
    expect(problems({ ...course, both: { ...SOUND['both'], quotes: ['bend/0'] } })).toEqual([
      'both requires/0 stage-contradicts',
    ]);
    // A lesson of no stage, or of an unknown one, contradicts nothing.
    expect(problems({ ...SOUND, bend: { ...SOUND['bend'], stage: 'nowhere' } })).toEqual([]);
  });

  it('an order names the lesson with the highest one that it needs', () => {
    const course: WrittenCourse = {
      a: { order: 5 },
      b: { order: 7 },
      c: { requires: ['a', 'b'] },
      d: { requires: ['c'], order: 6 },
    };
    expect(message(course, 'order-contradicts')).toBe(
      'warning: “d” is to come before “b” (order 6 and 7), and needs it. Give it an order above 7, or none.',
    );
    expect(problems({ ...course, d: { requires: ['c'], order: 7 } })).not.toContain('d order order-contradicts');
  });

  it('a requirement that is implied names the lesson that has it already', () => {
    const course = { ...SOUND, both: { ...SOUND['both'], requires: ['first', 'shuffle', 'bend'] } };
    expect(message(course, 'requirement-implied')).toBe(
      'hint: “first” is required by “shuffle” already, which this lesson builds on. Remove this entry.',
    );
  });

  it('an entry that comes twice names its list', () => {
    expect(
      message({ ...SOUND, both: { ...SOUND['both'], requires: ['bend', 'shuffle', 'bend'] } }, 'named-twice'),
    ).toContain('“bend” is in requires twice.');
    const twice = { ...SOUND, bend: { ...SOUND['bend'], teaches: ['draw-4-half-step', 'draw-4-half-step'] } };
    expect(problems(twice)).toEqual(['bend teaches/1 named-twice']);
    expect(message(twice, 'named-twice')).toContain('“draw-4-half-step” is in teaches twice.');
  });

  it('a lesson that nothing leads to names the one the course begins with', () => {
    expect(message({ ...SOUND, alone: { stage: 'middle', blocks: [OPEN] } }, 'lesson-unreached')).toContain('“first”');
    expect(problems({ a: {}, b: {}, c: {} })).toEqual([]);
  });

  it('a technique taught twice names the lesson that comes first', () => {
    const twice = {
      ...SOUND,
      shuffle: { ...SOUND['shuffle'], teaches: ['shuffle', 'draw-4-half-step'], blocks: [`feel: shuffle\n${BENT}`] },
    };
    expect(message(twice, 'taught-twice')).toContain('is taught for the first time here, and in “bend” as well.');
  });

  it('a technique taught too early names what it builds on and who teaches that', () => {
    const early = {
      a: { teaches: ['slaps'], blocks: ['slot: 1/1\n4[tongue slap]'] },
      b: { requires: ['a'], teaches: ['tongue-blocking'], blocks: ['slot: 1/1\n4[tongue]'] },
    };
    expect(message(early, 'taught-too-early')).toBe(
      'warning: “Slaps” (slaps) builds on “Tongue blocking” (tongue-blocking), which no lesson on the way teaches: “b” does. Require “b” here, or change the order.',
    );
    // Nobody teaches it: then it is not the order that is wrong.
    expect(problems({ a: early.a })).not.toContain('a teaches/0 taught-too-early');
  });

  it('a long breath says which way, how long and how much', () => {
    const bars = (bar: string, count: number) => `tempo: 60\nslot: 1/4\n${Array(count).fill(bar).join(' | ')}`;
    const said = (block: string) => message({ a: { blocks: [block] } }, 'long-breath');
    expect(said(bars('-4 -4 -5 -5', 3))).toContain(
      'Here the draw continues for too long to be comfortable: about 12 seconds without a turn, roughly 2.4 litres of air.',
    );
    expect(said(bars('-4 -4 -4 4', 10))).toContain('Here there is far more draw than blow: over about');
    expect(said(bars('4 4 4 -4', 10))).toContain('far more blow than draw');
  });

  it('a jump in difficulty gives both levels and the main reason', () => {
    const hard = `slot: 1/16\ntempo: 120\n-4' 4 -4' 6 -4' 4 -4' 6 -4' 4 -4' 6 -4' 4 -4' 6`;
    const course = { a: { blocks: [OPEN] }, b: { requires: ['a'] }, c: { requires: ['b'], blocks: [hard] } };
    expect(message(course, 'difficulty-jump')).toMatch(
      /comes out at \d(?:\.\d)? of 10, and nothing on the way to this lesson is harder than 0\.1\. Up to 8 notes a second, in bar 1\./,
    );
    // Nothing leads to it that could be compared, or something as hard does.
    expect(problems({ c: { blocks: [hard] } })).toEqual([]);
    expect(problems({ ...course, b: { requires: ['a'], blocks: [hard] } })).toEqual(['b 0 difficulty-jump']);
  });
});
