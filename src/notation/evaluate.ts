/** A tree read against its context: what the text means, as a score, and everything wrong with it. */
import { type Diagnostic, hasError } from '../diagnostics/diagnostic.ts';
import type { Chord } from '../harmony/chord.ts';
import type { ChordChange } from '../harmony/form.ts';
import { isStep, type SongKey } from '../harmony/key.ts';
import { spell } from '../harmony/role.ts';
import { homeChord, keyOfSong } from '../harmony/song-key.ts';
import { sounding } from '../instrument/bend.ts';
import type { Pitch } from '../instrument/pitch.ts';
import type { Mark } from '../score/mark.ts';
import { chordAt } from '../score/queries.ts';
import type { Bar, Event, Note, Score } from '../score/score.ts';
import { itemAt } from '../values/checked.ts';
import { checkLengths } from './bar-lengths.ts';
import {
  type DraftBar,
  type DraftEvent,
  type DraftSettings,
  type DraftSound,
  layBars,
  settingsOfBars,
} from './bars.ts';
import { readChanges } from './changes.ts';
import type { ReadContext } from './context.ts';
import { expandMusic, type OtherBlocks } from './expand.ts';
import { harmonise, splitAtChords } from './harmonise.ts';
import { type Header, readHeader } from './header.ts';
import { checkJumps } from './jumps/check-jumps.ts';
import { checkPasses } from './jumps/check-passes.ts';
import { closeRepeats } from './jumps/close-repeats.ts';
import { fillRests } from './jumps/rests.ts';
import { type BlockKeys, checkKeys, keysOfBars } from './keys.ts';
import { withoutEchoes } from './mistakes/echoes.ts';
import { checkNumerals } from './numerals.ts';
import { checkGlides, checkPlayable } from './playable.ts';
import { report } from './problems.ts';
import { MOST_EVENTS, type QuoteChain, startQuoteChain } from './quotation/quote-chain.ts';
import type { QuotedBlocks } from './quotation/quoted-lengths.ts';
import { homeSymbols } from './setting-values.ts';
import type { BlockTree } from './tree.ts';
import { checkVerses, lyricsOf, noteText } from './under/text-under.ts';

/** A block’s score with the problems found in it. */
export interface Evaluated {
  /** Undefined if and only if a diagnostic is an error. */
  readonly score: Score | undefined;
  /** The tree's own and those of its meaning, in the order of the text. */
  readonly diagnostics: readonly Diagnostic[];
}

/** A block's score, or undefined if it has an error, with all problems of its tree and of its music. */
export const evaluate = (tree: BlockTree, context: ReadContext): Evaluated =>
  evaluateInChain(tree, context, startQuoteChain(tree));

const OTHER_BLOCKS: OtherBlocks = {
  headOf: (tree, context) => readHeader(tree, context.defaults, context, []),
  homeOf,
  scoreOf: (tree, context, quoteChain) => evaluateInChain(tree, context, quoteChain).score,
};

function homeOf(tree: BlockTree, context: ReadContext, position: number): string {
  const { harp, settings } = readHeader(tree, context.defaults, context, []);
  const written = tree.music.flatMap((item) => (item.kind === 'chord' ? [item.text] : []));
  const symbols = [...homeSymbols(settings.progression, context), ...written];
  const named = position === settings.position ? settings.key?.mode : undefined;
  const key = keyOfSong(harp, position, symbols, named);
  return symbols.find((symbol) => homeChord(symbol, key.tonic)) ?? (isStep(key.mode, 3) ? 'i' : 'I');
}

