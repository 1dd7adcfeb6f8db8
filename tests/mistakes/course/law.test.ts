/** What holds of the certain fixes of any course, whatever its author mistypes: they never raise, and change what they name. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fixCourse } from '../../../src/course/edits/fix.ts';
import { filesInMemory } from '../../course/files-in-memory.ts';
import { cases } from '../../setup/long.ts';
import { fixedFor, type Texts } from '../shown.ts';
import { typed } from './mistake.ts';

const COURSE: Texts = {
  'course.yaml': typed`
    title: A course
    harp: A
    cautions:
      - Breathe out: slowly.
      - "Rest: often."
    stages:
      - id: breath
        title: In and out
      - { id: blues, title: The blues }
  `,
  'lessons/first.mdx': typed`
    ---
    title: First
    stage: breath
    minutes: 10
    clips:
      slow:
        src: https://example.org/a.mp3
        cues: [{ at: 0:04, bars: 1-2 }]
    ---

    # One

    ~~~tab
    id: walk
    slot: 1/4
    4 -4 5 -5 | 6 =3
    ~~~

    See [the next](second#two), ![a harp](media/harp.svg) and <Note>-3</Note>.

    <HarpMap scale="blues" harp="A" />

    <Clip src="https://example.org/b.mp3" cues={[{ at: '0:04', block: 'walk' }]} />

    <Clip name="slow" />
  `,
  'lessons/second.mdx': typed`
    ---
    title: Second
    requires: [first]
    draft: false
    ---

    ## Two

    <details>
    <summary>Why?</summary>

    Because 3 \< 4.

    </details>
  `,
  'glossary.yaml': typed`
    terms:
      - term: riff
        means: A short tune.
        also: [riffs, licks]
  `,
  'media/harp.svg': '<svg/>',
};

/** What is written where something else was: signs that are lost, doubled, or come from a word processor. */
const MISTYPED = [
  '',
  '',
  '"',
  "'",
  '“',
  '”',
  ':',
  ': ',
  '=',
  ',',
  '<',
  '{',
  '}',
  '[',
  ']',
  '-',
  '- ',
  '  ',
  '\n',
  '⇥',
  '#',
  '\\',
  '/',
  'x',
  '.md',
];

const mistyped = fc.record({
  file: fc.constantFrom('course.yaml', 'lessons/first.mdx', 'lessons/second.mdx', 'glossary.yaml'),
  at: fc.nat({ max: 600 }),
  length: fc.nat({ max: 2 }),
  text: fc.constantFrom(...MISTYPED),
});

test('certain fixes never raise, are applied once and for all, and leave alone a file without any', () => {
  const property = fc.property(fc.array(mistyped, { minLength: 1, maxLength: 3 }), (mistakes) => {
    const files: Record<string, string> = { ...COURSE };
    for (const { file, at, length, text } of mistakes) {
      const before = files[file] ?? '';
      const from = at % (before.length + 1);
      files[file] = before.slice(0, from) + text.replace('⇥', '\t') + before.slice(from + length);
    }
    const { before, changes } = fixCourse(filesInMemory(files));
    const named = new Set(before.problems.flatMap(({ file, fix }) => (fix?.certain ? [file] : [])));
    // A file may have its first fix in a later round, for what another file was fixed.
    if (named.size === 0) expect(changes).toEqual([]);
    const fixed = fixedFor(files);
    expect(fixedFor(fixed)).toEqual(fixed);
  });
  fc.assert(property, { numRuns: cases(25, 2000) });
});
