/** A score as a Standard MIDI file: its bars in the order of playing, swing played out, each part on a channel of its own. */
import { plainChord } from '../../harmony/chord.ts';
import { signatureOf } from '../../harmony/key.ts';
import { bandOf } from '../../schedule/band/band.ts';
import type { Cue } from '../../schedule/cue.ts';
import { type Round, roundOf } from '../../schedule/round.ts';
import { writtenSettings } from '../../schedule/settings.ts';
import { tuneOf } from '../../schedule/tune.ts';
import { isPlayedChord, type Playback, playbackOf } from '../../score/playback.ts';
import type { Score } from '../../score/score.ts';
import { beatLength, secondsOfWhole } from '../../time/meter.ts';
import { itemAt } from '../../values/checked.ts';
import { type Credits, partName, sourceOf } from '../credits.ts';
import type { Players } from '../formats.ts';
import { DRUMS, PERCUSSION, PROGRAMS } from './general.ts';
import { channelOf, keyEvent, meterEvent, midiFile, type TrackEvent, tempoEvent, textEvent } from './smf.ts';
import { type TickAt, tuneEvents } from './tune.ts';

/** Ticks in a quarter note: divisible by 64, 3 and 5, so that no usual rhythm is rounded. */
const DIVISION = 960;

/** The bytes of the file. The first bar begins a full bar before the second, and a pickup late within it. */
export function midiOf(score: Score, credits: Credits, players: Players = 'tune'): Uint8Array<ArrayBuffer> {
  const playback = playbackOf(score);
  const settings = writtenSettings(playback);
  const round = roundOf(playback, settings, 0);
  const secondsOfQuarter = secondsOfWhole(score.meter, score.tempo) / 4;
  const delay = (DIVISION * 4 * pickupDelay(playback, round)) / playback.ticks;
  const tickAt: TickAt = (seconds) => Math.round(delay + (seconds / secondsOfQuarter) * DIVISION);

  const tune = (): TrackEvent[] => [
    textEvent(0, 'name', partName(score)),
    channelOf(0).program(0, PROGRAMS.harmonica),
    ...lyricsOf(score, playback, round, tickAt),
    ...tuneEvents(tuneOf(playback, round), 0, tickAt),
  ];
  return midiFile(DIVISION, [
    conductor(score, credits, playback, round, tickAt),
    ...(players === 'band' ? [] : [tune()]),
    ...(players === 'tune' ? [] : bandTracks(bandOf(playback, settings, round), tickAt)),
  ]);
}

/** Played ticks that a pickup leaves out of its bar: what the file waits, so that its bar lines are the music's. */
function pickupDelay({ bars, meter, ticks }: Playback, round: Round): number {
  const first = itemAt(bars, 0);
  return first.pickupOffset === undefined
    ? 0
    : (ticks * meter.beats) / meter.unit - itemAt(round.measures, 0).grid.length;
}

function conductor(score: Score, credits: Credits, playback: Playback, round: Round, tickAt: TickAt): TrackEvent[] {
  const { meter, tempo, key } = score;
  const beat = beatLength(meter);
  const source = sourceOf(credits);
  return [
    textEvent(0, 'name', credits.title),
    ...(credits.licence === undefined ? [] : [textEvent(0, 'copyright', credits.licence)]),
    ...(source === '' ? [] : [textEvent(0, 'text', source)]),
    // A whole note lasts as long as four quarters.
    tempoEvent(0, 240 / secondsOfWhole(meter, tempo)),
    meterEvent(0, meter.beats, meter.unit, (96 * beat.n) / beat.d),
    keyEvent(0, signatureOf(key), key.mode === 'minor'),
    ...labelsAndChords(score, playback, round, tickAt),
  ];
}

/** Labels of parts as markers, and as texts the words to the player and chords where they change. */
function labelsAndChords(score: Score, playback: Playback, round: Round, tickAt: TickAt): TrackEvent[] {
  let sounding: string | undefined;
  return round.measures.flatMap(({ bar, at, grid }): TrackEvent[] => {
    const { part, chords } = itemAt(playback.bars, bar);
    const { direction } = itemAt(score.bars, bar);
    return [
      ...(part === undefined ? [] : [textEvent(tickAt(at), 'marker', part)]),
      ...(direction === undefined ? [] : [textEvent(tickAt(at), 'text', direction)]),
      ...chords.flatMap((chord): TrackEvent[] => {
        const name = plainChord(isPlayedChord(chord) ? chord : 'none');
        if (name === sounding) return [];
        sounding = name;
        return [textEvent(tickAt(at + grid.played(chord.at) * round.secondsPerTick), 'text', name)];
      }),
    ];
  });
}

/** Each syllable at its note, with the hyphen of a word that continues. */
const lyricsOf = (score: Score, playback: Playback, round: Round, tickAt: TickAt): TrackEvent[] =>
  round.measures.flatMap(({ bar, at, grid }) =>
    itemAt(score.bars, bar).events.flatMap((event, index): TrackEvent[] => {
      if (event.kind === 'rest' || !event.lyric?.text) return [];
      const { text, hyphen } = event.lyric;
      const played = grid.played(itemAt(itemAt(playback.bars, bar).events, index).at);
      return [textEvent(tickAt(at + played * round.secondsPerTick), 'lyric', hyphen ? `${text}-` : `${text} `)];
    }),
  );

/** Loudness from 0 to 1 as a velocity. */
const velocityOf = (level: number): number => 100 * level;

function bandTracks(cues: readonly Cue[], tickAt: TickAt): TrackEvent[][] {
  const [bass, chords, drums] = [channelOf(1), channelOf(2), channelOf(PERCUSSION)];
  const tracks = {
    bass: [textEvent(0, 'name', 'Bass'), bass.program(0, PROGRAMS.bass)],
    chord: [textEvent(0, 'name', 'Chords'), chords.program(0, PROGRAMS.chords)],
    hit: [textEvent(0, 'name', 'Drums')],
  };
  for (const cue of cues) {
    if (cue.kind === 'line') continue;
    const channel = cue.kind === 'bass' ? bass : cue.kind === 'chord' ? chords : drums;
    const start = tickAt(cue.at);
    // A stroke has no length of its own.
    const end = Math.max(start + 1, cue.kind === 'hit' ? start + DIVISION / 8 : tickAt(cue.at + cue.seconds));
    for (const key of keysOfCue(cue))
      tracks[cue.kind].push(channel.on(start, key, velocityOf(cue.level)), channel.off(end, key));
  }
  return [tracks.bass, tracks.chord, tracks.hit];
}

function keysOfCue(cue: Exclude<Cue, { kind: 'line' }>): readonly number[] {
  if (cue.kind === 'bass') return [cue.midi];
  if (cue.kind === 'chord') return cue.midis;
  const key = DRUMS[cue.piece];
  return key === undefined ? [] : [key];
}
