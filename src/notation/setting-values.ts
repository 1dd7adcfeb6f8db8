/** The values settings may take: the same words in a block's header, in front matter and in course.yaml. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { certainly, perhaps } from '../diagnostics/edit.ts';
import { knownNames, nearest } from '../diagnostics/nearest.ts';
import { barsOfForm, FORMS, type Form, readForm, symbolsOf } from '../harmony/form.ts';
import { MODE_NAMES } from '../harmony/key.ts';
import { CHORD_EXAMPLES, chordHelp } from '../harmony/symbol-help.ts';
import { readHarp } from '../instrument/harp.ts';
import { readPitchClass } from '../instrument/pitch.ts';
import { TUNINGS, type Tuning } from '../instrument/tuning.ts';
import { readFeel } from '../time/feel.ts';
import { compare, type Fraction, format, fraction } from '../time/fraction.ts';
import { readMeter } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { isSureValue, unquotedValue } from './mistakes/sure-values.ts';
import { report } from './problems.ts';
import type { Settings } from './settings.ts';
import { SUGGESTIONS } from './suggestions.ts';

/** What names may stand for: the shipped tunings and forms, and the course's own. */
export interface Tables {
  readonly tunings: readonly Tuning[];
  readonly forms: readonly Form[];
}

/** The tunings and forms that come with the program. */
export const SHIPPED_TABLES: Tables = { tunings: TUNINGS, forms: FORMS };

/** The settings that a lesson and a course can give to all their blocks. */
export const SETTING_KEYS = [
  'harp',
  'tuning',
  'position',
  'key',
  'meter',
  'tempo',
  'feel',
  'slot',
  'form',
  'chords',
  'mouth',
] as const;
/** One of {@link SETTING_KEYS}. */
export type SettingKey = (typeof SETTING_KEYS)[number];

/** The settings that may also change between two bars of a block. */
export const CHANGE_KEYS = ['position', 'key', 'meter', 'tempo', 'feel', 'slot'] as const satisfies SettingKey[];
/** One of {@link CHANGE_KEYS}. */
export type ChangeKey = (typeof CHANGE_KEYS)[number];

/** What is wrong with a value. */
export interface RefusedValue {
  readonly message: string;
  readonly help?: string;
  /** The part of the value that is wrong, where that is not all of it. */
  readonly place?: TextSpan;
  /** What is probably meant by it. */
  readonly meant?: MeantValue;
}

/** The value that is probably meant by another text. */
export interface MeantValue {
  readonly text: string;
  /** Whether nothing else can be meant. */
  readonly isCertain: boolean;
}

/** A setting’s value, or what is wrong with it. */
export type ReadValue = { readonly value: Partial<Settings> } | RefusedValue;

/** Reports a value at the part that is wrong, or at its key where there is no value. */
export function valueProblem(
  { message, help, place, meant }: RefusedValue,
  { keySpan, valueSpan }: { readonly keySpan: TextSpan; readonly valueSpan: TextSpan },
): Diagnostic {
  const { from, to } = valueSpan;
  const span = place ? { from: from + place.from, to: Math.min(to, from + place.to) } : valueSpan;
  const fix = meant && span.to > span.from ? (meant.isCertain ? certainly : perhaps)(span, meant.text) : undefined;
  return report('header-value', span.to > span.from ? span : keySpan, { message, help }, fix);
}

/** Reads one setting's value. Never throws; a value it cannot take comes back as a sentence and, where there is one, the fix. */
export function readSetting(key: SettingKey, text: string, tables: Tables = SHIPPED_TABLES): ReadValue {
  if (text === '') return { message: `The setting “${key}” has no value.`, help: EXAMPLES[key] };
  if (text.length > (key === 'chords' ? LONGEST_CHORDS : LONGEST_VALUE))
    return { message: `The value of “${key}” is too long to be one.`, help: EXAMPLES[key] };
  if (key === 'chords' && text.includes('"')) return chordsInQuotes(text, tables);
  const read = READERS[key](text, tables);
  if (read && ('value' in read || read.meant)) return read;
  const bare = unquotedValue(text);
  const isBare = bare !== text && bare !== '' && isValue(key, bare, tables);
  const meant = isBare ? { text: bare, isCertain: true } : meantValue(key, text, tables);
  if (read) return isBare ? { ...read, ...meantHelp(bare), meant: { text: bare, isCertain: true } } : read;
  const message = `“${text}” is no ${WHAT[key]}.`;
  return meant ? { message, ...meantHelp(meant.text), meant } : { message, help: EXAMPLES[key] };
}

