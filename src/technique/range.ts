/** Numbers as an author asks for them: `3`, `[2, 3]`, `"1-4"`, or `{ least: 2, most: 4 }` (`below` leaves its limit out). */
import { z } from 'zod';
import { byShape, keys, matching, oneOrMore } from '../document/schema.ts';

/** A range of numbers; both ends belong to it. */
export interface NumberRange {
  readonly least: number;
  readonly most: number;
  /** Where given, the numbers stay under it. */
  readonly below?: number;
  /** Where given, only these. */
  readonly oneOf?: readonly number[];
}

type Quantity = number | string;
/** As an author writes it: one number, several, or limits. */
export type RangeInput = Quantity | readonly Quantity[] | { least?: Quantity; most?: Quantity; below?: Quantity };

const QUANTITY = 'is a number, or a fraction such as 1/16';
const quantity = byShape<z.ZodType<number, Quantity>>((value) =>
  typeof value === 'string'
    ? matching(/^\d{1,6}(?:\.\d{1,6}|\/[1-9]\d{0,3})?$/, QUANTITY).transform((written) => {
        const [n = Number.NaN, d = 1] = written.split('/').map(Number);
        return n / d;
      })
    : z.number({ error: () => QUANTITY }),
);

const exactly = quantity.transform((value): NumberRange => ({ least: value, most: value }));

const anyOf = oneOrMore(quantity).transform(
  (values): NumberRange => ({ least: Math.min(...values), most: Math.max(...values), oneOf: values }),
);

const fromTo = matching(/^\d{1,4}\s*-\s*\d{1,4}$/, 'is a range such as 1-4')
  .transform((text): NumberRange => {
    const [least = Number.NaN, most = Number.NaN] = text.split('-').map(Number);
    return { least, most };
  })
  .refine((range) => range.least <= range.most, 'goes from the lower number to the higher');

const limits = keys({ least: quantity.optional(), most: quantity.optional(), below: quantity.optional() })
  .refine((written) => Object.keys(written).length > 0, 'has at least one of least, most and below')
  .transform(
    ({ least, most, below }): NumberRange => ({
      least: least ?? Number.NEGATIVE_INFINITY,
      most: most ?? Number.POSITIVE_INFINITY,
      ...(below === undefined ? {} : { below }),
    }),
  );

/** A range in YAML: `3`, `2-4`, `[1, 3]` or `{ least: 2, below: 5 }`. */
export const rangeSchema = byShape<z.ZodType<NumberRange, RangeInput>>((value) => {
  if (Array.isArray(value)) return anyOf;
  if (typeof value === 'object' && value !== null) return limits;
  return typeof value === 'string' && value.includes('-') ? fromTo : exactly;
});

/** Whether a number is in a range. */
export const within = (range: NumberRange, value: number): boolean =>
  value >= range.least &&
  value <= range.most &&
  (range.below === undefined || value < range.below) &&
  (range.oneOf === undefined || range.oneOf.includes(value));
