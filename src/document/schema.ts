/**
 * The schema kit of every file an author writes: course.yaml, techniques.yaml, front matter. Values come as YAML left them,
 * as text (see yaml.ts), or as what they are where our own tables use the same schemas (`3` and `"3"`, `true` and `"yes"`).
 * Messages complete the sentence “`key` …”; `checkYaml` makes diagnostics of them.
 */
import { z } from 'zod';
import { didYouMean } from '../diagnostics/catalogue.ts';
import { excerpt } from '../diagnostics/excerpt.ts';
import { nearest, numbersIn } from '../diagnostics/nearest.ts';

/** How an issue is reported, beyond its message. */
export interface IssueParams {
  readonly help?: string | undefined;
  /** What is meant, as it is written in the file in the place of the value. */
  readonly instead?: string | undefined;
  /** Whether nothing else can be meant. */
  readonly certain?: boolean;
  /** The message is a whole sentence; otherwise it continues “key”. */
  readonly whole?: boolean;
  /** It is about the key, not its value. */
  readonly key?: boolean;
  /** It is about what each entry of a list has to be. */
  readonly each?: boolean;
}

/** Adds an issue to a transform and returns what zod expects then. */
export function refuse(context: z.RefinementCtx, message: string, params: IssueParams = {}): never {
  context.addIssue({ code: 'custom', message, params: { ...params } });
  return z.NEVER;
}

/**
 * A choice between schemas by the shape of what was written. A plain union tries every branch and says only that none
 * fits; here the branch is known before it is tried, so that its own message, at its own path, is what the author gets.
 */
export function byShape<T extends z.ZodType>(pick: (value: unknown) => z.ZodType): z.ZodType<z.output<T>, z.input<T>> {
  const schema = z.unknown().transform((value, context) => {
    const result = pick(value).safeParse(value);
    if (result.success) return result.data;
    for (const issue of result.error.issues) {
      context.issues.push({ ...issue, input: value } as (typeof context.issues)[number]);
    }
    return z.NEVER;
  });
  // Only the caller knows what the branches take and give.
  return schema as unknown as z.ZodType<z.output<T>, z.input<T>>;
}

const wants = (what: string) => ({ error: () => what });

const NOT_TEXT = 'takes a text, not a list or a group of keys';
const EMPTY = 'is empty';

/** A text that is not empty. */
export const text = z.string(wants(NOT_TEXT)).trim().min(1, wants(EMPTY));

/** Text of one form. `what` describes it: “is a meter such as 12/8”. */
export const matching = (pattern: RegExp, what: string) => text.regex(pattern, wants(what));

/** One of a few words. */
export const word = <const Word extends string>(words: readonly Word[]) =>
  byShape<z.ZodType<Word, Word>>(() =>
    text.transform((written, context): Word => {
      const found = words.find((one) => one === written);
      if (found !== undefined) return found;
      const instead = nearest(written, words) ?? unusual(written, words);
      const certain = instead !== undefined && plainWord(written) === instead;
      const help = didYouMean({ nearest: instead });
      return refuse(context, `is one of ${words.join(', ')}, not “${excerpt(written)}”`, { help, instead, certain });
    }),
  );

/** What is longer is neither one word nor a list of a few. */
const LONGEST_WORD = 200;
const LONGEST_LIST = 2000;

