/** A score as a Standard MIDI file: its bars in the order of playing, swing played out, each part on a channel of its own. */
import { plainChord } from '../../harmony/chord.ts';
import { bandOf } from '../../schedule/band/band.ts';
import type { Cue } from '../../schedule/cue.ts';
import { type Round, roundOf } from '../../schedule/round.ts';
import { writtenSettings } from '../../schedule/settings.ts';
import { tuneOf } from '../../schedule/tune.ts';
import { isPlayedChord, type Playback } from '../../score/playback.ts';
import { playbackOf } from '../../score/playback-of.ts';
import { passesOf } from '../../score/playing-order.ts';
import type { Score } from '../../score/score.ts';
import { lyricIn, verseSung } from '../../score/verses.ts';
import { secondsOfWhole } from '../../time/meter.ts';
import { itemAt } from '../../values/checked.ts';
import { type Credits, partName, sourceOf } from '../credits.ts';
import type { Players } from '../formats.ts';
import { DRUMS, PERCUSSION, PROGRAMS } from './general.ts';
import { channelOf, midiFile, type TrackEvent, textEvent } from './smf.ts';
import { evenly, tempoMap } from './tempo-map.ts';
import { type TickAt, tuneEvents } from './tune.ts';

/** Ticks in a quarter note: divisible by 64, 3 and 5, so that no usual rhythm is rounded. */
const DIVISION = 960;
/** The channel after those of the tune, the bass and the chords. */
const QUARTER_CHANNEL = 3;

/** The bytes of the file. The first bar begins a full bar before the second, and a pickup late within it. */
export function midiOf(score: Score, credits: Credits, players: Players = 'tune'): Uint8Array<ArrayBuffer> {
  const played = playbackOf(score);
  const settings = writtenSettings(played);
  const playback = evenly(played);
  const round = roundOf(playback, settings, 0);
  const secondsOfQuarter = secondsOfWhole(score.meter, score.tempo) / 4;
  // What a pickup leaves out of its bar: the file waits for it, so that its bar lines are the music’s.
  const delay = itemAt(round.measures, 0).grid.missing;
  const tickAt: TickAt = (seconds) => Math.round(((delay + seconds) / secondsOfQuarter) * DIVISION);

  const tune = (): TrackEvent[] => [
    textEvent(0, 'name', partName(score)),
    channelOf(0).program(0, PROGRAMS.harmonica),
    ...lyricEvents(score, playback, round, tickAt),
    ...tuneEvents(tuneOf(playback, round), 0, QUARTER_CHANNEL, tickAt),
  ];
  return midiFile(DIVISION, [
    [
      ...header(credits),
      ...tempoMap(score, played, { played: roundOf(played, settings, 0), even: round }, tickAt),
      ...labelsAndChords(score, playback, round, tickAt),
    ],
    ...(players === 'band' ? [] : [tune()]),
    ...(players === 'tune' ? [] : bandTracks(bandOf(playback, settings, round), tickAt)),
  ]);
}

/** Whose file it is. */
function header(credits: Credits): TrackEvent[] {
  const source = sourceOf(credits);
  return [
    textEvent(0, 'name', credits.title),
    ...(credits.licence === undefined ? [] : [textEvent(0, 'copyright', credits.licence)]),
    ...(source === '' ? [] : [textEvent(0, 'text', source)]),
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
        return [textEvent(tickAt(at + grid.at(chord.at)), 'text', name)];
      }),
    ];
  });
}

/** Each syllable of the verse being sung at its note, with the hyphen of a word that continues. */
function lyricEvents(score: Score, playback: Playback, round: Round, tickAt: TickAt): TrackEvent[] {
  const passes = passesOf(score);
  return round.measures.flatMap(({ bar, at, grid }, place) => {
    const verse = verseSung(itemAt(score.bars, bar), itemAt(passes, place));
    return itemAt(score.bars, bar).events.flatMap((event, index): TrackEvent[] => {
      const lyric = event.kind === 'sound' ? lyricIn(event, verse) : undefined;
      if (!lyric?.text) return [];
      const { text, hyphen } = lyric;
      const own = grid.at(itemAt(itemAt(playback.bars, bar).events, index).at);
      return [textEvent(tickAt(at + own), 'lyric', hyphen ? `${text}-` : `${text} `)];
    });
  });
}

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
