/** Checks what a link asks to be played of the block it leads to. */
import { reporter } from '../../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';
import { nearest } from '../../diagnostics/nearest.ts';
import { LINK_PARAMETERS, type LinkProblem, PLAY_PARAMETERS, readBlockLink } from '../../schedule/block-link.ts';
import { allBarNames, type NamedBar } from '../../score/bar-name.ts';
import { BLOCK_LINK_PROBLEMS } from './problems.ts';

/** What of a score a link is checked against. */
export interface PlayedScore {
  readonly bars: readonly NamedBar[];
  readonly tempo: number;
}

/** What a link leads to. */
interface Linked {
  /** Undefined for a link to a lesson or a heading. */
  readonly block: string | undefined;
  /** Undefined where the block cannot be read. */
  readonly score: PlayedScore | undefined;
  readonly tunings: readonly string[] | undefined;
}

const report = reporter(BLOCK_LINK_PROBLEMS);

/**
 * The problems of a query, which begins with its question mark. `place` is where it is in the text, letter for letter if it `isExact`;
 * otherwise all of them are at that place, and none has a fix.
 */
export function checkLinkQuery(query: string, linked: Linked, place: TextSpan, isExact: boolean): Diagnostic[] {
  const { score, tunings } = linked;
  const { problems, named } = readBlockLink(query, { ...score, ...(tunings && { tunings }) });
  const found = problems.map((problem): Diagnostic => {
    if (!isExact) {
      const { fix: _, ...rest } = inWords(problem, place, linked);
      return rest;
    }
    return inWords(problem, { from: place.from + problem.from, to: place.from + problem.to }, linked);
  });
  const played = linked.block === undefined ? PLAY_PARAMETERS.find((name) => named.has(name)) : undefined;
  return played === undefined ? found : [...found, report('link-query-place', place, { name: played })];
}

function inWords(problem: LinkProblem, span: TextSpan, { block = '', score, tunings = [] }: Linked): Diagnostic {
  switch (problem.kind) {
    case 'unknown': {
      const { name } = problem;
      return report('link-query-unknown', span, { name, nearest: nearest(name, LINK_PARAMETERS) });
    }
    case 'twice':
      return report('link-query-twice', span, { name: problem.name });
    case 'unreadable': {
      const { name, value, meant, isSame = false } = problem;
      return report('link-query-value', span, { name, value, meant, certain: isSame });
    }
    case 'no-bar':
      return report('link-bars-unknown', span, { bar: problem.value, block, bars: allBarNames(score?.bars ?? []) });
    case 'which-bar':
      return report('link-bars-ending', span, { bar: problem.value, names: problem.names });
    case 'backwards':
      return report('link-bars-backwards', span, { value: problem.value, meant: problem.meant });
    case 'tempo-range': {
      const { value, least, most, meant } = problem;
      return report('link-tempo-range', span, { value, least, most, meant });
    }
    case 'no-harp':
      return report('link-harp-unknown', span, { value: problem.value });
    case 'no-tuning': {
      const { value } = problem;
      return report('link-tuning-unknown', span, { value, nearest: nearest(value, tunings), known: tunings });
    }
  }
}
