/** Which files of src a module has, and which test files are to notice a change to them. */
import { globSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { ROOT } from '../measure.ts';

/**
 * Not asked about the mutants of other modules: tests that read the source files themselves, that start programs or build
 * sites, and that take long for what they find.
 */
const NOT_ELSEWHERE = [
  'tests/architecture/',
  'tests/bench/',
  'tests/command/',
  'tests/course/',
  'tests/engrave/',
  'tests/outside/engraving.test.ts',
  'tests/outside/exchange/',
  'tests/outside/ink/',
  'tests/outside/staff-notes.test.ts',
  'tests/outside/oracle.test.ts',
  'tests/notation/laws.test.ts',
  'tests/publish/',
  'tests/site/',
];

/** The files of a folder of src, or one file of it. */
export const filesOf = (module: string): string[] =>
  globSync(module.endsWith('.ts') ? `src/${module}` : `src/${module}/**/*.ts`, { cwd: ROOT })
    .filter((file) => !file.endsWith('.d.ts'))
    .map((file) => join(ROOT, file))
    .sort();

export interface Tests {
  /** Those in the folder, or the file, of the module’s name. */
  readonly own: readonly string[];
  /** Those elsewhere that import a file of the module, themselves or by what they share with other tests. */
  readonly elsewhere: readonly string[];
}

export function testsOf(module: string): Tests {
  const sources = new Set(filesOf(module).map((file) => relative(ROOT, file)));
  const inTests = globSync('tests/**/*.ts', { cwd: ROOT }).sort();
  const texts = new Map(inTests.map((file) => [file, readFileSync(join(ROOT, file), 'utf8')]));
  const reaches = (file: string, seen = new Set<string>()): boolean => {
    const text = texts.get(file);
    if (text === undefined || seen.has(file)) return sources.has(file);
    seen.add(file);
    return [...text.matchAll(/from '(\.[^']+)'/g)].some(([, to = '']) =>
      reaches(relative(ROOT, resolve(ROOT, dirname(file), to)), seen),
    );
  };
  const files = inTests.filter((file) => file.endsWith('.test.ts') && !/\.(?:page|long)\./.test(file));
  const beside = files.filter((file) => file.startsWith(`tests/${module.replace(/\.ts$/, '')}`));
  // A file without a test of its name is tested by those of its folder.
  const own = beside.length > 0 ? beside : files.filter((file) => dirname(file) === `tests/${dirname(module)}`);
  return {
    own,
    elsewhere: files.filter(
      (file) => !own.includes(file) && !NOT_ELSEWHERE.some((not) => file.startsWith(not)) && reaches(file),
    ),
  };
}
