/** A block in words, bar by bar: what a reader hears who does not see the tiles. */
import { chordInWords } from '../harmony/chord.ts';
import type { ChordChange } from '../harmony/form.ts';
import { printedKey } from '../harmony/key.ts';
import { type Role, roleInWords } from '../harmony/role.ts';
import { type Harp, harpName } from '../instrument/harp.ts';
import { bendInWords } from '../instrument/playable.ts';
import { ordinal, positionInWords } from '../instrument/position.ts';
import { unusualTuning } from '../instrument/tuning.ts';
import { barsShownAsSign } from '../score/bar-repeat.ts';
import { changesOf } from '../score/changes.ts';
import { jumpInWords } from '../score/jump.ts';
import { filledIn, type Mark, rowOf } from '../score/mark.ts';
import { phrasesOf } from '../score/phrases.ts';
import { endingOpenedBy, graceRole, isSoundEvent, roleIn } from '../score/queries.ts';
import type { Bar, Event, Mouth, NoteText, Score, Sound } from '../score/score.ts';
import { type LineOfWords, linesOfWords } from '../score/verses.ts';
import { capitalised } from '../texts/capital.ts';
import { add, compare, divide, type Fraction, subtract } from '../time/fraction.ts';
import { beatLength, type Meter, meterName } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { changesAloud } from './change-words.ts';
import type { Clef } from './clef.ts';
import { escapeText } from './markup.ts';

/** `Tab for a low F harp, second position, in C: 12 bars`. */
export function blockName(score: Score): string {
  const bars = score.bars.filter((bar) => bar.number > 0).length;
  const title = score.title === undefined ? 'Tab' : `${score.title}, tab`;
  const tuning = unusualTuning(score.harp.tuning);
  const tuned = tuning === undefined ? '' : ` (${tuning})`;
  return `${title} for ${withArticle(`${spoken(harpName(score.harp))} harp`)}${tuned}, ${positionInWords(score.position)}, in ${printedKey(score.key)}: ${bars} ${bars === 1 ? 'bar' : 'bars'}`;
}

/** The text alternative as markup. It stays folded for those who see the tiles; a screen reader's user opens it. */
export function blockWords(score: Score, clef: Clef): string {
  const lines = barSentences(score).map((line) => `<li>${escapeText(line)}</li>`);
  return `<details class="tab-words"><summary>The block in words</summary><p>${escapeText(opening(score, clef))}</p><ul>${lines.join('')}</ul></details>`;
}

function opening(score: Score, { words }: Clef): string {
  const feel = score.feel.name === 'straight' ? '' : `, ${score.feel.name === 'shuffle' ? 'shuffled' : 'swung'}`;
  return `${capitalised(meterName(score.meter))}${feel}, ${score.tempo} beats a minute. ${capitalised(MOUTHS[score.mouth])}.${words && ` ${words}`}`;
}