function evaluateInChain(tree: BlockTree, context: ReadContext, quoteChain: QuoteChain): Evaluated {
  const diagnostics: Diagnostic[] = [...tree.diagnostics];
  const head = readHeader(tree, context.defaults, context, diagnostics);
  const { settings } = head;
  const changes = readChanges(tree, context, diagnostics);
  const quoted: QuotedBlocks = new Map();
  const stream = expandMusic(
    { tree, context, settings, harp: head.harp, changes, quoted },
    quoteChain,
    OTHER_BLOCKS,
    diagnostics,
  );
  if (quoteChain.isTooLong()) {
    diagnostics.push(
      report('block-too-long', { from: 0, to: 1 }, { limit: `${MOST_EVENTS} events, quotations included` }),
    );
    return { score: undefined, diagnostics };
  }
  const bars = layBars(stream, settings, diagnostics);
  closeRepeats(bars, head.pickup !== undefined, diagnostics);
  checkVerses(bars, diagnostics);
  checkJumps(bars, head.pickup !== undefined, diagnostics);
  if (bars.length === 0 && diagnostics.length === 0)
    diagnostics.push(report('block-empty', { from: 0, to: tree.text.length }, {}));
  const inBars = settingsOfBars(bars, settings);
  fillRests(bars, inBars);
  checkLengths(bars, inBars, { head, badChanges: changes.bad, quoted, text: tree.text }, diagnostics);
  const keys = keysOfBars(bars, inBars, head, context);
  checkKeys(tree, head, changes, diagnostics);
  checkNumerals(tree, { changes, settings, keys, tables: context }, diagnostics);
  const { chords, progression } = harmonise(bars, inBars, keys, head, diagnostics);
  const sounds = bars.flatMap((bar) => bar.events.map((event) => (event.kind === 'sound' ? event : undefined)));
  checkGlides(sounds, diagnostics);
  if (!head.bad.has('harp') && !head.bad.has('tuning')) checkSounds(sounds, head, tree.text, diagnostics);
  checkPasses(bars, inBars, head.pickup, diagnostics);
  const ordered = withoutEchoes(inOrder(diagnostics));
  if (hasError(ordered)) return { score: undefined, diagnostics: ordered };
  const { harp } = head;
  // What is set between phrases and the first bar is what the block begins with.
  const [begin = settings] = inBars;
  const score: Score = {
    ...(head.id === undefined ? {} : { id: head.id }),
    ...(head.formerly ? { formerly: head.formerly } : {}),
    ...(head.title === undefined ? {} : { title: head.title }),
    harp,
    position: begin.position,
    key: keys.bars[0] ?? keys.first,
    ...(begin.key ? { keyNamed: true } : {}),
    meter: begin.meter,
    tempo: bars[0]?.change?.tempo?.from ?? settings.tempo,
    feel: begin.feel,
    slot: begin.slot,
    ...(head.pickup ? { pickup: head.pickup } : {}),
    mouth: settings.mouth,
    ...(progression ? { progression } : {}),
    bars: finishBars(bars, { settings: inBars, keys, chords }, head),
  };
  return { score, diagnostics: ordered };
}

/** A phrase used twice is checked twice; a problem is reported once, where it is. */
function inOrder(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const seen = new Set<string>();
  return diagnostics
    .filter(({ code, span, message }) => {
      const key = `${code} ${span.from} ${span.to} ${message}`;
      return !seen.has(key) && seen.add(key);
    })
    .sort((a, b) => a.span.from - b.span.from || a.span.to - b.span.to);
}

function checkSounds(
  sounds: readonly (DraftSound | undefined)[],
  head: Header,
  text: string,
  diagnostics: Diagnostic[],
): void {
  for (const sound of sounds)
    if (sound && !sound.tied && !sound.copied) checkPlayable(sound, head.harp, text, diagnostics);
}

/** What is known of each bar before its notes are spelled. */
interface KnownOfBars {
  readonly settings: readonly DraftSettings[];
  readonly keys: BlockKeys;
  readonly chords: readonly (readonly ChordChange[])[];
}

