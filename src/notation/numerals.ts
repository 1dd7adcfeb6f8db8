/** Numerals of a minor song that count from the major scale where the author may have counted from the minor one. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { isStep, type Mode, type SongKey } from '../harmony/key.ts';
import { readNumeral } from '../harmony/numeral.ts';
import { nameOfNumeralOver } from '../harmony/symbol-help.ts';
import { throughEndings } from '../score/endings.ts';
import type { DraftSettings } from './bars.ts';
import { type Changes, changed, settingsAt } from './changes.ts';
import type { BlockKeys } from './keys.ts';
import { report } from './problems.ts';
import type { Tables } from './setting-values.ts';
import type { Settings } from './settings.ts';
import type { BlockTree, Item } from './tree.ts';

/** Half steps from the tonic to the steps that are lower in some modes than in major. */
const STEPS: ReadonlyMap<number, number> = new Map([
  [3, 4],
  [6, 9],
  [7, 11],
]);

/** Whether a step of the major scale is a half step lower in a mode. Minor has its sixth and seventh in both forms; chords are on the lower. */
function isLowered(mode: Mode, step: number): boolean {
  const semitones = STEPS.get(step);
  if (semitones === undefined || !isStep(mode, semitones - 1)) return false;
  return mode === 'minor' || !isStep(mode, semitones);
}

/**
 * Reports each chord on such a step that a block writes itself, in its music, its phrases and its list of chords, and in music and
 * phrases each numeral over a bass note.
 */
export function checkNumerals(tree: BlockTree, known: KnownOfBlock, diagnostics: Diagnostic[]): void {
  const written = writtenChords(tree, known);
  for (const { text, span, key } of written) {
    const named = nameOfNumeralOver(text, key);
    if (named !== undefined) diagnostics.push(report('numeral-over-note', span, { text, nearest: `"${named}"` }));
  }
  for (const { text, span, key } of [...written, ...listed(tree, known.keys.first)]) {
    const { mode } = key;
    const of = readNumeral(text)?.of;
    // What is before a slash counts from the step behind it, which counts from the tonic.
    const [before, fromTonic] = of === undefined ? ['', text] : [text.slice(0, text.lastIndexOf('/') + 1), of];
    const numeral = readNumeral(fromTonic);
    if (!numeral || numeral.minor || !isLowered(mode, numeral.step) || /^[b♭#♯]/.test(fromTonic)) continue;
    if (/^(?:dim|o|°)/.test(numeral.suffix)) continue;
    diagnostics.push(report('numeral-in-minor', span, { text, lowered: `${before}b${fromTonic}`, mode }));
  }
}

/** What decides in which key a chord is written. */
export interface KnownOfBlock {
  readonly settings: Settings;
  readonly changes: Changes;
  readonly keys: BlockKeys;
  readonly tables: Tables;
}

interface WrittenChord {
  readonly text: string;
  readonly span: TextSpan;
  readonly key: SongKey;
}

function writtenChords(tree: BlockTree, { settings, changes, keys, tables }: KnownOfBlock): WrittenChord[] {
  let now: DraftSettings = settings;
  let key = keys.first;
  const through = throughEndings({ now, key });
  const inMusic = tree.music.flatMap((item) => {
    if (item.kind === 'bar') ({ now, key } = through({ now, key }, item.endings));
    const change = item.kind === 'change' ? changes.of.get(item) : undefined;
    if (change) {
      now = changed(now, change);
      key = keys.of(now);
    }
    return chordsIn(item, key);
  });
  const inPhrases = [...tree.phrases.values()].flatMap((phrase) => {
    const own = phrase.changes.length === 0 ? keys.first : keys.of(settingsAt(phrase, settings, tables));
    return phrase.items.flatMap((item) => chordsIn(item, own));
  });
  return [...inMusic, ...inPhrases];
}

function chordsIn(item: Item, key: SongKey): WrittenChord[] {
  if (item.kind === 'chord') return [{ text: item.text, span: item.span, key }];
  if (item.kind === 'quote') return item.to ? [{ text: item.to.chord, span: item.to.span, key }] : [];
  return item.kind === 'group' ? item.items.flatMap((inner) => chordsIn(inner, key)) : [];
}

function listed({ header }: BlockTree, key: SongKey): WrittenChord[] {
  const line = header.get('chords');
  if (!line) return [];
  return [...line.value.matchAll(/[^\s|,]+/g)].map(({ 0: text, index }) => {
    const from = line.valueSpan.from + index;
    return { text, span: { from, to: from + text.length }, key };
  });
}
