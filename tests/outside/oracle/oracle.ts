// One random tab block and what it means, worked out from music theory alone: written from handbooks and from the guide to the
// notation, without the code that is checked with it. The files of this folder import nothing from outside of it.

import type { Chord, ChordSymbol } from './chords.ts';
import { modeOf, resolve, rootPc, SILENCE } from './chords.ts';
import { note } from './features.ts';
import type { Measure } from './forms.ts';
import { FORM_NAMES, formBars, listText, randomList, spread } from './forms.ts';
import type { Frac } from './frac.ts';
import { add, cmp, frac, mul, sub, ZERO } from './frac.ts';
import { firstHole, harpMode, playables, tonicFifth, tonicOf } from './instrument.ts';
import type { Setup, Word } from './music.ts';
import { Player } from './music.ts';
import type { Key, Mode } from './pitch.ts';
import { keyOf } from './pitch.ts';
import type { Plan } from './plan.ts';
import { makePlan } from './plan.ts';
import { Random } from './random.ts';
import { roleOf, spell } from './roles.ts';
import { chooseSettings, fraction, type Settings } from './settings.ts';
import type { Attack, ChordAt } from './time.ts';
import { chordAt, cut, play, realChanges, stretches } from './time.ts';
import { Words } from './words.ts';
import type { Setting } from './write.ts';
import { writeBlock } from './write.ts';

export interface NoteFact {
  midi: number;
  letter: string;
  role?: string;
}
export interface Sound {
  onset: Frac;
  duration: Frac;
  tied: boolean;
  notes: NoteFact[];
}
export interface Bar {
  length: Frac;
  chords: { onset: Frac; root: string; bass?: string; tones: number[] }[];
  sounds: Sound[];
}
export interface Sample {
  text: string;
  key: { tonic: number; mode: Mode; name: string };
  bars: Bar[];
  played: Attack[];
  sung: string[]; // in the order of playing
  features: string[];
}
export type { Attack, Frac };

interface Progression {
  measures: Measure[]; // what the block plays over
  home: Measure[]; // what decides the mode: the whole form, also when only some of its bars are played
  setting: Setting;
  features: string[];
}

function chooseProgression(
  r: Random,
  tonic: number,
  minor: boolean,
  names: number,
  s: Settings,
): Progression | undefined {
  const kind = r.weighted([
    ['none', 5],
    ['form', 3],
    ['chords', 3],
  ]);
  if (kind === 'none') return undefined;
  if (kind === 'chords') {
    const measures = randomList(r, r.int(1, 6), tonic, minor, names, ['3/4', '9/8', '6/8'].includes(s.meter));
    const features = ['chords-list'];
    if (measures.some((m) => m.length > 1)) features.push('chords-several-in-bar');
    if (measures.some((m) => m.some((c) => c.shares > 1))) features.push('chords-equals');
    return { measures, home: measures, setting: { key: 'chords', value: listText(measures) }, features };
  }
  const name = r.pick(FORM_NAMES);
  const all = formBars(name);
  let from = 1;
  let to = all.length;
  const features = ['form', `form:${name}`];
  if (r.chance(0.65)) {
    from = r.int(1, all.length - 1);
    to = Math.min(all.length, from + r.int(1, 4));
    features.push('form-bars');
  }
  const value =
    from === 1 && to === all.length && !features.includes('form-bars') ? name : `${name} bars ${from}-${to}`;
  const measures = all.slice(from - 1, to);
  return { measures, home: all, setting: { key: 'form', value }, features };
}

/** The first chord on the tonic that has a third; else the harp. */
function findMode(symbols: ChordSymbol[], tonic: number, s: Settings, features: Set<string>): Mode {
  for (const symbol of symbols) {
    // V7/iv stands on the tonic and is no home chord.
    if (symbol.of !== undefined) continue;
    const mode = rootPc(symbol, tonic) === tonic ? modeOf(symbol) : undefined;
    if (mode !== undefined) return mode;
  }
  features.add('mode-by-harp');
  return harpMode(s.tuning, s.position);
}

