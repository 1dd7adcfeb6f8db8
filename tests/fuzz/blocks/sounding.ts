/** What holds for a score as it is drawn, analysed and played. */

import { engraveBlock, glyphSheet } from '../../../src/engrave/block.ts';
import { countInTo } from '../../../src/schedule/count-in.ts';
import { momentAt, type Plan, roundPlan } from '../../../src/schedule/plan.ts';
import { remainingOf } from '../../../src/schedule/remaining.ts';
import { carryOver, positionAt, secondsAt } from '../../../src/schedule/round.ts';
import type { PlaySettings } from '../../../src/schedule/settings.ts';
import type { Playback } from '../../../src/score/playback.ts';
import { playbackOf } from '../../../src/score/playback-of.ts';
import type { Score } from '../../../src/score/score.ts';
import { detector } from '../../../src/technique/detect.ts';
import { difficultyOf } from '../../../src/technique/difficulty.ts';
import { SHIPPED_REPERTOIRE } from '../../../src/technique/repertoire.ts';
import { checkMarkup } from '../markup.ts';
import { must } from '../target.ts';
import type { Playing } from './arbitrary.ts';

const find = detector(SHIPPED_REPERTOIRE);

/** Techniques, breath and difficulty: places that are in the score, and numbers that are numbers. */
export function checkTechniques(score: Score): void {
  const events = score.bars.reduce((sum, bar) => sum + bar.events.length, 0);
  const isEvent = (index: number | undefined): boolean =>
    index === undefined || (Number.isInteger(index) && index >= 0 && index < events);
  for (const { technique, matches } of find(score)) {
    must(matches.length > 0, 'a technique that is found is found somewhere', () => technique.id);
    for (const match of matches)
      must([match.at, ...match.events].every(isEvent), 'a technique is found at events of the block', () => [
        technique.id,
        match,
      ]);
  }
  const { level, parts, breath } = difficultyOf(score);
  must(level >= 0 && level <= 10, 'a difficulty is from 0 to 10', () => level);
  for (const part of parts) {
    must(part.points > 0 && isEvent(part.at), 'a part of a difficulty has points and a place', () => part);
    must(!/undefined|NaN|Infinity/.test(part.words), 'a part of a difficulty is in words', () => part.words);
  }
  for (const stretch of [breath.longest, breath.fullest]) {
    if (!stretch) continue;
    const { litres, seconds, from, to, tooLongAt } = stretch;
    must(litres > 0 && seconds > 0 && Number.isFinite(litres + seconds), 'a breath takes air and time', () => stretch);
    must([from, to, tooLongAt].every(isEvent), 'a breath is of events of the block', () => stretch);
  }
}

/** The engraving: markup that is whole, and every outline it asks for. */
export function checkEngraved(score: Score): void {
  const { html, glyphs } = engraveBlock(score, { id: 'b' });
  checkMarkup(html);
  const sheet = glyphSheet(glyphs);
  checkMarkup(sheet);
  const has = new Set([...(html + sheet).matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id));
  for (const [, to] of html.matchAll(/\shref="#([^"]*)"/g)) must(has.has(to), 'what a drawing uses is there', () => to);
}

const settingsOf = (
  { tempo, swing, first, bars, whole, loop, trade, step, seed }: Playing,
  { bars: all }: Playback,
): PlaySettings => {
  const from = Math.min(first, all.length - 1);
  const range = whole ? undefined : { first: from, last: Math.min(from + bars, all.length - 1) };
  return { tempo, swing, range, loop, trade, seed, countIn: true, climb: step > 0 ? { step, goal: 200 } : undefined };
};

/** A little more than what adding seconds costs in precision. */
const EXACT = 1e-6;

/** The schedule: finite, not negative, in order, within its round; and places in it lead back to themselves. */
export function checkPlayed(score: Score, playing: Playing): void {
  const playback = playbackOf(score);
  const sent = JSON.stringify(playback);
  must(JSON.stringify(JSON.parse(sent)) === sent && !/null/.test(sent), 'a playback goes through JSON', () => sent);
  const settings = settingsOf(playing, playback);
  const plan = roundPlan(playback, settings, playing.round);
  checkCues(plan);
  checkPlaces(plan, playback);
  const { seconds, cues } = countInTo(playback, plan.round, Math.min(playing.first, plan.round.measures.length - 1));
  must(seconds > 0 && cues.length > 0 && cues.every(({ at }) => at >= 0 && at < seconds), 'a count-in counts', () => [
    seconds,
    cues,
  ]);
  const other = roundPlan(playback, { ...settings, range: undefined, swing: 0.5 }, playing.round);
  const carried = carryOver(positionAt(plan.round, plan.round.seconds / 2), plan.round, other.round);
  const at = secondsAt(other.round, carried);
  must(at >= 0 && at <= other.round.seconds + EXACT, 'a place carried over is in the round', () => [carried, at]);
}

function checkCues({ round, cues, moments }: Plan): void {
  must(round.seconds > 0 && Number.isFinite(round.seconds), 'a round takes time', () => round.seconds);
  let before = 0;
  for (const cue of cues) {
    const seconds = 'seconds' in cue ? cue.seconds : 0;
    must(Number.isFinite(cue.at) && Number.isFinite(seconds), 'the time of a cue is a number', () => cue);
    must(cue.at >= -EXACT, 'a cue is not before its round', () => cue);
    must(cue.at >= before, 'cues are in order', () => [before, cue]);
    must(cue.at <= round.seconds + EXACT, 'a cue begins in its round', () => [cue, round.seconds]);
    must(!('seconds' in cue) || seconds > 0, 'a cue lasts', () => cue);
    if ('level' in cue) must(cue.level > 0 && cue.level <= 4, 'a cue has a level', () => cue);
    if (cue.kind === 'line') {
      must(cue.at + seconds <= round.seconds + EXACT, 'a line ends with its round', () => [cue, round.seconds]);
      for (const part of cue.parts) {
        must(part.at >= -EXACT && part.seconds > 0, 'a part of a line lasts', () => cue);
        must(
          part.notes.length > 0 && part.notes.every(({ midi }) => midi > 0 && midi < 128),
          'a part of a line sounds',
          () => part,
        );
      }
    }
    before = cue.at;
    const rest = remainingOf(cue, seconds / 2);
    if (rest && 'seconds' in rest) must(rest.seconds > 0 && rest.at >= cue.at, 'the rest of a cue lasts', () => rest);
  }
  moments.forEach((moment, index) => {
    must(moment.at >= (moments[index - 1]?.at ?? -EXACT), 'moments are in order', () => [moments[index - 1], moment]);
    must(momentAt(moments, moment.at + EXACT)?.measure !== undefined, 'a moment can be found', () => moment);
  });
}

/** A place in the round, as seconds and as ticks, is the same place. */
function checkPlaces({ round }: Plan, { bars }: Playback): void {
  for (const share of [0, 0.1, 0.5, 0.99]) {
    const at = share * round.seconds;
    const position = positionAt(round, at);
    const back = secondsAt(round, position);
    // While time waits, it is at one place, whose own time is the wait's end: just before that place the wait has not begun.
    const waits = bars[round.measures[position.measure]?.bar ?? 0]?.waits !== undefined;
    const before = secondsAt(round, { ...position, tick: position.tick - 0.001 });
    if (waits && before <= at + EXACT && at < back) continue;
    must(Math.abs(back - at) < EXACT * Math.max(1, round.seconds), 'a time leads to a place and back', () => [
      at,
      back,
    ]);
  }
}
