/** What a score takes: every technique of a repertoire that is found in it, with the very notes. */
import type { Score } from '../score/score.ts';
import { itemAt } from '../values/checked.ts';
import { blockTest, type NoteTest, noteTest, type PairTest, pairTest } from './match.ts';
import type { Repertoire } from './repertoire.ts';
import type { PlainRule } from './rule.ts';
import { eventsOf, type Playing, play, type Stroke } from './strokes.ts';
import type { Technique } from './technique.ts';
import { hasTraits, traitsNeeded } from './traits.ts';

/** One place where a technique is found. */
export interface Match {
  /** Indices of the score's events, in the order they are played; empty where the block as a whole is meant. */
  readonly events: readonly number[];
  /** The event to point at: of two notes the one where it happens; undefined for the block as a whole. */
  readonly at?: number;
}

/** A technique, and where a block plays it. */
export interface FoundTechnique {
  readonly technique: Technique;
  /** At least one, in the order they are played. */
  readonly matches: readonly Match[];
}

/** Rules are compiled once for each repertoire, then asked of many scores. */
export function detector(repertoire: Repertoire): (score: Score) => FoundTechnique[] {
  const rules = repertoire.techniques.flatMap((technique) => {
    if (technique.find === 'not-in-score') return [];
    const plain = 'any' in technique.find ? technique.find.any : [technique.find];
    return [{ technique, finders: plain.map(finder) }];
  });
  return (score) => {
    const playing = play(score);
    const alone = playing.strokes.map((stroke) => matchOf([stroke], stroke));
    const found: FoundTechnique[] = [];
    for (const { technique, finders } of rules) {
      const single = finders.length === 1;
      const matches = single ? itemAt(finders, 0)(playing, alone) : finders.flatMap((find) => find(playing, alone));
      if (matches.length === 0) continue;
      found.push({ technique, matches: single && !playing.repeats ? matches : distinct(matches) });
    }
    return found;
  };
}

/** The techniques of a repertoire found in one score. For many scores, compile a {@link detector} once. */
export const detect = (score: Score, repertoire: Repertoire): FoundTechnique[] => detector(repertoire)(score);

/** `alone` has the match of each single stroke: the many techniques that find it share that. */
type Finder = (playing: Playing, alone: readonly Match[]) => Match[];

function finder(rule: PlainRule): Finder {
  const ofBlock = rule.block && blockTest(rule.block);
  const find = findNotes(rule);
  const needed = (rule.note ? traitsNeeded(rule.note) : 0) | (rule.next ? traitsNeeded(rule.next) : 0);
  return (playing, alone) => {
    if (!hasTraits(playing.traits, needed) || (ofBlock && !ofBlock(playing.score))) return [];
    return find(playing, alone);
  };
}

function findNotes({ note, next, between, run, turns = 0 }: PlainRule): Finder {
  if (!note && !next && !between) return () => [{ events: [] }];
  const isFirst = note ? noteTest(note) : always;
  const goesOn = between ? pairTest(between) : always;
  if (run !== undefined) return (playing) => runs(playing, isFirst, goesOn, run, turns);
  if (!next && !between)
    return (playing, alone) => alone.filter((_, index) => isFirst(itemAt(playing.strokes, index), playing));
  // A glide is what its first note does; any other change happens at the second.
  const place = between?.glide === true ? 0 : 1;
  const isNext = next ? noteTest(next) : always;
  return (playing) => pairs(playing, isFirst, isNext, goesOn, place);
}

const always = () => true;

function pairs(playing: Playing, isFirst: NoteTest, isNext: NoteTest, goesOn: PairTest, place: 0 | 1): Match[] {
  const matches: Match[] = [];
  for (let i = 1; i < playing.strokes.length; i++) {
    const first = itemAt(playing.strokes, i - 1);
    const second = itemAt(playing.strokes, i);
    if (isFirst(first, playing) && isNext(second, playing) && goesOn(first, second, playing)) {
      matches.push(matchOf([first, second], place === 0 ? first : second));
    }
  }
  return matches;
}

/** The longest runs of strokes that each fit and each continue from the one before, with enough turns of the breath. */
function runs(playing: Playing, fits: NoteTest, goesOn: PairTest, least: number, turns: number): Match[] {
  const matches: Match[] = [];
  let run: Stroke[] = [];
  const close = () => {
    if (run.length >= least && turnsIn(run) >= turns) matches.push(matchOf(run, itemAt(run, 0)));
    if (run.length > 0) run = [];
  };
  for (const stroke of playing.strokes) {
    const before = run.at(-1);
    if (before && !goesOn(before, stroke, playing)) close();
    if (fits(stroke, playing)) run.push(stroke);
    else close();
  }
  close();
  return matches;
}

const turnsIn = (run: readonly Stroke[]): number =>
  run.filter(({ sound }, index) => index > 0 && sound.breath !== itemAt(run, index - 1).sound.breath).length;

const NO_EVENTS: number[] = [];
const matchOf = (strokes: readonly Stroke[], at: Stroke): Match => ({
  // Not flatMap, whose arrays keep room for a dozen more: a large course holds hundreds of thousands of these.
  events: NO_EVENTS.concat(...strokes.map(eventsOf)),
  at: at.sound.index,
});

/** A repeat is played twice and written once, and several rules of one technique may find the same notes. */
function distinct(matches: Match[]): Match[] {
  const seen = new Set<string>();
  return matches.filter(({ events }) => {
    const key = events.join();
    return !seen.has(key) && seen.add(key);
  });
}
