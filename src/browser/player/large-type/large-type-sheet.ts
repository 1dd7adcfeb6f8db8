/**
 * The sheets of large type, loaded when it is first opened: a note as its hole, its breath and what else there is to do. What the player
 * has already is handed to them: a module that both import would be a file of its own, which every page with a player then loads.
 */
import type { endsInQuarter } from '../../../instrument/quarter-step.ts';
import type { Moment } from '../../../schedule/plan.ts';
import type { Playback, PlayedEvent, PlayedNote } from '../../../score/playback.ts';
import type { playerText } from '../../texts/player.ts';
import type { make, makeSvg } from '../dom.ts';
import type { reedInWords } from '../in-words.ts';

/** What the sheets have from the player. */
export interface SheetTools {
  readonly endsInQuarter: typeof endsInQuarter;
  readonly playerText: typeof playerText;
  readonly make: typeof make;
  readonly makeSvg: typeof makeSvg;
  readonly reedInWords: typeof reedInWords;
}

/** What there is to play at a moment, as elements below a label; the count-in where there is no moment. */
export type LargeTypeSheet = (label: string, moment: Moment | undefined, playback: Playback) => Node[];

/** The sheets, made with what the player has. */
export function largeTypeSheet({ endsInQuarter, playerText, make, makeSvg, reedInWords }: SheetTools): LargeTypeSheet {
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
      ...(quote === undefined
        ? []
        : [make('span', { class: 'large-type-quote' }, playerText('quotedFrom', { quote }))]),
    );
  }

  const lines = (texts: readonly string[]): HTMLElement[] =>
    texts.filter(Boolean).map((text) => make('span', {}, text));

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

  return sheet;
}
