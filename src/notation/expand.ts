/** The music of a block as one stream: groups become exact durations, and quotations are replaced by what they name. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { nearest } from '../diagnostics/nearest.ts';
import { type Chord, NO_CHORD, type NoChord, plainChord } from '../harmony/chord.ts';
import { type SongKey, songKey } from '../harmony/key.ts';
import { moveChord, numeralOf, rootAt } from '../harmony/numeral.ts';
import { readChord } from '../harmony/symbol.ts';
import type { Harp } from '../instrument/harp.ts';
import { chromaOf, fifthsOf, mod, type PitchClass } from '../instrument/pitch.ts';
import { playOrder } from '../score/playing-order.ts';
import { isSoundEvent } from '../score/queries.ts';
import type { Event, Mouth, QuoteRef, Score, Source } from '../score/score.ts';
import { divide, equals, type Fraction, fraction, multiply } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import type { ReadContext } from './context.ts';
import { report } from './problems.ts';
import { movePhrase, type QuotedNote } from './quotation/moved-phrase.ts';
import { type QuotationTarget, quotationName } from './quotation/quotation.ts';
import { MOST_LEVELS, type QuoteChain } from './quotation/quote-chain.ts';
import { cutRest, withMarks, writtenNote } from './quotation/quoted.ts';
import type { BarLine, BlockTree, Item, NoteItem, QuoteItem, Syllable } from './tree.ts';

/** Where a thing of the stream was written; `site` is in this block, at the quotation that brought it if one did. */
interface Written {
  readonly source: Source;
  readonly site: TextSpan;
}

/** An item of the music after quotations are replaced by what they name. */
export type Flowing = Written &
  (
    | { readonly kind: 'note'; readonly note: NoteItem; readonly duration: Fraction }
    | { readonly kind: 'hold'; readonly slots: number; readonly duration: Fraction }
    | { readonly kind: 'rest' | 'unreadable'; readonly duration: Fraction }
    | { readonly kind: 'chord'; readonly text: string }
    /** Where a quotation is moved to a chord, in a block whose progression says which chord is there. */
    | { readonly kind: 'expected-chord'; readonly text: string }
    | { readonly kind: 'mouth'; readonly mouth: Mouth }
    | { readonly kind: 'glide' | 'line-end' }
    | { readonly kind: 'bar'; readonly line: Omit<BarLine, 'kind' | 'span'> }
    | { readonly kind: 'part'; readonly name: string }
    | { readonly kind: 'direction'; readonly text: string }
    | { readonly kind: 'words'; readonly syllables: readonly Syllable[] }
  );

/** The block whose names are meant, and how its quotation was reached. */
interface Scope {
  readonly tree: BlockTree;
  readonly context: ReadContext;
  readonly slot: Fraction;
  /** The quotation in the block being read, for everything that is in another block. */
  readonly quotedAt?: TextSpan;
  readonly site?: TextSpan;
  readonly quote?: QuoteRef;
  /** Turns the chord symbols of another block into this block's. */
  readonly symbol?: (text: string) => string;
  /** The chords of a quotation that is moved to another one: it leaves them behind. */
  readonly leftChords?: LeftChord[];
}

interface LeftChord {
  readonly text: string;
  /** The length of the stream where it was met. */
  readonly at: number;
}

/** What the block being read has to know of others. */
export interface OtherBlocks {
  readonly slotOf: (tree: BlockTree, context: ReadContext) => Fraction;
  /** The key of a block, whose tonic alone is right: its chords are not asked for the mode. And the key of the harp. */
  readonly keysOf: (tree: BlockTree, context: ReadContext) => { readonly song: SongKey; readonly harp: PitchClass };
  /** The chord of the song's tonic, as the block writes it first, or else as its mode has it. */
  readonly homeOf: (tree: BlockTree, context: ReadContext) => string;
  readonly scoreOf: (tree: BlockTree, context: ReadContext, quoteChain: QuoteChain) => Score | undefined;
}

/** A block whose music is laid out. */
export interface Expansion {
  readonly tree: BlockTree;
  readonly context: ReadContext;
  readonly slot: Fraction;
  readonly harp: Harp;
  /** False where the block has a progression: a quotation then leaves its own chords behind. */
  readonly keepsChords: boolean;
}

