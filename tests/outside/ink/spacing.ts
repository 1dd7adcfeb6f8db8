/** How evenly notes are spaced: equal durations equally, and a longer note never with less room than a shorter one. */
import type { Fault } from './collisions.ts';
import { type Column, columnsOf } from './durations.ts';
import type { Inked } from './intended.ts';
import { type Mask, SAMPLES } from './mask.ts';

/** The largest distance of equal durations in a bar may be so many times the smallest. */
export const MOST_UNEQUAL = 1.15;
/** Units of the drawing between the last note's ink and the bar line. */
const LEAST_BEFORE_BAR = 8;
/** Less than this is no difference in room. In CSS pixels. */
const SAME_ROOM = 0.5;

/** The room a note has to the next, between the middles of their heads. */
interface Gap {
  readonly column: Column;
  readonly next: Column;
  readonly room: number;
}

/** Finds what is uneven in each picture of a block. */
export function unevenIn(items: readonly Inked[]): readonly Fault[] {
  return [...Map.groupBy(items, ({ drawn }) => drawn.part).values()].flatMap(unevenInPart);
}

function unevenInPart(items: readonly Inked[]): readonly Fault[] {
  const columns = columnsOf(items);
  const notes = items.filter(({ kind }) => kind === 'notehead' || kind === 'rest');
  const [first] = notes;
  if (!first) return [];
  const top = Math.min(...notes.map(({ box }) => box[1]));
  const bottom = Math.max(...notes.map(({ box }) => box[3]));
  const { bar } = first.drawn;
  const faults: Fault[] = [];
  const gaps: Gap[] = columns.slice(0, -1).flatMap((column, index) => {
    const next = columns[index + 1];
    return next ? [{ column, next, room: next.x - column.x }] : [];
  });
  const from = ({ column, next }: Gap): Fault['box'] => [column.left, top, next.right, bottom];

  for (const equal of Map.groupBy(gaps, ({ column }) => Math.round(column.duration * 13_440)).values()) {
    const sorted = equal.toSorted((one, other) => one.room - other.room);
    const [least] = sorted;
    const most = sorted.at(-1);
    if (!least || !most || most.room <= least.room * MOST_UNEQUAL) continue;
    const ratio = (most.room / least.room).toFixed(2);
    const detail = `${least.column.name} has ${least.room.toFixed(1)} and ${most.room.toFixed(1)} px: ${ratio} times`;
    faults.push({ kind: 'spacing: equal durations', detail, bar, box: from(least) });
  }

  const sorted = gaps.toSorted((one, other) => one.column.duration - other.column.duration);
  const cramped = sorted.flatMap((long) => {
    const short = sorted.filter(
      ({ column, room }) => column.duration < long.column.duration - 1e-6 && room > long.room + SAME_ROOM,
    );
    const widest = short.toSorted((one, other) => other.room - one.room)[0];
    return widest ? [{ long, widest }] : [];
  });
  const [worst] = cramped.toSorted(
    (one, other) => other.widest.room - other.long.room - (one.widest.room - one.long.room),
  );
  if (worst) {
    const { long, widest } = worst;
    const detail = `${long.column.name} has ${long.room.toFixed(1)} px and ${widest.column.name} has ${widest.room.toFixed(1)}`;
    faults.push({ kind: 'spacing: longer with less', detail, bar, box: from(long) });
  }

  const last = columns.at(-1);
  if (last) {
    const lines = items.filter(({ kind }) => kind === 'bar line').map(({ mask }) => inkAfter(mask, last.right));
    const room = Math.min(...lines) - last.right;
    if (room < LEAST_BEFORE_BAR * first.scale) {
      const detail = `${last.name} ends ${room.toFixed(1)} px before it`;
      const box: Fault['box'] = [last.left, top, last.right + room, bottom];
      faults.push({ kind: 'spacing: last note at the bar line', detail, bar, box });
    }
  }
  return faults;
}

/** Where the ink of an element begins after a place, in CSS pixels. */
function inkAfter({ left, width, ink }: Mask, x: number): number {
  for (let at = Math.max(0, Math.ceil(x * SAMPLES) - left); at < width; at++) {
    for (let index = at; index < ink.length; index += width) if (ink[index] === 1) return (left + at) / SAMPLES;
  }
  return Number.POSITIVE_INFINITY;
}
