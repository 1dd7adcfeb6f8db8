/**
 * A rhythm without pitch: a disc for each stroke with a line for its length, syllables under it, and the count. Bars follow each other in
 * lines. Each bar is a picture, and a sentence that says the same.
 */
import type { Playback, PlayedBar, PlayedEvent } from '../../score/playback.ts';
import { fraction } from '../../time/fraction.ts';
import { beatLength, type Meter, meterName } from '../../time/meter.ts';
import { itemAt } from '../../values/checked.ts';
import { escapeText, n } from '../markup.ts';
import { lengthInWords } from '../text-alternative.ts';
import { textWidth } from '../text-width.ts';
import { countsOf, countTextAt, countWordsAt } from './count.ts';
import type { RhythmLineFigure } from './figure.ts';
import { aloud } from './markup.ts';

/** CSS pixels. */
const SYLLABLE = 15;
const COUNT = 14;
/** Between two strokes, two counts and two beats at the least. */
const STROKE_ROOM = 21;
const COUNT_ROOM = 17;
const COUNT_GAP = 4;
const BEAT_ROOM = 44;
const GAP = 7;
/** At both ends of a bar; more on the left where the first syllable of a bar is wide. */
const MARGIN = 12;
const DISC = 6.5;
const ACCENTED_DISC = 8.5;
const STROKE_Y = 28;
const BAR_TOP = 10;
const BAR_BOTTOM = 46;

/** A stroke as it is struck, with what is tied to it in the same bar. */
interface Stroke {
  readonly at: number;
  readonly end: number;
  /** Goes on from the bar before. */
  readonly held: boolean;
  readonly accent: boolean;
  readonly syllable: string | undefined;
  /** The place of its event in the bar. */
  readonly event: number;
}

/** The rhythm line as an HTML list of its bars. */
export function drawRhythmLine(figure: RhythmLineFigure): string {
  const { playback } = figure;
  const bars = playback.bars.map((bar) => strokesOf(bar, figure.syllables));
  const scale = scaleOf(playback, bars);
  const hasSyllables = bars.flat().some(({ syllable }) => syllable !== undefined);
  const widest = Math.max(
    ...bars.map(([first]) => (first?.at === 0 ? textWidth(first.syllable ?? '', SYLLABLE, true) : 0)),
  );
  const margin = Math.max(MARGIN, widest / 2 + 3);
  const items = playback.bars.map((bar, index) => {
    const strokes = bars[index] ?? [];
    return `<li>${picture(playback, strokes, { index, scale, hasSyllables, margin })}${aloud(barInSentence(playback, bar, strokes))}</li>`;
  });
  const title = figure.title ?? 'Rhythm';
  return (
    `<figcaption>${escapeText(title)}<span class="on">, ${meterName(playback.meter)}${feelInWords(playback)}</span></figcaption>` +
    `<ol class="rhythm-line">${items.join('')}</ol>`
  );
}

function feelInWords({ feel }: Playback): string {
  if (feel.name === 'straight') return '';
  return feel.name === 'shuffle' ? ', shuffle' : `, swing ${feel.long} to ${feel.short}`;
}

function strokesOf(bar: PlayedBar, syllables: RhythmLineFigure['syllables']): Stroke[] {
  const strokes: Stroke[] = [];
  const isStroke = (event: PlayedEvent): boolean => event.notes !== undefined;
  bar.events.forEach((event, place) => {
    if (!isStroke(event)) return;
    const last = strokes.at(-1);
    const end = event.at + event.length;
    if (event.tied && last?.end === event.at) strokes[strokes.length - 1] = { ...last, end };
    else
      strokes.push({
        at: event.at,
        end,
        held: event.tied ?? false,
        accent: event.marks?.includes('accent') ?? false,
        syllable: syllables[event.index] ?? undefined,
        event: place,
      });
  });
  return strokes;
}

