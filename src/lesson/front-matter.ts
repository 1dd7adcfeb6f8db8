/** Where a lesson's front matter is: between a first line of three hyphens and the next such line. */
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import { readYaml, type YamlRead } from '../document/yaml.ts';
import { lineFrom } from './line.ts';
import { LESSON_PROBLEMS } from './problems.ts';

/** The front matter of a lesson, read as YAML. */
export interface FrontMatter extends YamlRead {
  /** Whether there is any. */
  readonly written: boolean;
}

const report = reporter(LESSON_PROBLEMS);

const FENCE = /^---[ \t]*$/;

/** The front matter, which begins in the first line or not at all. */
export function readFrontMatter(source: string): FrontMatter {
  const first = lineFrom(source, 0);
  if (!FENCE.test(source.slice(0, first.to))) {
    return none(report('front-matter-missing', { from: 0, to: 0 }, { late: /^\s*---[ \t]*[\r\n]/.test(source) }));
  }
  const from = nextLine(source, first.to);
  for (let at = from; at < source.length; ) {
    const line = lineFrom(source, at);
    if (FENCE.test(source.slice(at, line.to))) return { ...readYaml(source, from, at), written: true };
    at = nextLine(source, line.to);
  }
  return none(report('front-matter-unclosed', first, {}));
}

const none = (why: Diagnostic): FrontMatter => ({ value: {}, spans: new Map(), diagnostics: [why], written: false });

const nextLine = (source: string, lineEnd: number): number => lineEnd + (source.startsWith('\r\n', lineEnd) ? 2 : 1);
