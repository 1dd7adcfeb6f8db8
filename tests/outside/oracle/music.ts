// Random words of the notation that fill a bar exactly, together with what they sound.

import type { ChordSymbol } from './chords.ts';
import { randomSymbol } from './chords.ts';
import type { Frac } from './frac.ts';
import { frac, mul } from './frac.ts';
import type { Playable, Tuning } from './instrument.ts';
import type { Random } from './random.ts';
import type { Item } from './time.ts';

/** Marks that every note takes, alone and together. */
const MARKS = [
  ...['vibrato', 'hand', 'accent', 'dip', 'vibrato hand'],
  ...[
    'tenuto',
    'tenuto staccato',
    'ghost',
    'ghost accent',
    'breath',
    'breath fall',
    'tremolo',
    'wah',
    'p',
    'ff accent',
    'cresc',
    'dim',
  ],
];

export interface Word {
  text: string;
  items: Item[];
  slots: number;
  symbol?: ChordSymbol;
  inside?: string[]; // note words inside, for the word processor's signs
}

export interface Setup {
  tuning: Tuning;
  notes: Playable[];
  base: number; // MIDI of hole 1 blow
  slot: Frac;
  swung: boolean; // no triplets then
  mouth: 'lips' | 'tongue';
  tonic: number;
  minor: boolean;
  names: number; // how often a chord has a name
  chordChance: number; // before any word
  bends: number; // how often a note is bent, overbent, or has the slide
}

export class Player {
  features = new Set<string>();
  phrases: { name: string; words: Word[]; slots: number; used: boolean; features: Set<string> }[] = [];
  #r: Random;
  #s: Setup;
  #hole: number;
  /** The embouchure now. */
  mouth: 'lips' | 'tongue';
  sounding = false; // the word before is a note or a hold

  constructor(r: Random, setup: Setup) {
    this.#r = r;
    this.#s = setup;
    this.mouth = setup.mouth;
    this.#hole = r.int(2, 7);
  }

  #note(): Playable {
    const r = this.#r;
    const top = this.#s.tuning === 'solo-chromatic' ? 12 : 10;
    this.#hole = Math.max(1, Math.min(top, this.#hole + r.int(-2, 2)));
    if (r.chance(0.06)) this.#hole = r.int(1, top);
    const here = this.#s.notes.filter((n) => n.hole === this.#hole);
    const special = here.filter((n) => n.kind !== 'plain');
    const note =
      special.length > 0 && r.chance(this.#s.bends) ? r.pick(special) : r.pick(here.filter((n) => n.kind === 'plain'));
    if (note.kind === 'bend') this.features.add('bend').add(`bend-${(note.text.match(/'/g) ?? []).length}`);
    if (note.kind === 'quarter') this.features.add('quarter-step').add(`quarter-step:${note.draw ? 'draw' : 'blow'}`);
    if (note.kind === 'overbend') this.features.add(note.draw ? 'overdraw' : 'overblow');
    if (note.kind === 'slide') this.features.add('slide');
    return note;
  }

