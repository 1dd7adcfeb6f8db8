/** The blocks that show how blocks are read, as a teacher would write them. */
import { exampleOf, MARK_NAMES, markText, rowOf } from '../score/mark.ts';

const C_CROSS = 'harp: C\nposition: 2\ntempo: 72';

/** The blocks of “How to read a block”, by subject. */
export const EXAMPLES = {
  lanes: `${C_CROSS}\nslot: 1/4\n2 -2 3 -3 | 4 -4 5 -5`,
  bends: `${C_CROSS}\nslot: 1/4\n-2 -2' -2'' -2 | -3 -3' -3'' -3''' | 8 8' 8 = | 6 6o -6 =`,
  together: `${C_CROSS}\nmouth: tongue\nslot: 1/4\n(1 4) -(1 4) (3 6) = | -(2 3 4) = (4 5 6) =`,
  time: `${C_CROSS}\nfeel: shuffle\n-2 -3 -4 = . -4 4 = | {-3' -3 -2}2 -2 =5 | = . . . -2 = = =`,
  roles: `${C_CROSS}\nslot: 1/4\n"I7" -2 -3' -3 -4 | "IV7" 4 5 6 -3' | "V7" -4 -2' -3'' 4`,
  glides: `${C_CROSS}\n-3' > -3 = = -4' > -4 = = | -2'' > -2 = = = = = =`,
  mouths: `${C_CROSS}\nslot: 1/4\n-2 -3 @tongue (1 4) -(1 4) | (3 6) = @lips -3 -2`,
  repeats: `${C_CROSS}\nslot: 1/4\npart: Figure\n|: "I7" -2 -3 -4 -3 |1 -2 = -1 = :|2 -2 = = = |]`,
  words: `harp: C\nslot: 1/4\n4 4 5 -5 | 5 -4 4 =\nwords: Slow-ly now and breathe with me`,
} as const;

/** Marks of one note and what they ask for, each with a block that has it. */
export const MARKED: readonly { readonly name: string; readonly asks: string; readonly text: string }[] =
  MARK_NAMES.map((name) => {
    const { asks, needsTongue } = rowOf(name);
    const mark = markText(exampleOf(name));
    return {
      name: name.charAt(0).toUpperCase() + name.slice(1),
      asks,
      text: `slot: 1/4\n-4[${needsTongue ? `tongue, ${mark}` : mark}] = = =`,
    };
  });
