/** A block as a recording in our own voice: the tune, the band or both, once through. */
import type { Players } from '../../interchange/formats.ts';
import type { Recording } from '../../interchange/recording.ts';
import { waveFile } from '../../interchange/wave.ts';
import { roundPlan } from '../../schedule/plan.ts';
import { writtenSettings } from '../../schedule/settings.ts';
import { DEFAULT_VOLUMES } from '../player/volumes.ts';
import { createMixingDesk, SOUND_PARTS, type SoundPart } from '../sound/mixing-desk.ts';
import { OFFLINE_RATE, offlineContext, soundOffline } from '../sound/offline.ts';
import { pitchesOf } from '../sound/pitches.ts';

/** Seconds before the first note and after the last one. */
const LEAD_IN = 0.1;
const LEAD_OUT = 0.6;

const BAND: ReadonlySet<SoundPart> = new Set(['bass', 'drums', 'chords']);

const isHeard = (part: SoundPart, players: Players): boolean =>
  part === 'tune' ? players !== 'band' : BAND.has(part) && players !== 'tune';

/** The bytes of a WAV file. */
export async function recordingOf({ playback, players, pitching }: Recording): Promise<Uint8Array<ArrayBuffer>> {
  const plan = roundPlan(playback, writtenSettings(playback), 0);
  const context = offlineContext(LEAD_IN + plan.round.seconds + LEAD_OUT);
  const desk = createMixingDesk(context);
  for (const part of SOUND_PARTS) desk.level(part, isHeard(part, players) ? DEFAULT_VOLUMES[part].level : 0);
  const cues = plan.cues.map((cue) => ({ cue, at: LEAD_IN + cue.at }));
  soundOffline(context, desk, cues, pitchesOf(playback, pitching));
  const buffer = await context.startRendering();
  return waveFile(buffer.getChannelData(0), OFFLINE_RATE);
}