/** CSS pixels of a tick, so that nothing of any bar is too near to the next. */
function scaleOf(playback: Playback, bars: readonly (readonly Stroke[])[]): number {
  let scale = 0;
  const keep = (pixels: number, ticks: number): void => {
    if (ticks > 0) scale = Math.max(scale, pixels / ticks);
  };
  keep(BEAT_ROOM, beatTicksOf(playback.meter, playback.ticks));
  playback.bars.forEach((bar, index) => {
    const strokes = bars[index] ?? [];
    strokes.forEach(({ at, syllable }, place) => {
      const next = strokes[place + 1]?.at ?? bar.length;
      const room =
        syllable === undefined ? STROKE_ROOM : Math.max(STROKE_ROOM, textWidth(syllable, SYLLABLE, true) + GAP);
      keep(room, next - at);
    });
    const counts = countsOf(playback, bar);
    const half = counts.map((at) => textWidth(countTextAt(playback, at), COUNT, true) / 2);
    for (const [place, at] of counts.entries()) {
      // A word of the count, such as “trip”, is wider than a number.
      const words = (half[place] ?? 0) + (half[place + 1] ?? 0) + COUNT_GAP;
      keep(Math.max(COUNT_ROOM, words), (counts[place + 1] ?? bar.length) - at);
    }
  });
  return scale;
}

const beatTicksOf = (meter: Meter, ticks: number): number => {
  const beat = beatLength(meter);
  return (beat.n * ticks) / beat.d;
};

interface BarLook {
  readonly index: number;
  readonly scale: number;
  readonly hasSyllables: boolean;
  /** From the bar line to the first beat. */
  readonly margin: number;
}

function picture(
  playback: Playback,
  strokes: readonly Stroke[],
  { index, scale, hasSyllables, margin }: BarLook,
): string {
  const bar = itemAt(playback.bars, index);
  const syllableY = 64;
  const countY = hasSyllables ? 86 : 66;
  const [width, height] = [margin + bar.length * scale + MARGIN, countY + 8];
  const x = (tick: number): number => margin + tick * scale;
  const beat = beatTicksOf(playback.meter, playback.ticks);
  const beats: string[] = [];
  for (let at = 0; at < bar.length; at += beat)
    if (at > 0) beats.push(`<path class="beat" d="M${n(x(at))} ${BAR_TOP + 6}V${BAR_BOTTOM - 4}"/>`);
  const ends = [0, width].map((at) => `<path class="bar-line" d="M${n(at)} ${BAR_TOP}V${BAR_BOTTOM}"/>`);
  const drawn = strokes.map(({ at, end, held, accent, syllable, event }) => {
    const radius = accent ? ACCENTED_DISC : DISC;
    const from = held ? 0 : x(at);
    const goesOn = end === bar.length && tiesOver(playback, index);
    const to = goesOn ? width : x(end) - (DISC + 3);
    const line = to > from + radius ? `<path class="length" d="M${n(from)} ${STROKE_Y}H${n(to)}"/>` : '';
    const disc = held ? '' : `<circle cx="${n(x(at))}" cy="${STROKE_Y}" r="${radius}"/>`;
    const wedge = accent ? `<path class="accent" d="M${n(x(at) - 6)} 4L${n(x(at) + 7)} 9L${n(x(at) - 6)} 14"/>` : '';
    const word =
      syllable === undefined
        ? ''
        : `<text class="syllable${accent ? ' strong' : ''}" x="${n(x(at))}" y="${syllableY}">${escapeText(syllable)}</text>`;
    return `<g class="stroke" data-bar="${index}" data-event="${event}">${line}${disc}${wedge}${word}</g>`;
  });
  const struck = new Set(strokes.filter(({ held }) => !held).map(({ at }) => at));
  const counts = countsOf(playback, bar).map((at) => {
    const text = countTextAt(playback, at);
    return `<text class="count${struck.has(at) ? ' strong' : ''}" x="${n(x(at))}" y="${countY}">${text}</text>`;
  });
  return (
    `<svg viewBox="-1 0 ${n(width + 2)} ${height}" width="${n(width + 2)}" height="${height}" aria-hidden="true" focusable="false">` +
    `${beats.join('')}${ends.join('')}${drawn.join('')}${counts.join('')}</svg>`
  );
}

const tiesOver = ({ bars }: Playback, index: number): boolean => bars[index + 1]?.events[0]?.tied ?? false;

function barInSentence(playback: Playback, { number }: PlayedBar, strokes: readonly Stroke[]): string {
  const said = strokes.map(({ at, end, held, accent, syllable }) =>
    [
      held ? 'held over' : countWordsAt(playback, at),
      accent && 'accented',
      syllable,
      lengthInWords(fraction(end - at, playback.ticks), playback.meter),
    ]
      .filter(Boolean)
      .join(', '),
  );
  return `Bar ${number}: ${said.length > 0 ? said.join('; ') : 'no stroke'}. `;
}
