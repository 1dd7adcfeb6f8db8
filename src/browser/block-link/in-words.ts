/** What a link asks for, and what of it cannot be played, in words. */
import type { BlockLink, LinkProblem } from '../../schedule/block-link.ts';
import { allBarNames, barName } from '../../score/bar-name.ts';
import { barAmongAll, barsInWords } from '../../score/bar-words.ts';
import type { Playback } from '../../score/playback.ts';
import { itemAt } from '../../values/checked.ts';
import { tempoInWords } from '../player/in-words.ts';
import { blockLinkText } from '../texts/block-link.ts';

/** `bars 3 to 4 at 60 a minute, looped`. */
export function linkInWords({ bars, tempo, loop }: BlockLink, playback: Playback): string {
  const what = bars ? rangeInWords(bars, playback) : blockLinkText('wholeBlock');
  return blockLinkText(loop ? 'looped' : 'once', { what, tempo: tempoInWords(tempo ?? playback.tempo) });
}

function rangeInWords({ first, last }: NonNullable<BlockLink['bars']>, { bars }: Playback): string {
  const [from, to] = [itemAt(bars, first), itemAt(bars, last)];
  const isPlain = [first, last].every((index) => barName(bars, index) === `${itemAt(bars, index).number}`);
  if (isPlain) return barsInWords(from.number, to.number);
  return first === last
    ? barAmongAll(from)
    : blockLinkText('fromBar', { first: barAmongAll(from), last: barAmongAll(to) });
}

/** Undefined for a parameter that is not ours: an address may have been given others on its way. */
export function linkProblemInWords(problem: LinkProblem, { bars }: Playback): string | undefined {
  switch (problem.kind) {
    case 'unknown':
      return undefined;
    case 'twice':
      return blockLinkText('twice', problem);
    case 'unreadable':
      return blockLinkText('unreadable', problem);
    case 'no-bar':
      return blockLinkText('noBar', { bar: problem.value, bars: allBarNames(bars) });
    case 'which-bar':
      return blockLinkText('whichBar', { bar: problem.value, names: problem.names.join(', ') });
    case 'backwards':
      return blockLinkText('backwards', problem);
    case 'tempo-range':
      return blockLinkText('tempoRange', problem);
    case 'no-harp':
      return blockLinkText('noHarp', problem);
    case 'no-tuning':
      return blockLinkText('noTuning', problem);
  }
}
