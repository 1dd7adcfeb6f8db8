/** Rules made into questions: what a rule asks of a block, of one note, of two notes in a row. */
import { kindOfChord } from '../harmony/chord.ts';
import { numeralOf, stepOfNumeral } from '../harmony/numeral.ts';
import { plainNumeral } from '../harmony/symbol.ts';
import { quarterLabel } from '../instrument/quarter-step.ts';
import { formBarsOf } from '../score/form-bars.ts';
import { chordAt, roleIn } from '../score/queries.ts';
import type { Note, Score } from '../score/score.ts';
import { temposOf } from '../score/tempo.ts';
import { feelName } from '../time/feel.ts';
import { add } from '../time/fraction.ts';
import { isCompound, meterName } from '../time/meter.ts';
import { itemAt, lastOf } from '../values/checked.ts';
import { within } from './range.ts';
import type { BetweenRule, BlockRule, NoteRule } from './rule.ts';
import { type Playing, restBetween, type Stroke } from './strokes.ts';
import { hasTraits, traitsNeeded } from './traits.ts';

/** Whether a block is what a rule asks for. */
export type BlockTest = (score: Score) => boolean;
/** Whether one stroke is what a rule asks for. */
export type NoteTest = (stroke: Stroke, playing: Playing) => boolean;
/** Whether two strokes in a row are what a rule asks for. */
export type PairTest = (stroke: Stroke, next: Stroke, playing: Playing) => boolean;

/** Compiles a rule for a whole block into a test of a score. */
export function blockTest(rule: BlockRule): BlockTest {
  const { position, form, meter, feel, tempo, tuning, pickup, compound, repeats } = rule;
  const tests: BlockTest[] = [];
  if (position) tests.push(({ bars }) => bars.some((bar) => within(position, bar.position)));
  if (form) tests.push(({ progression }) => progression?.form !== undefined && form.includes(progression.form));
  if (meter) tests.push(({ bars }) => bars.some((bar) => meter.includes(meterName(bar.meter))));
  if (feel)
    tests.push(({ bars }) =>
      bars.some((bar) => feel.some((one) => one === bar.feel.name || one === feelName(bar.feel))),
    );
  if (tempo) tests.push((score) => temposOf(score).some(({ from, to }) => within(tempo, from) || within(tempo, to)));
  if (tuning) tests.push((score) => tuning.includes(score.harp.tuning.id));
  if (pickup !== undefined) tests.push((score) => (score.pickup !== undefined) === pickup);
  const formBar = rule['form-bar'];
  const steps = rule['form-bar-step'];
  if (formBar) tests.push((score) => playsFormBar(score, (bar) => within(formBar, bar), steps));
  if (compound !== undefined) tests.push(({ bars }) => bars.some((bar) => isCompound(bar.meter) === compound));
  if (repeats !== undefined) tests.push((score) => score.bars.some((bar) => bar.repeatEnd) === repeats);
  return (score) => tests.every((test) => test(score));
}

/** Whether a block plays a bar of its named form, counted from 1, perhaps with a chord on one of some steps in it. */
function playsFormBar(score: Score, wanted: (bar: number) => boolean, steps: readonly string[] | undefined): boolean {
  const { progression } = score;
  if (progression?.form === undefined) return false;
  const first = progression.range?.[0] ?? 1;
  return formBarsOf(score).some((place, index) => {
    if (place === undefined || !wanted(first + place)) return false;
    const { chords, key } = itemAt(score.bars, index);
    return (
      !steps || chords.some(({ chord }) => chord !== 'none' && steps.includes(stepOfNumeral(numeralOf(chord, key))))
    );
  });
}

/** What is asked of one hole's note; all of it has to hold for one and the same hole. */
type HoleTest = (note: Note, stroke: Stroke, playing: Playing) => boolean;

