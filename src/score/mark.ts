/**
 * Marks of one note. A row says all that reading, drawing, reading aloud, sounding and explaining a mark need to know of it;
 * no other code names them. `tests/score/mark.test.ts` and `tests/browser/sound/marks.page.long.test.ts` fail for a row
 * that changes nothing that is seen, read aloud or heard.
 */

import type { Breath, HoleNote } from '../instrument/harp.ts';
import { inWords, tabOf } from '../instrument/playable.ts';

export interface MarkRow {
  /** What the player has to do, for readers who learn to read blocks. */
  readonly asks: string;
  /** How it is read aloud; `{hole}` is the hole it names, `{note}` the note. */
  readonly words: string;
  /** It names another hole, as in `[shake 5]`. */
  readonly takesHole?: true;
  /** It names a note of its own, as in `[grace -3']`. */
  readonly takesNote?: true;
  /** It is made by the tongue on the holes beside the note. */
  readonly needsTongue?: true;
  /** Part of the attack: playing that starts within the note leaves it out. Others last as long as the note. */
  readonly ofAttack?: true;
  /** For all that follows, not for this note alone. */
  readonly onward?: true;
  /** The sound stops after the note: no glide leads on from it. */
  readonly stops?: true;
  readonly drawing: MarkDrawing;
  readonly sound: MarkSound;
}

/** A word over the breath lanes (`{hole}` and `{note}` as in `words`), a line in its place, a sign at the notehead, one around it, one at its end, or a note before it. */
export type MarkDrawing =
  | { readonly word: string }
  /** A letter of loudness, in its own type. */
  | { readonly dynamic: 'pp' | 'p' | 'mp' | 'mf' | 'f' | 'ff' }
  | { readonly line: 'wave' /** Where it is beside words. */; readonly word: string }
  | { readonly sign: MarkSign }
  | { readonly around: 'parentheses' }
  /** Above the staff, at the end of the last of what a note is written as. */
  | { readonly end: EndSign }
  /** A small note before it. */
  | { readonly before: 'small note' };

/** A sign at the end of a note. */
export type EndSign = 'comma' | 'fermata';

/** In the order in which they are put, outwards from the head. */
export const MARK_SIGNS = ['dot', 'bar', 'wedge', 'scoop', 'drop'] as const;
/** How a mark is drawn. */
export type MarkSign = (typeof MARK_SIGNS)[number];

/** What a mark does to the sound. Times are in seconds, rates in swings a second. */
export type MarkSound =
  /** The pitch goes to the named hole and back. `half` is how long it stays on either. */
  | { readonly kind: 'alternate'; readonly half: number }
  /** The holes under the tongue sound for a moment, perhaps with the smack of the tongue. */
  | { readonly kind: 'strike'; readonly seconds: number; readonly level: number; readonly smack: number }
  /** The loudness swings by a part of the note's own. */
  | { readonly kind: 'tremolo'; readonly rate: number; readonly depth: number }
  /** Pitch (in cents) and loudness swing, once the note has settled. */
  | { readonly kind: 'vibrato'; readonly rate: number; readonly cents: number; readonly depth: number }
  /** The note comes from so many cents away. */
  | { readonly kind: 'scoop'; readonly cents: number; readonly seconds: number }
  /** The pitch falls by so many cents at the end of the note. */
  | { readonly kind: 'drop'; readonly cents: number; readonly seconds: number }
  /** The hands open and close over the harp: times within a cycle, and the upper end of the closed and the open sound in hertz. */
  | {
      readonly kind: 'wah';
      readonly cycle: number;
      readonly opens: number;
      readonly closes: number;
      readonly takes: number;
      readonly closed: number;
      readonly open: number;
    }
  /** The hands open once: times as parts of the note, and the upper end of the closed and the open sound in hertz. */
  | {
      readonly kind: 'opening';
      readonly after: number;
      readonly takes: number;
      readonly closed: number;
      readonly open: number;
    }
  /** The notes from here on are so many times as loud as usual. */
  | { readonly kind: 'level'; readonly level: number }
  /** The notes from here on become louder (1) or softer (-1), up to the next level. */
  | { readonly kind: 'swell'; readonly steps: 1 | -1 }
  /** The note begins so many times as loud and as bright. */
  | { readonly kind: 'accent'; readonly louder: number; readonly brighter: number }
  /** The note is so many times as loud and as bright, from its beginning to its end. */
  | { readonly kind: 'hint'; readonly loud: number; readonly bright: number }
  /** The note that the mark names sounds first, for so many seconds, at most this part of the whole. */
  | { readonly kind: 'crush'; readonly seconds: number; readonly part: number }
  /** Time stands still at the end of the note (tempo.ts). */
  | { readonly kind: 'wait' }
  /** The note ends so many seconds early for a breath, which take at most this part of it. */
  | { readonly kind: 'breath'; readonly seconds: number; readonly part: number }
  /** The note sounds for this part of its length, with no gap to the next note beside it. Of several marks, for their mean. */
  | { readonly kind: 'shorten'; readonly to: number };