/** A word without what is around it in other files: quotation marks of a word processor, a comma at its end, capitals. */
export const plainWord = (written: string): string =>
  written
    .slice(0, LONGEST_WORD)
    .trim()
    .replace(/^[“”„‟‘’‚«»"'(]+|[“”‘’«»"')]*[,;.]?$/gu, '')
    .trim()
    .toLowerCase();

/** What is switched off has many names. */
const unusual = (written: string, words: readonly string[]): string | undefined =>
  words.includes('off') && /^(?:no|none|never|ignore|false|disabled?)$/i.test(written) ? 'off' : undefined;

/** Yes and no in other words and languages. */
const YES = /^(?:y|yes|true|on|1|ja|oui|si|sí|da)$/;
const NO = /^(?:n|no|false|off|0|nein|non|nee|nej)$/;

const yesOrNoInText = text.transform((written, context): boolean => {
  if (/^(true|yes)$/i.test(written)) return true;
  if (/^(false|no)$/i.test(written)) return false;
  const word = plainWord(written);
  const instead = YES.test(word) ? 'true' : NO.test(word) ? 'false' : undefined;
  const help = instead && `Write ${instead}.`;
  return refuse(context, `is true or false, not “${excerpt(written)}”`, {
    help,
    instead,
    certain: instead !== undefined,
  });
});

/** `true`, `false`, or the same as text: `yes`, `no`. */
export const yesOrNo = byShape<z.ZodType<boolean, boolean | string>>((value) =>
  typeof value === 'boolean' ? z.boolean() : yesOrNoInText,
);

/** A number within limits, both included, with at most nine decimals. `unit` is what it counts, by the names authors give it. */
export function number(least: number, most: number, whole = true, unit: readonly string[] = []) {
  const what = `is a ${whole ? 'whole ' : ''}number from ${least} to ${most}`;
  const fits = (value: number): boolean => value >= least && value <= most && (!whole || Number.isInteger(value));
  const inText = text.transform((written, context): number => {
    const value = /^-?\d{1,9}(\.\d{1,9})?$/.test(written) ? Number(written) : Number.NaN;
    if (fits(value)) return value;
    const found = numberIn(written, unit);
    const instead = found && fits(found.value) ? `${found.value}` : undefined;
    const help = instead && (found?.certain ? `Write the number alone: ${instead}.` : `Did you mean ${instead}?`);
    return refuse(context, `${what}, not “${excerpt(written)}”`, { help, instead, certain: found?.certain ?? false });
  });
  return byShape<z.ZodType<number, number | string>>((value) =>
    typeof value === 'number' ? z.number().refine(fits, what) : inText,
  );
}

/** The number that a text with more in it gives; certain where the rest is its unit or the marks around it. */
function numberIn(written: string, unit: readonly string[]): { value: number; certain: boolean } | undefined {
  const [first, ...others] = numbersIn(written.replace(/(\d),(?=\d{1,2}(?!\d))/, '$1.'));
  if (first === undefined || others.length > 0 || /\d\s*h(?:our)?s?\b/i.test(written)) return undefined;
  const [, number = '', rest = ''] = /^(\d+(?:\.\d+)?)[ \t]*(\p{L}*)$/u.exec(plainWord(written)) ?? [];
  return { value: first, certain: number !== '' && (rest === '' || unit.includes(rest)) };
}

type OneOrMany<Item extends z.ZodType> = z.ZodType<
  readonly z.output<Item>[],
  z.input<Item> | readonly z.input<Item>[] | undefined
>;

/** A list; a single item may be written without its dash, and nothing at all is an empty list. */
export const list = <Item extends z.ZodType>(item: Item): OneOrMany<Item> =>
  z.preprocess(
    (value) => (value === undefined || Array.isArray(value) ? (value ?? []) : [value]),
    z.array(item, wants('is a list')),
  ) as OneOrMany<Item>;

/** A list of names. Several in one text, divided by commas and without brackets, are reported as the list they are meant to be. */
export const names = <Item extends z.ZodType>(item: Item): OneOrMany<Item> =>
  z.preprocess((value, context) => {
    const items: readonly unknown[] = Array.isArray(value) ? value : [value];
    for (const [index, one] of items.entries()) {
      const several = typeof one === 'string' ? namesIn(one) : undefined;
      if (!several) continue;
      const inside = several.join(', ');
      const instead = Array.isArray(value) ? inside : `[${inside}]`;
      const help = Array.isArray(value)
        ? `Write a comma between them: ${inside}.`
        : `Write it in brackets: [${inside}].`;
      const params: IssueParams = { each: Array.isArray(value), help, instead, certain: true };
      const message = Array.isArray(value) ? 'is one name, and here are several' : 'is a list of names';
      context.addIssue({ code: 'custom', path: Array.isArray(value) ? [index] : [], message, params: { ...params } });
      return z.NEVER;
    }
    return value;
  }, list(item)) as OneOrMany<Item>;

/** The names that a text lists, which has a comma or a bracket in it; undefined where it is one name. */
function namesIn(written: string): string[] | undefined {
  if (written.length > LONGEST_LIST || !/[,;]\s*\S|^[([]|[)\]]$/.test(written)) return undefined;
  const several = written
    .replace(/^[([]\s*|\s*[)\]]$/g, '')
    .split(/\s*[,;]\s*(?:and\s+)?/)
    .filter((name) => name !== '');
  return several.length > 0 && several.every((name) => /^[\p{L}\p{N}_][\p{L}\p{N}_/ .-]*$/u.test(name))
    ? several
    : undefined;
}

/** A list with at least one item. */
export const oneOrMore = <Item extends z.ZodType>(item: Item): OneOrMany<Item> =>
  list(item).refine((items) => items.length > 0, 'is an empty list');

/** Named keys; an unknown one is reported with the nearest known one. */
export const keys = <Shape extends z.ZodRawShape>(shape: Shape) =>
  z.strictObject(shape, {
    // Where an unknown key is reported, the known ones are wanted: they travel in the message.
    error: (issue) =>
      issue.code === 'unrecognized_keys'
        ? Object.keys(shape).join(' ')
        : `is a group of “key: value” lines${few(shape)}`,
  });

/**
 * A list of groups. One of another shape (a group with the ids for keys, a list of bare words) makes YAML see a mistake in
 * each line, and is one mistake to its author: it is reported once, with the author’s own words in the right shape.
 */
export const groups = <Shape extends z.ZodRawShape>(shape: Shape) => {
  const names = Object.keys(shape);
  const group = keys(shape);
  const checkShape = (value: unknown, context: z.RefinementCtx): unknown => {
    const entries: readonly unknown[] = Array.isArray(value) ? value : [value];
    const odd = entries.findIndex((entry) => entry !== undefined && !isLike(entry, names));
    if (odd < 0) return value;
    const path = Array.isArray(value) ? [odd] : [];
    const params: IssueParams = { each: true, help: inRightShape(entries[odd], names) };
    context.addIssue({ code: 'custom', path, message: `is a group of “key: value” lines${few(shape)}`, params });
    return z.NEVER;
  };
  return z.preprocess(checkShape, list(group));
};

/** Whether a value is a group that has one of these keys, or one that is meant for one of them: too short a word may be near by chance. */
const isLike = (value: unknown, names: readonly string[]): boolean =>
  typeof value === 'object' &&
  !Array.isArray(value) &&
  Object.keys(value ?? {}).some((key) => names.includes(key) || (key.length > 3 && nearest(key, names)));

/** How an entry of the wrong shape would be written, by the first two of its keys. */
function inRightShape(entry: unknown, [first = '', second = '']: readonly string[]): string {
  const plain = typeof entry === 'string' || Array.isArray(entry) ? [[entry].flat()] : Object.entries(entry ?? {});
  const [name, value] = (plain[0] ?? []).map((one) => (typeof one === 'string' ? excerpt(one) : '…'));
  return `Write “- ${first}: ${name ?? '…'}”, and “${second}: ${value ?? '…'}” in a line below it.`;
}

/** The keys of a group, where they are few enough to be named in passing. */
const few = (shape: z.ZodRawShape): string => {
  const names = Object.keys(shape);
  return names.length > 6 ? '' : ` with ${names.join(', ')}`;
};

/** `name: value` lines whose names are the author’s own ids. `taken` are names that others have already. */
export const namedValues = <Value extends z.ZodType>(value: Value, taken: readonly { readonly id: string }[] = []) =>
  z.preprocess(
    (written) => written ?? {},
    z
      .record(z.string(), value, {
        error: ({ input }) => `is a group of “name: …” lines${Array.isArray(input) ? ', without dashes' : ''}`,
      })
      .superRefine((record, context) => {
        for (const name of Object.keys(record)) {
          const refused = !isId(name)
            ? 'is no name: it is made of letters, digits and hyphens'
            : taken.some((one) => one.id === name) && 'is the name of one that is there already';
          if (refused) context.addIssue({ code: 'custom', path: [name], message: refused, params: { key: true } });
        }
      }),
  );

/** An id of an author’s: part of addresses, quotations and other files. */
export const id = text.refine(isId, wants('is an id of letters, digits and hyphens, such as first-bends'));

/** Whether a text can be an id: letters, digits, hyphens and underscores, beginning with a letter or a digit. */
export function isId(written: string): boolean {
  return /^[\p{L}\p{N}][\p{L}\p{N}_-]*$/u.test(written);
}
