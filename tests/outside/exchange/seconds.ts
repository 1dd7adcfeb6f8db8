/** MIDI files in seconds: attacks by the tempo map of the file. */
import { type MidiEvent, parseMidi } from 'midi-file';
import { itemAt, present } from '../../../src/values/checked.ts';
import type { ChangingAttack } from '../oracle/changing.ts';

/** Seconds of a tick, by the events of tempo: “Standard MIDI Files 1.0”, meta event FF 51 03, microseconds of a quarter note. */
function clockOf(events: readonly Timed[], division: number): (tick: number) => number {
  const tempos = events.flatMap(({ tick, event }) =>
    event.type === 'setTempo' ? [{ tick, micros: event.microsecondsPerBeat }] : [],
  );
  return (tick) => {
    let [seconds, last, micros] = [0, 0, 500_000];
    for (const next of tempos) {
      if (next.tick >= tick) break;
      seconds += ((next.tick - last) * micros) / division / 1e6;
      [last, micros] = [next.tick, next.micros];
    }
    return seconds + ((tick - last) * micros) / division / 1e6;
  };
}

interface Timed {
  readonly tick: number;
  readonly event: MidiEvent;
}
function timed(track: readonly MidiEvent[]): Timed[] {
  let tick = 0;
  return track.map((event) => {
    tick += event.deltaTime;
    return { tick, event };
  });
}

/**
 * What begins when, and the meters with their places in whole notes. Keys are as they are bent, by “MIDI 1.0 Detailed Specification”: 14 bits
 * around 8192, for `reach` half steps each way.
 */
export function attacksInSeconds(file: Uint8Array, reach: number): { attacks: ChangingAttack[]; meters: string[] } {
  const { header, tracks } = parseMidi(file);
  const division = present(header.ticksPerBeat, 'ticks of a quarter note');
  const all = tracks.map(timed);
  const map = all.flat().sort((a, b) => a.tick - b.tick);
  const clock = clockOf(map, division);
  const attacks = all.flatMap((track) => {
    let bend = 0;
    return track.flatMap(({ tick, event }): ChangingAttack[] => {
      if (event.type === 'pitchBend') bend = Math.round((event.value / 8192) * reach);
      return event.type === 'noteOn' ? [{ seconds: clock(tick), midi: event.noteNumber + bend }] : [];
    });
  });
  // FF 58 04: the meter from a bar line on.
  const meters = map.flatMap(({ tick, event }) =>
    event.type === 'timeSignature' ? [`${tick / (4 * division)}: ${event.numerator}/${event.denominator}`] : [],
  );
  return { attacks, meters };
}

/** In what attacks differ, where they may be so many seconds away from the oracle's. */
export function lateOrWrong(
  ours: readonly ChangingAttack[],
  asked: readonly ChangingAttack[],
  within: number,
): string[] {
  if (ours.length !== asked.length) return [`${ours.length} attacks, oracle ${asked.length}`];
  return ours.flatMap(({ seconds, midi }, index) => {
    const own = itemAt(asked, index);
    if (midi === own.midi && Math.abs(seconds - own.seconds) <= within) return [];
    return [`attack ${index}: ${midi} at ${seconds.toFixed(4)}, oracle ${own.midi} at ${own.seconds.toFixed(4)}`];
  });
}
