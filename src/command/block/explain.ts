/** `reedway explain`: what notes are on a harp and over the chords of a form. */
import { plainChord } from '../../harmony/chord.ts';
import { type Explained, explain } from '../../harmony/explain.ts';
import { chordsOfBar, FORMS } from '../../harmony/form.ts';
import { plainKey, type SongKey } from '../../harmony/key.ts';
import { numeralOf } from '../../harmony/numeral.ts';
import { roleInWords } from '../../harmony/role.ts';
import { keyOfSong } from '../../harmony/song-key.ts';
import { sounding } from '../../instrument/bend.ts';
import { type Harp, harpName } from '../../instrument/harp.ts';
import { plainPitch } from '../../instrument/pitch.ts';
import { positionInWords } from '../../instrument/position.ts';
import { CONCERT_A, CONCERT_A_RANGE, EQUAL, TEMPERAMENTS, type Temperament } from '../../instrument/temperament.ts';
import { TUNINGS } from '../../instrument/tuning.ts';
import { type NamedNote, readNotes } from '../../notation/notes.ts';
import { homeSymbols, readSetting, SHIPPED_TABLES, type Tables } from '../../notation/setting-values.ts';
import { DEFAULTS, type Settings } from '../../notation/settings.ts';
import { ONE } from '../../time/fraction.ts';
import { type Command, type Input, type Terminal, textOption, UsageError } from '../command.ts';
import { readCourse } from '../course/check.ts';
import { inputBytes, STANDARD_INPUT } from '../course/standard-input.ts';

const SETTINGS = ['harp', 'tuning', 'position', 'form', 'chords'] as const;

