/** Signs of jumps and of repeated bars in MusicXML 4.0. Jumps are directions, each with the `sound` that says what a program has to play. */
import { type Jump, type JumpTarget, jumpInPrint } from '../../score/jump.ts';
import type { Score } from '../../score/score.ts';
import type { XmlWriter } from './xml.ts';

const SOUNDS: Readonly<Record<Jump, readonly [string, string]>> = {
  fine: ['fine', 'yes'],
  'to-coda': ['tocoda', 'coda'],
  'D.C.': ['dacapo', 'yes'],
  'D.S.': ['dalsegno', 'segno'],
};

/** The segno or the coda at the start of a bar. */
export const writeTarget = (xml: XmlWriter, target: JumpTarget): void =>
  writeSign(xml, () => xml.leaf(target, undefined), [target, target]);

/** A jump at the end of a bar, before its bar line. */
export const writeJump = (xml: XmlWriter, jump: Jump, { bars }: Score): void =>
  writeSign(xml, () => xml.leaf('words', jumpInPrint(jump, bars)), SOUNDS[jump]);

function writeSign(xml: XmlWriter, write: () => void, [attribute, value]: readonly [string, string]): void {
  xml.open('direction', { placement: 'above' });
  xml.open('direction-type');
  write();
  xml.close();
  xml.leaf('sound', undefined, { [attribute]: value });
  xml.close();
}

/** Where bars are shown as the sign of a repeated bar, and where they are not any more. Their notes are written all the same. */
export function writeBarRepeat(xml: XmlWriter, index: number, signs: ReadonlySet<number>): void {
  const [before, now] = [signs.has(index - 1), signs.has(index)];
  if (before === now) return;
  xml.open('attributes');
  xml.open('measure-style');
  xml.leaf('measure-repeat', now ? 1 : undefined, { type: now ? 'start' : 'stop' });
  xml.close();
  xml.close();
}

/** A rest of several bars, which are shown as one: at its first bar. */
export function writeRestOfBars(xml: XmlWriter, bars: number | undefined): void {
  if (bars === undefined) return;
  xml.open('attributes');
  xml.open('measure-style');
  xml.leaf('multiple-rest', bars);
  xml.close();
  xml.close();
}