function finishBars(bars: readonly DraftBar[], { settings, keys, chords }: KnownOfBars, head: Header): Bar[] {
  let eventIndex = 0;
  let spelled = speller(keys.first);
  return bars.map((draft, index): Bar => {
    const inBar = chords[index] ?? [];
    const key = itemAt(keys.bars, index);
    const { position, key: named, meter, feel, slot } = itemAt(settings, index);
    if (key !== (keys.bars[index - 1] ?? keys.first)) spelled = speller(key);
    const finish = (event: DraftEvent): Event =>
      finishEvent(event, eventIndex++, draft.endings, head, (midi) =>
        spelled(midi, chordAt({ chords: inBar }, event.onset)),
      );
    return {
      index,
      number: draft.number,
      length: draft.length,
      position,
      key,
      ...(named ? { keyNamed: true } : {}),
      meter,
      feel,
      slot,
      ...(draft.part === undefined ? {} : { part: draft.part }),
      ...(draft.direction === undefined ? {} : { direction: draft.direction }),
      ...tempoOf(draft, index),
      chords: inBar,
      events: splitAtChords(draft.events, inBar).map(finish),
      repeatStart: draft.repeatStart,
      repeatEnd: draft.repeatEnd,
      ...(draft.times === undefined ? {} : { times: draft.times }),
      ...(draft.endings === undefined ? {} : { endings: draft.endings }),
      ...(draft.target === undefined ? {} : { target: draft.target }),
      ...(draft.jump === undefined ? {} : { jump: draft.jump }),
      ...(draft.restBars === undefined ? {} : { restBars: draft.restBars }),
      ...(draft.repeatsLast ? { repeatsLast: true as const } : {}),
      ...(draft.close === undefined ? {} : { close: draft.close }),
      span: draft.span,
    };
  });
}

/** Spells pitches in a key. A block has the same few notes over the same few chords, so each is spelled once. */
function speller(key: SongKey): (midi: number, chord: Chord | undefined) => Pitch {
  const known = new Map<Chord | undefined, Map<number, Pitch>>();
  return (midi, chord) => {
    const overChord = known.get(chord) ?? new Map<number, Pitch>();
    known.set(chord, overChord);
    const pitch = overChord.get(midi) ?? spell(midi, chord, key);
    overChord.set(midi, pitch);
    return pitch;
  };
}

function finishEvent(
  event: DraftEvent,
  index: number,
  endings: DraftBar['endings'],
  head: Header,
  pitchOf: (midi: number) => Pitch,
): Event {
  const { onset, duration, source } = event;
  if (event.kind === 'rest') return { kind: 'rest', index, onset, duration, source };
  const { note, mouth, tied, glide, words, syllable } = event;
  const notes = note.notes.map((written): Note => {
    const { hole, bend, over, slide } = written;
    const sound = sounding(head.harp, note.breath, written);
    // Every note was checked against the harp before a score is made.
    if ('fault' in sound) throw new Error(`unchecked note: ${sound.fault}`);
    return { hole, bend, over, slide, pitch: pitchOf(sound.midi) };
  });
  if (notes.length > 1) notes.sort((a, b) => a.hole - b.hole);
  return {
    kind: 'sound',
    index,
    onset,
    duration,
    breath: note.breath,
    notes,
    tied,
    glides: glide !== undefined,
    mouth,
    marks: tied || note.marks.length === 0 ? NO_MARKS : note.marks.map(({ mark }) => mark),
    ...(words ? { lyrics: lyricsOf(words, endings) } : {}),
    ...(syllable ? { syllable: noteText(syllable) } : {}),
    source,
  };
}

const NO_MARKS: readonly Mark[] = [];

/** The change of tempo before a bar. Before the first one, a tempo that is there at once is that of the block. */
function tempoOf({ change }: DraftBar, index: number): Pick<Bar, 'tempo'> {
  const { from, to } = change?.tempo ?? {};
  const own = { ...(from === undefined || index === 0 ? {} : { from }), ...(to === undefined ? {} : { to }) };
  return Object.keys(own).length === 0 ? {} : { tempo: own };
}
