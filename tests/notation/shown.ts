import { plainChord } from '../../src/harmony/chord.ts';
import { plainPitch } from '../../src/instrument/pitch.ts';
import { roleIn } from '../../src/score/queries.ts';
import type { Bar, Score } from '../../src/score/score.ts';
import { format } from '../../src/time/fraction.ts';

/** A bar on one line: each event with its length, and for sounds their pitches, ties and roles. */
export const shownBar = (bar: Bar): string =>
  bar.events
    .map((event) => {
      if (event.kind === 'rest') return `rest ${format(event.duration)}`;
      const notes = event.notes.map((note) => {
        const role = roleIn(bar, event, note);
        return plainPitch(note.pitch) + (role ? `=${role.label}` : '');
      });
      const signs = (event.tied ? '~' : '') + (event.glides ? '>' : '');
      return `${notes.join('+')}${signs} ${format(event.duration)}`;
    })
    .join(', ');

export const shownBars = (score: Score | undefined): string[] => score?.bars.map((bar) => shownBar(bar)) ?? [];

/** The chords of each bar, with their onsets where they are not the bar's start. */
export const shownChords = (score: Score | undefined): string[] =>
  score?.bars.map((bar) =>
    bar.chords.map(({ onset, chord }) => plainChord(chord) + (onset.n === 0 ? '' : `@${format(onset)}`)).join(' '),
  ) ?? [];