/** A sentence for each bar: `Bar 2, over A7: draw 3, half-step bend, the flat seventh, one beat; …`. */
export function barSentences(score: Score): string[] {
  let mouth = score.mouth;
  let before: string | undefined;
  const changes = changesOf(score);
  const lines = linesOfWords(score.bars);
  // The words of one line are with their notes; those of several verses would not be understood there.
  const plain = lines.find(({ verse }) => verse === undefined);
  const verses = lines.filter(({ verse }) => verse !== undefined);
  const signs = barsShownAsSign(score);
  const begun = new Map(
    phrasesOf(score).flatMap(({ name, occurrences }) => occurrences.map(({ from }) => [from, name])),
  );
  return score.bars.map((bar, index) => {
    const phrases: string[] = [];
    let chord = bar.chords[0];
    const first = bar.events[0];
    for (const [at, event] of bar.events.entries()) {
      const phrase = begun.get(event.index);
      const words = phrase === undefined ? [] : [`the phrase ${phrase}`];
      const change = bar.chords.findLast((own) => compare(own.onset, event.onset) <= 0);
      if (change && change !== chord) words.push(`now ${harmonyInWords(change)}`);
      chord = change ?? chord;
      if (event.kind === 'sound' && event.mouth !== mouth) {
        mouth = event.mouth;
        words.push(MOUTHS[mouth]);
      }
      const joined = event.kind === 'rest' && at > 0 && bar.events[at - 1]?.kind === 'rest';
      if (joined) continue;
      const length = event.kind === 'rest' ? restLength(bar, at) : event.duration;
      const role = roleOfEvent(bar, event);
      const sung = event.kind === 'sound' ? plain?.of(event) : undefined;
      words.push(
        ...eventWords(event, role, before, sung),
        ...graceWords(bar, event, score.harp),
        lengthInWords(length, bar.meter),
      );
      before = role;
      phrases.push(words.join(', '));
    }
    const over = bar.chords[0] && first && compare(bar.chords[0].onset, first.onset) <= 0;
    const ending = endingOpenedBy(score, bar);
    const head = [
      bar.part === undefined ? '' : `${bar.part}. `,
      ...changesAloud(itemAt(changes, index)).map((words) => `${capitalised(words)}. `),
      bar.target === undefined ? '' : `${capitalised(bar.target)}. `,
      bar.repeatStart ? 'Repeat from here. ' : '',
      ending === undefined ? '' : `${capitalised(ending.map(ordinal).join(' and '))} ending. `,
      bar.number === 0 ? 'Pickup' : `Bar ${bar.number}`,
      over && bar.chords[0] ? `, ${harmonyInWords(bar.chords[0])}` : '',
      bar.direction === undefined ? '' : `, marked “${bar.direction}”`,
    ].join('');
    const end = bar.repeatEnd
      ? ` Back to the repeat${bar.times === undefined ? '' : `, ${number(bar.times)} times in all`}.`
      : bar.close === 'final'
        ? ' The end.'
        : '';
    const content = signs.has(bar.index)
      ? 'the same bar again'
      : bar.restBars === undefined
        ? phrases.join('; ')
        : `rest for ${number(bar.restBars)} bars`;
    const jump = bar.jump === undefined ? '' : ` ${jumpInWords(bar.jump, score.bars)}.`;
    return `${head}: ${content}.${textsInWords(bar, verses)}${end}${jump}`;
  });
}

/** ` Syllables: ta ka. Verse 1: A-ma-zing; verse 2: ’Twas grace that.` */
function textsInWords(bar: Bar, verses: readonly LineOfWords[]): string {
  const sounds = bar.events.filter(isSoundEvent);
  const sentence = (texts: readonly string[]): string =>
    texts.length === 0 ? '' : ` ${capitalised(texts.join('; '))}.`;
  const named = (name: string, of: (sound: Sound) => NoteText | undefined): string[] => {
    const text = runOf(sounds.map(of));
    return text === '' ? [] : [`${name}: ${text}`];
  };
  return (
    sentence(named('syllables', ({ syllable }) => syllable)) +
    sentence(verses.flatMap(({ verse, of }) => named(`verse ${verse}`, of)))
  );
}

/** Syllables as a line of text. A hyphen joins one to the next. */
const runOf = (texts: readonly (NoteText | undefined)[]): string =>
  texts
    .flatMap((text) => (text && !text.extends ? [text.text + (text.hyphen ? '-' : ' ')] : []))
    .join('')
    .trim();

const harmonyInWords = ({ chord }: ChordChange): string => `${chord === 'none' ? '' : 'over '}${chordInWords(chord)}`;

function restLength(bar: Bar, from: number): Fraction {
  let length = itemAt(bar.events, from).duration;
  for (let index = from + 1; bar.events[index]?.kind === 'rest'; index++) {
    length = add(length, itemAt(bar.events, index).duration);
  }
  return length;
}

const roleOfEvent = (bar: Bar, event: Event): string | undefined =>
  event.kind === 'sound' ? rolesInWords(event.notes.map((note) => roleIn(bar, event, note))) : undefined;

/** The role of a grace note, which is named among the marks. */
function graceWords(bar: Bar, event: Event, harp: Harp): string[] {
  const role = event.kind === 'sound' && !event.tied ? graceRole(bar, event, harp) : undefined;
  return role ? [`the short note ${roleInWords(role)}`] : [];
}

