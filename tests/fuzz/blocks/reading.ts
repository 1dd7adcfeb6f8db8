/** What holds for a block as it is read, printed and moved. */
import { keyNote, readHarp, reed } from '../../../src/instrument/harp.ts';
import { chromaOf } from '../../../src/instrument/pitch.ts';
import { parseBlock } from '../../../src/notation/parse.ts';
import { printScore } from '../../../src/notation/print/print.ts';
import { NOTATION_PROBLEMS } from '../../../src/notation/problems.ts';
import { ALONE, type FoundBlock, type ReadContext, readBlock } from '../../../src/notation/read.ts';
import { moveToHarp } from '../../../src/score/harp/move.ts';
import { isSoundEvent, soundsOf } from '../../../src/score/queries.ts';
import type { Score } from '../../../src/score/score.ts';
import { add, equals, subtract, ZERO } from '../../../src/time/fraction.ts';
import { barLength } from '../../../src/time/meter.ts';
import { present } from '../../../src/values/checked.ts';
import { withoutPlaces } from '../../notation/without-places.ts';
import { checkDiagnostics } from '../problems.ts';
import { must } from '../target.ts';

/** What a block is read against where it can quote `other/one` and `other/two`. */
export function contextWith(others: readonly string[]): ReadContext {
  const names = ['one', 'two'];
  const trees = others.map(parseBlock);
  const find = (lesson: string | undefined, block: string): FoundBlock => {
    if (lesson !== undefined && lesson !== 'other') return { missing: 'lesson', nearest: 'other' };
    const tree = trees[names.indexOf(block)];
    return tree ? { tree, context } : { missing: 'block' };
  };
  const otherMeaning = (name: string): string | undefined => (name === 'lick' ? 'one:lick' : undefined);
  const context: ReadContext = { ...ALONE, find, otherMeaning };
  return context;
}

/** Reads a block; the score, where it has one. */
export function checkedScore(text: string, context: ReadContext): Score | undefined {
  const { score, diagnostics } = readBlock(text, context);
  const failed = diagnostics.some(({ severity }) => severity === 'error');
  must((score === undefined) === failed, 'a block has a score unless it has an error', () => diagnostics);
  checkDiagnostics(text, diagnostics, NOTATION_PROBLEMS);
  if (!score) return undefined;
  checkBars(score);
  checkSources(score, text);
  return score;
}

const plain = (score: Score): string => JSON.stringify(withoutPlaces(score));

/** What two texts have around the first place where they differ. */
function firstDifference(a: string, b: string): string {
  let at = 0;
  while (a[at] === b[at]) at++;
  return [a, b].map((text) => text.slice(Math.max(0, at - 120), at + 60)).join('\n');
}

/** Printing and reading are inverse. */
export function checkPrinted(score: Score): void {
  const printed = printScore(score);
  const { score: again, diagnostics } = readBlock(printed);
  must(again !== undefined, 'a printed block can be read', () => `${printed}\n${JSON.stringify(diagnostics)}`);
  if (!again) return;
  // Music that is quoted from a block with other slots is printed in slots that fit it.
  const before = plain({ ...score, slot: again.slot });
  const after = plain(again);
  must(
    before === after,
    'a printed block reads back as the same score',
    () => `${firstDifference(before, after)}\n${printed}`,
  );
  const twice = printScore(again);
  must(twice === printed, 'what was printed prints the same again', () => `${printed}\n\n${twice}`);
}

/** Bars add up, and events are numbered in order. */
function checkBars(score: Score): void {
  let index = 0;
  score.bars.forEach((bar, number) => {
    const full = barLength(bar.meter);
    let at = ZERO;
    must(bar.index === number, 'bars are numbered in order', () => bar);
    for (const event of bar.events) {
      must(event.index === index++, 'events are numbered in order', () => event);
      must(equals(event.onset, at), 'an event begins where the one before ends', () => event);
      must(event.duration.n > 0 && event.duration.d > 0, 'an event has a length', () => event);
      at = add(at, event.duration);
    }
    const short = score.pickup && (number === 0 ? score.pickup : subtract(full, score.pickup));
    must(equals(at, bar.length), 'the events of a bar fill it', () => bar);
    must(equals(at, full) || (short !== undefined && equals(at, short)), 'a bar is as long as its meter', () => bar);
    bar.chords.forEach(({ onset }, place) => {
      const before = bar.chords[place - 1]?.onset ?? { n: -1, d: 1 };
      must(onset.n * before.d > before.n * onset.d, 'the chords of a bar are in order', () => bar.chords);
    });
  });
}

