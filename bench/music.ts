/** Made-up tab blocks: every one valid, none of them music. */

import { itemAt, lastOf } from '../src/values/checked.ts';
import { syllables, title } from './prose.ts';
import type { Random } from './random.ts';

/** What quotes can name: a phrase of one bar, or a whole block. */
export interface Quotable {
  readonly lesson: string;
  readonly block: string;
  readonly phrase?: string;
  readonly meter: string;
  /** Of a phrase: the air it takes in, in eighths. */
  readonly air?: number;
  /** Of a whole block. */
  readonly bars?: number;
}

export interface BlockWish {
  readonly random: Random;
  readonly lesson: string;
  readonly id: string;
  /** Techniques in the student's hands by now. */
  readonly taught: ReadonlySet<string>;
  /** Techniques that have to occur in this block. */
  readonly practised: readonly string[];
  /** What earlier lessons offer. */
  readonly quotable: readonly Quotable[];
}

export interface MadeBlock {
  readonly text: string;
  readonly offers: readonly Quotable[];
}

/** Techniques that are heard in a few slots, as those slots. */
const FIGURES: Readonly<Record<string, readonly string[]>> = {
  'hole-jumps': ['2 5', '-2 -5 -3'],
  chords: ['(2 3 4)', '-(2 3)', '(4 5)', '-(1 2 3)'],
  'tongue-blocking': ['5[tongue]'],
  splits: ['(1 4)[tongue]', '-(1 4)[tongue]', '(3 6)[tongue]', '-(2 5)[tongue]'],
  'draw-bends': ["-4'", "-3'", "-2''", "-3''", "-6'", "-1'"],
  'bend-releases': ["-3'> -3", "-4'> -4", "-2''> -2"],
  'bend-drops': ["-4> -4'", "-3> -3''"],
  'glides-between-bends': ["-3''> -3'", "-2''> -2'"],
  slaps: ['5[tongue slap]', '6[tongue slap accent]'],
  pulls: ['-4[tongue pull]'],
  flutters: ['(3 4 5)[tongue flutter]'],
  shakes: ['-4[shake 5] =', '4[shake 5] ='],
  dips: ['-3[dip]', '-4[dip]'],
  falls: ['-5[fall] .'],
  vibrato: ['-2[vibrato] = =', '6[vibrato] ='],
  'hand-effects': ['4[hand] =', '-4[hand vibrato] ='],
  'chord-rhythm': ['(1 2 3) -(1 2 3) (1 2 3) -(1 2 3)'],
  'high-holes': ['7 -8', '-7 8 -9'],
  'blow-bends': ["8'", "9'", "10''"],
  overblows: ['6o', '5o'],
  overdraws: ['-7o'],
  'tongue-blocked-bends': ["-3'[tongue]"],
};
/** The same for grids that have room for them: slots of an eighth in four-four. */
const EIGHTH_FIGURES: Readonly<Record<string, readonly string[]>> = {
  triplets: ['{-4 4 -3}2', '{4 5 = }2', '{5 -5 5}2'],
  sixteenths: ['{4 -4}', '{5 -4 4 -3}2'],
  'quick-runs': ['{4 -4} {5 -5} {6 -5} {5 -4}'],
};
/** The embouchure is switched between notes, which a phrase for others to quote had better not do. */
const SWITCHES: readonly string[] = ['@tongue 4 -4 @lips 5', '-4[tongue] 4'];

interface Grid {
  readonly meter: string;
  readonly slot: string;
  readonly slots: number;
  /** How many slots make an eighth. */
  readonly eighth: number;
  readonly tempo: readonly [number, number];
  /** Slots one way after which the breath turns. */
  readonly air: number;
  readonly needs?: string;
}

const GRIDS: readonly Grid[] = [
  { meter: '4/4', slot: '1/8', slots: 8, eighth: 1, tempo: [80, 116], air: 4 },
  { meter: '4/4', slot: '1/8', slots: 8, eighth: 1, tempo: [80, 116], air: 4 },
  { meter: '4/4', slot: '1/8', slots: 8, eighth: 1, tempo: [60, 92], air: 4 },
  { meter: '4/4', slot: '1/4', slots: 4, eighth: 0.5, tempo: [80, 132], air: 2 },
  { meter: '3/4', slot: '1/8', slots: 6, eighth: 1, tempo: [72, 112], air: 4 },
  { meter: '6/8', slot: '1/8', slots: 6, eighth: 1, tempo: [50, 80], air: 3, needs: 'compound-time' },
  { meter: '12/8', slot: '1/8', slots: 12, eighth: 1, tempo: [50, 70], air: 3, needs: 'compound-time' },
  { meter: '4/4', slot: '1/16', slots: 16, eighth: 2, tempo: [50, 66], air: 8, needs: 'sixteenths' },
];