/** A list of chords, each of them in quotation marks as in the music. */
function chordsInQuotes(text: string, tables: Tables): RefusedValue {
  const bare = text.replaceAll('"', '');
  const message = 'A list of chords is written without quotation marks.';
  if (!isValue('chords', bare, tables)) return { message, help: EXAMPLES.chords };
  return { message, help: `Write ${bare}`, meant: { text: bare, isCertain: true } };
}

const meantHelp = (meant: string): { readonly help: string } => ({ help: `Did you mean “${meant}”?` });

const isValue = (key: SettingKey, text: string, tables: Tables): boolean => {
  const read = READERS[key](text, tables);
  return read !== undefined && 'value' in read;
};

function meantValue(key: SettingKey, text: string, tables: Tables): MeantValue | undefined {
  const meaning: Readonly<Partial<Record<SettingKey, (text: string) => readonly string[]>>> = SUGGESTIONS;
  const values = meaning[key]?.(unquotedValue(text)) ?? [];
  const meant = values.find((value) => value !== text && READERS[key](value, tables));
  return meant === undefined ? undefined : { text: meant, isCertain: isSureValue(key, text, meant) };
}

/** In characters. A longer value is something pasted by mistake, and is not searched for what it may mean. */
const LONGEST_VALUE = 200;
const LONGEST_CHORDS = 20_000;

const WHAT: Readonly<Record<SettingKey, string>> = {
  harp: 'harp',
  tuning: 'tuning',
  position: 'position',
  key: 'key',
  meter: 'meter',
  tempo: 'tempo',
  feel: 'feel',
  slot: 'slot length',
  form: 'form',
  chords: 'list of chords',
  mouth: 'embouchure',
};

const EXAMPLES: Readonly<Record<SettingKey, string>> = {
  harp: 'Write its key, and low or high where it is: A, Bb, low F, high G.',
  tuning: 'Write the name of a tuning, such as richter.',
  position: 'Write a number from 1 to 12; cross position is 2.',
  key: 'Write major, minor or another mode such as dorian, or the whole key: D minor.',
  meter: 'Write it as 4/4, 3/4 or 12/8.',
  tempo: 'Write beats a minute as a number from 20 to 400.',
  feel: 'Write straight, shuffle, or a ratio of the beat’s two halves such as 60:40, the longer one first.',
  slot: 'Write a fraction of a whole note, such as 1/4, 1/8, 1/16 or 3/8; triplets are in braces.',
  form: 'Write the name of a form, such as twelve-bar, or none.',
  chords: 'Divide bars by |, as in I7 | IV7 | V7 IV7 | I7.',
  mouth: 'Write lips or tongue.',
};

type Reader = (text: string, tables: Tables) => ReadValue | undefined;

