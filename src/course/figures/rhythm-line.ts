/** What an author wrote of a rhythm line, read into what will be drawn: a block with one note, whose pitch nobody hears. */
import { reporter } from '../../diagnostics/catalogue.ts';
import type { RhythmLineFigure } from '../../engrave/figure/figure.ts';
import { attributeText } from '../../lesson/component-text.ts';
import { ALONE } from '../../notation/context.ts';
import { readBlock } from '../../notation/read.ts';
import { DEFAULTS } from '../../notation/settings.ts';
import { playbackOf } from '../../score/playback-of.ts';
import { soundsOf } from '../../score/queries.ts';
import type { Score } from '../../score/score.ts';
import { placeInAttribute } from './attributes.ts';
import { FIGURE_PROBLEMS } from './problems.ts';
import type { WrittenFigure } from './written-figure.ts';

const report = reporter(FIGURE_PROBLEMS);

/** What a rhythm may hold: strokes, accents, holds, rests, groups, single bar lines and spaces. */
const PART = /x|\[accent\]|[=.]\d*|\{|\}\d*|\|\]?|\s+/y;
const STROKE = /x/g;
/** Any note that every harp has. */
const NOTE = '4';
const SYLLABLES = '\nsyllables: ';

/** Reads `<RhythmLine>`. */
export function readRhythmLine(written: WrittenFigure): RhythmLineFigure | undefined {
  const { attributes, settings, title, component } = written;
  const attribute = attributes.at('rhythm');
  if (!attribute) return undefined;
  const rhythm = attributeText(attribute).replace(/[\r\n]/g, ' ');
  const stray = strayIn(rhythm);
  if (stray) {
    const text = rhythm.slice(stray.from, stray.to);
    attributes.diagnostics.push(report('figure-stroke', placeInAttribute(attribute, stray), { text }));
    return undefined;
  }
  const syllables = attributes.at('syllables');
  const under = syllables ? SYLLABLES + attributeText(syllables).replace(/[\r\n]/g, ' ') : '';
  const { meter, tempo, feel, slot } = settings;
  const text = rhythm.replace(STROKE, NOTE) + under;
  const { score, diagnostics } = readBlock(text, { ...ALONE, defaults: { ...DEFAULTS, meter, tempo, feel, slot } });
  for (const diagnostic of diagnostics) {
    const { from, to } = diagnostic.span;
    const behind = rhythm.length + SYLLABLES.length;
    const span =
      syllables && from >= behind
        ? placeInAttribute(syllables, { from: from - behind, to: to - behind })
        : placeInAttribute(attribute, { from, to: Math.min(to, rhythm.length) });
    // A fix is of the text that was read, which is put together.
    const { fix: _, ...said } = diagnostic;
    attributes.diagnostics.push({ ...said, span });
  }
  if (!score) return undefined;
  if (soundsOf(score).length === 0) {
    const facts = { component: component.name, key: 'rhythm' };
    attributes.diagnostics.push(report('figure-empty', attribute.valueSpan, facts));
  }
  return { kind: 'rhythm-line', playback: playbackOf(score), syllables: syllablesOf(score), ...title };
}

function strayIn(rhythm: string): { readonly from: number; readonly to: number } | undefined {
  PART.lastIndex = 0;
  for (let at = 0; at < rhythm.length; at = PART.lastIndex) {
    PART.lastIndex = at;
    if (PART.test(rhythm)) continue;
    const length = /^\S[^\s|]*/.exec(rhythm.slice(at))?.[0].length ?? 1;
    return { from: at, to: at + length };
  }
  return undefined;
}

/** By the index of the event; null where there is none, as JSON has it. */
const syllablesOf = (score: Score): (string | null)[] =>
  score.bars.flatMap(({ events }) =>
    events.map((event) => {
      const syllable = event.kind === 'sound' ? event.syllable : undefined;
      return syllable && !syllable.extends ? syllable.text + (syllable.hyphen ? '-' : '') : null;
    }),
  );
