/** The blocks that show how blocks are read, as a teacher would write them. */
const C_CROSS = 'harp: C\nposition: 2\ntempo: 72';

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
export const MARKED: readonly { readonly name: string; readonly asks: string; readonly text: string }[] = [
  {
    name: 'Shake',
    asks: 'Rock quickly between the hole and the one named beside the mark, on one breath.',
    text: 'slot: 1/4\n-4[shake 5] = = =',
  },
  {
    name: 'Slap',
    asks: 'Lay the tongue on the holes below as the note begins, so that the chord is heard for a moment.',
    text: 'slot: 1/4\n-4[tongue, slap] = = =',
  },
  {
    name: 'Pull',
    asks: 'Lift the tongue off at once: the chord bursts out behind the note.',
    text: 'slot: 1/4\n-4[tongue, pull] = = =',
  },
  {
    name: 'Flutter',
    asks: 'Lift the tongue and lay it down, fast and evenly, while the note goes on.',
    text: 'slot: 1/4\n-4[tongue, flutter] = = =',
  },
  { name: 'Dip', asks: 'Begin below and scoop up into the note.', text: 'slot: 1/4\n-4[dip] = = =' },
  { name: 'Fall', asks: 'Let the pitch drop off at the end.', text: 'slot: 1/4\n-4[fall] = = =' },
  { name: 'Vibrato', asks: 'Let the throat rock the note, slow and even.', text: 'slot: 1/4\n-4[vibrato] = = =' },
  { name: 'Hand', asks: 'Open and close the cupped hand: the note speaks.', text: 'slot: 1/4\n-4[hand] = = =' },
  { name: 'Accent', asks: 'Harder at the start than its neighbours.', text: 'slot: 1/4\n-4[accent] = = =' },
  { name: 'Staccato', asks: 'Short, with silence behind it.', text: 'slot: 1/4\n-4[staccato] = = =' },
];
