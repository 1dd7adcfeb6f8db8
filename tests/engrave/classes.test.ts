/** The table of classes is the legend of the drawings and of their style sheet. */
import { globSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { CLASS } from '../../src/engrave/classes.ts';

const folder = fileURLToPath(new URL('../../src/engrave/', import.meta.url));
const read = (pattern: string): string =>
  globSync(pattern, { cwd: folder })
    .map((name) => readFileSync(folder + name, 'utf8'))
    .join('\n');

const classes = Object.values(CLASS);

test('no two names share a class', () => {
  expect(new Set(classes).size).toBe(classes.length);
});

test('the style sheet has no class of one letter that is not in the table', () => {
  const used = [...read('{block,grid}.css').matchAll(/\.([a-zA-Z])(?![\w-])/g)].map(([, name]) => name);
  expect(used.length).toBeGreaterThan(20);
  expect(used.filter((name) => !classes.some((one) => one === name))).toEqual([]);
});

test('drawings take such classes from the table, and use every name of it', () => {
  const code = read('{,above/,lanes/,staff/,under/}*.ts');
  expect(code.match(/class="[a-zA-Z](?: [a-zA-Z])*"/g)).toBeNull();
  expect(Object.keys(CLASS).filter((name) => !code.includes(`CLASS.${name}`))).toEqual([]);
});
