/** The figures of a lesson: what an author wrote between < and >, read into what will be drawn. */
import { reporter } from '../../diagnostics/catalogue.ts';
import { type Diagnostic, hasError } from '../../diagnostics/diagnostic.ts';
import { knownNames, nearest } from '../../diagnostics/nearest.ts';
import type { Figure, FormChartFigure, HarpMapFigure, Lit, TabNote } from '../../engrave/figure/figure.ts';
import type { Chord, NoChord } from '../../harmony/chord.ts';
import { chordsOfBar } from '../../harmony/form.ts';
import { distinctChords } from '../../harmony/role-table.ts';
import { keyOfSong } from '../../harmony/song-key.ts';
import { type Harp, holeCount } from '../../instrument/harp.ts';
import { SCALES, type ScaleId } from '../../instrument/scale.ts';
import { FIGURES, type FigureName } from '../../lesson/component.ts';
import { attributeText, type ComponentText, type WrittenAttribute } from '../../lesson/component-text.ts';
import type { ReadContext } from '../../notation/context.ts';
import { notesOfPhrase } from '../../notation/notes.ts';
import { homeSymbols, type SettingKey } from '../../notation/setting-values.ts';
import { soundsOf } from '../../score/queries.ts';
import type { Score } from '../../score/score.ts';
import { ONE } from '../../time/fraction.ts';
import { attributesOf } from './attributes.ts';
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

