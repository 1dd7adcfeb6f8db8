/** The phrases that a block repeats: its layers, each of which can be seen and heard apart from the rest of the tune. */
import { itemAt } from '../values/checked.ts';
import { isSoundEvent } from './queries.ts';
import type { QuoteRef, Score, Source } from './score.ts';

/** A phrase that is quoted at least twice in a block, moved or not. */
export interface RepeatedPhrase {
  /** As it is written: `wheel`; with its block where two of the same name are repeated: `run:wheel`. */
  readonly name: string;
  /** In the order of the block; they do not overlap. */
  readonly occurrences: readonly Occurrence[];
}

/** One place where a phrase is played, from its first sound to its last. */
export interface Occurrence {
  /** Indices of these sounds among the events of the score. */
  readonly from: number;
  readonly to: number;
  /** Indices of the bars that they begin in. */
  readonly first: number;
  readonly last: number;
}

/** A sound of a quotation. */
interface Quoted {
  readonly quote: QuoteRef;
  readonly source: Source;
}

/** An occurrence that is being read, and its first sound. */
interface Found extends Quoted {
  /** The same for all sounds that one quotation of the block brought; the sounds of a bar that is played again (`%`) have its own. */
  readonly place: string;
  readonly first: number;
  readonly from: number;
  to: number;
  last: number;
}

/**
 * The repeated phrases, in the order in which they first occur. A phrase within another belongs to the outer one, and a whole block that is
 * quoted is no phrase.
 */
export function phrasesOf(score: Score): RepeatedPhrase[] {
  const byName = Map.groupBy(occurrencesIn(score), ({ quote }) => longName(quote));
  const repeated = [...byName.values()].filter((all) => all.length > 1);
  const shortNames = repeated.map((all) => shortName(itemAt(all, 0).quote));
  return repeated.map((all, index) => {
    const name = itemAt(shortNames, index);
    const isShared = shortNames.indexOf(name) !== shortNames.lastIndexOf(name);
    return {
      name: isShared ? longName(itemAt(all, 0).quote) : name,
      occurrences: all.map(({ from, to, first, last }) => ({ from, to, first, last })),
    };
  });
}

/** What a player that can choose a phrase needs beside the rest of a playback: nothing where none is repeated. */
export function playedPhrases(score: Score): { readonly phrases?: readonly RepeatedPhrase[] } {
  const phrases = phrasesOf(score);
  return phrases.length > 0 ? { phrases } : {};
}

function occurrencesIn(score: Score): Found[] {
  const found: Found[] = [];
  for (const bar of score.bars) {
    for (const event of bar.events.filter(isSoundEvent)) {
      const { source, index } = event;
      const { quote } = source;
      if (quote?.phrase === undefined) continue;
      // A part of a phrase that a bar plays again is not the phrase.
      if (bar.repeatsLast && isLong(found, source)) continue;
      const place = bar.repeatsLast ? `${source.quotedAt} in ${bar.index}` : `${source.quotedAt}`;
      let at = found.length - 1;
      while (found[at]?.place === place && !isOneQuotation(itemAt(found, at), { quote, source })) at--;
      const own = found[at];
      if (own?.place === place) {
        own.to = index;
        own.last = bar.index;
        // What it has inside is a part of it.
        found.length = at + 1;
      } else found.push({ quote, source, place, from: index, to: index, first: bar.index, last: bar.index });
    }
  }
  return found;
}

/** Whether the phrase that a sound comes from is in several bars. */
const isLong = (found: readonly Found[], { quotedAt }: Source): boolean =>
  found.some(({ source, first, last }) => source.quotedAt === quotedAt && first !== last);

/** Whether two sounds of one place of the block are of one quotation. One of another block has one span, as its text is elsewhere. */
const isOneQuotation = (a: Quoted, b: Quoted): boolean =>
  longName(a.quote) === longName(b.quote) && (a.quote.block === undefined || a.source.span.from === b.source.span.from);

const shortName = ({ phrase = '' }: QuoteRef): string => phrase;

const longName = ({ lesson, block, phrase = '' }: QuoteRef): string =>
  block === undefined ? phrase : `${lesson === undefined ? '' : `${lesson}/`}${block}:${phrase}`;