/** Compiles a rule for one note into a test of a stroke. */
export function noteTest(rule: NoteRule): NoteTest {
  const fits = together([...breathTests(rule), ...timeTests(rule)]);
  const holeTests = testsOfHole(rule);
  const holeFits = together(holeTests);
  const needed = traitsNeeded(rule);
  return (stroke, playing) => {
    if (!hasTraits(stroke.traits, needed) || !fits(stroke, playing)) return false;
    if (holeTests.length === 0) return true;
    const { notes } = stroke.sound;
    for (let i = 0; i < notes.length; i++) if (holeFits(itemAt(notes, i), stroke, playing)) return true;
    return false;
  };
}

/** One test that all of some pass. It is asked millions of times in a large course, so it is put together without a loop. */
function together<Args extends readonly unknown[]>(
  tests: readonly ((...args: Args) => boolean)[],
): (...args: Args) => boolean {
  const [first, ...others] = tests;
  if (!first) return () => true;
  if (others.length === 0) return first;
  const all = together(others);
  return (...args) => first(...args) && all(...args);
}

function breathTests(rule: NoteRule): NoteTest[] {
  const { breath, holes, span, split, octave, mouth, mark, attacked } = rule;
  const tests: NoteTest[] = [];
  if (breath) tests.push(({ sound }) => sound.breath === breath);
  if (mouth) tests.push(({ sound }) => sound.mouth === mouth);
  if (attacked !== undefined) tests.push(({ glided }) => glided !== attacked);
  if (mark) tests.push(({ sound }) => sound.marks.some(({ name }) => mark.includes(name)));
  if (holes) tests.push(({ sound }) => within(holes, sound.notes.length));
  if (span) tests.push((stroke) => within(span, highest(stroke).hole - lowest(stroke).hole + 1));
  if (split !== undefined) tests.push((stroke) => isSplit(stroke) === split);
  if (octave !== undefined) tests.push((stroke) => isOctave(stroke) === octave);
  return tests;
}

function timeTests(rule: NoteRule): NoteTest[] {
  const { seconds, beats, length, triplet } = rule;
  const tests: NoteTest[] = [];
  if (seconds) tests.push((stroke) => within(seconds, rounded(stroke.seconds)));
  if (beats) tests.push((stroke) => within(beats, rounded(stroke.length / stroke.beat)));
  if (length) tests.push((stroke) => within(length, rounded(stroke.length)));
  if (triplet !== undefined) tests.push((stroke) => isTriplet(stroke) === triplet);
  const offBeat = rule['off-beat'];
  if (offBeat !== undefined) tests.push((stroke) => stroke.intoBeat > 0 === offBeat);
  const heldOver = rule['held-over'];
  if (heldOver !== undefined) tests.push((stroke) => isHeldOver(stroke) === heldOver);
  return tests;
}

function testsOfHole(rule: NoteRule): HoleTest[] {
  const { hole, bend, overbend, slide, role, chord } = rule;
  const [kinds, chordTone] = [rule['chord-kind'], rule['chord-tone']];
  const tests: HoleTest[] = [];
  if (hole) tests.push((note) => within(hole, note.hole));
  if (bend) tests.push((note) => !note.over && within(bend, note.bend));
  if (overbend !== undefined) tests.push((note) => note.over === overbend);
  if (slide !== undefined) tests.push((note) => note.slide === slide);
  if (role || chord || kinds || chordTone !== undefined) {
    const roles = role?.map(printedRole);
    const numerals = chord?.map(plainNumeral);
    tests.push((note, stroke) =>
      stroke.parts.some(({ sound, bar }) => {
        // A held note is cut where the chord changes, so each part has its own note for the hole.
        const here = sound.notes.find((one) => one.hole === note.hole) ?? note;
        const own = roleIn(bar, sound, here);
        const sounding = chordAt(bar, sound.onset);
        return (
          own !== undefined &&
          sounding !== undefined &&
          (!roles || roles.includes(own.label)) &&
          (chordTone === undefined || own.tone === chordTone) &&
          (!numerals || numerals.includes(numeralOf(sounding, bar.key))) &&
          (!kinds || kinds.includes(kindOfChord(sounding)))
        );
      }),
    );
  }
  return tests;
}

