/** The band's part of a round: drums, bass and chords from the block's form, feel and meter. */
import { isPlayedChord, meterOf, type Playback } from '../../score/playback.ts';
import { shareOf } from '../../time/swing.ts';
import { itemAt } from '../../values/checked.ts';
import type { BassCue, Cue } from '../cue.ts';
import { beatTicks } from '../grid.ts';
import type { Measure, Round } from '../round.ts';
import type { PlaySettings } from '../settings.ts';
import { type BandBar, type ChordSpan, nameOf } from './bar.ts';
import { bassOf, walked } from './bass.ts';
import { chance } from './chance.ts';
import { chordsOf } from './chords.ts';
import { drumsOf } from './drums.ts';
import { beatKinds, STYLES, styleOf } from './style.ts';

/** The variations change with the form, but not more often than a short chorus would: over a vamp, or without a form. */
const SHORTEST_CHORUS = 8;
const chorusOf = ({ form }: Playback): number =>
  form > 0 ? form * Math.ceil(SHORTEST_CHORUS / form) : SHORTEST_CHORUS;

/** What bass, drums and chords play in a round. */
export function bandOf(playback: Playback, settings: PlaySettings, round: Round): Cue[] {
  const full = round.measures.filter((measure) => !isPickup(playback, measure)).length;
  const chorus = chorusOf(playback);
  const cues: Cue[] = [];
  const bass: BassCue[] = [];
  let counted = 0;
  let held = 0;
  let before: string | undefined;
  for (const [index, measure] of round.measures.entries()) {
    const pickup = isPickup(playback, measure);
    const own = itemAt(playback.bars, measure.bar);
    const meter = meterOf(playback, own);
    // Nobody plays under the first pickup; later ones finish the bar the round before left short.
    if (pickup && round.number === 0) continue;
    const ordinal = round.number * full + counted;
    const place = ordinal % chorus;
    if (!pickup) counted++;
    const following = round.measures[index + 1] ?? (settings.loop ? round.measures[0] : undefined);
    const chords = playback.bars[measure.bar]?.chords ?? [];
    const [first] = chords;
    held = first && isPlayedChord(first) && nameOf(first) === before ? held + 1 : 0;
    const spans = spansOf(playback, measure, following, held);
    const last = spans.at(-1);
    const sounds = chords.at(-1);
    before = sounds && isPlayedChord(sounds) ? nameOf(sounds) : undefined;
    // The rest of a bar is no full bar.
    if (last && last.from > 0) held = -1;
    const bar: BandBar = {
      style: STYLES[styleOf(meter, own.feel ? shareOf(own.feel) : settings.swing)],
      kinds: beatKinds(meter),
      chorus: Math.floor(ordinal / chorus),
      ends: !following ? undefined : place === chorus - 1 ? 'chorus' : place % 4 === 3 ? 'phrase' : undefined,
      opens: place === 0 && ordinal > 0,
      random: chance(settings.seed, ordinal),
      time: (beat, part, parts) => {
        const place = measure.grid.beat(beat, part, parts);
        return place === undefined ? undefined : measure.at + place;
      },
      chordAt: (beat, part, parts) => {
        // Thirds of a beat are not exact in floating point, and a chord that starts on one must not start after it.
        const from = beat + part / parts + 1e-9;
        return spans.find((span) => span.from <= from && from < span.to);
      },
      spans,
      end: measure.at + measure.seconds,
    };
    cues.push(...drumsOf(bar), ...chordsOf(bar));
    bass.push(...bassOf(bar));
  }
  return [...cues, ...walked(bass)];
}

const isPickup = (playback: Playback, measure: Measure): boolean => (playback.bars[measure.bar]?.pickupOffset ?? 0) > 0;

function spansOf(playback: Playback, measure: Measure, following: Measure | undefined, held: number): ChordSpan[] {
  const bar = playback.bars[measure.bar];
  if (!bar) return [];
  const beat = beatTicks(playback, meterOf(playback, bar));
  const offset = bar.pickupOffset ?? 0;
  const first = following && playback.bars[following.bar]?.chords.find(({ at }) => at === 0);
  return bar.chords.flatMap((chord, index): ChordSpan[] => {
    if (!isPlayedChord(chord)) return [];
    const next = bar.chords[index + 1];
    const then = next ?? first;
    return [
      {
        chord,
        from: index === 0 && chord.at === 0 ? 0 : (offset + chord.at) / beat,
        to: (offset + (next ? next.at : bar.length)) / beat,
        next: then && isPlayedChord(then) ? then : undefined,
        held: index === 0 ? held : 0,
      },
    ];
  });
}
