/** Plays a rhythm line in a loop: a stroke of the drum for each of its strokes, over the clicks of the metronome. */

import { frequencyOfMidi } from '../../instrument/temperament.ts';
import type { Cue, HitCue } from '../../schedule/cue.ts';
import { writtenSettings } from '../../schedule/settings.ts';
import type { Playback } from '../../score/playback.ts';
import { audioOutputOf } from '../audio-output.ts';
import { startSounding, stopSounding } from '../exclusive-sound.ts';
import { whenLeft } from '../leaving.ts';
import { pageMixOn } from '../player/page-mix.ts';
import { showPlaying } from '../show-playing.ts';
import { type AudioOutput, createTransport, isRunning } from '../transport.ts';

/** A rhythm that can be heard. */
export interface RhythmLoop {
  /** Starts with a count-in, or stops. */
  readonly toggle: () => void;
  readonly stop: () => void;
}

/** Beside the strokes the clicks are quiet. */
const CLICK = 0.5;
const STROKE = 0.7;
const ACCENT = 1.3;

/** The loop of a rhythm whose strokes are drawn in `figure`; `changed` is called when it starts and when it stops. */
export function createRhythmLoop(
  playback: Playback,
  context: AudioContext,
  figure: HTMLElement,
  changed: (plays: boolean) => void,
): RhythmLoop {
  const { mixingDesk } = pageMixOn(context);
  const pitches = { ofMidi: frequencyOfMidi, ofNote: () => frequencyOfMidi(69) };
  const transport = createTransport(
    strokesOnly(audioOutputOf(mixingDesk, () => pitches)),
    { playback, settings: { ...writtenSettings(playback), loop: true, countIn: true } },
    (state) => {
      const plays = isRunning(state);
      changed(plays);
      if (!plays) stopSounding(transport.stop);
      show();
    },
  );

  let lit: Element | null = null;
  /** Marks the stroke that is heard. */
  const show = showPlaying(context, transport, (showing) => {
    const { bar, event } = showing && !showing.counting ? showing.moment : {};
    const next = figure.querySelector(`.stroke[data-bar="${bar}"][data-event="${event}"]`);
    if (next === lit) return;
    lit?.classList.remove('now');
    next?.classList.add('now');
    lit = next;
  });

  whenLeft(transport.stop);

  return {
    toggle: () => {
      if (transport.state() === 'stopped') {
        startSounding(transport.stop);
        transport.play();
      } else transport.stop();
    },
    stop: transport.stop,
  };
}

/** An output that sounds each note as a stroke and the metronome as it is, whatever is muted in the mix, and no band. */
function strokesOnly(output: AudioOutput): AudioOutput {
  return {
    ...output,
    sound: (cue, at) => {
      const hit = hitFor(cue);
      return hit ? output.sound(hit, at) : { until: at, stop: () => {} };
    },
  };
}

function hitFor(cue: Cue): HitCue | undefined {
  if (cue.kind === 'line') {
    const accent = cue.parts[0]?.marks.includes('accent') ?? false;
    return { kind: 'hit', at: cue.at, piece: 'snare', level: accent ? ACCENT : STROKE, counts: true };
  }
  const clicks = cue.kind === 'hit' && (cue.piece === 'click' || cue.piece === 'accent');
  return clicks ? { ...cue, level: CLICK * cue.level, counts: true } : undefined;
}