/** Every mark of a note: how it is asked for, read aloud, drawn and sounded. */
export const MARKS = {
  shake: {
    asks: 'Rock quickly between the hole and the one named beside the mark, on one breath.',
    words: 'shaken with hole {hole}',
    takesHole: true,
    drawing: { word: 'shake {hole}' },
    sound: { kind: 'alternate', half: 0.072 },
  },
  slap: {
    asks: 'Lay the tongue on the holes below as the note begins, so that the chord is heard for a moment.',
    words: 'slapped',
    needsTongue: true,
    ofAttack: true,
    drawing: { word: 'slap' },
    sound: { kind: 'strike', seconds: 0.045, level: 0.32, smack: 0.5 },
  },
  pull: {
    asks: 'Lift the tongue off at once: the chord bursts out behind the note.',
    words: 'pulled',
    needsTongue: true,
    ofAttack: true,
    drawing: { word: 'pull' },
    sound: { kind: 'strike', seconds: 0.16, level: 0.24, smack: 0 },
  },
  flutter: {
    asks: 'Lift the tongue and lay it down, fast and evenly, while the note continues.',
    words: 'fluttered',
    needsTongue: true,
    drawing: { word: 'flutter' },
    sound: { kind: 'tremolo', rate: 23, depth: 0.55 },
  },
  dip: {
    asks: 'Begin below and scoop up into the note.',
    words: 'dipped',
    ofAttack: true,
    drawing: { sign: 'scoop' },
    sound: { kind: 'scoop', cents: -110, seconds: 0.055 },
  },
  grace: {
    asks: 'First a short note on the beat, the one named beside the mark; then at once this one.',
    words: 'after a short {note}',
    takesNote: true,
    ofAttack: true,
    drawing: { before: 'small note' },
    sound: { kind: 'crush', seconds: 0.07, part: 1 / 3 },
  },
  fall: {
    asks: 'Let the pitch drop off at the end.',
    words: 'falling off',
    drawing: { sign: 'drop' },
    sound: { kind: 'drop', cents: -320, seconds: 0.22 },
  },
  vibrato: {
    asks: 'Let the throat rock the note, slow and even.',
    words: 'with vibrato',
    drawing: { line: 'wave', word: 'vibrato' },
    sound: { kind: 'vibrato', rate: 5.4, cents: 20, depth: 0.12 },
  },
  tremolo: {
    asks: 'Let the breath swing from soft to loud and back, slow and even, on a steady pitch.',
    words: 'with tremolo',
    drawing: { word: 'tremolo' },
    sound: { kind: 'tremolo', rate: 5.5, depth: 0.4 },
  },
  hand: {
    asks: 'Open and close the cupped hand: the note speaks.',
    words: 'with the hands',
    drawing: { word: 'hand' },
    sound: { kind: 'wah', cycle: 0.4, opens: 0.06, closes: 0.24, takes: 0.05, closed: 520, open: 5200 },
  },
  wah: {
    asks: 'Begin with the hands closed, and open them once in the course of the note.',
    words: 'with the hands opening once',
    drawing: { word: 'wah' },
    sound: { kind: 'opening', after: 0.12, takes: 0.18, closed: 520, open: 5200 },
  },
  accent: {
    asks: 'Harder at the start than its neighbours.',
    words: 'accented',
    ofAttack: true,
    drawing: { sign: 'wedge' },
    sound: { kind: 'accent', louder: 1.5, brighter: 1.3 },
  },
  staccato: {
    asks: 'Short, with silence behind it.',
    words: 'short',
    drawing: { sign: 'dot' },
    sound: { kind: 'shorten', to: 0.5 },
  },
  tenuto: {
    asks: 'Hold it for its full length, up to the next note.',
    words: 'held to its end',
    drawing: { sign: 'bar' },
    sound: { kind: 'shorten', to: 1 },
  },
  ghost: {
    asks: 'Only hint at it: in time, but much softer than its neighbours.',
    words: 'only hinted at',
    drawing: { around: 'parentheses' },
    sound: { kind: 'hint', loud: 0.35, bright: 0.6 },
  },
  breath: {
    asks: 'Take a breath at the end of the note. The next one begins in time.',
    words: 'then a breath',
    stops: true,
    drawing: { end: 'comma' },
    sound: { kind: 'breath', seconds: 0.2, part: 1 / 3 },
  },
  fermata: {
    asks: 'Hold it about twice as long; everybody waits.',
    words: 'held, while everybody waits',
    drawing: { end: 'fermata' },
    sound: { kind: 'wait' },
  },
  // The levels are ours: about three decibels from one to the next.
  pp: {
    asks: 'Very soft from here on.',
    words: 'very soft from here',
    onward: true,
    drawing: { dynamic: 'pp' },
    sound: { kind: 'level', level: 0.36 },
  },
  p: {
    asks: 'Soft from here on.',
    words: 'soft from here',
    onward: true,
    drawing: { dynamic: 'p' },
    sound: { kind: 'level', level: 0.5 },
  },
  mp: {
    asks: 'Rather soft from here on.',
    words: 'rather soft from here',
    onward: true,
    drawing: { dynamic: 'mp' },
    sound: { kind: 'level', level: 0.7 },
  },
  mf: {
    asks: 'Rather loud from here on, as music is that says nothing.',
    words: 'rather loud from here',
    onward: true,
    drawing: { dynamic: 'mf' },
    sound: { kind: 'level', level: 1 },
  },
  f: {
    asks: 'Loud from here on.',
    words: 'loud from here',
    onward: true,
    drawing: { dynamic: 'f' },
    sound: { kind: 'level', level: 1.3 },
  },
  ff: {
    asks: 'Very loud from here on, without forcing the reeds.',
    words: 'very loud from here',
    onward: true,
    drawing: { dynamic: 'ff' },
    sound: { kind: 'level', level: 1.6 },
  },
  cresc: {
    asks: 'Louder and louder, up to the next of these letters.',
    words: 'growing louder',
    onward: true,
    drawing: { word: 'cresc.' },
    sound: { kind: 'swell', steps: 1 },
  },
  dim: {
    asks: 'Softer and softer, down to the next of these letters.',
    words: 'growing softer',
    onward: true,
    drawing: { word: 'dim.' },
    sound: { kind: 'swell', steps: -1 },
  },
} as const satisfies Readonly<Record<string, MarkRow>>;

