/**
 * How bad each problem is in the end. An error stays one. A finding (a warning or a hint by default) may be allowed
 * in one lesson with a reason, or get another severity for the whole course; a warning fails a strict check.
 */
import { type Catalogue, reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, Severity } from '../diagnostics/diagnostic.ts';
import { nearest } from '../diagnostics/nearest.ts';
import { type Problem, problemAt, TOP } from '../diagnostics/place.ts';
import { nearestPlace, type YamlPlaces } from '../document/yaml.ts';
import type { Allow } from './lesson-schema.ts';
import { COURSE_PROBLEMS } from './problems.ts';

/** What an author says of findings, and where. */
export interface Wishes {
  readonly course: {
    readonly file: string;
    readonly places: YamlPlaces;
    readonly severity: ReadonlyMap<string, Severity | 'off'>;
  };
  readonly lessons: readonly { readonly file: string; readonly places: YamlPlaces; readonly allow: readonly Allow[] }[];
  readonly strict: boolean;
}

const report = reporter(COURSE_PROBLEMS);
const SOMEWHERE = { from: 0, to: 0 };

/** The problems as they count, with what is wrong with the wishes themselves. */
export function settle(problems: readonly Problem[], wishes: Wishes, catalogue: Catalogue): Problem[] {
  const findings = Object.keys(catalogue).filter((code) => catalogue[code]?.severity !== 'error');
  const found = new Map<string, Set<string>>();
  for (const { file, code, severity } of problems) {
    if (severity === 'error') continue;
    const codes = found.get(file) ?? new Set();
    found.set(file, codes.add(code));
  }

  const own: Problem[] = [];
  const allowed = new Set<string>();
  for (const { file, places, allow } of wishes.lessons) {
    for (const [index, { code }] of allow.entries()) {
      const wrong =
        wrongCode(code, 'allow') ??
        (found.get(file)?.has(code) ? undefined : report('allow-unused', SOMEWHERE, { code }));
      if (wrong) own.push(placeAt(wrong, file, places, ['allow', index, 'code'], 'value'));
      else allowed.add(`${file}\0${code}`);
    }
  }
  const { file, places, severity } = wishes.course;
  for (const code of severity.keys()) {
    const wrong = wrongCode(code, 'severity');
    if (wrong) own.push(placeAt(wrong, file, places, ['severity', code], 'key'));
  }

  return [
    ...problems.filter((one) => one.severity === 'error' || !allowed.has(`${one.file}\0${one.code}`)),
    ...own,
  ].flatMap((problem) => {
    if (problem.severity === 'error') return problem;
    const wished = severity.get(problem.code) ?? problem.severity;
    if (wished === 'off') return [];
    return { ...problem, severity: wished === 'warning' && wishes.strict ? 'error' : wished };
  });

  function wrongCode(code: string, where: 'allow' | 'severity'): Diagnostic | undefined {
    if (findings.includes(code)) return undefined;
    if (Object.hasOwn(catalogue, code)) return report(`${where}-error`, SOMEWHERE, { code });
    return report(`${where}-unknown`, SOMEWHERE, { code, nearest: nearest(code, findings) });
  }
}

/** A diagnostic placed at what YAML says of a path. */
export function placeAt(
  diagnostic: Omit<Diagnostic, 'span'>,
  file: string,
  places: YamlPlaces,
  path: readonly PropertyKey[],
  which: 'key' | 'value',
): Problem {
  const written = nearestPlace(places, path);
  return problemAt(diagnostic, file, written?.[which] ?? written?.value ?? TOP);
}
