/** Every bar gets the chords that sound in it: the ones written, and from a progression what fills in the rest. */
import { type Diagnostic, hasError } from '../diagnostics/diagnostic.ts';
import type { Chord, NoChord } from '../harmony/chord.ts';
import { plainChord } from '../harmony/chord.ts';
import { type ChordChange, chordsOfBar, type FormBar } from '../harmony/form.ts';
import type { SongKey } from '../harmony/key.ts';
import { stepBetween, writeNumeral } from '../harmony/numeral.ts';
import { readChord, readSymbol } from '../harmony/symbol.ts';
import { chromaOf, fifthsOf, mod } from '../instrument/pitch.ts';
import { throughEndings } from '../score/endings.ts';
import { playOrder } from '../score/playing-order.ts';
import { chordAt } from '../score/queries.ts';
import type { Progression } from '../score/score.ts';
import { add, compare, equals, type Fraction, subtract, ZERO } from '../time/fraction.ts';
import { barLength } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import type { DraftBar, DraftEvent, DraftSettings } from './bars.ts';
import type { Header } from './header.ts';
import { checkFormJump } from './jumps/form-jumps.ts';
import type { BlockKeys } from './keys.ts';
import { report } from './problems.ts';

/** The chords of a block. */
export interface Harmony {
  /** For each bar its chords in order. */
  readonly chords: readonly (readonly ChordChange[])[];
  readonly progression: Progression | undefined;
}

/** Gives every bar its chords and the key, and checks the bars against the form. */
export function harmonise(
  bars: readonly DraftBar[],
  settings: readonly DraftSettings[],
  keys: BlockKeys,
  head: Header,
  diagnostics: Diagnostic[],
): Harmony {
  const given = head.settings.progression;
  const said = given && checkFormJump(bars, head, given, diagnostics) ? [] : diagnostics;
  const progression = given && fitProgression(bars, head, given, said);
  const places = progression ? formPlaces(bars, head, progression, said) : [];
  const early = chordsBeforeBarLines(bars, keys.bars);
  let carried: Chord | NoChord | undefined;
  const through = throughEndings(carried);
  let beforeCoda: Chord | NoChord | undefined;
  let before: readonly ChordChange[] = [];
  const chords = bars.map((bar, index) => {
    const key = itemAt(keys.bars, index);
    if (bar.opens) carried = through(itemAt(early, index)[0]?.chord ?? carried, bar.opens);
    if (bar.target === 'coda') carried = beforeCoda;
    const place = places[index];
    const given = place === undefined ? undefined : progression?.bars[place];
    const base: readonly ChordChange[] = given
      ? chordsWithin(given, key, barLength(itemAt(settings, index).meter), bar.length)
      : progression
        ? []
        : (bar.repeatsLast ? before : carried ? [{ onset: ZERO, chord: carried }] : []).map(({ onset, chord }) => ({
            onset,
            chord: namedIn(chord, key, keys.bars[index - 1]),
          }));
    const isLast = index === bars.length - 1;
    const written = writtenChords(bar, key).filter(({ onset }) => isLast || compare(onset, bar.length) < 0);
    const changes = overridden(base, [...itemAt(early, index), ...written]);
    carried = changes.at(-1)?.chord ?? carried;
    if (bar.jump === 'to-coda') beforeCoda = carried;
    before = changes;
    return changes;
  });
  checkMoved(bars, chords, keys.bars, diagnostics);
  return { chords, progression };
}

/** Reports quotations that are moved to another chord than the progression has at their place. */
function checkMoved(
  bars: readonly DraftBar[],
  chords: readonly (readonly ChordChange[])[],
  keys: readonly SongKey[],
  diagnostics: Diagnostic[],
): void {
  bars.forEach(({ expected }, index) => {
    const key = itemAt(keys, index);
    for (const { onset, text, span } of expected) {
      const [to, here] = [readChord(text, key), chordAt({ chords: itemAt(chords, index) }, onset)];
      if (to && here && chromaOf(to.root) !== chromaOf(here.root))
        diagnostics.push(report('moved-elsewhere', span, { to: plainChord(to), here: plainChord(here) }));
    }
  });
}

/** A chord that sounds on in a bar of another key: as it is called there. A numeral becomes that of the new key, a name stays. */
export function namedIn(chord: Chord | NoChord, key: SongKey, before: SongKey | undefined): Chord | NoChord {
  if (chord === 'none' || !before || key === before) return chord;
  if (chord.numeral === undefined) return { ...chord, step: stepBetween(key.tonic, chord.root) };
  const above = mod(fifthsOf(chord.root) - fifthsOf(key.tonic) + FLATTEST, 12) - FLATTEST;
  // Another mode may have the same tonic, and may spell it differently.
  const numeral = chromaOf(key.tonic) === chromaOf(before.tonic) ? chord.numeral : writeNumeral(above, chord.suffix);
  return readChord(numeral, key) ?? chord;
}

/** From a tonic down to the flattest root that a numeral is written for here, the bII, in fifths. */
const FLATTEST = 5;

