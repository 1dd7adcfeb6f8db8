/** The target of the tab blocks: any text, read, printed, moved, drawn, analysed and scheduled. */
import type { Target } from '../target.ts';
import { type BlockCase, blockCase } from './arbitrary.ts';
import { checkedScore, checkMoved, checkPosition, checkPrinted, contextWith } from './reading.ts';
import { checkEngraved, checkPlayed, checkTechniques } from './sounding.ts';

/** Of more events only the reading is checked: drawing thousands of them takes seconds, and rightly. */
const MOST_EVENTS = 400;

function check({ text, others, harp, position, play, engraved }: BlockCase): void {
  const context = contextWith(others);
  const score = checkedScore(text, context);
  if (!score) return;
  checkPrinted(score);
  if (score.bars.reduce((sum, bar) => sum + bar.events.length, 0) > MOST_EVENTS) return;
  checkPosition(text, score, position, context);
  const moved = checkMoved(score, harp);
  checkTechniques(score);
  checkPlayed(score, play);
  if (engraved) checkEngraved(moved);
}

export const blocks: Target<BlockCase> = {
  name: 'blocks',
  cases: blockCase,
  check,
  limit: 3,
  batch: 250,
  pure: true,
};
