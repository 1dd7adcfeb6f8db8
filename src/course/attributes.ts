/** The attributes of a component: what an author wrote, with its place, and readers for the kinds of values there are. */
import { type Diagnostic, reporter, type Span } from '../diagnostics/diagnostic.ts';
import { type Known, nearest } from '../diagnostics/nearest.ts';
import type { Chord } from '../harmony/chord.ts';
import type { SongKey } from '../harmony/key.ts';
import { readChord } from '../harmony/symbol.ts';
import type { Harp } from '../instrument/harp.ts';
import { type NamedNote, readNotes } from '../notation/notes.ts';
import type { Settings } from '../notation/settings.ts';
import { readSetting, type SettingKey, type Tables } from '../notation/values.ts';
import { FIGURE_PROBLEMS } from './figure-problems.ts';
import type { Value, ValueParts } from './value.ts';

/** A component as it stands in a lesson. */
export interface ComponentText {
  readonly name: string;
  readonly nameSpan: Span;
  readonly attributes: readonly WrittenAttribute[];
}

export interface WrittenAttribute {
  readonly name: string;
  /** `true` for an attribute without a value. */
  readonly value: Value;
  /** Whether the value stands in the file letter for letter. */
  readonly verbatim: boolean;
  readonly nameSpan: Span;
  readonly valueSpan: Span;
  /** Places inside a value in braces, where they are known. */
  readonly parts?: ValueParts;
  /** The value cannot be read, which has been reported. */
  readonly unread?: true;
}

const report = reporter(FIGURE_PROBLEMS);

const YES_OR_NO: readonly Known[] = [
  'yes',
  'no',
  ...['true', 'on', 'all'].map((word): Known => [word, 'yes']),
  ...['false', 'off', 'none'].map((word): Known => [word, 'no']),
];

/** A value as text; what is neither text nor number is none. */
export const textOf = (attribute: WrittenAttribute | undefined): string => {
  const value = attribute?.value;
  return typeof value === 'string' || typeof value === 'number' ? `${value}` : '';
};

/** Reads attributes by name, and collects what is wrong with them. Each reader gives undefined for one that is not there. */
export interface Attributes {
  readonly diagnostics: Diagnostic[];
  at(key: string): WrittenAttribute | undefined;
  settings(keys: readonly SettingKey[], defaults: Settings, tables: Tables): Settings;
  /** `names` are what authors may call the choices, where that is more than the choices themselves. */
  choice<const Word extends string>(key: string, choices: readonly Word[], names?: readonly Known[]): Word | undefined;
  yesOrNo(key: string): boolean | undefined;
  chord(key: string, songKey: SongKey): Chord | undefined;
  /** Notes, divided by bar lines. */
  notes(key: string, harp: Harp): readonly (readonly NamedNote[])[] | undefined;
}

export function attributesOf(component: ComponentText): Attributes {
  const diagnostics: Diagnostic[] = [];
  const at = (key: string) => component.attributes.find(({ name }) => name === key);

  function choice<const Word extends string>(
    key: string,
    choices: readonly Word[],
    names: readonly Known[] = choices,
  ): Word | undefined {
    const attribute = at(key);
    if (!attribute) return undefined;
    const text = textOf(attribute);
    const found = choices.find((one) => one === text);
    if (found === undefined) {
      const facts = { key, text, choices, nearest: nearest(text, names) };
      diagnostics.push(report('figure-choice', attribute.valueSpan, facts));
    }
    return found;
  }

  return {
    diagnostics,
    at,
    choice,
    settings(keys, defaults, tables) {
      let settings = defaults;
      for (const key of keys) {
        const attribute = at(key);
        if (!attribute) continue;
        const read = readSetting(key, textOf(attribute), tables);
        if ('value' in read) settings = { ...settings, ...read.value };
        else diagnostics.push(report('figure-value', attribute.valueSpan, { message: read.message, help: read.help }));
      }
      return settings;
    },
    yesOrNo(key) {
      const value = at(key)?.value;
      if (typeof value === 'boolean') return value;
      const word = choice(key, ['yes', 'no'], YES_OR_NO);
      return word === undefined ? undefined : word === 'yes';
    },
    chord(key, songKey) {
      const attribute = at(key);
      const chord = attribute && readChord(textOf(attribute), songKey);
      if (attribute && !chord)
        diagnostics.push(report('figure-chord', attribute.valueSpan, { text: textOf(attribute) }));
      return chord;
    },
    notes(key, harp) {
      const attribute = at(key);
      if (!attribute) return undefined;
      const text = textOf(attribute);
      const read = readNotes(text, harp);
      const placed = ({ from, to }: Span): Span => {
        const { valueSpan, verbatim } = attribute;
        return verbatim ? { from: valueSpan.from + from, to: valueSpan.from + to } : valueSpan;
      };
      diagnostics.push(...read.diagnostics.map((diagnostic) => ({ ...diagnostic, span: placed(diagnostic.span) })));
      for (const span of read.strays) {
        diagnostics.push(report('figure-stray', placed(span), { text: text.slice(span.from, span.to) }));
      }
      return read.bars;
    },
  };
}
