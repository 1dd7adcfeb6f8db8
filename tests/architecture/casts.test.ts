/** A cast silences the compiler, so the source has only those of a few kinds, each with its reason. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** What a cast may be of, by the text of what is cast; of a file alone where that is named. */
const KINDS: readonly { readonly why: string; readonly of: RegExp; readonly in?: string }[] = [
  { why: 'JSON that our own code wrote, or that is checked field by field', of: /^JSON\.parse\(/ },
  { why: 'JSON of our own site, fetched', of: /^response\.json\(\)$/ },
  { why: 'what our own threads send each other', of: /^(workerData|met\.message)$/, in: 'src/publish/engraving/' },
  { why: 'a module loaded without waiting', of: /^load\(/, in: 'src/publish/engraving/ahead.ts' },
  { why: 'a record made of a list of its keys', of: /^Object\.fromEntries\(/, in: 'src/values/checked.ts' },
  { why: 'facts whose tie to their code is lost in a type parameter', of: /^facts$/ },
  { why: 'the place on the process that all copies of a module share', of: /^globalThis$/, in: 'src/site/site.ts' },
  { why: 'the schema library asks for more than is known', of: /./, in: 'src/document/schema.ts' },
];

interface Cast {
  readonly file: string;
  readonly line: number;
  /** What is cast, or asserted to be there. */
  readonly of: ts.Expression;
  readonly text: string;
  readonly bang: boolean;
}

const FRONT = /^---\n([\s\S]*?)\n---/;

function castsIn(file: string): Cast[] {
  const whole = readFileSync(join(root, file), 'utf8');
  const text = file.endsWith('.astro') ? (FRONT.exec(whole)?.[1] ?? '') : whole;
  // Most files have none: to parse only the others is what keeps this quick.
  if (!/ as |!/.test(text)) return [];
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true, ts.ScriptKind.TS);
  const casts: Cast[] = [];
  const visit = (node: ts.Node): void => {
    const bang = ts.isNonNullExpression(node);
    if (
      bang ||
      ts.isTypeAssertionExpression(node) ||
      (ts.isAsExpression(node) && !ts.isConstTypeReference(node.type))
    ) {
      const line = source.getLineAndCharacterOfPosition(node.getStart()).line + 1;
      casts.push({ file, line, of: innermost(node.expression), text: node.getText(), bang });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return casts;
}

/** What is cast at last: in `value as unknown as Kind`, the value. */
function innermost(node: ts.Expression): ts.Expression {
  return ts.isParenthesizedExpression(node) || ts.isAsExpression(node) ? innermost(node.expression) : node;
}

const casts = globSync('{src,components}/**/*.{ts,astro}', { cwd: root }).flatMap(castsIn);
const shown = ({ file, line, text }: Cast): string => `${file}:${line} ${text}`;
const fits = ({ file, of }: Cast, kind: (typeof KINDS)[number]): boolean =>
  kind.of.test(of.getText()) && file.startsWith(kind.in ?? '');

test('an item of a list is asked for by checked access, not cast', () => {
  expect(casts.filter(({ of, bang }) => !bang && ts.isElementAccessExpression(of)).map(shown)).toEqual([]);
});

test('nothing is asserted to be there with an exclamation mark', () => {
  expect(casts.filter(({ bang }) => bang).map(shown)).toEqual([]);
});

test('every other cast is of a kind that has a reason', () => {
  expect(casts.filter((cast) => !KINDS.some((kind) => fits(cast, kind))).map(shown)).toEqual([]);
});

test('every kind is still needed', () => {
  expect(KINDS.filter((kind) => !casts.some((cast) => fits(cast, kind)))).toEqual([]);
});
