/** What the readers of all figures share: a component with its settings, and the notes, chords and blocks it names. */
import { reporter } from '../../diagnostics/catalogue.ts';
import type { TabNote } from '../../engrave/figure/figure.ts';
import type { Chord, NoChord } from '../../harmony/chord.ts';
import { chordsOfBar } from '../../harmony/form.ts';
import type { SongKey } from '../../harmony/key.ts';
import { distinctChords } from '../../harmony/role-table.ts';
import { keyOfSong } from '../../harmony/song-key.ts';
import { type Harp, holeCount } from '../../instrument/harp.ts';
import { FIGURES, type FigureName } from '../../lesson/component.ts';
import { attributeText, type ComponentText, type WrittenAttribute } from '../../lesson/component-text.ts';
import type { FoundBlock, ReadContext } from '../../notation/context.ts';
import { homeSymbols, type SettingKey } from '../../notation/setting-values.ts';
import type { Settings } from '../../notation/settings.ts';
import type { Score } from '../../score/score.ts';
import { ONE } from '../../time/fraction.ts';
import { type Attributes, attributesOf } from './attributes.ts';
import { FIGURE_PROBLEMS } from './problems.ts';

/** What a figure is read against. */
export interface FigureScope {
  readonly lesson: string;
  /** The lesson's settings, the tables of names, and where blocks are found. */
  readonly context: ReadContext;
  /** The score of a block, by the name of its lesson and its own; undefined where it has an error. */
  readonly scoreOf: (lesson: string, block: string) => Score | undefined;
  /** Scores of the lesson's own blocks. */
  readonly scores: readonly Score[];
}

/** The component of a figure. */
export type FigureText = ComponentText & { readonly name: FigureName };

/** A figure as it is written, with the settings that apply to it. */
export interface WrittenFigure {
  readonly component: FigureText;
  readonly scope: FigureScope;
  readonly attributes: Attributes;
  /** Those of the lesson under those of its attributes. */
  readonly settings: Settings;
  readonly harp: Harp;
  readonly position: number;
  readonly key: SongKey;
  /** The author's own title, or nothing. */
  readonly title: { readonly title?: string };
}

const SETTINGS = [
  'harp', 'tuning', 'position', 'form', 'chords', 'meter', 'tempo', 'feel', 'slot',
] as const satisfies readonly SettingKey[]; // biome-ignore format: a list to read across

const report = reporter(FIGURE_PROBLEMS);

/** The settings of a figure; attributes it does not take are reported elsewhere. */
export function writtenFigure(component: FigureText, scope: FigureScope): WrittenFigure {
  const attributes = attributesOf(component);
  const { at } = attributes;
  const known = Object.keys(FIGURES[component.name]);
  const settings = attributes.settings(
    SETTINGS.filter((key) => known.includes(key)),
    scope.context.defaults,
    scope.context,
  );
  const { position, progression } = settings;
  const harp: Harp = { ...settings.harp, tuning: settings.tuning };
  // A map that shows the minor home chord is in minor, whatever chords its lesson has.
  const shown = [at('chord'), at('over')].map(attributeText);
  // The mode that the lesson names is that of its position.
  const mode = position === scope.context.defaults.position ? settings.key?.mode : undefined;
  const key = keyOfSong(harp, position, [...shown, ...homeSymbols(progression, scope.context)], mode);
  const written = attributeText(at('title')).trim();
  const title = written === '' ? {} : { title: written };
  return { component, scope, attributes, settings, harp, position, key, title };
}

/** What a figure on a harp, in a key, has of its settings. */
export const placedOf = ({ harp, position, key, title }: WrittenFigure) => ({ harp, position, key, ...title });

/** The notes of an attribute, each once. */
export function notesAt({ attributes, component, harp }: WrittenFigure, name: string): TabNote[] {
  const attribute = attributes.at(name);
  const before = attributes.diagnostics.length;
  const bars = attributes.notes(name, harp);
  if (!attribute || !bars) return [];
  const { diagnostics } = attributes;
  if (bars.length > 1) diagnostics.push(report('figure-notes-only', attribute.valueSpan, { text: '|' }));
  // What is there and cannot be read has been reported.
  if (bars.flat().length === 0 && diagnostics.length === before)
    diagnostics.push(report('figure-empty', attribute.valueSpan, { component: component.name, key: name }));
  return distinctNotes(bars.flat());
}

