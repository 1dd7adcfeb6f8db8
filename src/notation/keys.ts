/** The keys of a block's bars: the tonic from harp and position, the mode from the chords there, unless its author names it. */
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import type { SongKey } from '../harmony/key.ts';
import { keyOfSong } from '../harmony/song-key.ts';
import { harpName } from '../instrument/harp.ts';
import { chromaOf, printedName } from '../instrument/pitch.ts';
import { positionInWords } from '../instrument/position.ts';
import { throughEndings } from '../score/endings.ts';
import { equals } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import type { DraftBar, DraftSettings } from './bars.ts';
import { type Changes, changed } from './changes.ts';
import type { ReadContext } from './context.ts';
import type { Header } from './header.ts';
import { report } from './problems.ts';
import { homeSymbols } from './setting-values.ts';
import type { BlockTree } from './tree.ts';

/** The keys of a block. */
export interface BlockKeys {
  /** That of its beginning. */
  readonly first: SongKey;
  /** For each bar its own; bars in one key share it. */
  readonly bars: readonly SongKey[];
  /** That of a bar with such settings. */
  readonly of: (settings: DraftSettings) => SongKey;
}

/**
 * The key of each bar. Bars in the same position have one mode, by the first home chord in any of them, except where the author names
 * another.
 */
export function keysOfBars(
  bars: readonly DraftBar[],
  settings: readonly DraftSettings[],
  { harp, settings: start }: Header,
  context: ReadContext,
): BlockKeys {
  const known = new Map<string, SongKey>();
  const form = homeSymbols(start.progression, context);
  const keyOf = ({ position, key }: DraftSettings): SongKey => {
    const name = `${position} ${key?.mode}`;
    const before = known.get(name);
    if (before) return before;
    const symbols = bars.flatMap((bar, index) =>
      itemAt(settings, index).position === position ? heardChords(bar, bars[index + 1]) : [],
    );
    const own = keyOfSong(harp, position, [...form, ...symbols], key?.mode);
    known.set(name, own);
    return own;
  };
  let before: DraftSettings = start;
  let key = keyOf(start);
  const first = key;
  const each = settings.map((own) => {
    if (own.position !== before.position || own.key?.mode !== before.key?.mode) key = keyOf(own);
    before = own;
    return key;
  });
  return { first, bars: each, of: keyOf };
}

/** The chord symbols of a bar that another one does not replace at the same moment. */
const heardChords = ({ chords, length }: DraftBar, next: DraftBar | undefined): string[] =>
  chords
    .filter(({ onset }, index) => {
      const after = chords[index + 1]?.onset ?? (next?.chords.some((own) => own.onset.n === 0) ? length : undefined);
      return after === undefined || !equals(onset, after);
    })
    .map(({ text }) => text);

/** Reports a key that is named and not that of harp and position: where it is named, or else where its block changes them. */
export function checkKeys(tree: BlockTree, head: Header, changes: Changes, diagnostics: Diagnostic[]): void {
  const { harp, bad } = head;
  if (['harp', 'position', 'key'].some((one) => bad.has(one) || changes.bad.has(one))) return;
  const check = ({ position, key: named }: DraftSettings, span: { from: number; to: number }): void => {
    if (!named?.tonic) return;
    const { tonic } = keyOfSong(harp, position, [], named.mode);
    if (chromaOf(named.tonic) === chromaOf(tonic)) return;
    const facts = { written: printedName(named.tonic), key: printedName(tonic), position: positionInWords(position) };
    const holder = `${/^[AEF]/.test(harpName(harp)) ? 'An' : 'A'} ${harpName(harp)} harp`;
    diagnostics.push(report('key-differs', span, { ...facts, harp: holder }));
  };
  const lines = ['key', 'position', 'harp'].flatMap((one) => tree.header.get(one)?.valueSpan ?? []);
  check(head.settings, lines[0] ?? { from: 0, to: Math.max(1, tree.text.indexOf('\n')) });
  let settings: DraftSettings = head.settings;
  const through = throughEndings(settings);
  for (const item of tree.music) {
    if (item.kind === 'bar') settings = through(settings, item.endings);
    const change = item.kind === 'change' ? changes.of.get(item) : undefined;
    if (!change) continue;
    settings = changed(settings, change);
    if (change.key) check(settings, item.span);
  }
}