/** A figure with the problems found in it. */
export interface FigureRead {
  /** Undefined if and only if a diagnostic is an error. */
  readonly figure: Figure | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

const SETTINGS = ['harp', 'tuning', 'position', 'form', 'chords'] as const satisfies readonly SettingKey[];
const LIGHTS = ['scale', 'chord', 'notes', 'phrase', 'block', 'lesson'] as const;

const report = reporter(FIGURE_PROBLEMS);

/** Reads a figure; attributes it does not take are reported elsewhere. */
export function readFigure(component: ComponentText & { readonly name: FigureName }, scope: FigureScope): FigureRead {
  const attributes = attributesOf(component);
  const { at, diagnostics } = attributes;
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
  const placed = { harp, position, key, ...title };

  const figure = draw();
  return { figure: hasError(diagnostics) ? undefined : figure, diagnostics };

  function draw(): Figure | undefined {
    switch (component.name) {
      case 'RoleTable': {
        const notes = notesAt('notes');
        const bars = chordsOfBars();
        return (
          bars && {
            kind: 'role-table',
            ...placed,
            notes,
            chords: distinctChords(bars.flat().filter((chord) => chord !== 'none')),
          }
        );
      }
      case 'FormChart':
        return formChart();
      case 'HarpMap':
        return harpMap();
      case 'BendLadder': {
        const hole = holeAt('hole');
        return hole === undefined ? undefined : { kind: 'bend-ladder', harp, hole, ...title };
      }
    }
  }

  function formChart(): FormChartFigure | undefined {
    const bars = chordsOfBars();
    if (!bars) return undefined;
    const targets = targetsFor(bars.length);
    const name = scope.context.forms.find(({ id }) => id === progression?.form)?.title ?? 'The chords';
    return {
      kind: 'form-chart',
      ...placed,
      form: progression?.range ? `${name}, bars ${progression.range.join(' to ')}` : name,
      bars: bars.map((chords, index) => ({ chords, ...(targets[index] ? { target: targets[index] } : {}) })),
    };
  }

  function harpMap(): HarpMapFigure {
    const lit = whatIsLit();
    const over = attributes.chord('over', key);
    const usual = lit?.by === 'scale' ? 'degrees' : lit?.by === 'chord' || over ? 'roles' : 'notes';
    const overbent = lit?.by === 'notes' && lit.notes.some((note) => note.over);
    return {
      kind: 'harp-map',
      ...placed,
      show: attributes.choice('show', ['notes', 'degrees', 'roles']) ?? usual,
      bends: attributes.yesOrNo('bends') ?? true,
      overbends: attributes.yesOrNo('overbends') ?? overbent,
      ...(lit ? { lit } : {}),
      ...(over ? { chord: over } : {}),
    };
  }

  function whatIsLit(): Lit | undefined {
    const [first, second] = LIGHTS.flatMap((name) => {
      const written = at(name);
      return written ? [{ ...written, name }] : [];
    });
    if (!first) return undefined;
    if (second) {
      const facts = { first: first.name, second: second.name };
      diagnostics.push(report('figure-lights', second.nameSpan, facts));
    }
    switch (first.name) {
      case 'scale': {
        const scale = attributes.choice(
          'scale',
          SCALES.map(({ id }): ScaleId => id),
          knownNames(SCALES),
        );
        return scale && { by: 'scale', scale };
      }
      case 'chord': {
        const chord = attributes.chord('chord', key);
        return chord && { by: 'chord', chord };
      }
      case 'notes':
        return { by: 'notes', notes: notesAt('notes'), what: 'these notes' };
      case 'phrase':
        return phrase(first);
      case 'block':
        return block(first);
      case 'lesson': {
        const scores = scope.scores.filter((score) => score.harp.tuning.id === harp.tuning.id);
        return { by: 'notes', notes: notesOfScores(scores), what: 'the notes of this lesson' };
      }
    }
  }

  /** `lick:answer` of this lesson, `first-bends/lick:answer` of another. */
  function phrase(attribute: WrittenAttribute): Lit | undefined {
    const text = attributeText(attribute);
    const match = /^(?:(.+)\/)?([^/:]+):([^/:]+)$/.exec(text);
    if (!match) {
      const message = `“${text}” names no phrase of a block.`;
      const help = 'Write the block and the phrase, as in lick:answer or first-bends/lick:answer.';
      diagnostics.push(report('figure-value', attribute.valueSpan, { message, help }));
      return undefined;
    }
    const [, lesson = scope.lesson, id = '', name = ''] = match;
    const found = find(lesson, id, attribute);
    if (!found || !scoreAt(lesson, id, attribute)) return undefined;
    const notes = notesOfPhrase(found.tree, name, found.context.find);
    if (notes) return { by: 'notes', notes: distinctNotes(notes), what: `the phrase “${name}”` };
    const near = nearest(name, found.tree.phrases.keys());
    diagnostics.push(report('figure-unknown', attribute.valueSpan, { what: 'phrase', name, nearest: near }));
    return undefined;
  }

  /** `lick` of this lesson, `first-bends/lick` of another. */
  function block(attribute: WrittenAttribute): Lit | undefined {
    const [, lesson = scope.lesson, id = ''] = /^(?:(.+)\/)?([^/]+)$/.exec(attributeText(attribute)) ?? [];
    const score = find(lesson, id, attribute) && scoreAt(lesson, id, attribute);
    return score && { by: 'notes', notes: notesOfScores([score]), what: `the notes of “${score.title ?? id}”` };
  }

  function find(lesson: string, id: string, attribute: WrittenAttribute) {
    const found = scope.context.find(lesson, id);
    if (!('missing' in found)) return found;
    const facts = { what: found.missing, name: found.missing === 'lesson' ? lesson : id, nearest: found.nearest };
    diagnostics.push(report('figure-unknown', attribute.valueSpan, facts));
    return undefined;
  }

  /** The score of a block that can be shown on this harp. */
  function scoreAt(lesson: string, id: string, attribute: WrittenAttribute): Score | undefined {
    const score = scope.scoreOf(lesson, id);
    if (!score) {
      diagnostics.push(report('figure-unreadable', attribute.valueSpan, { name: id }));
      return undefined;
    }
    const theirs = score.harp.tuning.id;
    if (theirs === harp.tuning.id) return score;
    const facts = { name: `The block “${id}”`, theirs, ours: harp.tuning.id };
    diagnostics.push(report('figure-other-tuning', attribute.valueSpan, facts));
    return undefined;
  }

  function targetsFor(bars: number): (TabNote | undefined)[] {
    const attribute = at('targets');
    const read = attributes.notes('targets', harp);
    if (!attribute || !read) return [];
    if (read.length > bars)
      diagnostics.push(report('figure-targets', attribute.valueSpan, { bars, targets: read.length }));
    return read.map((notes, index) => {
      if (notes.length > 1) diagnostics.push(report('figure-target-many', attribute.valueSpan, { bar: index + 1 }));
      return notes[0] && plain(notes[0]);
    });
  }

  function notesAt(name: string): TabNote[] {
    const attribute = at(name);
    const bars = attributes.notes(name, harp);
    if (!attribute || !bars) return [];
    if (bars.length > 1) diagnostics.push(report('figure-notes-only', attribute.valueSpan, { text: '|' }));
    if (bars.flat().length === 0)
      diagnostics.push(report('figure-empty', attribute.valueSpan, { component: component.name, key: name }));
    return distinctNotes(bars.flat());
  }

  function holeAt(name: string): number | undefined {
    const attribute = at(name);
    if (!attribute) return undefined;
    const text = attributeText(attribute);
    const hole = /^\d{1,2}$/.test(text) ? Number(text) : 0;
    const holes = holeCount(harp);
    if (hole >= 1 && hole <= holes) return hole;
    diagnostics.push(report('figure-no-hole', attribute.valueSpan, { text, holes }));
    return undefined;
  }

  function chordsOfBars(): (readonly (Chord | NoChord)[])[] | undefined {
    if (progression) return progression.bars.map((bar) => chordsOfBar(bar, key, ONE).map(({ chord }) => chord));
    diagnostics.push(report('figure-no-chords', component.nameSpan, { component: component.name }));
    return undefined;
  }
}

const plain = ({ breath, hole, bend, over, slide }: TabNote): TabNote => ({ breath, hole, bend, over, slide });

/** Each note once, in the order of first use. */
function distinctNotes(notes: readonly TabNote[]): TabNote[] {
  const seen = new Map(notes.map((note): [string, TabNote] => [JSON.stringify(plain(note)), plain(note)]));
  return [...seen.values()];
}

const notesOfScores = (scores: readonly Score[]): TabNote[] =>
  distinctNotes(
    scores.flatMap((score) =>
      soundsOf(score).flatMap(({ breath, notes }) => notes.map((note) => ({ ...note, breath }))),
    ),
  );