/** What sounds is what the reeds give, and every event says where it was written. */
function checkSources(score: Score, text: string): void {
  for (const event of score.bars.flatMap(({ events }) => events)) {
    const { span, quote } = event.source;
    must(
      span.from >= 0 && span.from < span.to && span.to <= text.length,
      'an event was written in the text',
      () => event,
    );
    if (quote === undefined) {
      const written = text.slice(span.from, span.to);
      must(
        isSoundEvent(event) ? /^[-+=(%\d‐-―−－﹣＝（]/.test(written) : /^[.%]/.test(written),
        'an event was written as a word of the music',
        () => written,
      );
    }
  }
  const { tuning } = score.harp;
  for (const { breath, notes } of soundsOf(score)) {
    for (const { hole, bend, over, slide, pitch } of notes) {
      const raised = slide ? (tuning.slide ?? Number.NaN) : 0;
      const own = reed(score.harp, hole, breath) + raised;
      const facing = reed(score.harp, hole, breath === 'blow' ? 'draw' : 'blow') + raised;
      must(pitch.midi === (over ? facing + 1 : own - bend), 'a note has the pitch its reed gives', () => notes);
      must(chromaOf(pitch) === pitch.midi % 12, 'a pitch is spelled as what it is', () => pitch);
      must(Math.abs(pitch.alter) <= 2, 'a pitch has at most two accidentals', () => pitch);
    }
  }
}

/** Another harp keeps the tab: every pitch moves by one interval. */
export function checkMoved(score: Score, name: string): Score {
  const harp = present(readHarp(name, score.harp.tuning), 'the harp');
  const moved = moveToHarp(score, harp);
  const interval = keyNote(harp) - keyNote(score.harp);
  const [before, after] = [soundsOf(score), soundsOf(moved)];
  must(before.length === after.length, 'another harp keeps the sounds', () => [before.length, after.length]);
  after.forEach((sound, index) => {
    const was = before[index];
    sound.notes.forEach((note, place) => {
      const wasNote = was?.notes[place];
      must(
        note.pitch.midi === (wasNote?.pitch.midi ?? Number.NaN) + interval,
        'another harp moves every pitch by one interval',
        () => [note, wasNote],
      );
      const [kept, had] = [note, wasNote].map((one) => JSON.stringify({ ...one, pitch: 0 }));
      must(kept === had, 'another harp keeps every hole', () => [kept, had]);
    });
  });
  // A chord whose name would need two accidentals is named by its twin, so chords may be read as another step.
  const again = readBlock(printScore(moved)).score;
  must(again !== undefined, 'a moved block is printed so that it can be read', () => printScore(moved));
  const played = (one: Score): string =>
    JSON.stringify(
      soundsOf(one).map(({ breath, notes }) => [breath, notes.map(({ hole, pitch }) => [hole, pitch.midi])]),
    );
  must(again === undefined || played(again) === played(moved), 'a moved block is printed with its notes', () =>
    printScore(moved),
  );
  return moved;
}

/** Another position keeps the holes of a block that says its position itself. */
export function checkPosition(text: string, score: Score, position: number, context: ReadContext): void {
  const line = /^position: \d+$/m;
  if (!line.test(text)) return;
  const other = readBlock(text.replace(line, `position: ${position}`), context).score;
  if (!other) return;
  const tab = (one: Score): string =>
    JSON.stringify(
      soundsOf(one)
        .filter(({ tied }) => !tied)
        .map(({ breath, notes }) => [
          breath,
          ...notes.map(({ hole, bend, over, pitch }) => [hole, bend, over, pitch.midi]),
        ]),
    );
  must(tab(other) === tab(score), 'another position keeps what is played', () => [tab(score), tab(other)]);
}
