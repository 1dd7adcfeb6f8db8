/** All that scripts of a page show or say stands in the tables of texts, and all that stands there is shown. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { expect, test } from 'vitest';
import { CLIPS } from '../../src/texts/english/clips.ts';
import { HARP } from '../../src/texts/english/harp.ts';
import { PLAYER } from '../../src/texts/english/player.ts';
import { PLAYER_BUTTON } from '../../src/texts/english/player-button.ts';
import { PROGRESS } from '../../src/texts/english/progress.ts';
import { TONES } from '../../src/texts/english/tones.ts';

const TABLES = { PLAYER, PLAYER_BUTTON, CLIPS, HARP, TONES, PROGRESS };
const BROWSER = fileURLToPath(new URL('../../src/browser/', import.meta.url));

/** Strings in a file that are for the code, not for a reader: what is compared, thrown, selected, or asked for by key. */
function isForCode(node: ts.Node): boolean {
  const { parent } = node;
  if (ts.isImportDeclaration(parent) || ts.isLiteralTypeNode(parent) || ts.isCaseClause(parent)) return true;
  if (ts.isBinaryExpression(parent)) return /[=!]==/.test(parent.operatorToken.getText());
  if (ts.isNewExpression(parent)) return /Error$|^CustomEvent$/.test(parent.expression.getText());
  if (ts.isCallExpression(parent)) {
    return /(?:^|\.)(?:querySelector(?:All)?|query|closest|matches|matchMedia|getItem|present|\w*Text)$/.test(
      parent.expression.getText(),
    );
  }
  return (
    ts.isPropertyAssignment(parent) && parent.initializer === node && /^'?(?:rel|class)'?$/.test(parent.name.getText())
  );
}

/** Whether a string reads as words: it begins with a capital, or has words with a blank between them. */
const readsAsWords = (text: string): boolean =>
  /^\s*[A-Z][a-z]/.test(text) || (/[A-Za-z]{2,} [A-Za-z]{2,}/.test(text) && !/[-[\]#>{}()=]|^:/.test(text));

/** `file:line text` of every string and template part of a source text that a reader would see. */
function wordsOutside(name: string, source: string): string[] {
  const file = ts.createSourceFile(name, source, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const look = (node: ts.Node): void => {
    const isText = ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node);
    if (isText && readsAsWords(node.text) && !isForCode(ts.isStringLiteralLike(node) ? node : node.parent)) {
      found.push(`${name}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1} ${node.text}`);
    }
    ts.forEachChild(node, look);
  };
  look(file);
  return found;
}

const sources = readdirSync(BROWSER, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => ({ name, source: readFileSync(`${BROWSER}${name}`, 'utf8') }));

test('no script has words of its own', () => {
  expect(sources.length).toBeGreaterThan(40);
  expect(sources.flatMap(({ name, source }) => wordsOutside(name, source))).toEqual([]);
});

test.each([
  ["label.textContent = 'Play';", 'Play'],
  ["make('span', {}, 'from the top')", 'from the top'],
  // biome-ignore lint/suspicious/noTemplateCurlyInString: it is the code of a template.
  ['said = `Round ${number} of two`;', 'Round '],
  ["const NAMES = { tune: 'Tune' };", 'Tune'],
])('words are found in %s', (code, words) => {
  expect(wordsOutside('a.ts', code)[0]).toBe(`a.ts:1 ${words}`);
});

test.each(Object.entries(TABLES).flatMap(([table, rows]) => Object.keys(rows).map((key) => [table, key] as const)))(
  'the row %s %s is asked for',
  (_, key) => {
    const asked = sources.some(({ source }) => source.includes(`'${key}'`));
    // Which breath a note is on is itself the key.
    expect(asked || ['blow', 'draw', 'done', 'ready', 'later'].includes(key)).toBe(true);
  },
);
