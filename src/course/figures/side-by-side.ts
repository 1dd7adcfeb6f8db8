/** What an author wrote of a tune on two harps or in two positions, read into what will be drawn. */
import { reporter } from '../../diagnostics/catalogue.ts';
import type { TextSpan } from '../../diagnostics/diagnostic.ts';
import type { SideBySideFigure, SideNote, TuneSide } from '../../engrave/figure/figure.ts';
import { keyInPosition } from '../../harmony/key.ts';
import { type Harp, keyNote, tonicInPosition } from '../../instrument/harp.ts';
import { chromaOf, mod } from '../../instrument/pitch.ts';
import { POSITIONS } from '../../instrument/position.ts';
import { attributeText, type WrittenAttribute } from '../../lesson/component-text.ts';
import { readSetting } from '../../notation/setting-values.ts';
import type { Settings } from '../../notation/settings.ts';
import { isSoundEvent, soundsOf } from '../../score/queries.ts';
import type { Score } from '../../score/score.ts';
import { difficultyOf } from '../../technique/difficulty.ts';
import { present } from '../../values/checked.ts';
import { placeInAttribute } from './attributes.ts';
import { FIGURE_PROBLEMS } from './problems.ts';
import { type TuneOnHarp, tuneAsWritten, tuneOnHarp } from './same-tune.ts';
import { blockAt, type WrittenFigure } from './written-figure.ts';

const report = reporter(FIGURE_PROBLEMS);

/** Where a tune is played, and how far away, in half steps, it may sound there. */
interface Place {
  readonly harp: Harp;
  readonly position: number;
  readonly shifts: readonly number[];
}

/** Reads `<SideBySide>`. */
export function readSideBySide(written: WrittenFigure): SideBySideFigure | undefined {
  const attribute = written.attributes.at('block');
  const places = sidesAt(written);
  const found = attribute && blockAt(written, attribute, 'any tuning');
  if (!found || !places) return undefined;
  const { score, id } = found;
  const sides = places(score).map((place) => sideOf(score, place));
  const [first, second] = [present(sides[0], 'a side'), present(sides[1], 'a side')];
  return {
    kind: 'side-by-side',
    tune: score.title ?? id,
    sides: [first.side, second.side],
    bars: score.bars.map(({ number, events }) => ({
      number,
      notes: events.filter(isSoundEvent).flatMap((sound): SideNote[] => {
        if (sound.tied) return [];
        const midis = sound.notes.map(({ pitch }) => pitch.midi + first.tune.shift);
        return [{ midis, held: [first, second].map(({ tune }) => tune.held.get(sound.index) ?? null) }];
      }),
    })),
    ...written.title,
  };
}

/** The two harps or the two positions, for a score that is read later. */
function sidesAt(written: WrittenFigure): ((score: Score) => readonly Place[]) | undefined {
  const { attributes, component } = written;
  const [harps, positions] = [attributes.at('harps'), attributes.at('positions')];
  const attribute = harps ?? positions;
  if (!attribute || (harps && positions)) {
    attributes.diagnostics.push(report('figure-sides', positions?.nameSpan ?? component.nameSpan, {}));
    return undefined;
  }
  if (harps) {
    const read = twoOf(written, harps, 'harp');
    return read && ((score) => read.map(({ harp }) => onHarpInKey(score, { ...harp, tuning: score.harp.tuning })));
  }
  const read = twoOf(written, attribute, 'position');
  return read && ((score) => read.map(({ position }) => inPosition(score, position)));
}

/** The settings with each of the two values of an attribute, which are divided by a comma. */
function twoOf(
  { attributes, scope }: WrittenFigure,
  attribute: WrittenAttribute,
  key: 'harp' | 'position',
): Settings[] | undefined {
  const text = attributeText(attribute);
  const parts = [...text.matchAll(/[^,]+/g)].map((match): TextSpan & { readonly text: string } => {
    const from = match.index + match[0].length - match[0].trimStart().length;
    const value = match[0].trim();
    return { text: value, from, to: from + value.length };
  });
  if (parts.length !== 2) {
    attributes.diagnostics.push(report('figure-sides', attribute.valueSpan, {}));
    return undefined;
  }
  const values = parts.flatMap((part): Settings[] => {
    const read = readSetting(key, part.text, scope.context);
    if ('value' in read) return [{ ...scope.context.defaults, ...read.value }];
    const facts = { message: read.message, help: read.help };
    attributes.diagnostics.push(report('figure-value', placeInAttribute(attribute, part), facts));
    return [];
  });
  return values.length === 2 ? values : undefined;
}

const OCTAVES = [0, 12, -12, 24, -24];

/** The tune at its own pitches on a harp, or in another octave. */
function onHarpInKey(score: Score, harp: Harp): Place {
  const { tonic } = score.key;
  const position = POSITIONS.find((one) => chromaOf(tonicInPosition(harp.key, one)) === chromaOf(tonic));
  return { harp, position: present(position, 'a position'), shifts: OCTAVES };
}

/** The tune on its own harp, moved to the key of a position. */
function inPosition({ harp, key }: Score, position: number): Place {
  const up = mod(chromaOf(tonicInPosition(harp.key, position)) - chromaOf(key.tonic), 12);
  return { harp, position, shifts: up === 0 ? OCTAVES : [up, up - 12, up + 12, up - 24] };
}

function sideOf(
  score: Score,
  { harp, position, shifts }: Place,
): { readonly side: TuneSide; readonly tune: TuneOnHarp } {
  const isOwn = keyNote(harp) === keyNote(score.harp) && position === score.position;
  const tune = isOwn ? tuneAsWritten(score) : tuneOnHarp(score, harp, shifts);
  const { level, breath } = difficultyOf(tune.score);
  const struck = soundsOf(tune.score).filter(({ tied }) => !tied);
  const side = {
    harp,
    position,
    key: keyInPosition(harp.key, position, score.key.mode),
    shift: tune.shift,
    bent: struck.filter(({ notes }) => notes.some(({ bend }) => bend > 0)).length,
    overbent: struck.filter(({ notes }) => notes.some(({ over }) => over)).length,
    turns: breath.turns,
    level,
  };
  return { side, tune };
}