/** The name of a mark, as written in a block. */
export type MarkName = keyof typeof MARKS;
/** Marks that name another hole. */
export type HoleMark = {
  [Name in MarkName]: (typeof MARKS)[Name] extends { takesHole: true } ? Name : never;
}[MarkName];
/** Marks that name a note. */
export type NoteMark = {
  [Name in MarkName]: (typeof MARKS)[Name] extends { takesNote: true } ? Name : never;
}[MarkName];
/** A mark that names neither. */
export type PlainMark = Exclude<MarkName, HoleMark | NoteMark>;

/** A hole with its breath, and what is done to it. */
export interface SmallNote extends HoleNote {
  readonly breath: Breath;
}

/** A mark of a note, as it was written. */
export type Mark =
  | { readonly name: PlainMark }
  | { readonly name: HoleMark; readonly hole: number }
  | { readonly name: NoteMark; readonly note: SmallNote };

/** Whether a word is the name of a mark. */
export const isMarkName = (word: string): word is MarkName => Object.hasOwn(MARKS, word);

/** In the order of the guide. */
export const MARK_NAMES: readonly MarkName[] = Object.keys(MARKS).filter(isMarkName);

/** The row of a mark, without the exact values of the table. */
export const rowOf = (name: MarkName): MarkRow => MARKS[name];

