/** What is said of holes in parentheses that have signs of their own. */

/** Holes in parentheses with signs of their own. */
export interface BreathFacts {
  /** As one breath, where that may be meant. */
  readonly nearest: string | undefined;
  /** As written, one after the other. */
  readonly inTurn: string;
  /** Whether some are blown and some are drawn. */
  readonly isMixed: boolean;
  /** The hole that is blown and drawn. */
  readonly twice: string | undefined;
}

/** What to write instead, for a person. */
export function breathHelp({ nearest, inTurn, isMixed }: BreathFacts): string | undefined {
  const meant = nearest === undefined ? undefined : `Did you mean “${nearest}”?`;
  if (!isMixed) return meant;
  const turns = `Notes one after the other within a slot are a group: {${inTurn}}`;
  return meant === undefined ? turns : `${meant} ${turns}`;
}
