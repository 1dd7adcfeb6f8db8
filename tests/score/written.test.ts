import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BarPlace, type WrittenBar, type WrittenNote, writtenBar, writtenScore } from '../../src/score/written.ts';
import { add, type Fraction, format, fraction, multiply, ZERO } from '../../src/time/fraction.ts';
import { type Meter, readMeter } from '../../src/time/meter.ts';
import { itemAt, lastOf, present } from '../../src/values/checked.ts';
import { scoreOf } from '../engrave/pictures.ts';
import { cases } from '../setup/long.ts';
import { rhythm } from './rhythm.ts';

const FOUR: Meter = { beats: 4, unit: 4 };

/** `4. 8~8 [3:2 8 8 8]`: values, dots, rests (r), ties (~), tuplets in brackets, beams in braces. */
function shorthand({ notes, tuplets }: WrittenBar): string {
  const words: string[] = [];
  notes.forEach((note, index) => {
    const before = notes[index - 1];
    const after = notes[index + 1];
    let word = `${note.rest ? 'r' : ''}${note.wholeBar ? 'bar' : note.value}${'.'.repeat(note.dots)}`;
    if (note.tiedToNext) word += '~';
    if (note.beam !== undefined && before?.beam !== note.beam) word = `{${word}`;
    if (note.beam !== undefined && after?.beam !== note.beam) word = `${word}}`;
    const tuplet = note.tuplet === undefined ? undefined : tuplets[note.tuplet];
    if (tuplet && before?.tuplet !== note.tuplet) word = `[${tuplet.actual}:${tuplet.normal} ${word}`;
    if (tuplet && after?.tuplet !== note.tuplet) word = `${word}]`;
    words.push(word);
  });
  return words.join(' ');
}

const written = (text: string, meter = '4/4', place: BarPlace = {}): string =>
  shorthand(writtenBar(rhythm(text), present(readMeter(meter), 'the meter'), place));

