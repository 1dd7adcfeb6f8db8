/** Marks what sounds on the block, staff, breath lanes and chord symbol at once, and keeps it on the screen. */
import type { Moment } from '../../schedule/plan.ts';
import type { Playback } from '../../score/playback.ts';
import { make } from './dom.ts';

/** Shows in the drawing which note sounds. */
export interface Cursor {
  /** A band over the note that sounds and a line under the chord it sounds in, laid over the block. */
  readonly elements: readonly HTMLElement[];
  /** `follows` says whether the page is scrolled to it. */
  readonly show: (moment: Moment | undefined, follows: boolean) => void;
  /** Follows to what will be played first, without marking it: it is read while the player counts. */
  readonly prepare: (moment: Moment) => void;
  /** Follows to what is marked or prepared, even where its row was followed to before. False where nothing is. */
  readonly reveal: () => boolean;
  /** Lays the marks again where the block's tiles have moved or been drawn again. */
  readonly refresh: () => void;
}

/** Pixels that the band is wider than its note on either side. */
const BAND_MARGIN = 4;
/** Pixels that the band and the line are wide before they are stretched. */
const UNSCALED_WIDTH = 100;
/** Pixels from a chord symbol down to its line. */
const CHORD_LINE_GAP = 1;

/** What a block's bars, events and chord symbols are drawn as, found once and not again for every note. */
interface Drawn {
  readonly tiles: Element[];
  readonly events: Map<string, Element[]>;
  readonly chords: Map<string, Element[]>;
}

/** Where on the screen a row is that is played. */
export interface PlayedRow {
  readonly whole: DOMRect;
  /** Its part with the numbers of the holes, which players read; not there where a page shows the staff alone. */
  readonly lanes: DOMRect | undefined;
}

