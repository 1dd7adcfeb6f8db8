/** All that pages and their scripts show or say is in the tables of texts, and all that is there is shown. */
import { globSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import type { TextTable } from '../../src/texts/text.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const read = (pattern: string) =>
  globSync(pattern, { cwd: root }).map((name) => ({ name, source: readFileSync(join(root, name), 'utf8') }));
const sources = read('{src/browser,src/site,components}/**/*.{ts,astro}');

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
  // The names schema.org gives to kinds of things and to their properties.
  if (ts.isPropertyAssignment(parent) && parent.name.getText() === "'@type'") return true;
  if (ts.isJsxAttribute(parent)) return /^(?:class|rel|http-equiv|content)$/.test(parent.name.getText());
  return (
    ts.isPropertyAssignment(parent) && parent.initializer === node && /^'?(?:rel|class)'?$/.test(parent.name.getText())
  );
}

/** Whether a string reads as words: it begins with a capital, or has words with a blank between them. */
const readsAsWords = (text: string): boolean =>
  /^\s*[A-Z][a-z]/.test(text) || (/[A-Za-z]{2,} [A-Za-z]{2,}/.test(text) && !/[-[\]#>{}()=]|^:/.test(text));

/** A page's file as TSX: its code, and then its template. */
const asTsx = (astro: string): string =>
  astro
    .replace(/^---\n([\s\S]*?)^---\n/m, '$1\n;<>')
    .replace('<!doctype html>', '')
    .replace(/<script>[\s\S]*?<\/script>/g, '')
    .concat('</>');

/** `file: text` of every string, part of a template and text of an element that a reader would see. */
function wordsOutside(name: string, source: string): string[] {
  const isPage = name.endsWith('.astro');
  const kind = isPage ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const file = ts.createSourceFile(name, isPage ? asTsx(source) : source, ts.ScriptTarget.Latest, true, kind);
  const found: string[] = [];
  const look = (node: ts.Node): void => {
    if (ts.isJsxText(node)) {
      if (/\p{Letter}/u.test(node.text)) found.push(`${name}: ${node.text.trim()}`);
      return;
    }
    const isText = ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node);
    if (isText && readsAsWords(node.text) && !isForCode(ts.isStringLiteralLike(node) ? node : node.parent)) {
      found.push(`${name}: ${node.text}`);
    }
    ts.forEachChild(node, look);
  };
  look(file);
  return found;
}

test('no page and no script has words of its own', () => {
  expect(sources.length).toBeGreaterThan(100);
  expect(sources.flatMap(({ name, source }) => wordsOutside(name, source))).toEqual([]);
});

test.each([
  ['a.ts', "label.textContent = 'Play';", 'Play'],
  ['a.ts', "make('span', {}, 'from the top')", 'from the top'],
  // biome-ignore lint/suspicious/noTemplateCurlyInString: it is the code of a template.
  ['a.ts', 'said = `Round ${number}`;', 'Round '],
  ['a.ts', "const NAMES = { tune: 'Tune' };", 'Tune'],
  ['a.astro', '---\nconst { all } = Astro.props;\n---\n\n<p>and {all}</p>\n', 'and'],
  ['a.astro', '---\n---\n\n<nav aria-label="The course" />\n', 'The course'],
  ['a.astro', "---\nconst title = 'Lessons';\n---\n\n<h1>{title}</h1>\n", 'Lessons'],
  ['a.astro', "---\n---\n\n<p>{some && 'and so on'}</p>\n", 'and so on'],
])('words are found in %s: %s', (name, code, words) => {
  expect(wordsOutside(name, code)).toEqual([`${name}: ${words}`]);
});

describe('every row of a table is asked for', () => {
  const text = sources.map(({ source }) => source).join('\n');
  const files = globSync('src/texts/english/*.ts', { cwd: root });

  /** Rows that are asked for by a key that is put together, or that is itself a value. */
  const BY_VALUE: Readonly<Record<string, readonly string[]>> = {
    'harps.ts': ['position1', 'position2', 'position3', 'position4', 'position5', 'position12'],
    'player.ts': ['blow', 'draw'],
    'progress.ts': ['done', 'ready', 'later'],
    'settings.ts': ['low', 'high'],
  };

  test.each(files)('%s', async (file) => {
    const tables = Object.entries<TextTable>(await import(join(root, file)));
    expect(tables).not.toEqual([]);
    for (const [name, rows] of tables) {
      // Groups have the names the course's techniques give them.
      if (name === 'TECHNIQUE_GROUPS') continue;
      const unused = Object.keys(rows).filter((key) => !text.includes(`'${key}'`));
      expect(unused.filter((key) => !BY_VALUE[basename(file)]?.includes(key))).toEqual([]);
    }
  });
});
