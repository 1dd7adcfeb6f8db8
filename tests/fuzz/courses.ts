/** Courses: their files at random, lessons that require and quote each other, forms, tunings and techniques of their own. */
import fc from 'fast-check';
import type { FileTable } from '../course/files-in-memory.ts';
import { courseOfFiles, DEFAULT_FILES } from './course-in-memory.ts';
import { lessonFile } from './lesson-text.ts';
import { mutated } from './mutated.ts';
import type { Target } from './target.ts';

const KEYS = [
  'title', 'teacher', 'language', 'url', 'licence', 'cautions', 'stages', 'concertA', 'temperament', 'tunings', 'forms', 'severity', 'harp', 'position', 'meter',
  'tempo', 'feel', 'slot', 'tuning', 'mouth', '__proto__', 'constructor', 'techniques', 'id', 'requires', 'uses', 'about', 'rule', 'caution', 'blow', 'draw', 'bars',
]; // biome-ignore format: a list to read across
const VALUES = [
  'A', 'A course', '3', '442', '"12/8"', 'twelve-bar', 'I7 | IV7 | V7 | I7', 'shuffle', 'just', 'en', 'de', 'not a language', 'https://example.org/course/',
  'javascript:alert(1)', 'true', 'null', '""', '[]', '{}', '0 4 7 12 16 19 24 28 31 36', '[0, 4, 7]', 'error', 'off', '&a [*a]', '*a', '!!js x', '1e400', '-1', '|', '>-',
]; // biome-ignore format: a list to read across

const key = fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...KEYS) }, fc.string({ maxLength: 4 }));
const value = fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...VALUES) }, fc.string({ maxLength: 6 }));
/** Lines at random depths: much of it is no YAML, and most of the rest not what was asked for. */
const yaml = fc
  .array(fc.tuple(fc.nat(3), fc.boolean(), key, value), { maxLength: 14 })
  .map((lines) =>
    lines.map(([depth, item, name, text]) => `${'  '.repeat(depth)}${item ? '- ' : ''}${name}: ${text}`).join('\n'),
  );
const courseFile = fc.oneof(
  yaml,
  yaml.map((text) => `title: A course\n${text}`),
  fc.string({ unit: 'binary', maxLength: 40 }),
);

/** Course files that are right but for a piece: tunings, forms, stages and findings with another severity. */
const WHOLE_COURSE = `title: A course
summary: >-
  What it is
teacher: A teacher
language: en-GB
url: https://example.org/course/
licence: Free
cautions: [Play softly., Rest.]
stages:
  - { id: one, title: One, summary: The first }
  - id: two
    title: Two
harp: low F
position: 2
meter: 12/8
tempo: 92.5
feel: 60:40
slot: 1/8
chords: I7 | V7 IV7
concert-a: 442
temperament: just
tunings:
  own:
    title: My own
    blow: C E G C E G C E G C
    draw: [D, G, B, D, F#, A, B, D, F, A]
  slide: { blow: C E G, draw: D F A, slide: true, valves: true }
forms:
  mine: I7 | IV7 = | V7 | I7
severity:
  taught-twice: error
  never-taught: "off"
`;
const WHOLE_TECHNIQUES = `techniques:
  - id: guide-tones
    title: Guide tones
    about: The third moves.
    group: harmony
    requires: [twelve-bar]
    kind-of: [half-step-bends]
    cautions: [Softly]
    find:
      any:
        - note: { role: "3", chord: I7, hole: 1-6, breath: draw, bend: 1 }
          next: { role: b7, chord: IV7 }
          between: { chord: changes, pitch: down }
  - { id: posture, title: To sit, about: How, group: breath, find: not-in-score }
change:
  half-step-bends: { cautions: [Softly] }
`;
const yamlPiece = fc.oneof(
  fc.constantFrom(
    ': ',
    '- ',
    '\n',
    '\n  ',
    '{',
    '}',
    '[',
    ']',
    '"',
    "'",
    '|',
    '&a ',
    '*a',
    '#',
    ',',
    '!!x ',
    '? ',
    '%',
    '\t',
    '<<: ',
  ),
  key,
  value,
);
const spoiled = (text: string): fc.Arbitrary<string> =>
  fc.oneof(
    { weight: 1, arbitrary: fc.constant(text) },
    { weight: 4, arbitrary: mutated(fc.constant(text), yamlPiece) },
  );

