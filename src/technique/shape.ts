/**
 * A choice between schemas by the shape of what was written. A plain union tries every branch and says only that none
 * fits; here the branch is known before it is tried, so that its own message, at its own path, is what the author gets.
 */
import { z } from 'zod';

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

/** One of an item, or a list of them: always read as a list. */
export function oneOrMore<T extends z.ZodType>(item: T) {
  type Many = z.ZodType<readonly z.output<T>[], z.input<T> | readonly z.input<T>[]>;
  return byShape<Many>((value) => (Array.isArray(value) ? z.array(item).nonempty() : item.transform((one) => [one])));
}
