/**
 * Blocks through reading, printing, techniques, playing, moving to another harp and engraving. A third of them are valid, a third are
 * valid but for some characters, and a third are words of the notation in any order.
 */
import fc from 'fast-check';
import { roundPlan } from '../../src/browser/schedule/plan.ts';
import { engraveBlock } from '../../src/engrave/block.ts';
import { HARP_KEYS } from '../../src/instrument/harp.ts';
import { printScore } from '../../src/notation/print.ts';
import { readBlock } from '../../src/notation/read.ts';
import { moveToHarp } from '../../src/score/move.ts';
import { playbackOf, playbackOn } from '../../src/score/playback.ts';
import type { Score } from '../../src/score/score.ts';
import { detector } from '../../src/technique/detect.ts';
import { difficultyOf } from '../../src/technique/difficulty.ts';
import { SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';
import { add, equals, ZERO } from '../../src/time/fraction.ts';
import { shareOf } from '../../src/time/swing.ts';
import { itemAt } from '../../src/values/checked.ts';
import { blockText } from '../notation/arbitrary.ts';
import { withoutPlaces } from '../notation/without-places.ts';
import { sample } from '../outside/oracle/oracle.ts';
import { checkProblems } from './problems.ts';
import { demand, type Target } from './target.ts';

const WORDS = [
  '4', '-4', "-3'", "-3''", "-3''>", '6o', '-7o', '12*', '0', '99', '-(1 2 3)', '(1 4)[tongue slap]', '[shake 5]', '[vibrato, dip]', '=',
  '=3', '=0', '.', '.2', '.999999999', '{4 5 6}', '{4 = .}2', '{}', '{{4}}', '}', '{', '|', '||', '|]', '|:', ':|', '|1', '|2', ':|2', '|99',
  '"I7"', '"C7#9"', '"Bbm7b5"', '"', '"xyz"', '@lips', '@tongue', '@', '<a/b>', '<a/b:c>', '<riff>', '<', '>', '#', '# remark\n', '\n',
  '\n\n', '\r\n', 'phrase riff: 4 5 6\n', 'part: A\n', 'words: One two_ three - four\n', 'harp: A\n', 'harp: low F\n', 'meter: 12/8\n',
  'meter: 16/2\n', 'meter: 5/16\n', 'slot: 1/16\n', 'slot: 3/7\n', 'slot: 1/4\n', 'tempo: 1\n', 'tempo: 9999\n', 'feel: shuffle\n',
  'feel: 70:30\n', 'form: twelve-bar\n', 'form: twelve-bar bars 9-12\n', 'chords: I7 | IV7 V7 | =\n', 'position: 12\n', 'pickup: 3\n',
  'tuning: solo-chromatic\n', 'key: minor\n', 'mouth: tongue\n', 'id: x\n', 'title: “T”\n', '\u0000', '\ud834', '𝄞', '’', '–', '\t', '\u2028',
]; // biome-ignore format: a list to read across

const word = fc.constantFrom(...WORDS);
const soup = fc
  .array(fc.oneof({ weight: 9, arbitrary: word }, fc.string({ unit: 'binary', maxLength: 3 })), { maxLength: 60 })
  .map((words) => words.join(' '));
/** Blocks of the oracle have more chords, tunings and forms than the others. */
const valid = fc.oneof(
  blockText,
  fc.integer({ min: 1, max: 2 ** 31 - 1 }).map((seed) => sample(seed).text),
);
const changed = fc
  .tuple(
    valid,
    fc.array(fc.tuple(fc.nat(), fc.nat(12), fc.oneof(word, fc.constant(''))), { minLength: 1, maxLength: 3 }),
  )
  .map(([text, cuts]) =>
    cuts.reduce((value, [at, length, other]) => {
      const from = at % (value.length + 1);
      return value.slice(0, from) + other + value.slice(from + length);
    }, text),
  );

const detect = detector(SHIPPED_REPERTOIRE);

/** Engraving takes longer than all the rest: some of the blocks are engraved, the same ones each time. */
const isEngraved = (text: string): boolean =>
  [...text].reduce((sum, sign) => (sum * 31 + sign.length + text.length) % 97, 7) % 64 === 0;

function checkScore(score: Score, text: string): void {
  for (const bar of score.bars) {
    let at = ZERO;
    for (const event of bar.events) {
      demand(equals(event.onset, at), `bar ${bar.index}: an event begins where the one before does not end`);
      at = add(at, event.duration);
      const { from, to } = event.source.span;
      demand(0 <= from && from < to && to <= text.length, `bar ${bar.index}: an event is at ${from} to ${to}`);
    }
    demand(bar.events.length === 0 || equals(at, bar.length), `bar ${bar.index}: its events do not fill it`);
  }
  const printed = printScore(score);
  const again = readBlock(printed);
  demand(again.score !== undefined, `what was printed cannot be read: ${printed} ${again.diagnostics[0]?.message}`);
  const [one, other] = [withoutPlaces(score), withoutPlaces(again.score)];
  demand(JSON.stringify(one) === JSON.stringify(other), `what was printed reads back as another score: ${printed}`);
  demand(printScore(again.score) === printed, `printed again it differs: ${printed}`);
}

function checkPlaying(score: Score): void {
  const playback = playbackOf(score);
  const settings = { tempo: score.tempo, swing: shareOf(score.feel), loop: true, countIn: true, trade: true, seed: 1 };
  for (const music of [playback, playbackOn(playback, { ...score.harp, key: itemAt(HARP_KEYS, 3) })]) {
    const { round, cues, moments } = roundPlan(music, settings, 1);
    demand(Number.isFinite(round.seconds) && round.seconds >= 0, `a round lasts ${round.seconds} s`);
    let before = 0;
    for (const cue of cues) {
      demand(cue.at >= before - 1e-9, 'cues are out of order');
      before = cue.at;
      demand(!('seconds' in cue) || cue.seconds > 0, `a ${cue.kind} lasts ${'seconds' in cue ? cue.seconds : 0} s`);
    }
    demand(
      moments.every(({ at }) => at >= 0 && at <= round.seconds),
      'a moment is outside of its round',
    );
  }
}

function checkMoved(score: Score): void {
  const harp = { ...score.harp, key: itemAt(HARP_KEYS, score.bars.length % HARP_KEYS.length) };
  const there = moveToHarp(score, harp);
  const back = moveToHarp(there, score.harp);
  const pitches = ({ bars }: Score): string =>
    bars
      .flatMap(({ events }) =>
        events.flatMap((event) => (event.kind === 'sound' ? event.notes.map(({ pitch }) => pitch.midi) : [])),
      )
      .join();
  demand(pitches(back) === pitches(score), 'moved there and back, it sounds otherwise');
}

export const blocks: Target<string> = {
  name: 'blocks',
  patience: 60,
  batch: 1000,
  cases: fc.oneof(valid, changed, soup),
  check(text) {
    const { score, diagnostics } = readBlock(text);
    demand((score === undefined) === diagnostics.some(({ severity }) => severity === 'error'), 'a score, or an error');
    checkProblems(diagnostics, text);
    if (!score) return;
    checkScore(score, text);
    checkPlaying(score);
    checkMoved(score);
    detect(score);
    const { level } = difficultyOf(score);
    demand(level >= 0 && level <= 10, `its difficulty is ${level}`);
    if (!isEngraved(text)) return;
    const { html } = engraveBlock(score, { id: 'b' });
    demand(
      !/NaN|undefined|Infinity/.test(html.replace(/<details[\s\S]*/, '')),
      'a drawing has a place that is no number',
    );
  },
};