/** Named forms by how many bars they have; those of eight and four are used in part as well. */
const FORMS: readonly { readonly form: string; readonly bars: number; readonly needs: string }[] = [
  { form: 'twelve-bar', bars: 12, needs: 'twelve-bar' },
  { form: 'twelve-bar-turnaround', bars: 12, needs: 'twelve-bar' },
  { form: 'twelve-bar bars 1-4', bars: 4, needs: 'twelve-bar' },
  { form: 'twelve-bar bars 9-12', bars: 4, needs: 'twelve-bar' },
  { form: 'quick-change', bars: 12, needs: 'quick-change' },
  { form: 'minor-twelve-bar', bars: 12, needs: 'minor-blues' },
  { form: 'eight-bar', bars: 8, needs: 'eight-bar' },
  { form: 'eight-bar-halves', bars: 8, needs: 'eight-bar' },
];
const BLOCK_WIDE = ['shuffle', 'compound-time', 'sixteenths', ...new Set(FORMS.map(({ needs }) => needs))];

/** Where the last note left the mouth. */
interface Mouth {
  hole: number;
  draw: boolean;
  /** Slots of air taken in, one for each hole; the walk turns back before it becomes much either way. */
  air: number;
  /** Whether a hold may follow. */
  sounds: boolean;
}