/** Lays out the music of a block. */
export function expandMusic(
  { tree, context, slot, harp, keepsChords }: Expansion,
  quoteChain: QuoteChain,
  otherBlocks: OtherBlocks,
  diagnostics: Diagnostic[],
): Flowing[] {
  const stream: Flowing[] = [];
  const here = quoteChain.depth;
  walk(tree.music, { tree, context, slot });
  return stream;

  function walk(items: readonly Item[], scope: Scope): void {
    for (const item of items) {
      if (quoteChain.isTooLong()) return;
      if (item.kind === 'quote') quote(item, scope);
      else put(item, scope, scope.slot);
    }
  }

  function put(item: Exclude<Item, { kind: 'quote' }>, scope: Scope, share: Fraction): void {
    const span = scope.quotedAt ?? item.span;
    const source: Source = scope.quote ? { span, quote: scope.quote } : { span };
    const site = scope.site ?? span;
    switch (item.kind) {
      case 'group': {
        const shares = item.items.reduce((sum, inner) => sum + sharesOf(inner), 0);
        const one = divide(multiply(share, fraction(item.slots)), fraction(shares));
        const within = { ...scope, site };
        for (const inner of item.items) if (inner.kind !== 'quote') put(inner, within, one);
        return;
      }
      case 'note':
        stream.push({ kind: 'note', source, site, note: item, duration: share });
        return;
      case 'unreadable':
        stream.push({ kind: 'unreadable', source, site, duration: share });
        return;
      case 'hold':
        stream.push({ kind: 'hold', source, site, slots: item.slots, duration: times(share, item.slots) });
        return;
      case 'rest':
        stream.push({ kind: 'rest', source, site, duration: times(share, item.slots) });
        return;
      case 'chord': {
        const text = namedHere(item.text, scope);
        if (scope.leftChords) scope.leftChords.push({ text, at: stream.length });
        else if (!scope.quotedAt || keepsChords) stream.push({ kind: 'chord', source, site, text });
        return;
      }
      case 'bar': {
        stream.push({ kind: 'bar', source, site, line: item });
        return;
      }
      case 'mouth':
        stream.push({ kind: 'mouth', source, site, mouth: item.mouth });
        return;
      case 'part':
        stream.push({ kind: 'part', source, site, name: item.name });
        return;
      case 'direction':
        stream.push({ kind: 'direction', source, site, text: item.text });
        return;
      case 'words':
        stream.push({ kind: 'words', source, site, syllables: item.syllables });
        return;
      case 'glide':
      case 'line-end':
        stream.push({ kind: item.kind, source, site });
        return;
    }
  }

  function quote(item: QuoteItem, scope: Scope): void {
    const before = stream.length;
    if (item.to) moved(item, item.to, scope);
    else bring(item, scope);
    if (item.marks.length > 0 || item.mouth !== undefined)
      changeNotes(before, (note, index, last) =>
        withMarks(note, item, { isFirst: index === 0, isLast: index === last }),
      );
  }

  /** Brings what a quotation names into the stream. */
  function bring(item: QuoteItem, scope: Scope): void {
    const site = scope.site ?? item.span;
    const span = scope.quotedAt ?? item.span;
    const { lesson, block, phrase } = item;
    const name = quotationName(item);
    if (block === undefined) {
      const own = phrase ?? '';
      quotePhrase(own, { ...scope, site }, span, { phrase: own });
      return;
    }
    const found = scope.context.find(lesson, block);
    if ('missing' in found) {
      // A quotation that is wrong in its own block is reported there.
      if (scope.quotedAt) broken(span, name);
      else if (lesson !== undefined && found.missing === 'lesson')
        diagnostics.push(report('quote-unknown', span, { what: 'lesson', name: lesson, nearest: found.nearest }));
      else {
        const near = found.nearest === undefined ? undefined : `<${quotationName({ ...item, block: found.nearest })}>`;
        const missing = lesson === undefined ? block : `${lesson}/${block}`;
        diagnostics.push(report('quote-unknown', span, { what: 'block', name: missing, nearest: near }));
      }
      return;
    }
    const { tree: other, context: theirs } = found;
    const ref = { ...(lesson === undefined ? {} : { lesson }), block };
    const { leftChords } = scope;
    if (phrase !== undefined) {
      const inner: Scope = {
        tree: other,
        context: theirs,
        slot: otherBlocks.slotOf(other, theirs),
        quotedAt: span,
        site,
        symbol: (text: string) => symbolFrom(text, other, theirs),
        ...(leftChords ? { leftChords } : {}),
      };
      quotePhrase(phrase, inner, span, { ...ref, phrase });
    } else if (enter(other, undefined, name, span)) {
      const score = otherBlocks.scoreOf(other, theirs, quoteChain);
      leave(span, name, score === undefined);
      if (score) quoteScore(score, { source: { span, quote: ref }, site }, leftChords);
    }
  }

  /** Brings a quotation with its notes moved to a chord. */
  function moved(item: QuoteItem, { chord, span: chordSpan }: QuotationTarget, scope: Scope): void {
    const span = scope.quotedAt ?? item.span;
    const name = quotationName(item);
    const target: Item = { kind: 'chord', text: chord, span: chordSpan };
    if (keepsChords || scope.leftChords) put(target, scope, scope.slot);
    else {
      const text = namedHere(chord, scope);
      stream.push({ kind: 'expected-chord', source: { span }, site: scope.site ?? span, text });
    }
    const start = stream.length;
    const leftChords: LeftChord[] = [];
    bring(item, { ...scope, leftChords });
    const { song } = otherBlocks.keysOf(tree, context);
    // A phrase that names its chord later begins over the home chord.
    const all = leftChords[0]?.at === start ? [] : [homeOf(item, scope)];
    const texts = [...all, ...leftChords.map(({ text }) => text)];
    const chords = texts.flatMap((text) => readChord(text, song) ?? []);
    const [from, ...others] = chords;
    const to = readChord(namedHere(chord, scope), song);
    const other = from && others.find((one) => plainChord(one) !== plainChord(from));
    // What is not there, or is no chord, has been reported.
    if (!from || !to || stream.length === start) return;
    if (other) {
      const between = [plainChord(from), plainChord(other)] as const;
      diagnostics.push(report('moved-two-chords', span, { name, chords: between }));
      return;
    }
    const way = movePhrase(notesFrom(start), { from, to, key: song, harp });
    if ('impossible' in way) {
      diagnostics.push(report('moved-unplayable', span, { name, to: chord, why: way.impossible }));
      return;
    }
    changeNotes(start, (_, index) => itemAt(way, index));
  }

  /** The home chord of the block that a quotation is from, as this block names it. */
  function homeOf({ lesson, block }: QuoteItem, scope: Scope): string {
    if (block === undefined) return namedHere(otherBlocks.homeOf(scope.tree, scope.context), scope);
    const found = scope.context.find(lesson, block);
    return 'missing' in found
      ? ''
      : symbolFrom(otherBlocks.homeOf(found.tree, found.context), found.tree, found.context);
  }

  /** The notes of the stream from a place on, and whether each glides into the next. */
  function notesFrom(start: number): QuotedNote[] {
    const notes: { note: NoteItem; glides: boolean }[] = [];
    for (const item of stream.slice(start)) {
      const last = notes.at(-1);
      if (item.kind === 'note') notes.push({ note: item.note, glides: false });
      else if (item.kind === 'glide' && last) last.glides = true;
    }
    return notes;
  }

  /** Changes the notes of the stream from a place on; `index` counts them up to `last`. */
  function changeNotes(start: number, change: (note: NoteItem, index: number, last: number) => NoteItem): void {
    const places: number[] = [];
    for (let at = start; at < stream.length; at++) if (stream[at]?.kind === 'note') places.push(at);
    places.forEach((at, index) => {
      const item = itemAt(stream, at);
      if (item.kind === 'note') stream[at] = { ...item, note: change(item.note, index, places.length - 1) };
    });
  }

  function quotePhrase(phrase: string, scope: Scope, span: TextSpan, ref: QuoteRef): void {
    const found = scope.tree.phrases.get(phrase);
    const name = quotationName(ref);
    if (!found) {
      const other = ref.block === undefined ? scope.context.otherMeaning(phrase) : undefined;
      const near = nearest(phrase, scope.tree.phrases.keys());
      const meant = other ?? (near === undefined ? undefined : quotationName({ ...ref, phrase: near }));
      diagnostics.push(report('quote-unknown', span, { what: 'phrase', name, nearest: meant && `<${meant}>` }));
      return;
    }
    const outward = ref.block !== undefined;
    if (!enter(scope.tree, phrase, name, span)) return;
    const before = stream.length;
    walk(found.items, { ...scope, quote: outward ? ref : (scope.quote ?? ref) });
    const mistakes = scope.quotedAt !== undefined && stream.slice(before).some(({ kind }) => kind === 'unreadable');
    leave(span, name, mistakes);
  }

  /** A chord symbol of another block, as the numeral it is in this one once it has moved with the notes, from harp to harp. */
  function symbolFrom(text: string, other: BlockTree, theirs: ReadContext): string {
    const [from, to] = [otherBlocks.keysOf(other, theirs), otherBlocks.keysOf(tree, context)];
    if (chromaOf(from.song.tonic) === chromaOf(to.song.tonic) && chromaOf(from.harp) === chromaOf(to.harp)) return text;
    const chord = readChord(text, from.song);
    return chord ? quotedSymbol(chord, from, to) : text;
  }

  /** Steps into a quotation; false, and reported, where it leads back to one being read, or too deep. */
  function enter(other: BlockTree, phrase: string | undefined, name: string, span: TextSpan): boolean {
    const met = quoteChain.enter(other, phrase, name);
    if (met === 'too-deep') diagnostics.push(report('quote-too-deep', span, { levels: MOST_LEVELS }));
    else if (met) diagnostics.push(report('quote-cycle', span, { cycle: met.names }));
    return met === undefined;
  }

  function leave(span: TextSpan, name: string, isBroken: boolean): void {
    quoteChain.leave();
    const cycle = quoteChain.cycle;
    // A cycle met further in runs through this block only if it begins at or before it.
    if (isBroken && cycle && cycle.from <= here) diagnostics.push(report('quote-cycle', span, { cycle: cycle.names }));
    else if (isBroken && quoteChain.wasTooDeep)
      diagnostics.push(report('quote-too-deep', span, { levels: MOST_LEVELS }));
    else if (isBroken) broken(span, name);
  }

  function broken(span: TextSpan, name: string): void {
    diagnostics.push(report('quote-broken', span, { name }));
  }

  /** A whole block, as it is played: its repeats written out, its parts and lyrics left behind. */
  function quoteScore(score: Score, written: Written, leftChords: LeftChord[] | undefined): void {
    const [from, to] = [{ song: score.key, harp: score.harp.key }, otherBlocks.keysOf(tree, context)];
    playOrder(score).forEach((index, position) => {
      if (position > 0) stream.push({ ...written, kind: 'bar', line: { repeatStart: false, repeatEnd: false } });
      const bar = itemAt(score.bars, index);
      const chords = keepsChords || leftChords ? bar.chords : [];
      for (const event of bar.events.flatMap((each): readonly Event[] =>
        isSoundEvent(each) ? [each] : cutRest(each, chords),
      )) {
        if (quoteChain.isTooLong()) return;
        for (const { onset, chord } of chords)
          if (equals(onset, event.onset)) {
            const text = quotedSymbol(chord, from, to);
            if (leftChords) leftChords.push({ text, at: stream.length });
            else stream.push({ ...written, kind: 'chord', text });
          }
        if (!isSoundEvent(event)) stream.push({ ...written, kind: 'rest', duration: event.duration });
        else if (event.tied) stream.push({ ...written, kind: 'hold', slots: 1, duration: event.duration });
        else
          stream.push({ ...written, kind: 'note', note: writtenNote(event, written.site), duration: event.duration });
        if (isSoundEvent(event) && event.glides) stream.push({ ...written, kind: 'glide' });
      }
    });
  }
}