/** `followTo` is called when playing reaches another row. */
export function createCursor(block: HTMLElement, playback: () => Playback, followTo: (row: PlayedRow) => void): Cursor {
  // Both are moved and stretched by a transform alone: what lies under them is not painted again for every note.
  const band = make('div', { class: 'play-band', hidden: true });
  const line = make('div', { class: 'play-line', hidden: true });
  const elements = [band, line];
  for (const element of elements) element.style.width = `${UNSCALED_WIDTH}px`;
  let drawn = new Map<string, Drawn>();
  let marked: readonly Element[] = [];
  let shown: Moment | undefined;
  let prepared: Moment | undefined;
  let row = Number.NaN;

  function show(moment: Moment | undefined, follows: boolean): void {
    if (same(moment, shown)) return;
    shown = moment;
    prepared = undefined;
    const scrolled = scrollY;
    const place = draw();
    if (!moment) row = Number.NaN;
    if (place && follows) follow(place, scrolled);
  }

  function refresh(): void {
    // Tiles drawn again have lost their marks.
    if (!marked.every((element) => element.isConnected)) drawn = new Map();
    draw();
  }

  function prepare(moment: Moment): void {
    prepared = moment;
    const played = rowOf(tilesOf(moment)[0]);
    if (played) follow(played, scrollY);
  }

  function reveal(): boolean {
    row = Number.NaN;
    const moment = shown ?? prepared;
    if (!moment) return false;
    const played = shown ? draw() : rowOf(tilesOf(moment)[0]);
    if (played) follow(played, scrollY);
    return played !== undefined;
  }

  const tilesOf = ({ bar }: Moment): Element[] => drawnAs(String(bar)).tiles;

  /** Marks what is shown, and says where on the screen its row is. */
  function draw(): PlayedRow | undefined {
    if (!shown) {
      mark([]);
      for (const element of elements) element.hidden = true;
      return undefined;
    }
    const { bar: number, event: begun, tick, answer } = shown;
    const bar = playback().bars[number];
    const event = begun === undefined ? undefined : bar?.events[begun];
    const chord = bar?.chords.findLastIndex((one) => one.at <= tick);
    const { tiles, events, chords } = drawnAs(String(number));
    const notes = (event && events.get(String(event.index))) ?? [];
    const symbols = chords.get(String(chord)) ?? [];
    const tile = notes[0]?.closest('[data-bar]') ?? tiles[0];
    // All is measured before anything is changed, so that nothing has to be laid out twice.
    const zero = block.getBoundingClientRect();
    const played = rowOf(tile);
    const place = played?.whole;
    const note = around(notes);
    const symbol = symbols[0]?.getBoundingClientRect();

    mark([...tiles, ...notes, ...symbols]);
    for (const tile of tiles) tile.classList.toggle('answer', answer);
    lay(
      band,
      zero,
      place && note && new DOMRect(note.x - BAND_MARGIN, place.y, note.width + 2 * BAND_MARGIN, place.height),
    );
    lay(line, zero, symbol && new DOMRect(symbol.x, symbol.bottom + CHORD_LINE_GAP, symbol.width, 2));
    return played;
  }

  function lay(element: HTMLElement, zero: DOMRect, over: DOMRect | undefined): void {
    element.hidden = !over;
    if (!over) return;
    const { x, y, width, height } = over;
    element.style.height = `${height}px`;
    element.style.transform = `translate(${x - zero.x}px, ${y - zero.y}px) scaleX(${width / UNSCALED_WIDTH})`;
  }

  function drawnAs(bar: string): Drawn {
    const known = drawn.get(bar);
    if (known) return known;
    const tiles = [...block.querySelectorAll(`[data-bar="${bar}"]`)];
    const all = (what: string): Map<string, Element[]> => {
      const found = new Map<string, Element[]>();
      for (const element of tiles.flatMap((tile) => [...tile.querySelectorAll(`[data-${what}]`)])) {
        const index = element.getAttribute(`data-${what}`) ?? '';
        found.set(index, [...(found.get(index) ?? []), element]);
      }
      return found;
    };
    const found = { tiles, events: all('event'), chords: all('chord') };
    drawn.set(bar, found);
    return found;
  }

  /** What stays marked is not touched, so that nothing is drawn again without need. */
  function mark(elements: readonly Element[]): void {
    for (const element of marked) if (!elements.includes(element)) element.classList.remove('now', 'answer');
    for (const element of elements) if (!marked.includes(element)) element.classList.add('now');
    marked = elements;
  }

  /** Only a new row is followed to. */
  function follow(played: PlayedRow, scrolled: number): void {
    const inPage = Math.round(played.whole.top + scrolled);
    if (inPage === row) return;
    row = inPage;
    followTo(played);
  }

  return { elements, show, prepare, reveal, refresh };
}

function rowOf(tile: Element | undefined): PlayedRow | undefined {
  const lanes = tile?.querySelector('.lanes')?.getBoundingClientRect();
  return tile && { whole: tile.getBoundingClientRect(), lanes: lanes && lanes.height > 0 ? lanes : undefined };
}

/** A note is drawn in several parts of its tile, some of which may not be shown. */
function around(elements: readonly Element[]): DOMRect | undefined {
  const shown = elements.map(sidesOf).filter(({ left, right }) => right > left);
  if (shown.length === 0) return undefined;
  const left = Math.min(...shown.map((own) => own.left));
  const right = Math.max(...shown.map((own) => own.right));
  return new DOMRect(left, 0, right - left, 0);
}

/**
 * Where on the screen a drawing begins and ends, without its strokes: Firefox counts them in what an element covers, each as wide as
 * its sharpest corner could make it.
 */
function sidesOf(element: Element): { readonly left: number; readonly right: number } {
  const covered = element.getBoundingClientRect();
  if (covered.width === 0 || !(element instanceof SVGGraphicsElement)) return covered;
  const matrix = element.getScreenCTM();
  if (!matrix) return covered;
  const { x, width } = element.getBBox();
  return { left: matrix.a * x + matrix.e, right: matrix.a * (x + width) + matrix.e };
}

const same = (a: Moment | undefined, b: Moment | undefined): boolean =>
  a?.bar === b?.bar && a?.tick === b?.tick && a?.answer === b?.answer;
