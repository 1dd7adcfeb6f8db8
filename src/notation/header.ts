/** The head of a block: its own settings over the lesson's and the course's. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import type { Harp } from '../instrument/harp.ts';
import { compare, divide, type Fraction, format, fraction, multiply } from '../time/fraction.ts';
import { barLength } from '../time/meter.ts';
import { isOneOf } from '../values/checked.ts';
import { HEADER_KEYS } from './parse.ts';
import { report } from './problems.ts';
import {
  type MeantValue,
  type RefusedValue,
  readSetting,
  SETTING_KEYS,
  type SettingKey,
  type Tables,
  valueProblem,
} from './setting-values.ts';
import type { Settings } from './settings.ts';
import type { BlockTree, HeaderLine } from './tree.ts';

/** The settings of a block, with the defaults of its lesson and course. */
export interface Header {
  readonly settings: Settings;
  readonly harp: Harp;
  readonly id?: string;
  /** Ids it had before. */
  readonly formerly?: readonly string[];
  readonly title?: string;
  readonly pickup?: Fraction;
  /** Whether the block names its chords itself. */
  readonly ownChords: boolean;
  /** The settings that could not be read: what depends on them is not checked, since it would only mislead. */
  readonly bad: ReadonlySet<string>;
}

/** Reads the settings of a block over the defaults. Settings with errors keep their default. */
export function readHeader(tree: BlockTree, defaults: Settings, tables: Tables, diagnostics: Diagnostic[]): Header {
  const bad = new Set<string>();
  const fail = (line: HeaderLine, refusal: RefusedValue): void => {
    bad.add(line.key);
    if (!line.isGuess) diagnostics.push(valueProblem(refusal, line));
  };
  let settings = defaults;
  for (const key of HEADER_KEYS) {
    const line = tree.header.get(key);
    if (!line || !isSetting(key)) continue;
    const read = readSetting(key, line.value, tables);
    if ('value' in read) settings = { ...settings, ...read.value };
    else fail(line, read);
  }
  const [form, chords] = [tree.header.get('form'), tree.header.get('chords')];
  if (form && chords) diagnostics.push(report('header-conflict', chords.keySpan, {}));

  const { harp: held, tuning, meter, slot } = settings;
  return {
    settings,
    harp: { ...held, tuning },
    ...named('id', BLOCK_ID, 'An id is made of small letters, digits and hyphens, and begins with a letter.'),
    ...readFormer(),
    ...named('title', /./, 'A title needs some text.'),
    ...readPickup(),
    ownChords: form !== undefined || chords !== undefined,
    bad,
  };

  function named(key: 'id' | 'title', pattern: RegExp, message: string): { [K in typeof key]?: string } {
    const line = tree.header.get(key);
    if (!line) return {};
    if (pattern.test(line.value)) return { [key]: line.value };
    const meant = key === 'id' ? meantId(line.value) : undefined;
    fail(line, {
      message,
      ...(meant === undefined ? {} : { help: `Did you mean “${meant}”?`, meant: { text: meant, isCertain: false } }),
    });
    return {};
  }

  function readFormer(): { formerly?: readonly string[] } {
    const line = tree.header.get('formerly');
    if (!line) return {};
    const written = formerIdsIn(tree);
    const odd = written.find(({ id }) => !BLOCK_ID.test(id));
    if (written.length > 0 && !odd) return { formerly: written.map(({ id }) => id) };
    const { value, valueSpan } = odd ? { value: odd.id, valueSpan: odd.span } : line;
    fail(
      { ...line, value, valueSpan },
      { message: 'Former names are ids that the block had before, divided by commas.' },
    );
    return {};
  }

  function readPickup(): { pickup?: Fraction } {
    const line = tree.header.get('pickup');
    if (!line) return {};
    const slots = /^\d{1,3}$/.test(line.value) ? Number(line.value) : 0;
    const pickup = multiply(fraction(slots), slot);
    const bar = barLength(meter);
    if (slots < 1) {
      const meant = meantPickup(line.value, slot);
      fail(line, {
        message: 'A pickup is a number of slots.',
        help: meant ? `Did you mean “${meant.text}”?` : 'Write pickup: 2 for two slots before the first full bar.',
        ...(meant ? { meant } : {}),
      });
    } else if (compare(pickup, bar) >= 0) {
      bad.add('pickup');
      diagnostics.push(report('pickup-too-long', line.valueSpan, { bar: `${format(divide(bar, slot))} slots` }));
    } else return { pickup };
    return {};
  }
}

/** A name as an id, if something is left of it. */
function meantId(name: string): string | undefined {
  const plain = name.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  const id = plain.replace(/[^a-z0-9]+/g, '-').replace(/^[-0-9]+|-+$/g, '');
  return id === '' ? undefined : id;
}

/** `1/4` or `2 slots` as a number of slots. */
function meantPickup(text: string, slot: Fraction): MeantValue | undefined {
  const [, count] = /^["']?(\d{1,2})["']?(?: +slots?)?[.,]?$/.exec(text) ?? [];
  if (count !== undefined && Number(count) > 0) return { text: count, isCertain: true };
  const [, over, under] = /^(\d{1,2})\s*\/\s*(1|2|4|8|16|32)$/.exec(text) ?? [];
  if (over === undefined || Number(over) === 0) return undefined;
  const slots = divide(fraction(Number(over), Number(under)), slot);
  return slots.d === 1 ? { text: `${slots.n}`, isCertain: true } : undefined;
}

const isSetting = (key: string): key is SettingKey => isOneOf(SETTING_KEYS, key);

/** What the id of a block is made of. */
export const BLOCK_ID = /^[a-z][a-z0-9-]*$/;

/** A former id, and where in the block it is written. */
export interface FormerId {
  readonly id: string;
  readonly span: TextSpan;
}

/** The former ids of a block as they are written, divided by commas or spaces; those that are no ids as well. */
export function formerIdsIn({ header }: BlockTree): FormerId[] {
  const line = header.get('formerly');
  if (!line) return [];
  return [...line.value.matchAll(/[^\s,]+/g)].map(({ 0: id, index }) => {
    const from = line.valueSpan.from + index;
    return { id, span: { from, to: from + id.length } };
  });
}
