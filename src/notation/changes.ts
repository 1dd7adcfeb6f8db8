/** Settings that change between two bars: written on a line of their own, they apply from the next bar on. */
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import type { TempoChange } from '../score/score.ts';
import { type RefusedValue, readSetting, type Tables, valueProblem } from './setting-values.ts';
import type { Settings } from './settings.ts';
import type { BlockTree, ChangeItem, Phrase } from './tree.ts';

/** What changes before a bar; what is missing stays as it is. A new position takes a key that was named with it. */
export interface Change extends Partial<Pick<Settings, 'position' | 'key' | 'meter' | 'feel' | 'slot'>> {
  readonly tempo?: TempoChange;
}

/** What the lines of a block say that change its settings, by line; those that could not be read are missing. */
export interface Changes {
  readonly of: ReadonlyMap<ChangeItem, Change>;
  /** The settings that could not be read: what depends on them is not checked, since it would only mislead. */
  readonly bad: ReadonlySet<string>;
}

/** Reads all changes of a block. */
export function readChanges(tree: BlockTree, tables: Tables, diagnostics: Diagnostic[]): Changes {
  const of = new Map<ChangeItem, Change>();
  const bad = new Set<string>();
  for (const item of tree.music) {
    if (item.kind !== 'change') continue;
    const read = changeOf(item, tables);
    if (!('message' in read)) of.set(item, read);
    else {
      bad.add(item.key);
      diagnostics.push(valueProblem(read, { keySpan: item.keySpan, valueSpan: item.span }));
    }
  }
  return { of, bad };
}

/** A change without what another changes. */
export const withoutChange = ({ meter, feel, tempo }: Change, other: Change): Change => ({
  ...(meter && !other.meter ? { meter } : {}),
  ...(feel && !other.feel ? { feel } : {}),
  ...(tempo && !other.tempo ? { tempo } : {}),
});

/** The settings a phrase is read in: those of the block where it is written. */
export function settingsAt(phrase: Phrase, settings: Settings, tables: Tables): Settings {
  let own = settings;
  for (const item of phrase.changes) {
    const read = changeOf(item, tables);
    if (!('message' in read)) own = changed(own, read);
  }
  return own;
}

/** Settings after a change. The mode that was named is that of the old position. */
export function changed<Own extends Pick<Settings, 'position' | 'key'>>(settings: Own, change: Change): Own {
  const { tempo: _, ...own } = change;
  const moved = own.position !== undefined && own.position !== settings.position;
  return { ...settings, ...(moved ? { key: undefined } : {}), ...own };
}

function changeOf({ key, value }: ChangeItem, tables: Tables): Change | RefusedValue {
  if (key === 'tempo') return readTempoChange(value, tables);
  const read = readSetting(key, value, tables);
  if (!('value' in read)) return read;
  const { tempo: _, ...change } = read.value;
  return change;
}

/** `100`, `to 60` or `100 to 60`. */
function readTempoChange(text: string, tables: Tables): Change | RefusedValue {
  const words = text.split(/ +/);
  const isGradual = words.at(-2) === 'to' && words.length <= 3;
  const written = isGradual ? { from: words.at(-3), to: words.at(-1) } : { from: text, to: undefined };
  const tempo: { from?: number; to?: number } = {};
  for (const end of ['from', 'to'] as const) {
    if (written[end] === undefined) continue;
    const read = readSetting('tempo', written[end], tables);
    if (!('value' in read)) {
      const { meant, message } = read;
      // What is meant by one of two tempos is not what is meant by both.
      return meant && !isGradual ? read : { message, help: TEMPO_HELP };
    }
    if (read.value.tempo !== undefined) tempo[end] = read.value.tempo;
  }
  return { tempo };
}

const TEMPO_HELP =
  'Write beats a minute, such as 100, or to 60 for a tempo that is reached by the next change or by the end.';
