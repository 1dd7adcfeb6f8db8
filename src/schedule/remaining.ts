/** What is left of a cue where playing starts in the middle of it. */
import { rowOf } from '../score/mark.ts';
import type { Cue, LineCue, LinePart } from './cue.ts';

/** Seconds below which what is left is not worth an attack. */
const SHORTEST_REMAINDER = 0.05;

/** What is left of a cue from a time within it; undefined where it has died away or too little is left. */
export function remainingOf(cue: Cue, time: number): Cue | undefined {
  if (!('seconds' in cue) || cue.seconds - time <= SHORTEST_REMAINDER) return undefined;
  if (cue.kind === 'line') return restOfLine(cue, time);
  if (cue.kind === 'chord' && cue.touch === 'pad') return { ...cue, at: cue.at + time, seconds: cue.seconds - time };
  return undefined;
}

function restOfLine(line: LineCue, time: number): LineCue {
  const parts = line.parts
    .filter((part) => part.at + part.seconds > time)
    .map((part): LinePart => {
      if (part.at > time) return { ...part, at: part.at - time };
      const { struck: _struck, ...rest } = part;
      const marks = part.marks.filter((name) => !rowOf(name).ofAttack);
      return { ...rest, marks, at: 0, seconds: part.at + part.seconds - time };
    });
  return { ...line, at: line.at + time, seconds: line.seconds - time, parts };
}