const READERS: Readonly<Record<SettingKey, Reader>> = {
  harp: (text, { tunings }) => {
    const harp = readHarp(text, itemAt(tunings, 0));
    return harp && { value: { harp: { key: harp.key, register: harp.register } } };
  },
  tuning: (text, { tunings }) => {
    const tuning = tunings.find(({ id }) => id === text);
    return tuning ? { value: { tuning } } : unknownName('tuning', text, tunings);
  },
  position: (text) => {
    const position = /^\d{1,2}$/.test(text) ? Number(text) : 0;
    return position >= 1 && position <= 12 ? { value: { position } } : undefined;
  },
  key: (text) => {
    const [, name, mode] = /^(?:([A-G][b#♭♯]?) )?([a-z]+)$/.exec(text) ?? [];
    const known = MODE_NAMES.find((one) => one === mode);
    const tonic = name === undefined ? undefined : readPitchClass(name);
    return known && { value: { key: { mode: known, ...(tonic ? { tonic } : {}) } } };
  },
  meter: (text) => {
    const meter = readMeter(text);
    return meter && { value: { meter } };
  },
  tempo: (text) => {
    const tempo = /^\d{1,3}(\.\d{1,2})?$/.test(text) ? Number(text) : 0;
    return tempo >= 20 && tempo <= 400 ? { value: { tempo } } : undefined;
  },
  feel: (text) => {
    const feel = readFeel(text);
    return feel && { value: { feel } };
  },
  slot: (text) => {
    const slot = readSlot(text);
    return slot && { value: { slot } };
  },
  form: readFormName,
  chords: (text) => {
    const read = readForm(text);
    if ('bars' in read) return { value: { progression: { bars: read.bars } } };
    const message = read.bad === '' ? 'A bar of these chords is empty.' : `“${read.bad}” is not a chord symbol.`;
    const place = { from: read.offset, to: Math.max(read.offset + read.bad.length, read.offset + 1) };
    const bars = text.replaceAll(/\s*[,;]\s*/g, ' | ');
    if (bars !== text && 'bars' in readForm(bars))
      return {
        message: 'The bars of a list of chords are divided by | .',
        ...meantHelp(bars),
        meant: { text: bars, isCertain: false },
      };
    if (read.bad === '') return { message, help: EXAMPLES.chords, place };
    return { message, help: chordHelp(read.bad) ?? CHORD_EXAMPLES.replaceAll('"', ''), place };
  },
  mouth: (text) => (text === 'lips' || text === 'tongue' ? { value: { mouth: text } } : undefined),
};

/** A note value, plain or dotted, from a whole note to a thirty-second. */
function readSlot(text: string): Fraction | undefined {
  const match = /^([13])\s*\/\s*(1|2|4|8|16|32|64)$/.exec(text);
  if (!match) return undefined;
  const slot = fraction(Number(match[1]), Number(match[2]));
  return compare(slot, fraction(1)) <= 0 && compare(slot, fraction(1, 32)) >= 0 ? slot : undefined;
}

/** `twelve-bar`, `twelve-bar bars 9-12`, `none`. */
function readFormName(text: string, { forms }: Tables): ReadValue | undefined {
  if (text === 'none') return { value: { progression: undefined } };
  const match = /^(.*?)(?:\s+bars?\s+(\d{1,3})(?:\s*[-–]\s*(\d{1,3}))?)?$/s.exec(text);
  const [, id = text, from, to] = match ?? [];
  const form = forms.find((candidate) => candidate.id === id);
  if (!form) return unknownName('form', id, forms);
  const read = barsOfForm(form);
  if (!('bars' in read)) return { message: `The form “${id}” is broken at “${read.bad}”.` };
  if (from === undefined) return { value: { progression: { form: id, bars: read.bars } } };
  const [first, last] = [Number(from), Number(to ?? from)];
  if (first < 1 || last < first || last > read.bars.length) {
    return { message: `The form “${id}” has bars 1 to ${read.bars.length}.`, help: `Write ${id} bars 1-4, for one.` };
  }
  return { value: { progression: { form: id, range: [first, last], bars: read.bars.slice(first - 1, last) } } };
}

function unknownName(
  what: string,
  text: string,
  table: readonly { readonly id: string; readonly title: string }[],
): ReadValue {
  const ids = table.map(({ id }) => id);
  const near = nearest(text, knownNames(table));
  const message = `There is no ${what} “${text}”.`;
  if (near === undefined) return { message, help: `There are ${ids.join(', ')}.` };
  // What is behind the name stays.
  const place = { from: 0, to: text.length };
  return { message, ...meantHelp(near), place, meant: { text: near, isCertain: isSureValue(what, text, near) } };
}

/**
 * The chord symbols that decide the mode of a song over a progression, in their order: those of the bars that are played, then
 * those of the whole form, since bars 9 and 10 of a minor form are in minor as well.
 */
export function homeSymbols(progression: Settings['progression'], { forms }: Pick<Tables, 'forms'>): string[] {
  if (!progression) return [];
  const form = progression.range && forms.find(({ id }) => id === progression.form);
  const whole = form && barsOfForm(form);
  return [...symbolsOf(progression.bars), ...(whole && 'bars' in whole ? symbolsOf(whole.bars) : [])];
}

/** `1/8`: as `readSetting` reads a slot. */
export const slotName = (slot: Fraction): string => (slot.d === 1 ? `${slot.n}/1` : format(slot));
