/** What an author wrote of a harp map, read into what will be drawn. */
import { reporter } from '../../diagnostics/catalogue.ts';
import { knownNames, nearest } from '../../diagnostics/nearest.ts';
import type { HarpMapFigure, Lit, TabNote } from '../../engrave/figure/figure.ts';
import { SCALES, type ScaleId } from '../../instrument/scale.ts';
import { attributeText, type WrittenAttribute } from '../../lesson/component-text.ts';
import { notesOfPhrase } from '../../notation/notes.ts';
import { soundsOf } from '../../score/queries.ts';
import type { Score } from '../../score/score.ts';
import { FIGURE_PROBLEMS } from './problems.ts';
import { blockAt, distinctNotes, findBlock, notesAt, placedOf, scoreAt, type WrittenFigure } from './written-figure.ts';

const LIGHTS = ['scale', 'chord', 'notes', 'phrase', 'block', 'lesson'] as const;

const report = reporter(FIGURE_PROBLEMS);

/** Reads `<HarpMap>`. */
export function readHarpMap(written: WrittenFigure): HarpMapFigure {
  const { attributes, key } = written;
  const lit = whatIsLit(written);
  const over = attributes.chord('over', key);
  const usual = lit?.by === 'scale' ? 'degrees' : lit?.by === 'chord' || over ? 'roles' : 'notes';
  const overbent = lit?.by === 'notes' && lit.notes.some((note) => note.over);
  return {
    kind: 'harp-map',
    ...placedOf(written),
    show: attributes.choice('show', ['notes', 'degrees', 'roles']) ?? usual,
    bends: attributes.yesOrNo('bends') ?? true,
    overbends: attributes.yesOrNo('overbends') ?? overbent,
    ...(lit ? { lit } : {}),
    ...(over ? { chord: over } : {}),
  };
}

function whatIsLit(written: WrittenFigure): Lit | undefined {
  const { attributes, scope, harp, key } = written;
  const [first, second] = LIGHTS.flatMap((name) => {
    const attribute = attributes.at(name);
    return attribute ? [{ ...attribute, name }] : [];
  });
  if (!first) return undefined;
  if (second) {
    const facts = { first: first.name, second: second.name };
    attributes.diagnostics.push(report('figure-lights', second.nameSpan, facts));
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
      return { by: 'notes', notes: notesAt(written, 'notes'), what: 'these notes' };
    case 'phrase':
      return phrase(written, first);
    case 'block': {
      const found = blockAt(written, first, 'this tuning');
      if (!found) return undefined;
      const { score, id } = found;
      return { by: 'notes', notes: notesOfScores([score]), what: `the notes of “${score.title ?? id}”` };
    }
    case 'lesson': {
      const scores = scope.scores.filter((score) => score.harp.tuning.id === harp.tuning.id);
      return { by: 'notes', notes: notesOfScores(scores), what: 'the notes of this lesson' };
    }
  }
}

/** `lick:answer` of this lesson, `first-bends/lick:answer` of another. */
function phrase(written: WrittenFigure, attribute: WrittenAttribute): Lit | undefined {
  const { diagnostics } = written.attributes;
  const text = attributeText(attribute);
  const match = /^(?:(.+)\/)?([^/:]+):([^/:]+)$/.exec(text);
  if (!match) {
    const message = `“${text}” names no phrase of a block.`;
    const help = 'Write the block and the phrase, as in lick:answer or first-bends/lick:answer.';
    diagnostics.push(report('figure-value', attribute.valueSpan, { message, help }));
    return undefined;
  }
  const [, lesson = written.scope.lesson, id = '', name = ''] = match;
  const found = findBlock(written, lesson, id, attribute);
  if (!found || !scoreAt(written, lesson, id, attribute)) return undefined;
  const notes = notesOfPhrase(found.tree, name, found.context.find);
  if (notes) return { by: 'notes', notes: distinctNotes(notes), what: `the phrase “${name}”` };
  const near = nearest(name, found.tree.phrases.keys());
  diagnostics.push(report('figure-unknown', attribute.valueSpan, { what: 'phrase', name, nearest: near }));
  return undefined;
}

const notesOfScores = (scores: readonly Score[]): TabNote[] =>
  distinctNotes(
    scores.flatMap((score) =>
      soundsOf(score).flatMap(({ breath, notes }) => notes.map((note) => ({ ...note, breath }))),
    ),
  );
