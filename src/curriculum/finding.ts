/** Problems of the path, each at the very place in a lesson that shows it. */
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import type { Match } from '../technique/detect.ts';
import type { Technique } from '../technique/technique.ts';
import type { LessonPlace, PathLesson } from './lesson.ts';
import { PATH_PROBLEMS } from './problems.ts';

/** A problem of the path, at a place of a lesson. */
export interface Finding {
  readonly lesson: string;
  readonly place: LessonPlace;
  /** Without a span: the place stands for it. */
  readonly diagnostic: Omit<Diagnostic, 'span'>;
}

type Problems = typeof PATH_PROBLEMS;
type Facts<Code extends keyof Problems> = Parameters<Problems[Code]['message']>[0];
/** Adds a problem of a lesson. */
export type Report = <Code extends keyof Problems>(
  lesson: PathLesson,
  place: LessonPlace,
  code: Code,
  facts: Facts<Code>,
) => void;

const report = reporter(PATH_PROBLEMS);

/** A list of findings and what adds to it. */
export function collector(): { readonly findings: Finding[]; readonly add: Report } {
  const findings: Finding[] = [];
  const add: Report = (lesson, place, code, facts) => {
    // The catalogue ties facts to codes; the reporter cannot see that through the type parameter.
    const { span: _, ...diagnostic } = report(code, { from: 0, to: 0 }, facts as never);
    findings.push({ lesson: lesson.id, place, diagnostic });
  };
  return { findings, add };
}

/** An event of a block, in its text. */
export function placeOfEvent(lesson: PathLesson, block: number, index: number | undefined): LessonPlace {
  const score = lesson.blocks[block]?.score;
  const event =
    index === undefined ? undefined : score?.bars.flatMap((bar) => bar.events).find((one) => one.index === index);
  return event ? { block, span: event.source.span } : { block };
}

/**
 * Where a technique is used: at its note; or, where the block as a whole uses it, at the setting that says so, in the
 * block's header or the lesson's front matter.
 */
export function placeOfUse(lesson: PathLesson, block: number, match: Match, { find }: Technique): LessonPlace {
  if (match.at !== undefined || find === 'not-in-score') return placeOfEvent(lesson, block, match.at);
  const rules = 'any' in find ? find.any : [find];
  for (const key of rules.flatMap((rule) => Object.keys(rule.block ?? {}))) {
    const line = lesson.blocks[block]?.tree.header.get(key);
    if (line) return { block, span: line.valueSpan };
    if (lesson.places.has(key)) return { frontMatter: key };
  }
  return { block };
}