  #written(note: Playable, marks = true): string {
    const r = this.#r;
    let text = note.text;
    if (!note.draw && note.kind === 'plain' && r.chance(0.04)) {
      text = `+${text}`;
      this.features.add('plus-sign');
    }
    if (marks && r.chance(0.03)) {
      text += `[${r.pick(MARKS)}]`;
      this.features.add('mark');
    }
    return text;
  }

  /** A few holes on one breath: next to each other, or two with the tongue between them. */
  #several(inPhrase: boolean): { text: string; midi: number[] } {
    const r = this.#r;
    const drawn = r.chance(0.5);
    const plain = this.#s.notes.filter((n) => n.kind === 'plain' && n.draw === drawn);
    for (;;) {
      const from = r.int(1, plain.length - 1);
      const split = !inPhrase && r.chance(this.mouth === 'tongue' ? 0.6 : 0.12);
      const distance = r.int(2, 4);
      const holes = split ? [from, from + distance] : Array.from({ length: r.int(2, 4) }, (_, i) => from + i);
      if (holes[holes.length - 1]! > plain.length) continue;
      const midi = holes.map((h) => plain[h - 1]!.half + this.#s.base);
      if (new Set(midi).size < midi.length) continue; // two equal reeds of the solo tuning
      midi.sort((a, b) => a - b);
      const mark = split && this.mouth === 'lips' ? '[tongue]' : '';
      this.features.add(split ? 'split' : 'hole-chord');
      if (mark !== '') this.features.add('tongue-mark');
      return { text: `${drawn ? '-' : ''}(${holes.join(' ')})${mark}`, midi };
    }
  }

  #rest(slots: number): Word[] {
    const length = mul(this.#s.slot, frac(slots));
    const text = slots === 1 ? '.' : `.${slots}`;
    if (slots > 1 && this.#r.chance(0.3)) return Array.from({ length: slots }, () => this.#rest(1)[0]!);
    return [{ text, items: [{ kind: 'rest', length }], slots }];
  }

  #hold(slots: number): Word[] {
    const r = this.#r;
    const out: Word[] = [];
    while (slots > 0) {
      const n = r.chance(0.55) ? slots : r.int(1, slots);
      out.push({
        text: n === 1 ? '=' : `=${n}`,
        items: [{ kind: 'hold', length: mul(this.#s.slot, frac(n)) }],
        slots: n,
      });
      slots -= n;
    }
    return out;
  }

  #group(most: number): Word {
    const r = this.#r;
    const sizes: [number, number][] = this.#s.swung
      ? [
          [2, 1],
          [2, 1],
          [4, 1],
          [4, 2],
          [2, 2],
        ]
      : [
          [3, 1],
          [3, 1],
          [2, 1],
          [4, 1],
          [3, 2],
          [3, 2],
          [4, 2],
          [2, 2],
          [4, 3],
          [2, 3],
          [5, 2],
          [6, 2],
          [5, 4],
          [3, 4],
          [6, 1],
        ];
    const [shares, slots] = r.pick(sizes.filter(([, k]) => k <= most));
    const length = mul(this.#s.slot, frac(slots, shares));
    const texts: string[] = [];
    const items: Item[] = [];
    let sounding = this.sounding;
    let heard = false;
    for (let i = 0; i < shares; i++) {
      const roll = r.next();
      if (roll < 0.16 && sounding && (i > 0 || r.chance(0.3))) {
        texts.push('=');
        items.push({ kind: 'hold', length });
        this.features.add(i === 0 ? 'group-begins-held' : 'group-hold');
        continue;
      }
      if (roll > 0.92 && (heard || i < shares - 1)) {
        texts.push('.');
        items.push({ kind: 'rest', length });
        sounding = false;
        this.features.add('group-rest');
        continue;
      }
      if (roll > 0.88) {
        const chord = this.#several(true);
        texts.push(chord.text);
        items.push({ kind: 'note', midi: chord.midi, length });
      } else {
        const note = this.#note();
        texts.push(this.#written(note, false));
        items.push({ kind: 'note', midi: [note.half + this.#s.base], length });
      }
      sounding = true;
      heard = true;
    }
    this.sounding = sounding;
    this.features.add('group');
    if (shares % 3 === 0) this.features.add('triplet');
    if (shares === 5) this.features.add('quintuplet');
    return { text: `{${texts.join(' ')}}${slots > 1 ? slots : ''}`, items, slots };
  }

  /** A note that moves into another of the same hole and breath. */
  #glide(): Word[] | undefined {
    const r = this.#r;
    const before = new Set(this.features);
    const from = this.#note();
    // A note that is not written after all leaves no feature.
    const none = (): undefined => {
      this.features = before;
      return undefined;
    };
    if (from.kind === 'overbend' || from.kind === 'slide' || this.#s.tuning === 'solo-chromatic') return none();
    const others = this.#s.notes.filter(
      (n) =>
        n.hole === from.hole && n.draw === from.draw && n !== from && ['plain', 'bend', 'quarter'].includes(n.kind),
    );
    if (others.length === 0) return none();
    const to = r.pick(others);
    this.features.add('glide').add('bend');
    if (to.kind === 'quarter') this.features.add('quarter-step').add(`quarter-step:${to.draw ? 'draw' : 'blow'}`);
    const word = (n: Playable, mark: string): Word => ({
      text: n.text + mark,
      items: [{ kind: 'note', midi: [n.half + this.#s.base], length: this.#s.slot }],
      slots: 1,
    });
    return [word(from, '>'), word(to, '')];
  }

  /** One event of at most so many slots, as words between which a chord symbol may stand only if `loose`. */
  #event(most: number, inPhrase: boolean): { words: Word[]; loose: boolean } {
    const r = this.#r;
    const { slot, base } = this.#s;
    const roll = r.next();
    if (roll < 0.1) {
      this.sounding = false;
      this.features.add('rest');
      return { words: this.#rest(r.int(1, Math.min(most, 4))), loose: true };
    }
    if (roll < 0.2 && !inPhrase) return { words: [this.#group(most)], loose: true };
    if (roll < 0.26 && most >= 2) {
      const pair = this.#glide();
      if (pair !== undefined) {
        this.sounding = true;
        return { words: pair, loose: false };
      }
    }
    if (roll < 0.38 && !inPhrase) {
      const fit = this.phrases.filter((p) => p.slots <= most);
      if (fit.length > 0) {
        const phrase = r.pick(fit);
        const items = phrase.words.flatMap((w) => w.items);
        this.sounding = items[items.length - 1]!.kind !== 'rest';
        phrase.used = true;
        for (const f of ['phrase', ...phrase.features]) this.features.add(f);
        return { words: [{ text: `<${phrase.name}>`, items, slots: phrase.slots }], loose: true };
      }
    }
    const words: Word[] = [];
    if (roll > 0.88) {
      if (!inPhrase && r.chance(0.25)) {
        this.mouth = this.mouth === 'lips' ? 'tongue' : 'lips';
        words.push({ text: `@${this.mouth}`, items: [], slots: 0 });
        this.features.add('mouth-switch');
      }
      const chord = this.#several(inPhrase);
      words.push({ text: chord.text, items: [{ kind: 'note', midi: chord.midi, length: slot }], slots: 1 });
    } else {
      const note = this.#note();
      words.push({
        text: this.#written(note),
        items: [{ kind: 'note', midi: [note.half + base], length: slot }],
        slots: 1,
      });
    }
    this.sounding = true;
    if (most > 1 && r.chance(0.5)) {
      const long = Math.min(
        most - 1,
        r.weighted([
          [1, 5],
          [2, 2],
          [3, 4],
          [5, 1],
          [7, 1.5],
          [11, 0.5],
        ]),
      );
      words.push(...this.#hold(long));
      this.features.add('hold');
    }
    return { words, loose: true };
  }

  addPhrase(name: string, most: number): void {
    const slots = this.#r.int(1, Math.min(most, 6));
    const words: Word[] = [];
    let left = slots;
    const before = this.features;
    this.features = new Set();
    this.sounding = false;
    while (left > 0) {
      const event = this.#event(left, true);
      words.push(...event.words);
      left -= event.words.reduce((sum, w) => sum + w.slots, 0);
    }
    this.sounding = false;
    this.phrases.push({ name, words, slots, used: false, features: this.features });
    this.features = before;
  }

  symbol(): Word {
    const symbol = randomSymbol(this.#r, this.#s.tonic, this.#s.minor, this.#s.names);
    return { text: `"${symbol.text}"`, items: [], slots: 0, symbol };
  }

  /** The words of one bar. `heldIn`: it may begin with a hold. `chordFirst`: a chord symbol at its beginning. */
  bar(slots: number, heldIn: boolean, chordFirst: boolean): Word[] {
    const r = this.#r;
    const out: Word[] = [];
    let left = slots;
    if (!heldIn) this.sounding = false;
    const put = (word: Word, mayChord: boolean): void => {
      const first = out.every((w) => w.slots === 0);
      const due = r.chance(this.#s.chordChance) || (first && chordFirst);
      if (due && mayChord && word.slots > 0 && out[out.length - 1]?.symbol === undefined) {
        out.push(this.symbol());
        if (word.text.startsWith('=')) this.features.add('chord-changes-under-note');
      }
      out.push(word);
    };
    if (heldIn && this.sounding && r.chance(0.4)) {
      const n = Math.min(
        left,
        r.weighted([
          [1, 3],
          [2, 3],
          [4, 2],
          [24, 0.5],
        ]),
      );
      for (const word of this.#hold(n)) put(word, true);
      left -= n;
      this.features.add('tie-over-bar');
    }
    while (left > 0) {
      const event = this.#event(left, false);
      for (const [i, word] of event.words.entries()) put(word, i === 0 || event.loose);
      left -= event.words.reduce((sum, w) => sum + w.slots, 0);
    }
    return out;
  }
}