function eventWords(
  event: Event,
  role: string | undefined,
  before: string | undefined,
  sung: NoteText | undefined,
): string[] {
  if (event.kind === 'rest') return ['rest'];
  const words: string[] = [];
  if (event.tied) words.push('held on');
  else words.push(...holesInWords(event));
  if (role && !event.tied) words.push(role);
  else if (role && role !== before) words.push(`now ${role}`);
  words.push(...event.marks.map(markInWords));
  if (sung && !sung.extends) words.push(`sung “${sung.text}${sung.hyphen ? '-' : ''}”`);
  if (event.glides) words.push('gliding into the next');
  return words;
}

function holesInWords({ breath, notes }: Sound): string[] {
  const first = itemAt(notes, 0);
  const holes = notes.map((note) => note.hole);
  if (holes.length > 1) {
    const together = `${breath} ${holes.slice(0, -1).join(', ')} and ${holes.at(-1)} together`;
    const bends = notes.filter((note) => note.bend > 0).map((note) => `${note.hole} with a ${bendInWords(note.bend)}`);
    return [together, ...bends, ...(notes.some((note) => note.slide) ? ['slide in'] : [])];
  }
  const over = breath === 'blow' ? 'overblow' : 'overdraw';
  return [
    `${first.over ? over : breath} ${first.hole}`,
    ...(first.bend > 0 ? [bendInWords(first.bend)] : []),
    ...(first.slide ? ['slide in'] : []),
  ];
}

function rolesInWords(roles: readonly (Role | undefined)[]): string | undefined {
  const words = roles.flatMap((role) => (role ? [roleInWords(role)] : []));
  if (words.length === 0) return undefined;
  return words.every((word) => word === words[0]) ? words[0] : words.join(' and ');
}

const markInWords = (mark: Mark): string => filledIn(rowOf(mark.name).words, mark);

const MOUTHS: Readonly<Record<Mouth, string>> = { lips: 'with the lips', tongue: 'with the tongue block' };

const SMALL = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];
const number = (n: number): string => SMALL[n] ?? String(n);

const PARTS: Readonly<Record<number, readonly [string, string]>> = {
  2: ['half', 'halves'],
  3: ['third', 'thirds'],
  4: ['quarter', 'quarters'],
  5: ['fifth', 'fifths'],
  6: ['sixth', 'sixths'],
  7: ['seventh', 'sevenths'],
  8: ['eighth', 'eighths'],
};

/** In beats as a player taps them: `one beat`, `half a beat`, `two thirds of a beat`, `one and a half beats`. */
export function lengthInWords(length: Fraction, meter: Meter): string {
  const beats = divide(length, beatLength(meter));
  const whole = Math.floor(beats.n / beats.d);
  const remainder = subtract(beats, { n: whole, d: 1 });
  if (remainder.n === 0) return `${number(whole)} ${whole === 1 ? 'beat' : 'beats'}`;
  const part = partInWords(remainder);
  if (whole === 0) return remainder.d === 2 ? 'half a beat' : `${part} of a beat`;
  return `${number(whole)} and ${part} beats`;
}

function partInWords({ n, d }: Fraction): string {
  const names = PARTS[d] ?? [`${d}th`, `${d}ths`];
  if (n === 1) return `${/^(e|8|11|18)/.test(names[0]) ? 'an' : 'a'} ${names[0]}`;
  return `${number(n)} ${names[1]}`;
}

/** Signs a voice would skip, said out. */
const spoken = (text: string): string =>
  text
    .replace(/([A-G])(♭|b(?!\d))/g, '$1 flat')
    .replace(/([A-G])[♯#]/g, '$1 sharp')
    .replace(/♭/g, ' flat ')
    .replace(/♯/g, ' sharp ')
    .replace(/\s+/g, ' ')
    .trim();
const withArticle = (text: string): string =>
  `${/^([AEF]\b|[AEF] (flat|sharp)|eight)/.test(text) ? 'an' : 'a'} ${text}`;
