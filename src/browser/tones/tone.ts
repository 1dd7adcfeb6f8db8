/** A single note of a map or a ladder, sounding while it is pressed. */
import { QUARTER } from '../../instrument/quarter-step.ts';
import { frequencyOfMidi } from '../../instrument/temperament.ts';
import type { LineCue, LinePart } from '../../schedule/cue.ts';
import { pageMixOn } from '../player/page-mix.ts';
import { gainOf } from '../sound/mixing-desk.ts';
import { soundLine } from '../sound/reed.ts';

/** What is written of a note where it is on the page: its tab, and its frequency on this harp. */
export interface Tone {
  readonly tab: string;
  readonly hertz: number;
}

/** Seconds: the longest a note is held, the least it sounds, and its fading. */
const BREATH = 8;
const LEAST = 0.6;
const FADE = 0.03;
/** Seconds on the open reed before a bend goes down from it. */
const OPEN = 0.22;

let current: (() => void) | undefined;

/** Starts a note; the function it returns lets go of it. A note that sounded before stops. */
export function startTone(context: AudioContext, tone: Tone): () => void {
  const { mixingDesk } = pageMixOn(context);
  current?.();
  const begun = context.currentTime + 0.01;
  const hand = gainOf(context, 0.9, mixingDesk.aside);
  const voice = soundLine({ ...mixingDesk, input: { ...mixingDesk.input, tune: hand } }, lineOf(tone), begun, {
    ofMidi: frequencyOfMidi,
    ofNote: (_breath, note) => frequencyOfMidi(note.midi),
  });
  let held = true;
  const letGo = (): void => {
    if (!held) return;
    held = false;
    const end = Math.max(context.currentTime, begun + LEAST);
    hand.gain.setTargetAtTime(0, end, FADE / 3);
    voice.stop(end + 2 * FADE);
  };
  current = letGo;
  return letGo;
}

/** A bend is drawn down from its reed, as it is played; everything else is attacked where it lies. */
function lineOf({ tab, hertz }: Tone): LineCue {
  const midi = 69 + 12 * Math.log2(hertz / 440);
  const bend = tab.split("'").length - 1 + (tab.includes('q') ? QUARTER : 0);
  const note = { hole: Number(/\d+/.exec(tab)?.[0] ?? 1), midi, ...(tab.includes('o') ? { over: true } : {}) };
  const part = (at: number, seconds: number, raised: number): LinePart => ({
    at,
    seconds,
    notes: [{ ...note, midi: midi + raised }],
    mouth: 'lips',
    marks: [],
  });
  const parts = bend > 0 ? [part(0, OPEN, bend), part(OPEN, BREATH - OPEN, 0)] : [part(0, BREATH, 0)];
  return { kind: 'line', at: 0, seconds: BREATH, breath: tab.startsWith('-') ? 'draw' : 'blow', parts };
}
