/** The attributes of a component: what an author wrote, with its place, and readers for the kinds of values there are. */

import { reporter } from '../../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';
import { movedTo } from '../../diagnostics/edit.ts';
import { type Known, nearest } from '../../diagnostics/nearest.ts';
import type { Chord } from '../../harmony/chord.ts';
import type { SongKey } from '../../harmony/key.ts';
import { readChord } from '../../harmony/symbol.ts';
import type { Harp } from '../../instrument/harp.ts';
import { attributeText, type ComponentText, type WrittenAttribute } from '../../lesson/component-text.ts';
import { type NamedNote, readNotes } from '../../notation/notes.ts';
import { readSetting, type SettingKey, type Tables } from '../../notation/setting-values.ts';
import type { Settings } from '../../notation/settings.ts';
import { append } from '../../values/append.ts';
import { FIGURE_PROBLEMS } from './problems.ts';

const report = reporter(FIGURE_PROBLEMS);

const YES_OR_NO: readonly Known[] = [
  'yes',
  'no',
  ...['true', 'on', 'all'].map((word): Known => [word, 'yes']),
  ...['false', 'off', 'none'].map((word): Known => [word, 'no']),
];

/** Reads attributes by name, and collects what is wrong with them. Each reader gives undefined for one that is not there. */
export interface Attributes {
  readonly diagnostics: Diagnostic[];
  /** `content` is what the component encloses. */
  at(key: string): WrittenAttribute | undefined;
  settings(keys: readonly SettingKey[], defaults: Settings, tables: Tables): Settings;
  /** `names` are what authors may call the choices, where that is more than the choices themselves. */
  choice<const Word extends string>(key: string, choices: readonly Word[], names?: readonly Known[]): Word | undefined;
  /** One or more of the words, each once, divided by spaces. */
  choices<const Word extends string>(key: string, choices: readonly Word[]): readonly Word[] | undefined;
  yesOrNo(key: string): boolean | undefined;
  chord(key: string, songKey: SongKey): Chord | undefined;
  /** Notes, divided by bar lines. */
  notes(key: string, harp: Harp): readonly (readonly NamedNote[])[] | undefined;
}

/** Where a part of an attribute's value is in the lesson: the whole value where it is not written as it is read. */
export const placeInAttribute = ({ valueSpan, verbatim }: WrittenAttribute, { from, to }: TextSpan): TextSpan =>
  verbatim ? { from: valueSpan.from + from, to: valueSpan.from + to } : valueSpan;

/** The attributes of a component, read with their problems. */
export function attributesOf(component: ComponentText): Attributes {
  const diagnostics: Diagnostic[] = [];
  const at = (key: string) =>
    key === 'content' ? component.content : component.attributes.find(({ name }) => name === key);

  function choice<const Word extends string>(
    key: string,
    choices: readonly Word[],
    names: readonly Known[] = choices,
  ): Word | undefined {
    const attribute = at(key);
    if (!attribute) return undefined;
    const text = attributeText(attribute);
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
        const read = readSetting(key, attributeText(attribute), tables);
        if ('value' in read) settings = { ...settings, ...read.value };
        else diagnostics.push(report('figure-value', attribute.valueSpan, { message: read.message, help: read.help }));
      }
      return settings;
    },
    choices(key, choices) {
      const attribute = at(key);
      if (!attribute) return undefined;
      const words = attributeText(attribute)
        .split(/[\s,]+/)
        .filter(Boolean);
      const unknown = words.find((word) => !choices.some((one) => one === word));
      if (unknown !== undefined || words.length === 0) {
        const text = unknown ?? '';
        const facts = { key, text, choices, nearest: nearest(text, choices) };
        diagnostics.push(report('figure-choice', attribute.valueSpan, facts));
      }
      return [...new Set(words)].flatMap((word) => choices.filter((one) => one === word));
    },
    yesOrNo(key) {
      const value = at(key)?.value;
      if (typeof value === 'boolean') return value;
      const word = choice(key, ['yes', 'no'], YES_OR_NO);
      return word === undefined ? undefined : word === 'yes';
    },
    chord(key, songKey) {
      const attribute = at(key);
      const chord = attribute && readChord(attributeText(attribute), songKey);
      if (attribute && !chord)
        diagnostics.push(report('figure-chord', attribute.valueSpan, { text: attributeText(attribute) }));
      return chord;
    },
    notes(key, harp) {
      const attribute = at(key);
      if (!attribute) return undefined;
      const text = attributeText(attribute);
      const read = readNotes(text, harp);
      const placed = (span: TextSpan): TextSpan => placeInAttribute(attribute, span);
      append(
        diagnostics,
        read.diagnostics.map((diagnostic) => movedTo(withoutQuotes(diagnostic), placed)),
      );
      for (const span of read.strays) {
        diagnostics.push(report('figure-notes-only', placed(span), { text: text.slice(span.from, span.to) }));
      }
      return read.bars;
    },
  };
}

/** A fix that writes a quotation mark would end the attribute. */
const withoutQuotes = ({ fix, ...rest }: Diagnostic): Diagnostic =>
  fix?.edits.every(({ text }) => !/["'{}]/.test(text)) ? { ...rest, fix } : rest;
