/** The music of a block as one stream: groups become exact durations, and quotations are replaced by what they name. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { plainChord } from '../harmony/chord.ts';
import { keyOfSong } from '../harmony/song-key.ts';
import { readChord } from '../harmony/symbol.ts';
import type { Harp } from '../instrument/harp.ts';
import { throughEndings } from '../score/endings.ts';
import type { QuoteRef, Score, Source } from '../score/score.ts';
import { divide, type Fraction, fraction, multiply, ZERO } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { type Change, type Changes, changed, settingsAt, withoutChange } from './changes.ts';
import type { ReadContext } from './context.ts';
import type { Flowing, Written } from './flowing.ts';
import { report } from './problems.ts';
import { newJump } from './quotation/moved-jump.ts';
import { movePhrase, type QuotedNote } from './quotation/moved-phrase.ts';
import { type QuotationTarget, quotationName } from './quotation/quotation.ts';
import { MOST_LEVELS, type QuoteChain } from './quotation/quote-chain.ts';
import { withMarks } from './quotation/quoted.ts';
import { type Keys, movedSymbol } from './quotation/quoted-chord.ts';
import type { QuotedBlocks } from './quotation/quoted-lengths.ts';
import { missingBlock, missingPhrase } from './quotation/unknown-quotation.ts';
import { hasChanges, wholeBlock } from './quotation/whole-block.ts';
import type { Settings } from './settings.ts';
import type { BlockTree, Item, NoteItem, QuoteItem } from './tree.ts';

/** The block whose names are meant, and how its quotation was reached. */
interface Scope {
  readonly tree: BlockTree;
  readonly context: ReadContext;
  /** Those at its head. */
  readonly settings: Settings;
  /** The length of a slot at this place. */
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
  /** The settings at the head of a block, and its harp. */
  readonly headOf: (tree: BlockTree, context: ReadContext) => { readonly settings: Settings; readonly harp: Harp };
  /** The chord of the song's tonic in a position, as the block writes it first, or else as its mode has it. */
  readonly homeOf: (tree: BlockTree, context: ReadContext, position: number) => string;
  readonly scoreOf: (tree: BlockTree, context: ReadContext, quoteChain: QuoteChain) => Score | undefined;
}

/** A block whose music is laid out. */
export interface Expansion {
  readonly tree: BlockTree;
  readonly context: ReadContext;
  readonly settings: Settings;
  readonly harp: Harp;
  readonly changes: Changes;
  /** Gets the blocks that are quoted whole. */
  readonly quoted: QuotedBlocks;
}

