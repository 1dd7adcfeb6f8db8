/** What a person reads is in plain present-day English: antique and private words stay out of pages, messages, guides and comments. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** A word, and what to write instead. */
const INSTEAD: Readonly<Record<string, string>> = {
  afresh: 'again',
  anew: 'again',
  astray: 'misplaced',
  'at hand': 'given',
  hence: 'so',
  'in hand': 'known, or the name of the thing',
  likeliest: 'most likely',
  mend: 'fix',
  mended: 'fixed',
  mends: 'fixes',
  nought: 'nothing',
  'of ours': 'our own',
  oftener: 'more often',
  reckon: 'estimate',
  reckoned: 'estimated',
  reckons: 'estimates',
  slip: 'mistake',
  slips: 'mistakes',
  sooner: 'earlier',
  thereby: 'so',
  told: 'reported',
  whence: 'from where',
  whoever: 'anyone who',
  whomever: 'anyone whom',
};
const ANTIQUE = new RegExp(`(?<![\\w-])(?:${Object.keys(INSTEAD).join('|')})(?![\\w-])`, 'gi');

function antiqueWordsIn(text: string): string[] {
  return text
    .split('\n')
    .flatMap((line, index) =>
      [...line.matchAll(ANTIQUE)].map(([word]) => `${index + 1}: “${word}”, write “${INSTEAD[word.toLowerCase()]}”`),
    );
}

test('pages, messages, guides and comments have none of the words in the list', () => {
  const files = globSync(
    ['{src,components,tests,bench}/**/*.{ts,astro,css,md}', 'content/**/*.{mdx,yaml}', 'README.md', 'DEVELOPERS.md'],
    { cwd: root },
  );
  expect(files.length).toBeGreaterThan(400);
  const found = files
    .filter((file) => !import.meta.url.endsWith(file))
    .flatMap((file) => antiqueWordsIn(readFileSync(join(root, file), 'utf8')).map((line) => `${file}:${line}`));
  expect(found).toEqual([]);
});

test('each of them is found, and names in code are not', () => {
  for (const word of Object.keys(INSTEAD)) expect(antiqueWordsIn(`It is ${word}.`)).toHaveLength(1);
  expect(antiqueWordsIn('paper-slip slipped Hencer')).toEqual([]);
});
