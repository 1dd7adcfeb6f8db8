/** The sheets of large type: a note as its hole, its breath and what else there is to do. */
import { bendInWords } from '../../../instrument/playable.ts';
import { endsInQuarter } from '../../../instrument/quarter-step.ts';
import type { Moment } from '../../../schedule/plan.ts';
import type { Playback, PlayedEvent, PlayedNote } from '../../../score/playback.ts';
import { largeTypeText } from '../../texts/large-type.ts';
import { make, makeSvg } from '../dom.ts';

/** What there is to play at a moment, as elements below a label; the count-in where there is no moment. */
export function largeTypeSheet(label: string, moment: Moment | undefined, playback: Playback): Node[] {
  const head = make('span', { class: 'large-type-label' }, label);
  const word = (text: string): Node[] => [head, make('span', { class: 'large-type-word' }, text)];
  if (!moment) return word(largeTypeText('countInShown'));
  if (moment.answer) return word(largeTypeText('yourAnswer'));
  const event = moment.event === undefined ? undefined : playback.bars[moment.bar]?.events[moment.event];
  if (!event?.notes || !event.breath) return word(largeTypeText('rest'));
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
  const mouth = (event.mouth ?? playback.mouth) === 'tongue' ? largeTypeText('tongueBlock') : largeTypeText('lips');
  const bent = event.notes?.find((note) => reedInWords(note, event.breath) !== '');
  const marks = [
    ...(event.marks ?? []),
    ...(event.shakeHole === undefined ? [] : [largeTypeText('shakeWith', { hole: event.shakeHole })]),
  ];
  const quote = event.quote === undefined ? undefined : playback.quotes[event.quote];
  return make(
    'span',
    { class: 'large-type-about' },
    ...lines([
      event.tied && held ? largeTypeText('hold') : event.breath ? largeTypeText(event.breath) : '',
      bent ? reedInWords(bent, event.breath) : '',
      mouth,
    ]),
    ...(first && event.notes?.length === 1 ? roleOf(first) : []),
    // What a small screen cannot hold is cut off here.
    ...lines([event.glides ? largeTypeText('glideOn') : '', marks.join(', ')]),
    ...(quote === undefined
      ? []
      : [make('span', { class: 'large-type-quote' }, largeTypeText('quotedFrom', { quote }))]),
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

/** What is done to the reed; empty for a plain note. */
function reedInWords({ bend = 0, over, slide }: PlayedNote, breath: PlayedEvent['breath']): string {
  if (over) return largeTypeText(breath === 'blow' ? 'overblow' : 'overdraw');
  if (bend > 0) return bendInWords(bend);
  return slide ? largeTypeText('slidePressed') : '';
}
