/** One name has one meaning: no two modules export the same name. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** Every command exports its `command`, and a page what Astro calls. */
const SHARED = new Set(['command', 'GET']);

/** The names a module declares and exports. */
function exportsOf(file: string): string[] {
  const source = ts.createSourceFile(file, readFileSync(join(root, file), 'utf8'), ts.ScriptTarget.Latest);
  return source.statements.flatMap((statement) => {
    const modifiers = ts.canHaveModifiers(statement) ? (ts.getModifiers(statement) ?? []) : [];
    if (!modifiers.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword)) return [];
    if (ts.isVariableStatement(statement)) {
      return statement.declarationList.declarations.flatMap(({ name }) => (ts.isIdentifier(name) ? [name.text] : []));
    }
    const isNamed =
      ts.isFunctionDeclaration(statement) ||
      ts.isInterfaceDeclaration(statement) ||
      ts.isTypeAliasDeclaration(statement);
    return isNamed && statement.name ? [statement.name.text] : [];
  });
}

test('no exported name is declared in two modules', () => {
  const exported = globSync('src/**/*.ts', { cwd: root }).flatMap((file) =>
    [...new Set(exportsOf(file))].map((name) => ({ name, file })),
  );
  expect(exported.length).toBeGreaterThan(900);
  const twice = [...Map.groupBy(exported, ({ name }) => name)].filter(
    ([name, all]) => all.length > 1 && !SHARED.has(name),
  );
  expect(twice.map(([name, all]) => `${name}: ${all.map(({ file }) => file).join(', ')}`)).toEqual([]);
});
