/** The words for what a sentence says of the music, as they are shown and as they are read aloud. */
import { chordInWords, printedChord, printedNumeral } from '../../harmony/chord.ts';
import { printedKey } from '../../harmony/key.ts';
import { numeralOf } from '../../harmony/numeral.ts';
import { roleInWords, roleOf, spell } from '../../harmony/role.ts';
import type { Harp } from '../../instrument/harp.ts';
import { nameAbove, type PitchClass, printedName } from '../../instrument/pitch.ts';
import { inWords, type Playable, tabOf } from '../../instrument/playable.ts';
import { positionInWords, positionName } from '../../instrument/position.ts';
import { endsInQuarter, QUARTER } from '../../instrument/quarter-step.ts';
import { unusualTuning } from '../../instrument/tuning.ts';
import { capitalised } from '../../texts/capital.ts';
import { listInWords } from '../../texts/list.ts';
import { playedOn, type TabNote } from '../figure/figure.ts';
import { aloud, articleOf, printedHarp } from '../figure/markup.ts';
import { escapeText } from '../markup.ts';
import type { ChordFact, ChordInline, HarpFact, Inline, NoteFact, NoteInline } from './inline.ts';

/** The same twice: for the eye, where signs may stand for words, and for the ear. */
interface Words {
  readonly shown: string;
  readonly said: string;
}

/** What is shown, as plain text. */
export const inlineText = (inline: Inline): string => wordsOf(inline).shown;

/** What is shown, as HTML; where it has signs, they are read aloud as words. */
export function drawInline(inline: Inline): string {
  const { shown, said } = wordsOf(inline);
  if (shown === said) return escapeText(shown);
  // Tab looks in a sentence as an author’s own does.
  const isTab = inline.kind === 'note' && inline.facts.join() === 'tab';
  const signs = isTab ? `<code>${escapeText(shown)}</code>` : escapeText(shown);
  return `<span aria-hidden="true">${signs}</span>${aloud(said)}`;
}

function wordsOf(inline: Inline): Words {
  const { shown, said } = inline.article ? withArticle(inline) : uncapitalised(inline);
  // A capital would make a minor chord of a numeral major.
  const keeps = !inline.article && isNumeral(inline);
  return inline.capital && !keeps ? { shown: capitalised(shown), said: capitalised(said) } : { shown, said };
}

const isNumeral = (inline: Inline): boolean => inline.kind === 'chord' && inline.facts[0] === 'numeral';

/** `a G`, `an E minor`, `an overblow 6`: by how it is said, as a tab’s sign or a numeral is not. */
function withArticle(inline: Inline): Words {
  const { shown, said } = uncapitalised(inline);
  // “A quarter step below B” has its own.
  if (said.startsWith('a ')) return { shown: `${articleOf(shown)} ${shown}`, said };
  // The numbers of numerals, one to seven, begin with a consonant when they are said.
  const article = isNumeral(inline) ? 'a' : articleOf(said);
  return { shown: `${article} ${shown}`, said: `${article} ${said}` };
}

function uncapitalised(inline: Inline): Words {
  switch (inline.kind) {
    case 'note':
      return listOf(inline.notes.map((note) => withOthers(inline.facts.map((fact) => ofNote(inline, note, fact)))));
    case 'chord':
      return withOthers(inline.facts.map((fact) => ofChord(inline, fact)));
    case 'key': {
      const { key, fact } = inline;
      return withSigns(
        fact === 'tonic' || (fact === 'usual' && key.mode === 'major') ? printedName(key.tonic) : printedKey(key),
      );
    }
    case 'harp': {
      const { harp, fact } = inline;
      return withSigns(harpInSentence(harp, fact));
    }
    case 'position': {
      const { position, fact } = inline;
      const number = positionInWords(position);
      const name = positionName(position);
      if (name === undefined || fact === 'number') return plain(number);
      return plain(fact === 'name' ? `${name} harp` : `${number} (${name} harp)`);
    }
  }
}

function ofNote({ harp, key, chord }: NoteInline, note: TabNote, fact: NoteFact): Words {
  const played = playedOn(harp, note);
  switch (fact) {
    case 'name':
      return plain(nameInSentence(played));
    case 'tab':
      return { shown: tabOf(played), said: inWords(played) };
    case 'pitch':
      return nameOf(spell(played.midi, chord, key));
    case 'role':
      // Without a chord there is no such fact; the reader of lessons sees to it.
      return plain(chord ? roleInWords(roleOf(played.midi, chord, key)).replace(/^the /, '') : '');
  }
}

function ofChord({ chord, key }: ChordInline, fact: ChordFact): Words {
  switch (fact) {
    case 'name':
      return { shown: printedChord(chord), said: chordInWords(chord) };
    case 'numeral': {
      const shown = printedNumeral(numeralOf(chord, key));
      return { shown, said: numeralInWords(shown) };
    }
    case 'tones':
      return listOf(chord.tones.map(({ degree, semitones }) => nameOf(nameAbove(chord.root, degree, semitones))));
  }
}

/** `flat VII`, `vii diminished 7`, `V7 of ii`: a numeral as read aloud. */
const numeralInWords = (shown: string): string =>
  shown
    .replaceAll('♭', ' flat ')
    .replaceAll('♯', ' sharp ')
    .replaceAll('°', ' diminished ')
    .replaceAll('ø', ' half-diminished ')
    .replaceAll('/', ' of ')
    .replace(/ +/g, ' ')
    .trim();

const DEPTHS = ['', 'a half step', 'a whole step', 'a step and a half', 'two whole steps'];

/** `draw 3 bent a half step`, `overblow 6`, `blow 3 with the slide pressed`: a note without a comma of its own. */
export function nameInSentence(note: Playable): string {
  const { bend, over, slide, breath, hole } = note;
  if (over) return inWords(note);
  const whole = Math.floor(bend);
  const depth = DEPTHS[whole] ?? `${whole} half steps`;
  const quarter = bend === QUARTER ? 'a quarter step' : endsInQuarter(bend) ? `${depth} and a quarter step` : depth;
  return `${breath} ${hole}${bend > 0 ? ` bent ${quarter}` : ''}${slide ? ' with the slide pressed' : ''}`;
}

function harpInSentence(harp: Harp, fact: HarpFact): string {
  const name = printedHarp(harp);
  if (fact === 'key') return name;
  const tuning = unusualTuning(harp.tuning);
  if (fact === 'label') return tuning === undefined ? name : `${name} (${tuning})`;
  return tuning === undefined ? `${name} harp` : `${tuning} harp in ${name}`;
}

const plain = (text: string): Words => ({ shown: text, said: text });

/** A text with signs for sharp and flat, and the same for a voice. */
const withSigns = (shown: string): Words => ({
  shown,
  said: shown
    .replaceAll('𝄫', ' double flat')
    .replaceAll('𝄪', ' double sharp')
    .replaceAll('♭', ' flat')
    .replaceAll('♯', ' sharp')
    .replace(/^(.*)↓$/, 'a quarter step below $1'),
});

const nameOf = (name: PitchClass): Words => withSigns(printedName(name));

/** `draw 2 (G, root)`. */
function withOthers([first = plain(''), ...others]: readonly Words[]): Words {
  if (others.length === 0) return first;
  const join = (part: keyof Words): string => `${first[part]} (${others.map((one) => one[part]).join(', ')})`;
  return { shown: join('shown'), said: join('said') };
}

/** `G, B and D`. */
const listOf = (words: readonly Words[]): Words => ({
  shown: listInWords(words.map(({ shown }) => shown)),
  said: listInWords(words.map(({ said }) => said)),
});
