// The bars of a block in page order, with their lines, and the order in which they are played.
// Repeats and endings: elementary notation, any textbook (common practice, no source).
import { addJump } from './jumps.ts';
import type { Random } from './random.ts';

export interface PlannedBar {
  before: string; // the line before this bar; '' at the very beginning
  slots: number;
  pickup: boolean;
  formBar?: number; // which bar of the progression
  endings?: number[]; // the times of the ending it is in
  branch?: number; // first bar of a second ending or of a coda: the bar it continues from
  carry: boolean; // a note may be held into this bar
  part?: string;
  again?: boolean; // the bar before once more, written %
}

export interface Plan {
  jumped?: number; // how much of the order is played before the jump
  bars: PlannedBar[];
  order: number[];
  end: string; // the last line
  features: string[];
}

export interface PlanWish {
  bars: number; // without a pickup; with a progression: its length
  full: number; // slots in a bar
  pickup: number; // slots, or 0
  progression: boolean;
  repeats: boolean;
  endings: boolean;
  oneChord: (formBar: number) => boolean; // so that a shortened last bar has no halves
}

export function makePlan(r: Random, wish: PlanWish): Plan {
  const bars: PlannedBar[] = [];
  const order: number[] = [];
  const once: number[] = []; // without repeats
  const features: string[] = [];
  let formBar = 0;
  const push = (before: string, extra: Partial<PlannedBar> = {}): number => {
    bars.push({ before, slots: wish.full, pickup: false, formBar, carry: before === '|', ...extra });
    return bars.length - 1;
  };
  if (wish.pickup > 0) {
    bars.push({ before: '', slots: wish.pickup, pickup: true, carry: false });
    order.push(0);
    once.push(0);
    features.push('pickup');
  }
  let left = wish.bars;
  let next = wish.pickup > 0 ? '|' : ''; // the line that leads on
  let last = 'plain' as 'plain' | 'repeat' | 'endings';
  while (left > 0) {
    const mayRepeat: boolean = wish.repeats && last === 'plain' && !next.startsWith(':|') && next !== '||';
    // The bars of a progression are met in the order of playing, so its repeats are those of the whole of it.
    const kind =
      !mayRepeat || r.chance(0.3)
        ? 'plain'
        : wish.progression
          ? 'repeat'
          : wish.endings && left >= 2 && r.chance(0.55)
            ? 'endings'
            : 'repeat';
    if (kind === 'plain') {
      const most = wish.repeats && !wish.progression ? r.int(1, Math.min(4, left)) : left;
      for (let i = 0; i < most; i++) {
        const inner = i > 0 && r.chance(0.08) ? '||' : '|';
        const bar = push(i === 0 ? next : inner);
        order.push(bar);
        once.push(bar);
        formBar++;
      }
      left -= most;
      next = '|';
    } else if (kind === 'repeat') {
      const length = wish.progression ? left : r.int(1, Math.min(4, left));
      const body: number[] = [];
      for (let i = 0; i < length; i++) {
        body.push(push(i === 0 ? '|:' : '|'));
        formBar++;
      }
      // A progression is as long as what is played.
      const times = !wish.progression && r.chance(0.3) ? r.int(3, 4) : 2;
      for (let i = 0; i < times; i++) order.push(...body);
      once.push(...body);
      left -= length;
      next = times > 2 ? `:|x${times} ` : ':|';
      if (times > 2) features.push('repeat-several');
      features.push('repeat');
    } else {
      const first = left >= 3 && r.chance(0.3) ? 2 : 1;
      const length = r.int(1, Math.min(3, left - first));
      const body: number[] = [];
      for (let i = 0; i < length; i++) {
        body.push(push(i === 0 ? '|:' : '|'));
        formBar++;
      }
      const branch = bars.length - 1;
      const branchForm = formBar;
      const one: number[] = [];
      // The first ending may be for several times: 1, 2 and then 3.
      const times = r.chance(0.3) ? r.int(2, 3) : 1;
      const numbers = Array.from({ length: times }, (_, i) => i + 1);
      for (let i = 0; i < first; i++) {
        one.push(push(i === 0 ? `|${numbers.join(',')}` : '|', { endings: numbers }));
        formBar++;
      }
      formBar = branchForm; // both endings stand at the same place of the progression
      const second = wish.progression ? first : r.chance(0.25) ? 2 : 1;
      const two: number[] = [];
      // The last ending is as long as the first, if no repeat sign says otherwise; what follows is after the repeat.
      for (let i = 0; i < second; i++) {
        two.push(
          push(i === 0 ? `:|${times + 1}` : '|', {
            ...(i < first ? { endings: [times + 1] } : {}),
            ...(i === 0 ? { branch } : {}),
          }),
        );
        formBar++;
      }
      for (let i = 0; i < times; i++) order.push(...body, ...one);
      order.push(...body, ...two);
      once.push(...body, ...two);
      if (times > 1) features.push('ending-for-several');
      left -= length + first;
      next = '||';
      features.push('ending', 'repeat');
      if (first > 1 || second > 1) features.push('long-ending');
    }
    last = kind;
  }
  let end = r.weighted([
    ['|]', 8],
    ['||', 1],
    ['', 1],
  ]);
  if (last === 'repeat') end = next;
  if (last === 'endings') end = r.pick(['||', '|]']);
  const final = bars[bars.length - 1]!;
  if (
    wish.pickup > 0 &&
    last === 'plain' &&
    wish.bars > 1 &&
    r.chance(0.6) &&
    (!wish.progression || wish.oneChord(final.formBar!))
  ) {
    final.slots -= wish.pickup;
    features.push('short-last-bar');
  }
  if (bars.some((b) => b.before === '||' && b.branch === undefined)) features.push('double-bar');
  const plan: Plan = { bars, order, end, features };
  // A progression is as long as what is played.
  if (!wish.progression && r.chance(0.2)) addJump(r, plan, once, wish.full, wish.pickup);
  return plan;
}