export function makeBlock(wish: BlockWish): MadeBlock {
  const { random, lesson, id, taught, practised, quotable } = wish;
  const wide = practised.filter((technique) => BLOCK_WIDE.includes(technique));
  const due = practised.filter((technique) => technique in FIGURES || technique in EIGHTH_FIGURES);
  if (practised.includes('embouchure-switches')) due.push('embouchure-switches');
  const grid = pickGrid();
  const form = pickForm();
  const shape = form
    ? 'plain'
    : random.pick(['plain', 'plain', 'changes', 'parts', 'repeat', 'song', 'pickup'] as const);
  const bars = form?.bars ?? (shape === 'repeat' ? random.pick([4, 6, 8]) : random.pick([4, 4, 4, 6, 8, 12]));
  const shuffle = wide.includes('shuffle') || (taught.has('shuffle') && grid.meter === '4/4' && random.percent(40));
  const pickup = shape === 'pickup' ? 1 : 0;
  const mouth: Mouth = { hole: random.whole(3, 5), draw: random.percent(50), air: 0, sounds: false };

  const whole = pickWhole();
  const phrases = whole || shape === 'song' ? [] : ['call', 'answer'].slice(0, random.whole(0, 2));
  const header = [
    `id: ${id}`,
    `title: ${title(random)}`,
    `meter: ${grid.meter}`,
    `slot: ${grid.slot}`,
    `tempo: ${random.whole(...grid.tempo)}`,
    ...(shuffle ? ['feel: shuffle'] : []),
    ...(pickup ? [`pickup: ${pickup}`] : []),
    ...(form ? [`form: ${form.form}`] : shape === 'changes' ? [`chords: ${chordList()}`] : []),
    ...(random.percent(15) ? [`harp: ${random.pick(HARPS)}`] : []),
  ];
  const own = phrases.map((phrase): Quotable & { text: string } => {
    const text = phraseBar().join(' ');
    return { text, lesson, block: id, phrase, meter: grid.meter, air: airOf(text) / grid.eighth };
  });
  const written = own.map(({ phrase, text }) => `phrase ${phrase}: ${text}`);
  const music = whole ? `<${whole.lesson}/${whole.block}> |]` : layOut();
  const offers: Quotable[] = own.map(({ text: _, ...phrase }) => phrase);
  if (!form && shape === 'plain') offers.push({ lesson, block: id, meter: grid.meter, bars });
  return { text: [...header, ...written, '', music].join('\n'), offers };

  function pickGrid(): Grid {
    const open = GRIDS.filter(({ needs }) => needs === undefined || taught.has(needs));
    const eighths = open.filter(({ meter, slot }) => meter === '4/4' && slot === '1/8');
    if (wide.includes('compound-time')) return random.pick(open.filter(({ needs }) => needs === 'compound-time'));
    if (wide.length > 0 || due.some((technique) => technique in EIGHTH_FIGURES)) return itemAt(eighths, 0);
    return random.pick(due.length > 0 ? eighths : open);
  }

  function pickForm(): (typeof FORMS)[number] | undefined {
    const forced = FORMS.filter(({ needs }) => wide.includes(needs));
    if (forced.length > 0) return random.pick(forced);
    const open = FORMS.filter(({ needs }) => taught.has(needs));
    return open.length > 0 && random.percent(35) ? random.pick(open) : undefined;
  }

  /** A whole block to quote in place of music of its own. */
  function pickWhole(): Quotable | undefined {
    if (form || shape !== 'plain' || practised.length > 0 || !random.percent(20)) return undefined;
    const fitting = quotable.filter((one) => one.bars !== undefined && one.meter === grid.meter);
    return fitting.length > 0 ? random.pick(fitting) : undefined;
  }

  function chordList(): string {
    return Array.from({ length: bars }, () =>
      random.pick(['I7', 'IV7', 'V7', 'I7', 'V7 IV7', 'ii7 = = V7', 'vi']),
    ).join(' | ');
  }

  function layOut(): string {
    const all = Array.from({ length: bars }, (_, index) => barAt(index));
    if (pickup) {
      const last = lastOf(all);
      all.splice(
        -1,
        1,
        last.length === grid.slots && last.every((word) => !/[@{"<]/.test(word)) ? last.slice(0, -pickup) : shortBar(),
      );
    }
    const lines: string[] = [];
    const [lead, hook] = [pickup ? `${note(1)} | ` : '', shape === 'repeat'];
    for (let from = 0; from < bars; from += 4) {
      const group = all.slice(from, from + 4).map((bar) => bar.join(' '));
      const end = from + 4 >= bars;
      if (shape === 'parts') lines.push(`part: ${from === 0 ? 'Head' : `Part ${from / 4 + 1}`}`);
      const line = hook ? repeated(group) : `${group.join(' | ')}${end ? ' |]' : ' |'}`;
      lines.push((from === 0 ? lead : '') + line);
      if (shape === 'song') lines.push(`words: ${syllables(random, struck(line))}`);
    }
    return lines.join('\n');
  }

  function repeated(group: readonly string[]): string {
    if (group.length < 4) return `|: ${group.join(' | ')} :|`;
    const [a, b, c, d] = group;
    return random.percent(50) ? `|: ${a} | ${b} |1 ${c} :|2 ${d} ||` : `|: ${group.join(' | ')} :|`;
  }

  function shortBar(): string[] {
    mouth.sounds = false;
    return fill(grid.slots - pickup, true);
  }

  function barAt(index: number): string[] {
    const quoted = due.length === 0 && shape !== 'song' && random.percent(40) ? pickPhrase() : undefined;
    if (quoted) {
      mouth.sounds = false;
      mouth.air += (quoted.air ?? 0) * grid.eighth;
      return [
        own.includes(quoted as never) ? `<${quoted.phrase}>` : `<${quoted.lesson}/${quoted.block}:${quoted.phrase}>`,
      ];
    }
    // In a repeat what is before a bar depends on the way it was come to.
    if (shape === 'repeat') mouth.sounds = false;
    const symbol = shape === 'plain' && !form && random.percent(20) ? [`"${random.pick(SYMBOLS)}"`] : [];
    return [...symbol, ...fill(grid.slots, false, index)];
  }

  /** A phrase of this block or an earlier lesson that leaves the player with breath. */
  function pickPhrase(): Quotable | undefined {
    const others = quotable.filter((one) => one.phrase !== undefined && one.meter === grid.meter);
    const from = own.length > 0 && random.percent(60) ? own : others;
    const easy = from.filter(({ air = 0 }) => Math.abs(mouth.air + air * grid.eighth) <= 2 * grid.air);
    return easy.length > 0 ? random.pick(easy) : undefined;
  }

  function phraseBar(): string[] {
    mouth.sounds = false;
    mouth.air = 0;
    return fill(grid.slots, true);
  }

  /** Words for so many slots. A neutral bar can be anywhere: it neither leans on a note before nor switches the mouth. */
  function fill(slots: number, neutral: boolean, index = 0): string[] {
    const words: string[] = [];
    let left = slots;
    if (!neutral && index > 0 && mouth.sounds && random.percent(12)) {
      words.push('=');
      left--;
    }
    while (left > 0) {
      const figure = nextFigure(left, neutral);
      if (figure !== undefined) {
        words.push(figure);
        left -= slotsOf(figure);
        mouth.air += airOf(figure);
        mouth.sounds = !/[.]$/.test(figure);
      } else if (left < slots && random.percent(9)) {
        const length = Math.min(left, random.whole(1, 2));
        words.push(length === 1 ? '.' : `.${length}`);
        left -= length;
        mouth.air = Math.round(mouth.air / 2);
        mouth.sounds = false;
      } else {
        const length = Math.min(left, grid.air, random.pick([1, 1, 1, 1, 2, 2, 3, 4]));
        words.push(note(length));
        left -= length;
      }
    }
    return words;
  }

  function nextFigure(room: number, neutral: boolean): string | undefined {
    const must = neutral ? undefined : due[0];
    if (must !== undefined) {
      const figure = random.pick(
        must === 'embouchure-switches' ? SWITCHES : (FIGURES[must] ?? EIGHTH_FIGURES[must] ?? []),
      );
      if (slotsOf(figure) > room) return undefined;
      due.shift();
      return figure;
    }
    if (!random.percent(14)) return undefined;
    const technique = random.pick([...taught]);
    const eighths = grid.meter === '4/4' && grid.slot === '1/8';
    const figures =
      technique === 'embouchure-switches' && !neutral
        ? SWITCHES
        : (FIGURES[technique] ?? (eighths ? EIGHTH_FIGURES[technique] : undefined));
    const fitting = figures?.filter((figure) => slotsOf(figure) <= room) ?? [];
    return fitting.length > 0 ? random.pick(fitting) : undefined;
  }

  /** One note as the walk has it, held for so many slots. */
  function note(length: number): string {
    if (Math.abs(mouth.air) >= grid.air) mouth.draw = mouth.air < 0;
    else if (random.percent(40)) mouth.draw = !mouth.draw;
    mouth.air += mouth.draw ? length : -length;
    const top = taught.has('high-holes') ? 9 : 6;
    mouth.hole = Math.max(1, Math.min(top, mouth.hole + random.pick([-2, -1, -1, 0, 1, 1, 2])));
    mouth.sounds = true;
    const mark = random.percent(4) ? random.pick(['[accent]', '[staccato]']) : '';
    const held = length === 1 ? '' : length === 2 ? ' =' : ` =${length - 1}`;
    return `${mouth.draw ? '-' : ''}${mouth.hole}${mark}${held}`;
  }
}

export const HARPS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B', 'low F', 'low D', 'high G'];
const SYMBOLS = ['I7', 'IV7', 'V7', 'ii7', 'vi'];

/** The slots a text of slots takes. */
export function slotsOf(text: string): number {
  let slots = 0;
  for (const [, count = ''] of text
    .replace(/\[[^\]]*\]|@\w+|>/g, '')
    .matchAll(/(?:\{[^}]*\}|-?\([^)]*\)|=|\.|-?\d+['o]*)(\d*)/g))
    slots += count === '' ? 1 : Number(count);
  return slots;
}

/** The air a text of slots takes in, in slots, roughly: one for each hole, blow against draw. */
function airOf(text: string): number {
  let [air, going] = [0, 0];
  for (const [word, , count] of text.replace(/\[[^\]]*\]|@\w+/g, '').matchAll(/(=|\.|-?\([^)]*\)|-?\d+['o]*)(\d*)/g)) {
    if (!/^=/.test(word))
      going = word.startsWith('.') ? 0 : (word.match(/\d+/g) ?? []).length * (word.startsWith('-') ? 1 : -1);
    air += going * (count ? Number(count) : 1);
  }
  return air;
}

/** How many notes of a line of music are struck. */
const struck = (line: string): number =>
  (line.replace(/\[[^\]]*\]|@\w+|[=.]\d*|\}\d+|[|]\d\b/g, ' ').match(/-?\([^)]*\)|-?\d+['o]*/g) ?? []).length;
