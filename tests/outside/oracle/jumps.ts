// Jumps: da capo, dal segno, fine, coda. After the jump no repeats, and of endings the last (common practice, no source).
import type { Plan, PlannedBar } from './plan.ts';
import type { Random } from './random.ts';

/** Words behind a line: `|` and `fine` is `|fine`, `:|x3` and `fine` is `:|x3,fine`. */
function withWord(line: string, word: string): string {
  if (line === '') return `|${word}`;
  const plain = line.trimEnd();
  return plain + (/[a-z0-9.]$/i.test(plain) ? ',' : '') + word;
}

/**
 * Lets the music jump back from the end of the plan, to its end, to a fine or to a coda. `once` has the bars of one time through
 * without repeats.
 */
export function addJump(r: Random, plan: Plan, once: number[], full: number, pickup: number): void {
  const { bars, order, features } = plan;
  const last = bars.length - 1;
  const word = (line: number, text: string): void => {
    if (line < bars.length) bars[line]!.before = withWord(bars[line]!.before, text);
    else plan.end = withWord(plan.end, text);
  };
  const dalSegno = r.chance(0.5);
  const playable = once.filter((bar) => !bars[bar]!.pickup);
  const target = r.pick(playable);
  const back = dalSegno ? r.pick(['D.S.', 'ds', 'd.s.']) : r.pick(['D.C.', 'DC', 'd.c.']);
  // From the beginning is with its pickup where the last bar leaves room for it.
  const start = dalSegno ? target : pickup > 0 && bars[last]!.slots === full ? 1 : 0;
  const again = once.filter((bar) => bar >= start);
  const inner = again.filter((bar) => bar !== last);
  const aim = inner.length === 0 ? 'end' : r.pick(['end', 'fine', 'coda']);
  const leave = inner.length > 0 ? r.pick(inner) : last;
  // Signs of a bar's end come before those of the next one's start.
  if (aim === 'fine') word(leave + 1, r.pick(['fine', 'Fine']));
  if (aim === 'coda') word(leave + 1, r.pick(['to-coda', 'tocoda']));
  if (dalSegno) word(target, 'segno');
  const place = again.indexOf(leave);
  const coda: number[] = [];
  if (aim === 'coda') {
    // Only the last bar, and one before the beginning, make up for a pickup.
    if (dalSegno) bars[last]!.slots = full;
    const line = withWord(withWord(['|:', ''].includes(plan.end) ? '|' : plan.end, back), 'coda');
    const count = r.int(1, 2);
    for (let i = 0; i < count; i++) {
      const bar: PlannedBar = { before: i === 0 ? line : '|', slots: full, pickup: false, carry: i > 0 };
      coda.push(bars.push(i === 0 ? { ...bar, branch: leave } : bar) - 1);
    }
    plan.end = r.pick(['|]', '||', '']);
  } else plan.end = withWord(plan.end, back);
  plan.jumped = order.length;
  order.push(...(aim === 'end' ? again : again.slice(0, place + 1)), ...coda);
  // Nothing is held over a place that is come to in two ways.
  for (const bar of [start, target]) bars[bar]!.carry = false;
  features.push(dalSegno ? 'dal-segno' : 'da-capo', `al-${aim}`);
}