/** The chords of every bar, in page order. */
function chordsOf(
  plan: Plan,
  bars: Word[][],
  slot: Frac,
  over: Measure[] | undefined,
  name: (s: ChordSymbol) => Chord,
): ChordAt[][] {
  const out: ChordAt[][] = [];
  let holding: Chord | undefined;
  const atEnd: (Chord | undefined)[] = [];
  plan.bars.forEach((bar, i) => {
    if (bar.again && over === undefined) {
      // What is written in a bar is played again with it.
      holding = atEnd[i - 1];
      atEnd.push(holding);
      out.push(out[i - 1]!);
      return;
    }
    const list: ChordAt[] = [];
    const length = mul(slot, frac(bar.slots));
    if (over !== undefined) {
      if (!bar.pickup)
        for (const c of spread(over[bar.formBar!]!, length)) list.push({ onset: c.onset, chord: name(c.symbol) });
    } else {
      if (bar.branch !== undefined) holding = atEnd[bar.branch];
      if (holding !== undefined) list.push({ onset: ZERO, chord: holding });
    }
    let at = ZERO;
    for (const word of bars[i]!) {
      if (word.symbol !== undefined) {
        // A written chord holds to the end of the bar, or to the next written one.
        while (list.length > 0 && cmp(list[list.length - 1]!.onset, at) >= 0) list.pop();
        list.push({ onset: at, chord: name(word.symbol) });
      }
      at = add(at, mul(slot, frac(word.slots)));
    }
    holding = list[list.length - 1]?.chord;
    atEnd.push(holding);
    out.push(realChanges(list));
  });
  return out;
}

function makeBars(plan: Plan, bars: Word[][], slot: Frac, chords: ChordAt[][], key: Key, features: Set<string>): Bar[] {
  const letters: string[][] = []; // of each attack: a held note keeps its letter
  const parts = stretches(bars.map((words) => words.flatMap((w) => w.items)));
  return plan.bars.map((bar, i) => {
    const sounds: Sound[] = [];
    for (const stretch of parts[i]!) {
      const pieces = cut(stretch, chords[i]!);
      pieces.forEach((piece, n) => {
        const sounding = chordAt(chords[i]!, piece.onset);
        const chord = sounding === SILENCE ? undefined : sounding;
        const tied = stretch.continued || n > 0;
        if (!tied) letters[stretch.first] = stretch.midi.map((midi) => spell(midi, chord, key));
        const notes = stretch.midi.map((midi, k): NoteFact => {
          const fact: NoteFact = { midi, letter: letters[stretch.first]![k]! };
          if (chord !== undefined) fact.role = roleOf(midi, chord, key);
          if (fact.letter.length > 2) features.add('double-sign');
          if (fact.role !== undefined) features.add(`role:${fact.role}`);
          return fact;
        });
        sounds.push({ onset: piece.onset, duration: piece.length, tied, notes });
      });
      if (pieces.length > 1) features.add('cut-at-chord');
    }
    const list = chords[i]!.map((c) => ({
      onset: c.onset,
      root: c.chord.root,
      ...(c.chord.bass === undefined ? {} : { bass: c.chord.bass }),
      tones: [...c.chord.tones],
    }));
    return { length: mul(slot, frac(bar.slots)), chords: list, sounds };
  });
}

/** Whether a bar may be the one before once more: it is come to from there alone, and that bar begins with an attack or a rest. */
function mayRepeatBar(plan: Plan, i: number, last: Word[]): boolean {
  const [before, bar] = [plan.bars[i - 1]!, plan.bars[i]!];
  const first = last.find((word) => word.items.length > 0)?.items[0];
  return bar.before === '|' && bar.part === undefined && before.slots === bar.slots && first?.kind !== 'hold';
}

function settingsText(
  r: Random,
  s: Settings,
  progression: Progression | undefined,
  mouth: string,
  pickup: number,
): Setting[] {
  const out: Setting[] = [];
  const put = (key: string, value: string, usual: string): void => {
    if (value !== usual || r.chance(0.3)) out.push({ key, value });
  };
  put('harp', s.register === '' ? s.harp : `${s.register} ${s.harp}`, 'C');
  put('tuning', s.tuning, 'richter');
  put('position', `${s.position}`, '1');
  put('meter', s.meter, '4/4');
  put('slot', s.slot, '1/8');
  put('feel', s.feel, 'straight');
  put('mouth', mouth, 'lips');
  if (pickup > 0) out.push({ key: 'pickup', value: `${pickup}` });
  if (progression !== undefined) out.push(progression.setting);
  else if (r.chance(0.05)) out.push({ key: 'form', value: 'none' });
  if (r.chance(0.3)) out.push({ key: 'tempo', value: `${r.int(50, 180)}` });
  if (r.chance(0.1)) out.push({ key: 'title', value: r.pick(['Slow walk', 'Evening', 'Two bars more']) });
  if (r.chance(0.1)) out.push({ key: 'id', value: r.pick(['riff', 'study-2', 'a1']) });
  return out;
}