function printedRole(plain: string): string {
  const label = plain.replace('b', '♭').replace('#', '♯');
  return label.endsWith('q') ? quarterLabel(label.slice(0, -1)) : label;
}

/** Compiles a rule for what is between two notes into a test of two strokes. */
export function pairTest(rule: BetweenRule): PairTest {
  const { breath, mouth, hole, chord, pitch, jump, glide, rest, beats, seconds } = rule;
  const tests: PairTest[] = [];
  if (breath) tests.push((a, b) => (a.sound.breath === b.sound.breath) === (breath === 'same'));
  if (mouth) tests.push((a, b) => (a.sound.mouth === b.sound.mouth) === (mouth === 'same'));
  if (hole) tests.push((a, b) => (lowest(a).hole === lowest(b).hole) === (hole === 'same'));
  if (chord) tests.push((a, b) => (chordOf(a, 'last') === chordOf(b, 'first')) === (chord === 'same'));
  if (pitch) tests.push((a, b) => direction(lowest(b).pitch.midi - lowest(a).pitch.midi) === pitch);
  if (jump) tests.push((a, b) => within(jump, jumpBetween(a, b)));
  if (glide !== undefined) tests.push((_, b) => b.glided === glide);
  if (rest !== undefined) tests.push((a, b) => restBetween(a, b) > 0 === rest);
  if (beats) tests.push((a, b) => within(beats, rounded((b.start - a.start) / a.beat)));
  if (seconds) tests.push((a, b) => within(seconds, rounded(b.at - a.at)));
  const pace = rule['notes-per-second'];
  if (pace) tests.push((a, b) => within(pace, rounded(1 / (b.at - a.at))));
  return together(tests);
}

const lowest = (stroke: Stroke): Note => itemAt(stroke.sound.notes, 0);
const highest = (stroke: Stroke): Note => lastOf(stroke.sound.notes);

/** Limits are given to a few decimals; sums of slots come out a hair beside them. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

const direction = (step: number): 'up' | 'down' | 'same' => (step > 0 ? 'up' : step < 0 ? 'down' : 'same');

/** How many holes the mouth moves: where several sound, the less of what the lowest and the highest move. */
export const jumpBetween = (a: Stroke, b: Stroke): number =>
  Math.min(Math.abs(lowest(a).hole - lowest(b).hole), Math.abs(highest(a).hole - highest(b).hole));

/** Whether holes between the lowest and the highest that sound are blocked off. */
export const isSplit = (stroke: Stroke): boolean =>
  highest(stroke).hole - lowest(stroke).hole + 1 > stroke.sound.notes.length;

const isOctave = (stroke: Stroke): boolean => highest(stroke).pitch.midi - lowest(stroke).pitch.midi === 12;

/**
 * In three where the meter counts in twos: a third of something lies between its bar's start and where it begins or ends.
 * Where it is cut only because the chord changes does not count.
 */
function isTriplet({ parts, compound }: Stroke): boolean {
  const [first, last] = [itemAt(parts, 0).sound, lastOf(parts).sound];
  return !compound && [first.onset, add(last.onset, last.duration)].some(({ d }) => d % 3 === 0);
}

const isHeldOver = ({ intoBeat, length, beat }: Stroke): boolean =>
  intoBeat > 0 && rounded(intoBeat + length / beat) > 1;

function chordOf({ parts }: Stroke, which: 'first' | 'last'): string | undefined {
  const part = which === 'first' ? parts[0] : parts.at(-1);
  const chord = part && chordAt(part.bar, part.sound.onset);
  return chord && `${chord.root.letter}${chord.root.alter}${chord.suffix}`;
}