export const command: Command = {
  arguments: [
    {
      name: 'NOTE',
      required: true,
      many: true,
      about:
        'Notes as in a block: 4, -3\', 6o. In most shells a note with a bend needs quotation marks: "-3\'". The argument - stands for notes from standard input.',
    },
  ],
  hyphened: /^-[\d(]/,
  options: {
    harp: { type: 'string', value: 'KEY', about: 'The harp: A, Bb, "low F", "high G". Default: C.' },
    tuning: {
      type: 'string',
      value: 'NAME',
      completes: TUNINGS.map(({ id }) => id),
      about: 'The tuning of the harp. Default: richter.',
    },
    position: { type: 'string', value: 'NUMBER', about: 'The position, 1 to 12. Default: 1.' },
    form: {
      type: 'string',
      value: 'NAME',
      completes: FORMS.map(({ id }) => id),
      about: 'A form, such as twelve-bar: the role of each note over each of its chords is shown.',
    },
    chords: { type: 'string', value: 'BARS', about: 'Chords instead of a form, such as "I7 | IV7 | V7".' },
    temperament: {
      type: 'string',
      value: 'NAME',
      completes: TEMPERAMENTS.map(({ id }) => id),
      about: 'How the reeds are tuned: equal, compromise or just.',
    },
    'concert-a': { type: 'string', value: 'HERTZ', about: `The frequency of A4. Default: ${CONCERT_A}.` },
    course: {
      type: 'string',
      value: 'DIR',
      completes: 'folder',
      about: 'A course whose settings, tunings and forms are used.',
    },
    json: { type: 'boolean', about: 'Print one object with the harp, the key and an array of notes.' },
  },
  about:
    'Shows for every given note its pitch, its frequency with the cents from equal temperament, its degree in the key, and its role over each chord of a form. Every bend and overbend follows from the reeds of the harp.',
  run({ arguments: typed, options }, terminal) {
    const answer = (notes: readonly string[]): number => {
      const question = ask(notes, options, start(options, terminal));
      terminal.out(options['json'] ? `${JSON.stringify(asData(question), null, 2)}\n` : asText(question));
      return 0;
    };
    if (!typed.includes(STANDARD_INPUT)) return answer(typed);
    return inputBytes(terminal).then((bytes) =>
      answer(typed.map((one) => (one === STANDARD_INPUT ? bytes.toString().trim() : one))),
    );
  },
};

interface Question {
  readonly harp: Harp;
  readonly position: number;
  readonly key: SongKey;
  readonly form: string | undefined;
  readonly pitching: { readonly concertA: number; readonly temperament: Temperament };
  readonly notes: readonly Explained[];
}

/** What holds where no option says otherwise. */
interface Start {
  readonly settings: Settings;
  readonly tables: Tables;
  readonly pitching: Question['pitching'];
}

function start(options: Input['options'], terminal: Terminal): Start {
  if (options['course'] === undefined) {
    return { settings: DEFAULTS, tables: SHIPPED_TABLES, pitching: { concertA: CONCERT_A, temperament: EQUAL } };
  }
  const course = readCourse(textOption(options, 'course'), terminal);
  return { settings: course.defaults, tables: course, pitching: course.file };
}

/** Throws a UsageError for what cannot be read, and for notes the harp has not got. */
function ask(typed: readonly string[], options: Input['options'], { tables, ...given }: Start): Question {
  let { settings } = given;
  if (options['form'] !== undefined && options['chords'] !== undefined)
    throw new UsageError('Both --form and --chords name the chords. Keep one of them.');
  for (const name of SETTINGS) {
    const text = options[name];
    if (typeof text !== 'string') continue;
    const read = readSetting(name, text, tables);
    if (!('value' in read)) throw new UsageError(`${read.message}${read.help ? ` ${read.help}` : ''}`);
    settings = { ...settings, ...read.value };
  }
  const { position, progression } = settings;
  const harp: Harp = { ...settings.harp, tuning: settings.tuning };
  const key = keyOfSong(harp, position, homeSymbols(progression, tables));
  const chords = (progression?.bars ?? []).flatMap((bar) =>
    chordsOfBar(bar, key, ONE).flatMap(({ chord }) => (chord === 'none' ? [] : [chord])),
  );
  const pitching = readPitching(options, given.pitching);
  const notes = notesOf(typed.join(' '), harp).map((note) => {
    const sound = sounding(harp, note.breath, note);
    if ('fault' in sound) throw new UsageError(`There is no note ${note.hole} on this harp.`);
    const { hole, bend, over, slide, breath } = note;
    return explain(harp, { hole, bend, over, slide, breath, midi: sound.midi }, key, chords, pitching);
  });
  return { harp, position, key, form: progression?.form, pitching, notes };
}

function notesOf(text: string, harp: Harp): readonly NamedNote[] {
  const { bars, diagnostics, strays } = readNotes(text, harp);
  const faults = [
    ...diagnostics.map(({ message, help }) => `${message}${help ? ` ${help}` : ''}`),
    ...strays.map(({ from, to }) => `“${text.slice(from, to)}” is no note.`),
  ];
  if (bars.flat().length === 0 && faults.length === 0) faults.push(`“${text}” names no note.`);
  if (faults.length > 0) throw new UsageError(faults.join('\n'));
  return bars.flat();
}

function readPitching(options: Input['options'], given: Question['pitching']): Question['pitching'] {
  const name = options['temperament'] ?? given.temperament.id;
  const temperament = TEMPERAMENTS.find(({ id }) => id === name);
  if (!temperament) {
    throw new UsageError(
      `There is no temperament “${name}”. There are ${TEMPERAMENTS.map(({ id }) => id).join(', ')}.`,
    );
  }
  const written = options['concert-a'] ?? `${given.concertA}`;
  const concertA = /^\d{3}(\.\d{1,2})?$/.test(`${written}`) ? Number(written) : 0;
  const { from, to } = CONCERT_A_RANGE;
  if (concertA < from || concertA > to)
    throw new UsageError(`Concert A is a number from ${from} to ${to}, not “${written}”.`);
  return { concertA, temperament };
}

const hundredth = (value: number): number => Math.round(value * 100) / 100;

function asData({ harp, position, key, form, pitching, notes }: Question): object {
  return {
    harp: harpName(harp),
    tuning: harp.tuning.id,
    position,
    key: plainKey(key),
    form: form ?? null,
    temperament: pitching.temperament.id,
    concertA: pitching.concertA,
    notes: notes.map(({ note, tab, pitch, frequency, cents, degree, roles }) => ({
      note: tab,
      hole: note.hole,
      breath: note.breath,
      bend: note.bend,
      over: note.over,
      slide: note.slide,
      pitch: plainPitch(pitch),
      midi: pitch.midi,
      frequency: hundredth(frequency),
      cents: hundredth(cents),
      degree: degree.label,
      roles: roles.map(({ chord, role }) => ({
        chord: plainChord(chord),
        numeral: numeralOf(chord, key),
        role: role.label,
        words: roleInWords(role),
      })),
    })),
  };
}

function asText({ harp, position, key, form, pitching, notes }: Question): string {
  const chords = notes[0]?.roles.map(({ chord }) => chord) ?? [];
  const head = [
    '',
    '',
    'pitch',
    'MIDI',
    'Hz',
    'cents',
    'degree',
    ...chords.map((chord) => `over ${numeralOf(chord, key)} ${plainChord(chord)}`),
  ];
  const rows = notes.map(({ tab, words, pitch, frequency, cents, degree, roles }) => [
    tab,
    words,
    plainPitch(pitch),
    `${pitch.midi}`,
    frequency.toFixed(2),
    `${hundredth(cents)}`,
    degree.label,
    ...roles.map(({ role }) => `${role.label} ${roleInWords(role)}`),
  ]);
  const about = [
    `${harpName(harp)} harp`,
    harp.tuning.title,
    positionInWords(position),
    plainKey(key),
    ...(form === undefined ? [] : [form]),
    `${pitching.temperament.title.toLowerCase()} temperament, A at ${pitching.concertA} Hz`,
  ];
  const table = [head, ...rows];
  const widths = head.map((_, column) => Math.max(...table.map((row) => row[column]?.length ?? 0)));
  const lines = table.map((row) =>
    row
      .map((cell, column) => cell.padEnd(widths[column] ?? 0))
      .join('  ')
      .trimEnd(),
  );
  return `${about.join(', ')}\n\n${lines.join('\n')}\n`;
}
