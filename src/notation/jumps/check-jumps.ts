/** Whether the jumps of a block can be followed: each sign has its partner, is where it is met, and every bar is played. */
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';
import { isJumpBack, type JumpSign } from '../../score/jump.ts';
import { jumpPlaces, playOrder } from '../../score/playing-order.ts';
import type { DraftBar } from '../bars.ts';
import { report } from '../problems.ts';

/** A sign, its bar, and where it was written. */
interface PlacedSign {
  readonly sign: JumpSign;
  readonly bar: number;
  readonly span: TextSpan;
}

/** Reports what is wrong with the signs of jumps. Their bars are laid and their repeats closed. */
export function checkJumps(bars: readonly DraftBar[], hasPickup: boolean, diagnostics: Diagnostic[]): void {
  // A sign that could not be read may be the partner of any other.
  if (diagnostics.some(({ code }) => code === 'jump-spelled' || code === 'bar-word-unknown')) return;
  const signs = new Map<JumpSign, PlacedSign>();
  let clear = true;
  const say = (...problem: Parameters<typeof report>): void => {
    clear = false;
    diagnostics.push(report(...problem));
  };
  const back = (): PlacedSign | undefined => signs.get('D.C.') ?? signs.get('D.S.');
  for (const one of placedSigns(bars)) {
    const before = isJumpBack(one.sign) ? back() : signs.get(one.sign);
    if (before) say('sign-twice', one.span, { sign: one.sign, before: before.sign });
    else signs.set(one.sign, one);
  }
  for (const { sign, span } of signs.values()) {
    const missing = PARTNERS[sign].find((partner) => !(partner === 'back' ? back() : signs.get(partner)));
    if (missing) say('sign-alone', span, { sign, missing });
  }
  const jump = back();
  if (!jump || !clear) return;
  const score = { bars, pickup: hasPickup || undefined };
  const { repeatsDone, playedOnce, afterJump } = jumpPlaces(score, jump.bar);
  if (!repeatsDone.has(jump.bar) || !playedOnce.has(jump.bar)) {
    say('jump-in-repeat', jump.span, { sign: jump.sign });
    return;
  }
  for (const { sign, bar, span } of signs.values()) {
    if (sign === jump.sign) continue;
    const why = !playedOnce.has(bar)
      ? 'in-ending'
      : sign === 'segno' && bar > jump.bar
        ? 'segno-behind'
        : sign === 'coda' && bar <= jump.bar
          ? 'coda-before'
          : // That the coda is not met is said of the sign that leads to it.
            afterJump.includes(bar) || sign === 'coda'
            ? undefined
            : 'not-met';
    if (why) say('sign-misplaced', span, { sign, why });
  }
  const coda = signs.get('coda');
  const leaves = signs.get('to-coda');
  // What ends before the music leaves for the coda never gets there.
  if (clear && coda && leaves && afterJump[afterJump.indexOf(leaves.bar) + 1] !== coda.bar)
    say('sign-misplaced', leaves.span, { sign: 'to-coda', why: 'not-met' });
  if (!clear) return;
  const played = new Set(playOrder(score));
  const never = bars.findIndex((_, index) => !played.has(index));
  const bar = bars[never];
  // What cannot be read may be no bar.
  if (bar && !bar.unsure) {
    say('bar-never-played', bar.span, { bar: bar.number, back: jump.sign });
  }
}

/** What a sign means nothing without. */
const PARTNERS: Readonly<Record<JumpSign, readonly (JumpSign | 'back')[]>> = {
  segno: ['D.S.'],
  coda: ['to-coda'],
  'to-coda': ['coda', 'back'],
  fine: ['back'],
  'D.C.': [],
  'D.S.': ['segno'],
};

const placedSigns = (bars: readonly DraftBar[]): PlacedSign[] =>
  bars
    .flatMap(({ target, jump, signSpans }, bar) => [
      ...(target && signSpans.target ? [{ sign: target, bar, span: signSpans.target }] : []),
      ...(jump && signSpans.jump ? [{ sign: jump, bar, span: signSpans.jump }] : []),
    ])
    .toSorted((a, b) => a.span.from - b.span.from);