/** A chord written after the last slot of a bar takes no time there: it is the first of the next bar. */
const chordsBeforeBarLines = (bars: readonly DraftBar[], keys: readonly SongKey[]): ChordChange[][] =>
  bars.map((_, index) => {
    const before = bars[index - 1];
    const key = itemAt(keys, index);
    const late =
      before &&
      writtenChords(before, key)
        .filter(({ onset }) => compare(onset, before.length) >= 0)
        .at(-1);
    return late ? [{ onset: ZERO, chord: late.chord }] : [];
  });

/** The chords of a bar of a form in a bar that a pickup may have left shorter: it is cut off, not squeezed. */
export const chordsWithin = (bar: FormBar, key: SongKey, full: Fraction, length: Fraction): readonly ChordChange[] =>
  chordsOfBar(bar, key, full).filter(({ onset }) => compare(onset, length) < 0);

const writtenChords = (bar: DraftBar, key: SongKey): ChordChange[] =>
  bar.chords.flatMap(({ onset, text }) => {
    const chord = readSymbol(text, key);
    return chord ? [{ onset, chord }] : [];
  });

/**
 * A written chord holds to the end of its bar; before the first one the progression applies. A chord that repeats the
 * one before is no change.
 */
export function overridden(base: readonly ChordChange[], written: readonly ChordChange[]): ChordChange[] {
  const first = written[0];
  const kept = first ? base.filter((change) => compare(change.onset, first.onset) < 0) : base;
  const changes: ChordChange[] = [];
  for (const change of [...kept, ...written]) {
    const before = changes.at(-1);
    // Two symbols on one onset: the later one is meant.
    if (before && equals(before.onset, change.onset)) changes.pop();
    const sounding = changes.at(-1)?.chord;
    if (!sounding || plainChord(sounding) !== plainChord(change.chord)) changes.push(change);
  }
  return changes;
}

/**
 * The progression as this block plays it. A block that names its chords fills them; chords taken over from the lesson
 * or the course may be left early, as an exercise on the first bars of a form does.
 */
function fitProgression(
  bars: readonly DraftBar[],
  head: Header,
  progression: Progression,
  diagnostics: Diagnostic[],
): Progression {
  const length = progression.bars.length;
  const played = playOrder({ bars, pickup: head.pickup }).filter((index) => !head.pickup || index > 0).length;
  if (played % length === 0) return progression;
  if (!head.ownChords && played < length) {
    const first = progression.range?.[0] ?? 1;
    const range = progression.form === undefined ? {} : { range: [first, first + played - 1] as const };
    return { ...progression, ...range, bars: progression.bars.slice(0, played) };
  }
  // With another mistake the number of bars may be an accident.
  if (!hasError(diagnostics)) {
    const range = progression.range ? ` bars ${progression.range.join('-')}` : '';
    const form = progression.form === undefined ? 'the list of chords' : progression.form + range;
    const span = bars.at(-1)?.span ?? { from: 0, to: 0 };
    const written = bars.length - (head.pickup ? 1 : 0);
    diagnostics.push(report('form-unfilled', span, { bars: played, form, length, asPlayed: played !== written }));
  }
  return progression;
}

/** Which bar of the progression each written bar is on, by the order of playing; none for a pickup. */
function formPlaces(
  bars: readonly DraftBar[],
  head: Header,
  progression: Progression,
  diagnostics: Diagnostic[],
): (number | undefined)[] {
  const places: (number | undefined)[] = bars.map(() => undefined);
  const reported = new Set<number>();
  let position = 0;
  for (const index of playOrder({ bars, pickup: head.pickup })) {
    if (head.pickup && index === 0) continue;
    const place = position++ % progression.bars.length;
    const before = places[index];
    if (before === undefined) places[index] = place;
    else if (!sameBar(progression, before, place) && !reported.has(index)) {
      const bar = itemAt(bars, index);
      diagnostics.push(report('repeat-against-form', bar.span, { bar: bar.number }));
      reported.add(index);
    }
  }
  return places;
}

const sameBar = (progression: Progression, a: number, b: number): boolean =>
  JSON.stringify(progression.bars[a]) === JSON.stringify(progression.bars[b]);

/** Divides the sounds of a bar at its chord changes, so that a held note has a role over each chord. */
export function splitAtChords(events: readonly DraftEvent[], chords: readonly ChordChange[]): readonly DraftEvent[] {
  if (chords.length === 0) return events;
  return events.flatMap((event): DraftEvent[] => {
    if (event.kind === 'rest') return [event];
    const end = add(event.onset, event.duration);
    const cuts = chords
      .map(({ onset }) => onset)
      .filter((onset) => compare(onset, event.onset) > 0 && compare(onset, end) < 0);
    const starts = [event.onset, ...cuts];
    const { glide, words, syllable, ...held } = event;
    return starts.map((onset, index) => {
      const until = starts[index + 1] ?? end;
      const first = index === 0;
      return {
        ...held,
        onset,
        duration: subtract(until, onset),
        tied: first ? event.tied : true,
        ...(first && words ? { words } : {}),
        ...(first && syllable ? { syllable } : {}),
        ...(index === starts.length - 1 && glide ? { glide } : {}),
      };
    });
  });
}
