/**
 * Whether reading a course stays linear in everything an author's files can hold much of: each kind of input at a half and at the
 * whole of a size, in interleaved pairs, as the exponent of the growth. 1 is linear, 2 quadratic. What a block alone can hold is
 * measured in parsing.ts.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadCourse } from '../src/course/load.ts';
import { inFolder } from './folder.ts';
import { type Spent, spentOn } from './measure.ts';
import { atMost, type Row, ratio, type Section } from './table.ts';

/** The files of a course of one lesson, as far as a kind of input is about them. */
interface Files {
  readonly course?: string;
  readonly techniques?: string;
  readonly glossary?: string;
  readonly frontMatter?: string;
  readonly text?: string;
}

const many = (count: number, line: (index: number) => string): string =>
  Array.from({ length: count }, (_, index) => line(index)).join('');
/** Ten to a paragraph: what a paragraph takes with thousands of tags in it is the MDX reader's affair, see the inline tags below. */
const inParagraphs = (count: number, word: (index: number) => string): string =>
  many(count, (index) => word(index) + (index % 10 === 9 ? '\n\n' : ''));
const block = (text: string): string => `\`\`\`tab\n${text}\n\`\`\`\n`;

/** Each kind of input with so many of it. */
const KINDS: Readonly<Record<string, (count: number) => Files>> = {
  'unknown keys of course.yaml': (count) => ({ course: many(count, (i) => `k${i}: 1\n`) }),
  'unknown keys of front matter': (count) => ({ frontMatter: many(count, (i) => `k${i}: 1\n`) }),
  forms: (count) => ({ course: `forms:\n${many(count, (i) => `  f${i}: I7 | IV7\n`)}` }),
  'forms with errors': (count) => ({ course: `forms:\n${many(count, (i) => `  f${i}: X\n`)}` }),
  tunings: (count) => ({ course: `tunings:\n${many(count, (i) => `  t${i}: { blow: C E, draw: D F }\n`)}` }),
  severities: (count) => ({ course: `severity:\n${many(count, (i) => `  s${i}: error\n`)}` }),
  stages: (count) => ({ course: `stages:\n${many(count, (i) => `  - { id: s${i}, title: S${i} }\n`)}` }),
  techniques: (count) => ({
    techniques: `techniques:\n${many(count, (i) => `  - { id: a${i}, title: T${i}, about: A., group: tone, find: not-in-score }\n`)}`,
  }),
  'clips of front matter': (count) => ({
    frontMatter: `clips:\n${many(count, (i) => `  c${i}: { src: media/a.mp3 }\n`)}`,
  }),
  'clips of the text': (count) => ({ text: many(count, () => '<Clip src="media/a.mp3" />\n\n') }),
  'notes within a sentence': (count) => ({ text: inParagraphs(count, () => `It is <Note show="pitch">-3'</Note>, `) }),
  'keys that begin sentences': (count) => ({ text: inParagraphs(count, () => '<Key /> is it. ') }),
  'components within headings': (count) => ({ text: many(count, () => '## On <Harp article="yes" />\n\n') }),
  'components within a table': (count) => ({ text: `| a |\n|---|\n${many(count, () => '| <Position /> |\n')}` }),
  'notes of one component': (count) => ({ text: `<Note>${'-3 '.repeat(count)}</Note>\n` }),
  'modes of components and blocks': (count) => ({
    text: `${block('4 =7').repeat(count / 10)}${many(count / 10, () => 'In <Key />. ')}`,
  }),
  'words of the glossary': (count) => ({
    glossary: `terms:\n${many(count, (i) => `  - { term: w${i}, means: A. }\n`)}`,
  }),
  'words of the glossary that are used': (count) => ({
    glossary: `terms:\n${many(count, (i) => `  - { term: w${i}, means: A. }\n`)}`,
    text: inParagraphs(count, (i) => `<Term>w${i}</Term> `),
  }),
  'words that the glossary does not explain': (count) => ({
    glossary: 'terms: [{ term: riff, means: A. }]\n',
    text: inParagraphs(count, (i) => `<Term>v${i}</Term> `),
  }),
  'letters in the text': (count) => ({ text: `${block('4 =7')}\n${'In B, on '.repeat(count)}` }),
  'letters in a row': (count) => ({ text: `${block('4 =7')}\nOn ${'B and '.repeat(count)}` }),
  'wrapped lines with letters': (count) => ({ text: `${block('4 =7')}\n${'> On a C\n> harp, A\n'.repeat(count)}` }),
  'spaces behind a letter': (count) => ({ text: `${block('4 =7')}\nOn B${' '.repeat(count)}x` }),
  requirements: (count) => ({ frontMatter: `requires: [${many(count, (i) => `l${i}, `)}]\n` }),
  'unknown techniques': (count) => ({ frontMatter: `teaches: [${many(count, (i) => `l${i}, `)}]\n` }),
  attributes: (count) => ({ text: `<HarpMap ${many(count, (i) => `a${i}="1" `)} />\n` }),
  'inline tags': (count) => ({ text: many(count, () => '<b>x</b> ') }),
  'comments in the text': (count) => ({ text: many(count, () => '{/* a */} ') }),
  'opening angle brackets': (count) => ({ text: `Hi ${'<< '.repeat(count)}` }),
  links: (count) => ({ text: many(count, (i) => `[a](l${i}) `) }),
  headings: (count) => ({ text: '# A\n\n'.repeat(count) }),
  blocks: (count) => ({ text: block('4 =7').repeat(count) }),
  'chords of a list in one bar': (count) => ({ text: block(`chords: ${'I7 IV7 '.repeat(count / 2)}\n4 =7`) }),
  'chords written in one bar': (count) => ({ text: block(`${'"I7" "IV7" '.repeat(count / 2)}4 =7`) }),
  'unknown settings of a block': (count) => ({ text: block(`${many(count, (i) => `k${i}: 1\n`)}4 =7`) }),
  'spaces in a setting': (count) => ({
    text: block(`harp: a${' '.repeat(count)}b\nform: x${' '.repeat(count)}bars\n4 =7`),
  }),
  'unknown marks': (count) => ({ text: block(many(count, (i) => `4[k${i}] `)) }),
  'unknown chords': (count) => ({ text: block(many(count, (i) => `"X${i}" 4 `)) }),
  phrases: (count) => ({ text: block(`${many(count, (i) => `phrase p${i}: 4\n`)}4 =7`) }),
  quotations: (count) => ({ text: block(`phrase a: 4 5\n${'<a>[accent] '.repeat(count)}`) }),
  'moved quotations': (count) => ({ text: block(`phrase a: 4 5\n${'<a to "V"> '.repeat(count)}`) }),
  'notes of a moved quotation': (count) => ({ text: block(`phrase a: ${'4 5 '.repeat(count)}\n<a to "V">`) }),
  'spaces in a quotation': (count) => ({ text: block(`<a${' '.repeat(count)}to${' '.repeat(count)}"V">`) }),
  'words over a bar': (count) => ({ text: block(`${'text: softly\n'.repeat(count)}4 =7`) }),
  bars: (count) => ({ text: block('4 =7 | '.repeat(count)) }),
  'lines of meter': (count) => ({
    text: block(`slot: 1/4\n4 =3 |\n${many(count / 2, () => 'meter:2/4\n4 =|\nmeter:1/4\n4|\n')}`),
  }),
  'lines of tempo': (count) => ({
    text: block(`slot: 1/1\n4 |\n${many(count / 2, () => 'tempo:to 60\n4|\ntempo:90\n4|\n')}`),
  }),
  'bars of one gradual tempo': (count) => ({ text: block(`slot: 1/1\n4 |\ntempo: to 60\n${'4 | '.repeat(count)}`) }),
  'lines of position': (count) => ({
    text: block(`slot: 1/1\n4 |\n${many(count / 2, () => 'position:2\n4|\nposition:3\n4|\n')}`),
  }),
  'grace notes': (count) => ({ text: block(`slot: 1/1\n${'4[grace 5]|'.repeat(count)}`) }),
  fermatas: (count) => ({ text: block(`slot: 1/1\n${'4[fermata]|'.repeat(count)}`) }),
};