describe('the written rhythm of a bar', () => {
  it.each([
    ['1/4 1/4 1/4 1/4', '4 4 4 4'],
    ['1/8 1/8 1/8 1/8 1/4 1/4', '{8 8} {8 8} 4 4'],
    ['1/1', '1'],
    ['3/4 1/4', '2. 4'],
    ['3/8 1/8 1/2', '4. 8 2'],
    ['1/16 1/8 1/16 3/4', '{16 8 16} 2.'],
    ['3/16 1/16 3/4', '{8. 16} 2.'],
  ])('writes %s plainly', (text, expected) => {
    expect(written(text)).toBe(expected);
  });

  it('keeps the common syncopations and shows the middle of the bar otherwise', () => {
    expect(written('1/8 1/4 1/8 1/2')).toBe('8 4 8 2');
    expect(written('1/4 1/2 1/4')).toBe('4 2 4');
    expect(written('1/4 3/8 3/8')).toBe('4 4~ 8 4.');
    expect(written('3/8 1/4 3/8')).toBe('4. 8~ 8 4.');
    expect(written('1/8 7/8')).toBe('8 4.~ 2');
    expect(written('5/8 3/8')).toBe('2~ 8 4.');
    expect(written('7/8 1/8')).toBe('2~ 4. 8');
  });

  it('shows every beat of three, and hides none of its own', () => {
    expect(written('1/8 5/8', '3/4')).toBe('{8 8~} 2');
    expect(written('3/4', '3/4')).toBe('2.');
    expect(written('1/2 1/4', '6/8')).toBe('4.~ 8 4');
    expect(written('1/4 1/8 1/8 1/4', '6/8')).toBe('4 8 8 4');
    expect(written('1/8 1/8 1/8 1/8 1/8 1/8', '6/8')).toBe('{8 8 8} {8 8 8}');
    expect(written('3/8 3/4 3/8', '12/8')).toBe('4. 2. 4.');
    expect(written('9/8', '9/8')).toBe('2.~ 4.');
    expect(written('3/2', '12/8')).toBe('1.');
  });

  it('beams uneven meters by their groups', () => {
    expect(written('1/8 1/8 1/8 1/8 1/8', '5/8')).toBe('{8 8 8} {8 8}');
    expect(written('1/8 1/8 1/8 1/8 1/8 1/8 1/8', '7/8')).toBe('{8 8} {8 8} {8 8 8}');
    expect(written('1/8 1/8 1/8', '3/8')).toBe('{8 8 8}');
    expect(written('1/8 1/8 1/8 1/8', '2/4')).toBe('{8 8} {8 8}');
    expect(written('1/8 1/8 1/8 1/8 1/2', '2/2')).toBe('{8 8 8 8} 2');
  });

  it('writes triplets, also uneven, wide and off the beat', () => {
    expect(written('1/12 1/12 1/12 3/4')).toBe('[3:2 {8 8 8}] 2.');
    expect(written('1/6 1/12 1/12 1/6 1/2')).toBe('[3:2 4 8] [3:2 8 4] 2');
    expect(written('1/24 1/24 1/24 1/8 3/4')).toBe('[3:2 {16 16 16] 8} 2.');
    expect(written('1/6 1/6 1/6 1/2')).toBe('[3:2 4 4 4] 2');
    expect(written('1/8 1/12 1/12 1/12 5/8')).toBe('8 [3:2 {8 8 8}] 8~ 2');
    expect(written('1/3 1/3 1/3')).toBe('[3:2 2 2 2]');
  });

  it('closes a triplet at its beat when its last note is held on', () => {
    expect(written('1/12 1/12 5/24 5/8')).toBe('[3:2 {8 8 8~}] {8 8~} 2');
    expect(written('1/12 1/12 1/6 1/12 1/12 1/2')).toBe('[3:2 {8 8 8~}] [3:2 {8 8 8}] 2');
  });

  it('writes fives, sixes, sevens and nines', () => {
    expect(written('1/20 1/20 1/20 1/20 1/20 3/4')).toBe('[5:4 {16 16 16 16 16}] 2.');
    expect(written('1/10 1/10 1/10 1/10 1/10 1/2')).toBe('[5:4 {8 8 8 8 8}] 2');
    expect(written('1/24 1/24 1/24 1/24 1/24 1/24 3/4')).toBe('[6:4 {16 16 16 16 16 16}] 2.');
    expect(written('1/28 1/28 1/28 1/28 1/28 1/28 1/28 3/4')).toBe('[7:4 {16 16 16 16 16 16 16}] 2.');
    expect(written('3/40 3/40 3/40 3/40 3/40 9/8', '12/8')).toBe('[5:3 {8 8 8 8 8}] 4.~ 2.');
    expect(written(`${'1/36 '.repeat(9)}3/4`)).toBe('[9:8 {32 32 32 32 32 32 32 32 32}] 2.');
  });

  it('writes rests by the beat, joined, and never syncopated', () => {
    expect(written('r1/8 r1/8 1/4 r1/8 r1/8 r1/8 r1/8')).toBe('r4 4 r2');
    expect(written('1/8 r1/4 1/8 1/2')).toBe('8 r8 r8 8 2');
    expect(written('1/4 r1/2 1/4')).toBe('4 r4 r4 4');
    expect(written('r3/8 1/8 1/2')).toBe('r4 r8 8 2');
    expect(written('r1/2 1/4', '3/4')).toBe('r4 r4 4');
    expect(written('r3/8 3/8', '6/8')).toBe('r4. 4.');
    expect(written('r1/4 1/8 1/8 r1/4', '6/8')).toBe('r4 8 8 r8 r8');
    expect(written('r1/12 r1/12 1/12 3/4')).toBe('[3:2 r4 8] 2.');
    expect(written('r1/1')).toBe('rbar');
    expect(written('r1/4 r1/4 r1/4', '3/4')).toBe('rbar');
  });

  it('does not beam across a rest', () => {
    expect(written('1/16 r1/16 1/16 1/16 3/4')).toBe('16 r16 {16 16} 2.');
  });

  it("counts a pickup's beats from its end", () => {
    expect(written('1/8 1/4', '4/4', { pickup: true })).toBe('8 4');
    expect(written('1/8 1/8 1/8', '4/4', { pickup: true })).toBe('8 {8 8}');
    expect(written('1/8 1/8 1/8')).toBe('{8 8} 8');
    expect(written('1/12 1/12 1/12', '4/4', { pickup: true })).toBe('[3:2 {8 8 8}]');
    expect(written('r1/8 1/8', '4/4', { pickup: true })).toBe('r8 8');
    expect(written('1/12 1/12', '4/4', { pickup: true })).toBe('[3:2 {8 8}]');
    expect(written('1/12 1/12 1/12 1/6 1/12 1/6')).toBe('[3:2 {8 8 8}] [3:2 4 8] [3:2 4]');
  });

  it('ties what the score ties, into the bar and out of it', () => {
    expect(written('~1/2 ~1/2', '4/4', { tiedOut: true })).toBe('2~ 2~');
    expect(writtenBar(rhythm('~1/1'), FOUR).notes[0]).toMatchObject({ tiedFromPrevious: true, tiedToNext: false });
    expect(writtenBar(rhythm('1/2 r1/2'), FOUR, { tiedOut: true }).notes.at(-1)?.tiedToNext).toBe(false);
  });
});