export function sample(seed: number): Sample {
  const r = new Random(seed);
  const s = chooseSettings(r);
  const slot = fraction(s.slot);
  const tonic = tonicOf(s.harp, s.position);
  const minor = r.chance(harpMode(s.tuning, s.position) === 'minor' ? 0.7 : 0.3);
  const names = r.pick([0, 0.2, 0.5, 0.5, 1]);
  const progression = chooseProgression(r, tonic, minor, names, s);
  const over = progression?.measures;
  const pickup = s.full > 2 && r.chance(0.25) ? r.int(1, Math.min(s.full - 1, 6)) : 0;
  const plan = makePlan(r, {
    bars: over?.length ?? r.int(1, 6),
    full: s.full,
    pickup,
    progression: over !== undefined,
    repeats: r.chance(0.5),
    endings: over === undefined || r.chance(0.3),
    oneChord: (bar) => over?.[bar]?.length === 1,
  });
  const features = new Set<string>([...plan.features, ...(progression?.features ?? [])]);
  for (const [i, bar] of plan.bars.entries()) {
    if (['', '|', '||'].includes(bar.before) && r.chance(i === 0 ? 0.08 : 0.03))
      bar.part = r.pick(['Head', 'A', 'B', 'Bridge']);
  }

  const silent = over === undefined && r.chance(0.12); // no chords at all
  const setup: Setup = {
    tuning: s.tuning,
    // Few programs play quarter steps, so most blocks have none.
    notes: playables(s.tuning).filter(({ kind }) => kind !== 'quarter' || seed % 4 === 3),
    base: firstHole(s.harp, s.register),
    slot,
    swung: s.swing !== undefined,
    mouth: r.chance(0.12) ? 'tongue' : 'lips',
    tonic,
    minor,
    names,
    chordChance: silent ? 0 : over !== undefined ? r.pick([0, 0.02, 0.08]) : r.pick([0.02, 0.06, 0.12]),
    bends: r.pick([0.1, 0.3, 0.3, 0.5]),
  };
  const player = new Player(r, setup);
  if (r.chance(0.2)) {
    for (const name of r.shuffle(['answer', 'riff', 'call', 'tail']).slice(0, r.int(1, 2)))
      player.addPhrase(name, s.full);
  }
  const eachBar = silent || over !== undefined ? 0 : r.pick([0.1, 0.4, 0.8]);
  const mouths: Setup['mouth'][] = [];
  const bars: Word[][] = [];
  plan.bars.forEach((bar, i) => {
    const last = bars[i - 1];
    if (last && mayRepeatBar(plan, i, last) && r.chance(0.08)) {
      bar.again = true;
      features.add('bar-again');
      mouths.push(player.mouth);
      // The chords of a progression are those of the place.
      bars.push(over === undefined ? last : last.map(({ symbol: _, ...word }) => word));
      return;
    }
    // A second ending continues from where it branches off, with the embouchure of that place.
    if (bar.branch !== undefined) player.mouth = mouths[bar.branch]!;
    const first =
      bar.pickup && over !== undefined
        ? r.chance(0.8)
        : i === 0 && !silent && over === undefined
          ? r.chance(0.8)
          : r.chance(eachBar);
    const words = player.bar(bar.slots, bar.carry, first);
    mouths.push(player.mouth);
    bars.push(words);
  });
  for (const f of player.features) features.add(f);

  const written = bars.flat().flatMap((w) => (w.symbol === undefined ? [] : [w.symbol]));
  const home = (progression?.home ?? []).flat().map((c) => c.symbol);
  const key = keyOf(tonic, findMode([...home, ...written], tonic, s, features), tonicFifth(s.harp, s.position));
  const chords = chordsOf(plan, bars, slot, over, (symbol) => resolve(symbol, key, features));
  const outBars = makeBars(plan, bars, slot, chords, key, features);

  const whole = mul(slot, frac(s.full));
  const parts = stretches(bars.map((words) => words.flatMap((w) => w.items)));
  const timed = plan.bars.map((bar, i) => {
    const length = outBars[i]!.length;
    return { length, offset: bar.pickup ? sub(whole, length) : ZERO, stretches: parts[i]! };
  });
  const played = play(timed, plan.order, s.swing);

  const settings = settingsText(r, s, progression, setup.mouth, pickup);
  const phrases = player.phrases.filter((p) => p.used);
  // Its own dice, so that the music of a seed stays what it was.
  const verses = new Words(new Random(seed + 0x5eed), plan);
  const text = writeBlock(r, { settings, phrases, plan, bars, words: verses, features });
  const sung = verses.sung();
  for (const feature of verses.features) features.add(feature);

  note(features, s, [...(over ?? []).flat().map((c) => c.symbol), ...written], written.length > 0, key);
  return {
    text,
    key: { tonic: key.tonic, mode: key.mode, name: key.name },
    bars: outBars,
    played,
    sung,
    features: [...features].sort(),
  };
}
