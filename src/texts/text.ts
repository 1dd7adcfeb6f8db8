/**
 * Texts of the interface as rows of tables: a key, and in each language a text with `{slots}`. A table is a file of `english/`;
 * its type is that of the same table in another language, so that a row that is missing there does not compile.
 */

/** A text, or one for each grammatical number; `{count}` chooses. */
export type TextRow = string | { readonly one: string; readonly other: string };
/** The texts of one screen, by key. */
export type TextTable = Readonly<Record<string, TextRow>>;

/** The same table in another language. */
export type TranslationOf<Table extends TextTable> = {
  readonly [Key in keyof Table]: Table[Key] extends string ? string : { readonly one: string; readonly other: string };
};

type SlotsIn<Text> = Text extends `${string}{${infer Slot}}${infer Rest}` ? Slot | SlotsIn<Rest> : never;
type SlotsOf<R extends TextRow> = R extends string
  ? SlotsIn<R>
  : SlotsIn<R extends { readonly one: infer One; readonly other: infer Other } ? One | Other : never> | 'count';
type ValuesOf<R extends TextRow> = [SlotsOf<R>] extends [never]
  ? []
  : [values: Readonly<Record<SlotsOf<R>, string | number>>];

/** The text of a key, with a value for each of its slots. */
export type Say<Table extends TextTable> = <Key extends keyof Table & string>(
  key: Key,
  ...values: ValuesOf<Table[Key]>
) => string;

/** A value for a slot that holds markup: the slot stays in the text, and `splitAtMarkup` finds it. */
export const markup = (slot: string): string => `\uFDD0${slot}\uFDD1`;

/** A piece of a text between two slots. */
export interface TextPiece {
  readonly text: string;
  /** The slot that is behind the text; undefined behind the last piece. */
  readonly slot: string | undefined;
}

/** A text in pieces, split at the slots that hold markup. */
export function splitAtMarkup(text: string): readonly TextPiece[] {
  return [...text.matchAll(/([^\uFDD0]*)(?:\uFDD0(\w+)\uFDD1|$)/g)]
    .map(([, piece = '', slot]) => ({ text: piece, slot }))
    .filter(({ text: piece, slot }) => piece !== '' || slot !== undefined);
}

/** Reads a table in its language, a BCP 47 tag: it decides which number a count takes. */
export function textsIn<const Table extends TextTable>(table: Table, language: string): Say<Table> {
  const numbers = new Intl.PluralRules(language);
  return (key, ...[values]) => {
    const slots: Readonly<Record<string, string | number>> = values ?? {};
    const row: TextRow | undefined = table[key];
    if (row === undefined) throw new RangeError(`no text ${key}`);
    const text = typeof row === 'string' ? row : numbers.select(Number(slots['count'])) === 'one' ? row.one : row.other;
    return text.replace(/\{(\w+)\}/g, (whole, slot: string) => `${slots[slot] ?? whole}`);
  };
}
