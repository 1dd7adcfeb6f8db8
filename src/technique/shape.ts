/**
 * The pieces the schemas of techniques are made of. A value may come as what it is or as the text YAML left it (`3` or
 * `"3"`); messages complete the sentence "`key` …", and of an unknown key the message lists its neighbours.
 */
import { z } from 'zod';

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
  return schema as unknown as z.ZodType<z.output<T>, z.input<T>>;
}

export const keys = <Shape extends z.ZodRawShape>(shape: Shape) =>
  z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys' ? Object.keys(shape).join(' ') : 'is a group of `key: value` lines',
  });

export const list = <T extends z.ZodType>(item: T) => z.array(item, { error: () => 'is a list' });

/** One of an item, or a list of them: always read as a list. */
export const oneOrMore = <T extends z.ZodType>(item: T) => oneOr(item, list(item).nonempty('is an empty list'));
/** The same, or an empty list. */
export const anyNumberOf = <T extends z.ZodType>(item: T) => oneOr(item, list(item));

function oneOr<T extends z.ZodType>(item: T, many: z.ZodType) {
  type Many = z.ZodType<readonly z.output<T>[], z.input<T> | readonly z.input<T>[]>;
  return byShape<Many>((value) => (Array.isArray(value) ? many : item.transform((one) => [one])));
}

export const text = z
  .string({ error: () => 'is a text' })
  .trim()
  .min(1, 'is empty');

export const matching = (pattern: RegExp, what: string) => text.regex(pattern, what);

export const word = <const W extends readonly [string, ...string[]]>(words: W) =>
  z.enum(words, { error: () => `is one of ${words.join(', ')}` });

export const yesOrNo = byShape<z.ZodType<boolean, boolean | string>>((value) =>
  typeof value === 'string'
    ? z.enum(['true', 'false'], { error: () => 'is true or false' }).transform((written) => written === 'true')
    : z.boolean({ error: () => 'is true or false' }),
);
