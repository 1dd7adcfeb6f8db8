/** Settings that change between two bars: written on a line of their own, they apply from the next bar on. */
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import type { TempoChange } from '../score/score.ts';
import { report } from './problems.ts';
import { type ReadValue, readSetting, type Tables } from './setting-values.ts';
import type { Settings } from './settings.ts';
import type { BarLine, BlockTree, ChangeItem, Phrase } from './tree.ts';

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
      const { message, help, place } = read;
      const { from, to } = item.span;
      const span = place ? { from: from + place.from, to: Math.min(to, from + place.to) } : item.span;
      diagnostics.push(report('header-value', span.to > span.from ? span : item.keySpan, { message, help }));
    }
  }
  return { of, bad };
}

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

/** Follows what holds along the bar lines of a block: a later ending begins with what held before the first one. */
export function throughEndings<State>(start: State): (now: State, endings: BarLine['endings']) => State {
  let before = start;
  return (now, endings) => {
    if (endings?.includes(1)) before = now;
    return endings && !endings.includes(1) ? before : now;
  };
}

type Refusal = Extract<ReadValue, { readonly message: string }>;

function changeOf({ key, value }: ChangeItem, tables: Tables): Change | Refusal {
  if (key === 'tempo') return readTempoChange(value, tables);
  const read = readSetting(key, value, tables);
  if (!('value' in read)) return read;
  const { tempo: _, ...change } = read.value;
  return change;
}

/** `100`, `to 60` or `100 to 60`. */
function readTempoChange(text: string, tables: Tables): Change | Refusal {
  const words = text.split(/ +/);
  const to = words.at(-2) === 'to' && words.length <= 3 ? words.at(-1) : undefined;
  const from = to === undefined ? text : words.slice(0, -2).join();
  const tempos: { from?: number; to?: number } = {};
  for (const [end, value] of [
    ['from', from],
    ['to', to],
  ] as const) {
    if (value === undefined || (end === 'from' && value === '' && to !== undefined)) continue;
    const read = readSetting('tempo', value, tables);
    if (!('value' in read)) return { ...read, help: TEMPO_HELP };
    if (read.value.tempo !== undefined) tempos[end] = read.value.tempo;
  }
  return { tempo: tempos };
}

const TEMPO_HELP =
  'Write beats a minute, such as 100, or to 60 for a tempo that is reached by the next change or by the end.';
