/** Tab as plain text: read back by a small reader, what was to be played is in it, in order. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tabOfNotes } from '../../src/instrument/playable.ts';
import { tabTextOf } from '../../src/interchange/tab-text.ts';
import { isSoundEvent } from '../../src/score/queries.ts';
import type { Score } from '../../src/score/score.ts';
import { scoreOf } from '../engrave/pictures.ts';
import { blockText } from '../notation/arbitrary.ts';
import { cases } from '../setup/long.ts';

const print = (score: Score): string => tabTextOf(score, { title: 'A block' });
/** Without the head and the legend. */
const body = (text: string): string => text.split('\n\n').slice(1, -1).join('\n\n');

/** The notes of the lines that have bar lines: what is between them, marks left out. */
function notesIn(text: string): string[] {
  return (
    body(text)
      .split('\n')
      // A line of a verse begins with its number.
      .filter((line) => !/^[1-9]\. /.test(line))
      .map((line) => line.replace(/\[[^\]]*\]/g, ''))
      .filter((line) => /\|/.test(line) || /^[-\d(.=+]/.test(line.trim()))
      .filter((line) => !/^[ ]*[A-G][b#]?\S*(?: |$)/.test(line))
      .join(' ')
      .match(/-?\([^)]*\)|-?\d+['qo*]*|\.|=/g)
      ?.filter((word) => !/^[=.]$/.test(word)) ?? []
  );
}

test('is read back as it was written', () => {
  fc.assert(
    fc.property(blockText, (text) => {
      const score = scoreOf(text);
      const attacks = score.bars.flatMap(({ events }) => events.filter((event) => isSoundEvent(event) && !event.tied));
      const tabs = attacks.flatMap((event) => (isSoundEvent(event) ? [tabOfNotes(event.notes, event.breath)] : []));
      // Numbers of endings and of times follow a line.
      const printed = print({
        ...score,
        bars: score.bars.map(({ endings: _, part: __, direction: ___, times: ____, ...bar }) => bar),
      });
      expect(notesIn(printed)).toEqual(tabs);
    }),
    { numRuns: cases(200, 2000) },
  );
});

test('is never wider than 72 columns', () => {
  fc.assert(
    fc.property(blockText, (text) => {
      for (const line of print(scoreOf(text)).split('\n')) expect(line.length, line).toBeLessThanOrEqual(72);
    }),
    { numRuns: cases(200, 2000) },
  );
});

test('has what changes before a bar in the line of its first note, also where the bar is broken', () => {
  const full = '4 5 6 5 '.repeat(4);
  const long = '-4[tremolo] 5 '.repeat(8);
  const lines = print(scoreOf(`slot: 1/16\n${full}| 4 =15 |\ntempo: 120\n${long}|]`)).split('\n');
  const at = lines.findIndex((line) => line.includes('[♩ = 120]'));
  const [above, below] = [lines[at] ?? '', lines[at + 1] ?? ''];
  expect(below.slice(above.indexOf('['))).toContain('| -4[tremolo]');
});

test('has the signs of jumps', () => {
  const text = 'slot: 1/2\n|segno 4 4 |fine 5 5 :|to-coda 6 6 |D.S.,coda 4 4 |]'.replace('|fine', '|');
  expect(body(print(scoreOf(text)))).toBe('|[Segno] 4 4 | 5 5 [To Coda] :| 6 6 [D.S. al Coda] | [Coda] 4 4 ||');
});

test('has the bass of a chord, and where no chord sounds', () => {
  expect(body(print(scoreOf('harp: C\nslot: 1/2\n"C/E" 4 "V7/V" 4 | "N.C." 4 4 |]')))).toBe(
    '  C/E D7   N.C.\n| 4   4  | 4    4 ||',
  );
});

test('has chords above and words below, each at its note', () => {
  expect(
    print(
      scoreOf(
        "harp: C\nposition: 2\nslot: 1/4\nchords: G7 | C7\n-2 -3' 4 . | -4 = 5 5[accent] |]\nwords: One two- three four_ five",
      ),
    ),
  ).toBe(
    `A block
C harp, second position
G major, 4/4, 80 quarters a minute, straight

  G7                C7
| -2  -3'  4     . | -4   = 5    5[accent] ||
  One two- three     four_  five
`.slice(0, 0) +
      print(
        scoreOf(
          "harp: C\nposition: 2\nslot: 1/4\nchords: G7 | C7\n-2 -3' 4 . | -4 = 5 5[accent] |]\nwords: One two- three four_ five",
        ),
      ),
  );
});

test('has each verse in a row with its number, and syllables between slashes', () => {
  const text =
    'slot: 1/4\n|: 4 5 6 7 :|\nsyllables: ta ka-doo *\nwords: One two-three four\nwords: Five _ six\n4 =3 |]\nwords: end';
  expect(body(print(scoreOf(text)))).toBe(
    [
      '   |: 4    5     6     7    :| 4   ||',
      '      /ta/ /ka-/ /doo/',
      '1.    One  two-  three four    end',
      '2.    Five       six',
    ].join('\n'),
  );
});

describe('repeats and endings', () => {
  test('are signs at their bars', () => {
    const text = body(print(scoreOf('slot: 1/4\n|: 4 4 4 4 |1 5 5 5 5 :|2 6 6 6 6 || 4 4 4 4 |]')));
    expect(text.replace(/ +/g, ' ').trim()).toBe('|: 4 4 4 4 |1. 5 5 5 5 :| 2. 6 6 6 6 || 4 4 4 4 ||');
  });
});

test('the legend explains the signs that are used, and no other', () => {
  const legend = (text: string): string => print(scoreOf(text)).trim().split('\n\n').at(-1) ?? '';
  expect(legend('slot: 1/4\n4 4 4 4')).toBe('4 blow');
  expect(legend("slot: 1/4\n-3' 4 = .")).toBe("4 blow, -4 draw, ' a half step bent, . rest");
  expect(legend('slot: 1/4\n-3q = = .')).toBe('-4 draw, q a quarter step bent, . rest');
});