const names = ['one', 'two', 'three', 'first', 'unit/four', 'Ünï'];
/** A lesson that depends on others by its front matter and by a quotation. */
const linked = fc
  .tuple(fc.subarray(names), fc.constantFrom(...names), fc.boolean(), fc.boolean())
  .map(
    ([requires, quoted, draft, phrase]) =>
      `---\ntitle: A lesson\n${requires.length > 0 ? `requires: [${requires.join(', ')}]\n` : ''}${draft ? 'draft: true\n' : ''}---\n\n` +
      `\`\`\`tab\nid: x\nphrase p: 4 5\n${phrase ? `<${quoted}/x:p>` : `<${quoted}/x>`} 4\n\`\`\`\n[a](${quoted}) [b](${quoted}#x)\n`,
  );
/** A lesson with clips, techniques and settings of its own, right but for a piece. */
const WHOLE_LESSON = `---
title: A lesson
summary: What it is
stage: one
requires: [one]
teaches: [half-step-bends]
harp: A
form: mine
clips:
  slowly:
    src: media/a.mp3
    title: Slowly
    cues:
      - { at: 0:04, block: head, bars: 1-4 }
      - { at: 0:17.5, until: 0:30, block: head, bars: 5 }
---

<Clip name="slowly" />

> - \`\`\`tab
>   id: head
>   form: none
>   tuning: own
>   slot: 1/4
>   4 -4 5 -5 | <one/x> |]
>   \`\`\`

<Clip src="https://example.org/a.mp4" cues={[{ at: '0:04', bars: '1' }]} />
<HarpMap harp="A" tuning="own" /> <RoleTable chords="I7 | IV7" /> <BendLadder hole="3" /> <FormChart form="mine" /> <TargetNotes chords="I7" holes="1-4" /> <RhythmLine rhythm="x = x[accent] . x x x x" syllables="a b" /> <SideBySide block="head" harps="C, A" /> <NoteLengths />
`;
const lesson = fc.oneof(linked, lessonFile, spoiled(WHOLE_LESSON));
const path = fc.oneof(
  { weight: 9, arbitrary: fc.constantFrom(...names).map((name) => `lessons/${name}.mdx`) },
  fc.constantFrom('lessons/a b.mdx', 'lessons/.mdx', 'lessons/x.md', 'lessons/con.mdx', 'lessons/FIRST.mdx', 'lessons/deep/er/x.mdx', 'media/b.svg', 'public/index.html', 'techniques.yaml', 'other.txt'),
); // biome-ignore format: a list to read across

const files: fc.Arbitrary<Readonly<Record<string, string>>> = fc
  .tuple(
    fc.option(fc.oneof(courseFile, spoiled(WHOLE_COURSE))),
    fc.option(fc.oneof(yaml, spoiled(WHOLE_TECHNIQUES))),
    fc.array(fc.tuple(path, lesson), { maxLength: 7 }),
  )
  .map(([course, techniques, all]) => ({
    ...Object.fromEntries(all),
    ...(course === null ? {} : { 'course.yaml': course }),
    ...(techniques === null ? {} : { 'techniques.yaml': techniques }),
  }));

export const courses: Target<FileTable> = {
  name: 'courses',
  limit: 5,
  pure: true,
  batch: 100,
  cases: files,
  check(table) {
    courseOfFiles({ ...DEFAULT_FILES, ...table });
  },
};