/** The hole that an attribute names. */
export function holeAt({ attributes, harp }: WrittenFigure, name: string): number | undefined {
  const attribute = attributes.at(name);
  if (!attribute) return undefined;
  const text = attributeText(attribute);
  const hole = /^\d{1,2}$/.test(text) ? Number(text) : 0;
  const holes = holeCount(harp);
  if (hole >= 1 && hole <= holes) return hole;
  attributes.diagnostics.push(report('figure-no-hole', attribute.valueSpan, { text, holes }));
  return undefined;
}

/** The chords of each bar of the form or of the list of chords; undefined where there are none. */
export function chordsOfBars(written: WrittenFigure): (readonly (Chord | NoChord)[])[] | undefined {
  const { attributes, component, settings, key } = written;
  const { progression } = settings;
  if (progression) return progression.bars.map((bar) => chordsOfBar(bar, key, ONE).map(({ chord }) => chord));
  // A form or chords that cannot be read have been reported.
  if (attributes.at('form') || attributes.at('chords')) return undefined;
  attributes.diagnostics.push(report('figure-no-chords', component.nameSpan, { component: component.name }));
  return undefined;
}

/** Each chord of the form once, in the order of first use; undefined where there is no form and no list of chords. */
export const distinctChordsOf = (written: WrittenFigure): readonly Chord[] | undefined => {
  const bars = chordsOfBars(written);
  return bars && distinctChords(bars.flat().filter((chord) => chord !== 'none'));
};

/** The block that an attribute names; one that does not exist is reported. */
export function findBlock(
  { attributes, scope }: WrittenFigure,
  lesson: string,
  id: string,
  attribute: WrittenAttribute,
): Exclude<FoundBlock, { readonly missing: unknown }> | undefined {
  const found = scope.context.find(lesson, id);
  if (!('missing' in found)) return found;
  const facts = {
    what: found.missing,
    name: found.missing === 'lesson' ? lesson : id,
    nearest: found.nearest,
    ...(found.renamed ? { renamed: found.renamed } : {}),
  };
  attributes.diagnostics.push(report('figure-unknown', attribute.valueSpan, facts));
  return undefined;
}

/** The score of a block; one that has an error is reported. */
function anyScoreAt(
  { attributes, scope }: WrittenFigure,
  lesson: string,
  id: string,
  attribute: WrittenAttribute,
): Score | undefined {
  const score = scope.scoreOf(lesson, id);
  if (!score) attributes.diagnostics.push(report('figure-unreadable', attribute.valueSpan, { name: id }));
  return score;
}

/** The score of a block that can be shown on this harp. */
export function scoreAt(
  written: WrittenFigure,
  lesson: string,
  id: string,
  attribute: WrittenAttribute,
): Score | undefined {
  const { attributes, harp } = written;
  const score = anyScoreAt(written, lesson, id, attribute);
  const theirs = score?.harp.tuning.id;
  if (theirs === undefined || theirs === harp.tuning.id) return score;
  const facts = { name: `The block “${id}”`, theirs, ours: harp.tuning.id };
  attributes.diagnostics.push(report('figure-other-tuning', attribute.valueSpan, facts));
  return undefined;
}

/** `lick` of this lesson, `first-bends/lick` of another: the score of the block, for this harp or for whatever harp it is written for. */
export function blockAt(
  written: WrittenFigure,
  attribute: WrittenAttribute,
  of: 'this tuning' | 'any tuning',
): { readonly score: Score; readonly id: string } | undefined {
  const [, lesson = written.scope.lesson, id = ''] = /^(?:(.+)\/)?([^/]+)$/.exec(attributeText(attribute)) ?? [];
  const read = of === 'this tuning' ? scoreAt : anyScoreAt;
  const score = findBlock(written, lesson, id, attribute) && read(written, lesson, id, attribute);
  return score && { score, id };
}

/** A note as a figure holds it. */
export const plainNote = ({ breath, hole, bend, over, slide }: TabNote): TabNote => ({
  breath,
  hole,
  bend,
  over,
  slide,
});

/** Each note once, in the order of first use. */
export function distinctNotes(notes: readonly TabNote[]): TabNote[] {
  const seen = new Map(notes.map((note): [string, TabNote] => [JSON.stringify(plainNote(note)), plainNote(note)]));
  return [...seen.values()];
}
