/**
 * Problems that only repeat another one: names that may be in a file, or a block, that could not be read. They are left out until
 * the first problem is fixed, which is an error in any case, or says that a block is lost.
 */
import { linesOf, type Problem } from '../diagnostics/place.ts';
import { COURSE_FILE, GLOSSARY_FILE, lessonIdOf, TECHNIQUES_FILE } from './folder.ts';

/** Why nothing is known of what a file says. */
const UNREAD: ReadonlySet<string> = new Set(['yaml-syntax', 'file-unreadable', 'file-too-long']);
/** A block of the lesson is not read as one. */
const LOST: ReadonlySet<string> = new Set(['block-lost', 'fence-word', 'fence-unclosed']);
/** A block is named that is not there, or bars of it. */
const NAMES_BLOCK: ReadonlySet<string> = new Set([
  'quote-unknown',
  'clip-block',
  'clip-which-block',
  'clip-bar',
  'figure-unknown',
  'figure-unreadable',
]);
/** What names something of techniques.yaml, and of glossary.yaml. */
const NAMES_TECHNIQUE: ReadonlySet<string> = new Set(['teaches-unknown', 'technique-not-known', 'technique-unknown']);
const NAMES_TERM: ReadonlySet<string> = new Set(['term-not-known']);
/** The words are the same in blocks, front matter and figures. */
const NAMES_FORM = /There is no (?:form|tuning) “/;

/** The problems that are not only what another one causes. `sources` are the texts of the files. */
export function withoutRepeated(problems: readonly Problem[], sources: ReadonlyMap<string, string>): Problem[] {
  const unread = new Set(problems.filter(({ code }) => UNREAD.has(code)).map(({ file }) => file));
  const filesWith = (codes: ReadonlySet<string>): Set<string> =>
    new Set(problems.filter(({ code }) => codes.has(code)).map(({ file }) => file));
  const lost = filesWith(LOST);
  const unclosed = filesWith(new Set(['fence-unclosed']));
  const lines = new Map<string, readonly string[]>();
  return problems.filter((problem) => {
    const { file, code, message } = problem;
    if (unread.has(COURSE_FILE) && NAMES_FORM.test(message)) return false;
    if (unread.has(TECHNIQUES_FILE) && NAMES_TECHNIQUE.has(code)) return false;
    if (unread.has(GLOSSARY_FILE) && NAMES_TERM.has(code)) return false;
    if (lost.has(file) && code === 'taught-unused') return false;
    return !(unclosed.size > 0 && NAMES_BLOCK.has(code) && (unclosed.has(file) || namesOneOf(problem, unclosed)));
  });

  /** Whether what is wrong has the name of one of these lessons in it. */
  function namesOneOf({ file, line, column, endLine, endColumn }: Problem, lessons: ReadonlySet<string>): boolean {
    const all = lines.get(file) ?? linesOf(sources.get(file) ?? '');
    lines.set(file, all);
    const written = all
      .slice(line - 1, endLine)
      .join('\n')
      .slice(column - 1, endLine === line ? endColumn - 1 : undefined);
    return [...lessons].some((lesson) => written.includes(lessonIdOf(lesson)));
  }
}
