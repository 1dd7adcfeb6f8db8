/** Blocks for tests, as a teacher types them. */
import { readBlock } from '../../src/notation/read.ts';
import type { Score } from '../../src/score/score.ts';

/** The score of a block. A block with an error is a mistake of the test. */
export function scoreOf(text: string): Score {
  const { score, diagnostics } = readBlock(text);
  if (!score) throw new Error(`not a block:\n${text}\n${diagnostics.map(({ message }) => message).join('\n')}`);
  return score;
}

/** One event of a score as the block's text has it, its marks included. */
export function writtenAt(text: string, score: Score, index: number): string {
  const event = score.bars.flatMap((bar) => bar.events).find((one) => one.index === index);
  const rest = event ? text.slice(event.source.span.from) : '';
  return /^(?:-?\([^)]*\)|[^\s[\]>{}]+)(?:\[[^\]]*\])?/.exec(rest)?.[0] ?? '';
}