/** Lays out the music of a block. */
export function expandMusic(
  { tree, context, settings, harp, changes, quoted }: Expansion,
  quoteChain: QuoteChain,
  otherBlocks: OtherBlocks,
  diagnostics: Diagnostic[],
): Flowing[] {
  const stream: Flowing[] = [];
  const here = quoteChain.depth;
  /** False where the block has a progression: a quotation then leaves its own chords behind. */
  const keepsChords = !settings.progression;
  /** The settings at this place of the block. */
  let now = settings;
  /** What a quoted block has changed, set back from the next bar on; a setting that is written there applies instead. */
  let restored: Change | undefined;
  let isNextBar = false;
  const through = throughEndings({ now, restored });
  for (const item of tree.music) {
    if (item.kind === 'bar' || item.kind === 'change') isNextBar = true;
    else if (isNextBar && !ABOVE_OR_BELOW.has(item.kind)) restore(item.span);
    if (item.kind === 'quote') isNextBar = false;
    if (item.kind === 'change') change(item);
    else walk([item], { tree, context, settings, slot: now.slot });
    if (item.kind === 'bar') ({ now, restored } = through({ now, restored }, item.endings));
  }
  return stream;

  function change(item: Extract<Item, { kind: 'change' }>): void {
    const read = changes.of.get(item);
    if (!read) return;
    now = changed(now, read);
    const { from, to } = read.tempo ?? {};
    now = { ...now, tempo: to ?? from ?? now.tempo };
    const change = restored?.tempo && read.tempo ? { ...read, tempo: { ...restored.tempo, ...read.tempo } } : read;
    restored = restored && withoutChange(restored, read);
    stream.push({ kind: 'change', change, key: item.key, source: { span: item.keySpan }, site: item.keySpan });
  }

  /** After a quoted block with changes of its own, this block goes on as before it. */
  function restore(span: TextSpan): void {
    if (restored) stream.push({ kind: 'change', change: restored, source: { span }, site: span });
    restored = undefined;
  }

  function walk(items: readonly Item[], scope: Scope): void {
    for (const item of items) {
      // Where a line ends is no music: the same music in more lines is as long.
      if (item.kind !== 'line-end' && quoteChain.isTooLong()) return;
      if (item.kind === 'quote') quote(item, scope);
      else put(item, scope, scope.slot);
    }
  }

  function put(item: Exclude<Item, { kind: 'quote' }>, scope: Scope, share: Fraction): void {
    const span = scope.quotedAt ?? item.span;
    const site = scope.site ?? span;
    const source: Source = scope.quote ? { span, quote: scope.quote, quotedAt: site.from } : { span };
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
      case 'bar':
        stream.push({ kind: 'bar', source, site, line: item });
        return;
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
      case 'syllables':
        stream.push({ ...item, source, site });
        return;
      // It is on a line of its own, outside of phrases.
      case 'change':
        return;
      case 'rest-bars':
        stream.push({ kind: 'rest-bars', source, site, bars: item.bars });
        return;
      case 'glide':
      case 'again':
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
      else diagnostics.push(missingBlock(item, found, span));
      unknown(span, site);
      return;
    }
    const { tree: other, context: theirs } = found;
    const ref = { ...(lesson === undefined ? {} : { lesson }), block };
    const { leftChords } = scope;
    if (phrase !== undefined) {
      const head = otherBlocks.headOf(other, theirs);
      const written = other.phrases.get(phrase);
      const from = keysIn(head.harp, written ? settingsAt(written, head.settings, theirs) : head.settings);
      const inner: Scope = {
        tree: other,
        context: theirs,
        settings: head.settings,
        slot: head.settings.slot,
        quotedAt: span,
        site,
        symbol: (text: string) => movedSymbol(text, from, keysHere()),
        ...(leftChords ? { leftChords } : {}),
      };
      quotePhrase(phrase, inner, span, { ...ref, phrase });
      return;
    }
    const isEntered = enter(other, undefined, name, span);
    const score = isEntered ? otherBlocks.scoreOf(other, theirs, quoteChain) : undefined;
    if (isEntered) leave(span, name, score === undefined);
    if (score) {
      quoted.set(span.from, { ...score, name, span });
      quoteScore(score, { source: { span, quote: ref }, site }, leftChords);
    } else if (!scope.quotedAt) unknown(span, site);
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
    const { song } = keysHere();
    // A phrase that names its chord later begins over the home chord.
    const all = leftChords[0]?.at === start ? [] : [homeOf(item, scope)];
    const texts = [...all, ...leftChords.map(({ text }) => text)];
    const chords = texts.flatMap((text) => readChord(text, song) ?? []);
    const [from, ...others] = chords;
    const to = readChord(namedHere(chord, scope), song);
    const other = from && others.find((one) => plainChord(one) !== plainChord(from));
    // What is not there, or is no chord, has been reported.
    if (!from || !to || notesFrom(start).length === 0) return;
    if (other) {
      const between = [plainChord(from), plainChord(other)] as const;
      diagnostics.push(report('moved-two-chords', span, { name, chords: between }));
      return;
    }
    const notes = notesFrom(start);
    const way = movePhrase(notes, { from, to, key: song, harp });
    if ('impossible' in way) {
      diagnostics.push(report('moved-unplayable', span, { name, to: chord, why: way.impossible }));
      return;
    }
    const jump = newJump(notes, way, harp);
    if (jump) diagnostics.push(report('moved-jumps', span, { name, to: chord, ...jump }));
    changeNotes(start, (_, index) => itemAt(way, index));
  }

  /** The home chord where the phrase of a quotation is written, as this block names it. */
  function homeOf({ lesson, block, phrase }: QuoteItem, scope: Scope): string {
    // A phrase within a quoted phrase is named as that one is.
    if (block === undefined && scope.tree !== tree)
      return namedHere(otherBlocks.homeOf(scope.tree, scope.context, scope.settings.position), scope);
    const found = block === undefined ? { tree, context } : scope.context.find(lesson, block);
    if ('missing' in found) return '';
    const head = otherBlocks.headOf(found.tree, found.context);
    const written = found.tree.phrases.get(phrase ?? '');
    const theirs = written ? settingsAt(written, head.settings, found.context) : head.settings;
    const home = otherBlocks.homeOf(found.tree, found.context, theirs.position);
    return movedSymbol(home, keysIn(head.harp, theirs), keysHere());
  }

  function keysHere(): Keys {
    return keysIn(harp, now);
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
      diagnostics.push(missingPhrase({ ...ref, phrase }, scope, span));
      unknown(span, scope.site ?? span);
      return;
    }
    const outward = ref.block !== undefined;
    if (!enter(scope.tree, phrase, name, span)) {
      if (!scope.quotedAt) unknown(span, span);
      return;
    }
    const before = stream.length;
    const { slot } = settingsAt(found, scope.settings, scope.context);
    walk(found.items, { ...scope, slot, quote: outward ? ref : (scope.quote ?? ref) });
    const mistakes = scope.quotedAt !== undefined && stream.slice(before).some(({ kind }) => kind === 'unreadable');
    leave(span, name, mistakes);
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

  /** What is quoted may be of any length. */
  function unknown(span: TextSpan, site: TextSpan): void {
    stream.push({ kind: 'unreadable', source: { span }, site, duration: ZERO });
  }

  function broken(span: TextSpan, name: string): void {
    diagnostics.push(report('quote-broken', span, { name }));
  }

  /** A whole block, as it is played. */
  function quoteScore(score: Score, written: Written, leftChords: LeftChord[] | undefined): void {
    const withChords = keepsChords || leftChords !== undefined;
    const place = { keys: keysHere(), settings: now, withChords, site: written.site };
    for (const item of wholeBlock(score, place)) {
      if ('duration' in item && quoteChain.isTooLong()) return;
      if (item.kind === 'chord' && leftChords) leftChords.push({ text: item.text, at: stream.length });
      else stream.push({ ...written, ...item });
    }
    const { meter, feel, tempo } = now;
    if (hasChanges(score)) restored = { meter, feel, tempo: { from: tempo } };
  }
}

/** What is written above or below a bar, and begins none. */
const ABOVE_OR_BELOW: ReadonlySet<Item['kind']> = new Set(['part', 'direction', 'line-end', 'words', 'syllables']);

/** The keys of a block in a position: the tonic of its song alone is right, as its chords are not asked for the mode. */
const keysIn = (harp: Harp, { position }: Settings): Keys => ({ song: keyOfSong(harp, position), harp: harp.key });

/** A chord symbol of a scope, as the block being read writes it. */
const namedHere = (text: string, { symbol }: Scope): string => symbol?.(text) ?? text;

const times = (share: Fraction, slots: number): Fraction => (slots === 1 ? share : multiply(share, fraction(slots)));

const sharesOf = (item: Item): number =>
  item.kind === 'note' || item.kind === 'unreadable'
    ? 1
    : item.kind === 'hold' || item.kind === 'rest'
      ? item.slots
      : 0;
