/** The demo course's path: without a flaw as it is, and every planted fault is reported at its line. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { DEMO } from '../../src/command/package.ts';
import { loadCourse } from '../../src/course/load.ts';
import { PATH_PROBLEMS } from '../../src/curriculum/problems.ts';

const demo = loadCourse(DEMO);
const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

describe('the demo course', () => {
  it('has at least fourteen lessons on a path with forks and joins', () => {
    expect(demo.lessons.length).toBeGreaterThanOrEqual(14);
    const steps = [...demo.path.steps.values()];
    expect(steps.filter(({ opens }) => opens.length > 1).length).toBeGreaterThan(2);
    expect(steps.filter(({ needs }) => needs.length > 1).length).toBeGreaterThan(2);
  });

  it('has no problem, though it makes an error of every finding about its path', () => {
    for (const [code, { severity }] of Object.entries(PATH_PROBLEMS)) {
      if (severity !== 'error') expect(demo.file.severity.get(code), code).toBe('error');
    }
    expect(demo.problems).toEqual([]);
  });
});

/** Changes a lesson's text in a copy of the demo, and says what is then wrong: `lesson:line code`, and the line's text. */
function planted(changes: Readonly<Record<string, (text: string) => string>>): string[] {
  const folder = mkdtempSync(join(tmpdir(), 'reedway-demo-'));
  folders.push(folder);
  cpSync(DEMO, folder, { recursive: true });
  for (const [id, change] of Object.entries(changes)) {
    const file = join(folder, 'lessons', `${id}.mdx`);
    const before = readFileSync(file, 'utf8');
    const after = change(before);
    // A change that changes nothing would prove nothing.
    expect(after).not.toBe(before);
    writeFileSync(file, after);
  }
  const { problems, sources } = loadCourse(folder);
  return problems.map(({ file, line, column, endColumn, code }) => {
    const text = sources.get(file)?.split('\n')[line - 1] ?? '';
    return `${file.replace(/^lessons\/|\.mdx$/g, '')} ${code}: ${text.slice(column - 1, endColumn - 1)}`;
  });
}

const frontMatter = (key: string, value: string) => (text: string) =>
  text.replace(new RegExp(`^${key}: .*$`, 'm'), `${key}: ${value}`);
const added = (key: string, value: string) => (text: string) =>
  text.replace(new RegExp(`^${key}: \\[(.*)\\]$`, 'm'), `${key}: [$1, ${value}]`);
const without = (key: string) => (text: string) => text.replace(new RegExp(`^${key}: .*\n`, 'm'), '');
const line = (text: string) => (before: string) => before.replace('\n---\n', `\n${text}\n---\n`);
const block = (music: string) => (before: string) =>
  `${before}\n\`\`\`tab\nid: planted\n${music.includes('slot:') ? '' : 'slot: 1/4\n'}${music}\n\`\`\`\n`;

/** Everything that can be planted, where, and what is then pointed at. Other findings may follow from it. */
const FAULTS: readonly (readonly [what: string, changes: Parameters<typeof planted>[0], reported: string])[] = [
  ['an unknown lesson', { 'half-steps': added('requires', 'fist-bends') }, 'half-steps requires-unknown: fist-bends'],
  ['a self-requirement', { 'half-steps': added('requires', 'half-steps') }, 'half-steps requires-self: half-steps'],
  ['a cycle', { 'first-sounds': line('requires: [closing-solo]') }, 'first-sounds path-cycle: closing-solo'],
  [
    'a cycle through a quotation',
    { 'first-sounds': block('<first-tune/scale>') },
    'first-sounds path-cycle: <first-tune/scale>',
  ],
  [
    'a draft among what is required',
    { 'first-tune': line('draft: true') },
    'tongue-blocking requires-draft: first-tune',
  ],
  ['an unknown technique', { 'half-steps': added('teaches', 'blue-third') }, 'half-steps teaches-unknown: blue-third'],
  [
    'two lessons that teach the same thing first',
    { 'hands-and-shakes': added('teaches', 'bend-drops') },
    'first-bends taught-twice: bend-drops',
  ],
  [
    'a technique used before it is taught',
    { 'breath-turns': block("4 -4' 4 -4") },
    "breath-turns used-before-taught: -4'",
  ],
  [
    'a form used before it is taught',
    { 'breath-turns': line('feel: shuffle') },
    'breath-turns used-before-taught: shuffle',
  ],
  ['a technique never taught', { 'closing-solo': block('4 4o 4 5') }, 'closing-solo never-taught: 4o'],
  [
    'a technique taught and never used',
    { 'first-tune': added('teaches', 'other-splits') },
    'first-tune taught-unused: other-splits',
  ],
  [
    'a technique taught before what it builds on',
    { 'first-tune': added('teaches', 'octave-splits') },
    'first-tune taught-too-early: octave-splits',
  ],
  [
    'a lesson nothing leads to',
    { 'shuffle-and-triplets': without('requires') },
    'shuffle-and-triplets lesson-unreached: Shuffle, triplets and sixteenths',
  ],
  [
    'a requirement implied by others',
    { 'half-steps': added('requires', 'breath-turns') },
    'half-steps requirement-implied: breath-turns',
  ],
  [
    'a requirement said twice',
    { 'half-steps': added('requires', 'first-bends') },
    'half-steps named-twice: first-bends',
  ],
  [
    'an order that contradicts the path',
    { 'half-steps': frontMatter('order', '8.5') },
    'half-steps order-contradicts: 8.5',
  ],
  [
    'a stage that contradicts the path',
    { 'first-bends': frontMatter('stage', 'your-own-chorus') },
    'half-steps stage-contradicts: first-bends',
  ],
  [
    'a leap in difficulty',
    { 'breath-turns': block("tempo: 200\nslot: 1/16\n4 -4' 8' 1 -2'' 6o -3''' 2 4 -4' 8' 1 -2'' 6o -3''' 2") },
    'breath-turns difficulty-jump: ```',
  ],
  [
    'a breath too long',
    { 'breath-turns': block(`tempo: 60\n${Array(3).fill('-4 -4 -4 -4').join(' | ')}`) },
    'breath-turns long-breath: -4',
  ],
  [
    'an allowance for nothing',
    { 'half-steps': line('allow:\n  - code: long-breath\n    reason: It is meant so.') },
    'half-steps allow-unused: long-breath',
  ],
];

describe('a fault planted in a copy', () => {
  it.each(FAULTS)('is reported at its line: %s', (_, changes, reported) => {
    const problems = planted(changes);
    expect(problems).toContain(reported);
  });

  it('is silenced by an allowance with a reason, in its lesson alone', () => {
    const long = block(`tempo: 60\n${Array(3).fill('-4 -4 -4 -4').join(' | ')}`);
    const allow = line('allow:\n  - code: long-breath\n    reason: It is meant to be long.');
    expect(planted({ 'breath-turns': (text) => allow(long(text)) })).toEqual([]);
    expect(planted({ 'breath-turns': (text) => allow(long(text)), 'first-tune': long })).toEqual([
      'first-tune long-breath: -4',
    ]);
  });
});