type Keys = ReturnType<OtherBlocks['keysOf']>;

/**
 * A chord of another block as a numeral of this one. It moves as the notes do, by the interval between the harps, so that each
 * note keeps its role; in the same position that is the numeral it was. No numeral has a bass: a chord with one moves by its name.
 */
function quotedSymbol(chord: Chord | NoChord, from: Keys, to: Keys): string {
  if (chord === 'none') return NO_CHORD;
  const positions = [from, to].map(({ song, harp }) => mod(chromaOf(song.tonic) - chromaOf(harp), 12));
  if (positions[0] === positions[1]) {
    if (!chord.bass) return numeralOf(chord, from.song);
    return plainChord(moveChord(chord, from.song, songKey(to.song.tonic, from.song.mode)));
  }
  if (chord.bass)
    return plainChord(moveChord(chord, { ...from.song, tonic: from.harp }, { ...to.song, tonic: to.harp }));
  const moved = rootAt(fifthsOf(chord.root) + fifthsOf(to.harp) - fifthsOf(from.harp));
  const { numeral: _, ...named } = chord;
  return numeralOf({ ...named, root: moved }, to.song);
}

/** A chord symbol of a scope, as the block being read writes it. */
const namedHere = (text: string, { symbol }: Scope): string => symbol?.(text) ?? text;

const times = (share: Fraction, slots: number): Fraction => (slots === 1 ? share : multiply(share, fraction(slots)));

const sharesOf = (item: Item): number =>
  item.kind === 'note' || item.kind === 'unreadable'
    ? 1
    : item.kind === 'hold' || item.kind === 'rest'
      ? item.slots
      : 0;