const METERS = ['4/4', '3/4', '2/4', '2/2', '6/4', '5/4', '6/8', '9/8', '12/8', '3/8', '5/8', '7/8', '8/8', '6/16'];

/** Bars as the notation makes them: slots of one length, held over several, or split evenly into groups. */
const bars = fc
  .record({
    meter: fc.constantFrom(...METERS),
    slot: fc.constantFrom(4, 8, 16, 32),
    picks: fc.array(
      fc.record({
        slots: fc.integer({ min: 1, max: 6 }),
        parts: fc.integer({ min: 1, max: 12 }),
        held: fc.boolean(),
        rest: fc.boolean(),
        tied: fc.boolean(),
      }),
      {
        minLength: 1,
        maxLength: 24,
      },
    ),
    pickup: fc.boolean(),
    tiedOut: fc.boolean(),
  })
  .map(({ meter: name, slot, picks, pickup, tiedOut }) => {
    const meter = present(readMeter(name), 'the meter');
    let left = (meter.beats * Math.max(slot, meter.unit)) / meter.unit;
    const unit = fraction(1, Math.max(slot, meter.unit));
    const words: string[] = [];
    const say = (time: Fraction, pick: { rest: boolean; tied: boolean }) =>
      words.push(`${pick.rest ? 'r' : pick.tied ? '~' : ''}${time.n}/${time.d}`);
    for (let index = 0; left > 0; index++) {
      const pick = itemAt(picks, index % picks.length);
      const slots = Math.min(left, pick.slots);
      left -= slots;
      const time = multiply(unit, fraction(slots));
      if (pick.parts === 1) say(time, pick);
      else {
        const part = multiply(time, fraction(1, pick.parts));
        const first = pick.held ? Math.min(2, pick.parts - 1) : 1;
        say(multiply(part, fraction(first)), pick);
        for (let n = first; n < pick.parts; n++) say(part, { ...pick, rest: false });
      }
      if (pickup && index === 1) break;
    }
    return { text: words.join(' '), meter, place: { pickup, tiedOut } };
  });

const timeOf = (note: WrittenNote, bar: WrittenBar): Fraction => {
  if (note.wholeBar) return note.duration;
  const plain = note.value < 1 ? fraction(1 / note.value) : fraction(1, note.value);
  const dotted = note.dots === 1 ? multiply(plain, fraction(3, 2)) : plain;
  const tuplet = note.tuplet === undefined ? undefined : bar.tuplets[note.tuplet];
  return tuplet ? multiply(dotted, fraction(tuplet.normal, tuplet.actual)) : dotted;
};

