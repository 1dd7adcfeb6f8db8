/**
 * Large type for a phone on a music stand: what to do now, and what next. A blow number is above the line and a draw
 * number under it, a bend lower by a notch for each half step, as in the breath lanes.
 */
import { endsInQuarter } from '../../instrument/quarter-step.ts';
import type { Moment } from '../../schedule/plan.ts';
import { barInWords } from '../../score/bar-words.ts';
import { chordAtTick, type Playback, type PlayedEvent, type PlayedNote } from '../../score/playback.ts';
import { playerText } from '../texts/player.ts';
import type { Showing } from '../transport.ts';
import { make, makeSvg } from './dom.ts';
import { chordInFull, reedInWords, tempoInWords } from './in-words.ts';

/** The panel that shows the current note so large that it can be read from a music stand. */
export interface LargeType {
  readonly show: (showing: Showing | undefined) => void;
  /** Opens or closes it. The page has room for one: opening closes that of another block. */
  readonly open: (open: boolean) => void;
  /** How much of the foot of the screen it covers, in pixels. */
  readonly covered: () => number;
}

let closeOther: (() => void) | undefined;

/** Whether the large type of some block is open. */
export const isLargeTypeOpen = (): boolean => closeOther !== undefined;

/** `opened` hears when it opens or closes. */
export function createLargeType(playback: () => Playback, opened: (open: boolean) => void): LargeType {
  const place = make('p', { class: 'large-type-place' });
  const now = make('div', { class: 'large-type-now' });
  const next = make('div', { class: 'large-type-next' });
  const element = make(
    'section',
    { class: 'large-type', 'aria-label': playerText('whatToPlay'), hidden: true },
    place,
    now,
    next,
  );
  let shown = '';
  let harp: Playback['harp'] | undefined;
  let latest: Showing | undefined;

  function show(showing: Showing | undefined): void {
    const at = (moment: Moment | undefined) => [moment?.measure, moment?.tick];
    const key = showing ? JSON.stringify([showing.counting, showing.tempo, at(showing.moment), at(showing.next)]) : '-';
    if (key === shown && harp === playback().harp) return;
    shown = key;
    harp = playback().harp;
    latest = showing;
    if (!element.hidden) write();
  }

  /** Nothing is written while it is hidden: notes pass many times a second. */
  function write(): void {
    const showing = latest;
    place.textContent = showing ? placeInWords(showing, playback()) : playerText('pressPlay');
    const [first, second] = showing?.counting ? [undefined, showing.moment] : [showing?.moment, showing?.next];
    now.replaceChildren(...(showing ? sheet(playerText('now'), first, playback()) : []));
    next.replaceChildren(...(second ? sheet(playerText('next'), second, playback()) : []));
  }

  function open(wanted: boolean): void {
    if (wanted === !element.hidden) return;
    if (wanted) {
      closeOther?.();
      closeOther = close;
    } else closeOther = undefined;
    element.hidden = !wanted;
    if (wanted) write();
    opened(wanted);
  }
  const close = (): void => open(false);

  function covered(): number {
    const { top, bottom, left } = element.getBoundingClientRect();
    return element.hidden || left > 0 ? 0 : bottom - top;
  }

  document.body.append(element);
  return { show, open, covered };
}

function placeInWords({ moment, tempo }: Showing, playback: Playback): string {
  const bar = playback.bars[moment.bar];
  if (!bar) return '';
  const name = barInWords(bar.number);
  const chord = chordAtTick(bar, moment.tick);
  return [name.charAt(0).toUpperCase() + name.slice(1), chord ? chordInFull(chord) : '', tempoInWords(tempo)]
    .filter(Boolean)
    .join(' · ');
}

/** A moment of the block, or where there is none the count-in. */
function sheet(label: string, moment: Moment | undefined, playback: Playback): Node[] {
  const head = make('span', { class: 'large-type-label' }, label);
  const word = (text: string): Node[] => [head, make('span', { class: 'large-type-word' }, text)];
  if (!moment) return word(playerText('countInShown'));
  if (moment.answer) return word(playerText('yourAnswer'));
  const event = moment.event === undefined ? undefined : playback.bars[moment.bar]?.events[moment.event];
  if (!event?.notes || !event.breath) return word(playerText('rest'));
  return [head, hole(event), about(event, moment.held, playback)];
}

/** The number on its side of the line; a quarter step is on the notch of the half step above it, and has its letter. */
function hole({ notes = [], breath }: PlayedEvent): HTMLElement {
  const depth = Math.min(3, Math.max(0, ...notes.map(({ bend = 0 }) => Math.floor(bend))));
  const holes = notes.map(({ hole, bend = 0 }) => `${hole}${endsInQuarter(bend) ? 'q' : ''}`).join(' ');
  const many = notes.length > 2 ? ' many' : '';
  return make('span', { class: `large-type-hole ${breath} notch-${depth}${many}` }, make('b', {}, holes));
}

function about(event: PlayedEvent, held: boolean, playback: Playback): HTMLElement {
  const first = event.notes?.[0];
  const mouth = (event.mouth ?? playback.mouth) === 'tongue' ? playerText('tongueBlock') : playerText('lips');
  const bent = event.notes?.find((note) => reedInWords(note, event.breath) !== '');
  const marks = [...(event.marks ?? []), ...(event.shake === undefined ? [] : ['shake'])];
  const quote = event.quote === undefined ? undefined : playback.quotes[event.quote];
  return make(
    'span',
    { class: 'large-type-about' },
    ...lines([
      event.tied && held ? playerText('hold') : event.breath ? playerText(event.breath) : '',
      bent ? reedInWords(bent, event.breath) : '',
      mouth,
    ]),
    ...(first && event.notes?.length === 1 ? roleOf(first) : []),
    // What a small screen cannot hold is cut off here.
    ...lines([event.glides ? playerText('glideOn') : '', marks.join(', ')]),
    ...(quote === undefined ? [] : [make('span', { class: 'large-type-quote' }, playerText('quotedFrom', { quote }))]),
  );
}

const lines = (texts: readonly string[]): HTMLElement[] => texts.filter(Boolean).map((text) => make('span', {}, text));

/** Shape and letter of a role: as many sides as the degree, hollow when flat. The block's page has the shapes. */
function roleOf({ role }: PlayedNote): HTMLElement[] {
  if (role === undefined) return [];
  const number = role === 'R' ? 1 : Number(role.replace(/\D/g, ''));
  const degree = ((number - 1) % 7) + 1;
  const mark = `m${degree % 2 === 1 ? ` r${degree}` : ''}${role.includes('♭') ? ' f' : ''}`;
  const shape = makeSvg(
    'svg',
    { viewBox: '-16 -16 32 32', 'aria-hidden': 'true' },
    makeSvg('use', { href: `#s${degree}`, class: mark }),
  );
  return [make('span', { class: 'large-type-role' }, shape, role === 'R' ? 'root' : role)];
}