/** Whether a mark names another hole, as `shake 5` does. */
export const takesHole = (name: MarkName): name is HoleMark => rowOf(name).takesHole === true;

/** Whether a mark names a note, as `grace -3` does. */
export const takesNote = (name: MarkName): name is NoteMark => rowOf(name).takesNote === true;

/** The mark as it is typed: `slap`, `shake 5`, `grace -3'`. */
export const markText = (mark: Mark): string =>
  'hole' in mark ? `${mark.name} ${mark.hole}` : 'note' in mark ? `${mark.name} ${tabOf(mark.note)}` : mark.name;

/** A mark of that name, with a hole or a note that it may name beside draw 4. */
export const exampleOf = (name: MarkName): Mark =>
  takesHole(name)
    ? { name, hole: 5 }
    : takesNote(name)
      ? { name, note: { breath: 'draw', hole: 3, bend: 1, over: false, slide: false } }
      : { name: plainName(name) };

function plainName(name: MarkName): PlainMark {
  if (takesHole(name) || takesNote(name)) throw new RangeError(`${name} names something`);
  return name;
}

/** Whether a grace note is on the hole and the breath of its note, and so moves into it. */
export const graceLeadsInto = (
  grace: { readonly breath: Breath; readonly hole: number },
  { breath, notes }: { readonly breath: Breath; readonly notes: readonly { readonly hole: number }[] },
): boolean => grace.breath === breath && notes.length === 1 && notes[0]?.hole === grace.hole;

/** The note that one of the marks names, which sounds before theirs. */
export const graceAmong = (marks: readonly Mark[]): SmallNote | undefined =>
  marks.flatMap((mark) => ('note' in mark ? [mark.note] : []))[0];

/** Seconds that marks take from the end of a note for a breath, for a note of so many seconds. */
export function secondsOfBreath(names: readonly MarkName[], seconds: number): number {
  const breath = soundOfMarks(names, 'breath');
  return breath ? Math.min(breath.seconds, seconds * breath.part) : 0;
}

/** A text of a mark's row with the hole or the note it names filled in. */
export const filledIn = (text: string, mark: Mark): string =>
  'hole' in mark
    ? text.replace('{hole}', `${mark.hole}`)
    : 'note' in mark
      ? text.replace('{note}', inWords(mark.note))
      : text;

type SoundOf<Kind extends MarkSound['kind']> = Extract<MarkSound, { kind: Kind }>;

/** All that marks do to the sound in one way, in the order of the marks. */
export function soundsOfMarks<Kind extends MarkSound['kind']>(names: readonly MarkName[], kind: Kind): SoundOf<Kind>[] {
  const isOfKind = (sound: MarkSound): sound is SoundOf<Kind> => sound.kind === kind;
  return names.map((name) => rowOf(name).sound).filter(isOfKind);
}

/** What the first of the marks that change the sound in one way does to it, undefined where none of them does. */
export const soundOfMarks = <Kind extends MarkSound['kind']>(
  names: readonly MarkName[],
  kind: Kind,
): SoundOf<Kind> | undefined => soundsOfMarks(names, kind)[0];