const FULL = 4000;
const PAIRS = 5;
/** Above this a kind of input is called more than linear. */
const LIMIT = 1.3;

export const growth = (): Promise<Section> =>
  inFolder(async (folder) => {
    const rows: Row[] = [];
    for (const [name, filesOf] of Object.entries(KINDS)) {
      const [half, full] = [FULL / 2, FULL].map((count) => writeCourse(join(folder, name, `${count}`), filesOf(count)));
      const spent: [Spent, Spent][] = [];
      for (let pair = 0; pair < PAIRS; pair++) {
        spent.push([await spentOn(() => loadCourse(half ?? '')), await spentOn(() => loadCourse(full ?? ''))]);
      }
      const exponents = spent.map(([one, two]) => Math.log2(two.cpu / one.cpu)).sort((a, b) => a - b);
      rows.push(atMost(name, exponents[Math.floor(PAIRS / 2)] ?? Number.NaN, LIMIT, ratio));
    }
    return {
      title: 'Growth',
      how: `Exponent of the processor time of loading a course with ${FULL / 2} and ${FULL} of each, the median of ${PAIRS} interleaved pairs.`,
      rows,
    };
  });

function writeCourse(dir: string, { course = '', techniques, glossary, frontMatter = '', text = '' }: Files): string {
  mkdirSync(join(dir, 'lessons'), { recursive: true });
  writeFileSync(join(dir, 'course.yaml'), `title: A course\n${course}`);
  if (techniques !== undefined) writeFileSync(join(dir, 'techniques.yaml'), techniques);
  if (glossary !== undefined) writeFileSync(join(dir, 'glossary.yaml'), glossary);
  writeFileSync(join(dir, 'lessons', 'a.mdx'), `---\ntitle: A\n${frontMatter}---\n\n${text}\n`);
  return dir;
}
