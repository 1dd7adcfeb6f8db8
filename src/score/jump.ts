/** Signs at bar lines that lead from one place of a score to another, or end it. */

/** Where a jump goes to: the start of the bar that has it. */
export type JumpTarget = 'segno' | 'coda';

/**
 * What happens at the end of a bar. `D.C.` (da capo) goes back to the beginning and `D.S.` (dal segno) to the segno; after that the
 * music ends at `fine`, and goes from `to-coda` to the coda.
 */
export type Jump = 'to-coda' | 'fine' | 'D.C.' | 'D.S.';

/** Any of these signs. */
export type JumpSign = JumpTarget | Jump;

/** All of them. */
export const JUMP_SIGNS: readonly JumpSign[] = ['segno', 'coda', 'to-coda', 'fine', 'D.C.', 'D.S.'];

/** Whether a sign is at the start of a bar, where jumps arrive. */
export const isJumpTarget = (sign: JumpSign): sign is JumpTarget => sign === 'segno' || sign === 'coda';

/** Whether a sign goes back to an earlier bar. */
export const isJumpBack = (sign: JumpSign | undefined): boolean => sign === 'D.C.' || sign === 'D.S.';

/** What is printed over the end of a bar: `D.C. al Fine`. A jump back names where it leads, by the signs of the score. */
export function jumpInPrint(jump: Jump, bars: readonly { readonly jump?: Jump }[]): string {
  if (jump === 'fine') return 'Fine';
  if (jump === 'to-coda') return 'To Coda';
  const to = aimOf(bars);
  return to === undefined ? jump : `${jump} al ${to === 'coda' ? 'Coda' : 'Fine'}`;
}

/** Where the music leads after the jump back: to the coda, to the fine, or simply to its end. */
const aimOf = (bars: readonly { readonly jump?: Jump }[]): 'coda' | 'fine' | undefined =>
  bars.some(({ jump }) => jump === 'to-coda') ? 'coda' : bars.some(({ jump }) => jump === 'fine') ? 'fine' : undefined;

/** `Then from the beginning to Fine`: a jump as it is read aloud. */
export function jumpInWords(jump: Jump, bars: readonly { readonly jump?: Jump }[]): string {
  if (jump === 'fine') return 'Fine: the last time the music ends here';
  if (jump === 'to-coda') return 'The last time from here to the coda';
  const from = jump === 'D.C.' ? 'the beginning' : 'the segno';
  const aim = aimOf(bars);
  return `Then from ${from}${aim === 'fine' ? ' to Fine' : aim === 'coda' ? ' and over to the coda' : ''}, without repeats`;
}