describe('every written bar', () => {
  it('adds up exactly to the bar, in order, and covers every event for just its time', () => {
    fc.assert(
      fc.property(bars, ({ text, meter, place }) => {
        const bar = rhythm(text);
        const result = writtenBar(bar, meter, place);
        let at: Fraction = ZERO;
        for (const note of result.notes) {
          expect(format(note.onset)).toBe(format(at));
          expect(format(timeOf(note, result))).toBe(format(note.duration));
          at = add(at, note.duration);
        }
        expect(format(at)).toBe(format(bar.length));
        bar.events.forEach((event, index) => {
          if (event.kind === 'rest') return;
          const own = result.notes.filter((note) => note.event === index);
          expect(own.every((note) => !note.rest)).toBe(true);
          expect(format(own.reduce((sum, note) => add(sum, note.duration), ZERO))).toBe(format(event.duration));
        });
      }),
      { numRuns: cases(500, 6000) },
    );
  });

  it('fills every tuplet exactly, and beams only what lies side by side', () => {
    fc.assert(
      fc.property(bars, ({ text, meter, place }) => {
        const { notes, tuplets, beams } = writtenBar(rhythm(text), meter, place);
        tuplets.forEach((tuplet, index) => {
          const members = notes.filter((note) => note.tuplet === index);
          expect(format(members.reduce((sum, note) => add(sum, note.duration), ZERO))).toBe(format(tuplet.duration));
          expect(format(members[0]?.onset ?? ZERO)).toBe(format(tuplet.onset));
        });
        for (let beam = 0; beam < beams; beam++) {
          const places = notes.flatMap((note, index) => (note.beam === beam ? [index] : []));
          expect(places.length).toBeGreaterThan(1);
          expect(lastOf(places) - itemAt(places, 0)).toBe(places.length - 1);
          expect(places.every((index) => (notes[index]?.value ?? 0) >= 8 && !notes[index]?.rest)).toBe(true);
        }
      }),
      { numRuns: cases(300, 2000) },
    );
  });

  it('has its ties from one note to the next, into it and out of it as the score has them, and none at a rest', () => {
    fc.assert(
      fc.property(bars, ({ text, meter, place }) => {
        const { events, length } = rhythm(text);
        const { notes } = writtenBar({ events, length }, meter, place);
        const [first] = events;
        expect(notes[0]?.tiedFromPrevious).toBe(first?.kind === 'sound' && first.tied);
        notes.forEach((note, index) => {
          const next = notes[index + 1];
          const follower = next && events[next.event];
          const goesOn =
            next?.event === note.event || (follower ? follower.kind === 'sound' && follower.tied : place.tiedOut);
          expect(note.tiedToNext).toBe(!note.rest && goesOn);
          if (next) expect(next.tiedFromPrevious).toBe(note.tiedToNext);
        });
      }),
      { numRuns: cases(300, 2000) },
    );
  });

  it('ties all the notes of one event together', () => {
    fc.assert(
      fc.property(bars, ({ text, meter, place }) => {
        const { notes } = writtenBar(rhythm(text), meter, place);
        notes.forEach((note, index) => {
          const next = notes[index + 1];
          if (!note.rest && next?.event === note.event) expect(note.tiedToNext && next.tiedFromPrevious).toBe(true);
        });
      }),
    );
  });
});

describe('the bars of a score', () => {
  const bars = (text: string) => writtenScore(scoreOf(text)).map(shorthand);

  it('are tied to the next one only where that begins with a note held on', () => {
    expect(bars('slot: 1/4\n4 = = 5 | = 5 = = | . 4 = =')).toEqual(['2. 4~', '4 2.', 'r4 2.']);
  });
  it('are counted from their end in a pickup, and from their start in any other short bar', () => {
    expect(bars('slot: 1/8\npickup: 3\n. 4 = | 4 =7 | 4 =4')).toEqual(['r8 4', '1', '2~ 8']);
    expect(bars('slot: 1/8\npickup: 5\n4 =4 | 4 =7 | 4 = =')).toEqual(['8~ 2', '1', '4.']);
  });
  it('are silent with one rest for all of the bar, whatever its meter, but for a pickup', () => {
    expect(bars('slot: 1/4\nmeter: 3/4\n.3 | 4 =2')).toEqual(['rbar', '2.']);
    expect(bars('slot: 1/4\npickup: 1\n. | 4 =3 | 4 =2')).toEqual(['r4', '1', '2.']);
  });
});
