/**
 * ABC files as two readers made by others play and read them: abc2midi (Debian's package abcmidi) and the library abcjs. What must be
 * played comes from the oracle, which gives pitches and times alone.
 */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import abcjs from 'abcjs';
import { parseMidi } from 'midi-file';
import { beforeAll, describe, expect, test } from 'vitest';
import { MODE_NAMES } from '../../../src/harmony/key.ts';
import { abcOf } from '../../../src/interchange/abc/document.ts';
import { writtenOut } from '../../../src/score/playing-order.ts';
import type { Score } from '../../../src/score/score.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { scoreOf } from '../../engrave/pictures.ts';
import { run } from '../../setup/debian.ts';
import { cases, LONG } from '../../setup/long.ts';
import { type Attacks, attacksAt, differencesOf, playedBy } from './attacks.ts';
import { type Asked, demoBlocks, HARD_CREDITS, randomBlocks } from './samples.ts';

let straight: Asked[];
let dir: string;
beforeAll(() => {
  straight = randomBlocks(cases(60, 2000)).filter(({ score }) => score.feel.name === 'straight');
  dir = mkdtempSync(join(tmpdir(), 'reedway-abc-'));
});

describe('abc2midi', () => {
  /** Of its own accord it would add the chords, and play the notes of a chord one after another. */
  const PLAIN = 'X:1\n%%MIDI gchordoff\n%%MIDI chordattack 0';

  function read(abc: string): { readonly attacks: Attacks; readonly messages: readonly string[] } {
    const [text, midi] = [join(dir, 'tune.abc'), join(dir, 'tune.mid')];
    writeFileSync(text, abc.replace(/^X:1$/m, PLAIN));
    const said = run('abc2midi', [text, '-o', midi], { fails: true });
    const { header, tracks } = parseMidi(readFileSync(midi));
    const whole = 4 * present(header.ticksPerBeat, 'ticks of a quarter note');
    const found = tracks.flatMap((track) => {
      let [tick, bend] = [0, 0];
      return track.flatMap((event) => {
        tick += event.deltaTime;
        // The reach of the pitch bend is not set, so it is two half steps.
        if (event.type === 'pitchBend') bend = (2 * event.value) / 8192;
        return event.type === 'noteOn' ? [{ at: tick / whole, keys: [event.noteNumber + bend] }] : [];
      });
    });
    // It knows few kinds of chords and decorations, and names the others; no file can be without them.
    const messages = said
      .split('\n')
      .filter((line) => /^(?:Error|Warning)/.test(line) && !/chord|instruction !slide!/.test(line));
    return { attacks: attacksAt(found), messages };
  }

  test('plays what the oracle plays', () => {
    for (const { seed, asked, score } of straight) {
      // It ignores the signs of jumps, and says so. What is written out it plays.
      const bars = asked.features.some((feature) => feature.startsWith('da')) ? writtenOut(score) : score.bars;
      const { attacks } = read(abcOf({ ...score, bars }, HARD_CREDITS));
      const found = differencesOf(playedBy(asked), attacks);
      if (found.length > 0) expect({ seed, block: asked.text, found }).toEqual({ seed, found: [] });
    }
  });

  // Draw 4 to blow 7 of a C harp, as any chart of its tuning has them: D5 E5 F5 G5 A5 B5 C6.
  test.each(MODE_NAMES)('plays the same notes whatever mode is named: %s', (mode) => {
    const score = scoreOf(`position: 3\nkey: ${mode}\nslot: 1/4\n\n-4 5 -5 6 | -6 -7 7 .`);
    const { attacks, messages } = read(abcOf(score, HARD_CREDITS));
    expect(messages).toEqual([]);
    const played = [74, 76, 77, 79, 81, 83, 84].map((key, index) => ({ at: index / 4, keys: [key] }));
    expect(attacks).toEqual(attacksAt(played));
  });

  test('plays the same with verses and syllables as without', () => {
    const music = 'slot: 1/8\n\n"C" 4 4 -4[accent] = {5 6 5}2 (4 5) 4 | = = . 4 3 =3';
    const under = [
      'syllables: ta ka-ta doo _ * hoo "dit" la',
      'words: one two-three * four five _ six seven eight',
      'words: a b c d e f g h i',
    ];
    const plain = read(abcOf(scoreOf(music), HARD_CREDITS));
    const written = read(abcOf(scoreOf([music, ...under].join('\n')), HARD_CREDITS));
    expect(plain.attacks.size).toBeGreaterThan(0);
    expect(written).toEqual(plain);
  });

  test.runIf(LONG)('has nothing against the demo course', () => {
    // A bar that is completed by a pickup is short by its meter, and a line of held notes has nothing under it. It plays no tenuto.
    const messages = demoBlocks().flatMap(({ score, credits }) => read(abcOf(score, credits)).messages);
    expect(
      messages.filter(
        (message) => !/time units while the time signature|Line of music without lyrics|!tenuto! ignored/.test(message),
      ),
    ).toEqual([]);
  });
});

describe('abcjs', () => {
  interface Element {
    readonly el_type: string;
    readonly duration?: number;
    readonly rest?: unknown;
    readonly pitches?: readonly {
      readonly name: string;
      readonly startTie?: unknown;
      readonly endTie?: unknown;
      readonly pitch: number;
    }[];
    readonly startTriplet?: unknown;
    readonly tripletMultiplier?: number;
    readonly tripletR?: number;
    readonly lyric?: readonly { readonly syllable: string }[];
    readonly chord?: readonly { readonly name: string; readonly position: string }[];
  }
  interface Tune {
    readonly warnings?: readonly string[];
    readonly lines: readonly { readonly staff?: readonly { readonly voices: readonly (readonly Element[])[] }[] }[];
  }

  const tuneOf = (score: Score, credits = HARD_CREDITS): Tune =>
    itemAt(abcjs.parseOnly(abcOf(score, credits)) as unknown as readonly Tune[], 0);
  const elementsOf = ({ lines }: Tune): Element[] =>
    lines.flatMap(({ staff = [] }) => staff.flatMap(({ voices }) => voices.flat()));

  /** Onsets within the bar of what is attacked, bar by bar, with how many notes there are. */
  function barsOf(elements: readonly Element[]): string[][] {
    const bars: string[][] = [[]];
    let [at, left, factor] = [0, 0, 1];
    for (const element of elements) {
      if (element.el_type === 'bar' && at > 0) {
        bars.push([]);
        at = 0;
      }
      if (element.el_type !== 'note') continue;
      if (element.startTriplet !== undefined) {
        left = element.tripletR ?? 3;
        factor = element.tripletMultiplier ?? 2 / 3;
      }
      const { pitches } = element;
      if (pitches && !pitches.every(({ endTie }) => endTie))
        bars.at(-1)?.push(`${Math.round(at * 960)}: ${pitches.length}`);
      at += (element.duration ?? 0) * (left > 0 ? factor : 1);
      if (left > 0) left--;
    }
    return bars.filter((bar, index) => index + 1 < bars.length || bar.length > 0);
  }

  /** The lines of music of a tune, without its texts in quotation marks. */
  const musicOf = (score: Score): string =>
    abcOf(score, HARD_CREDITS)
      .split('\n')
      .filter((line) => !/^(?:[A-Za-z]:|%)/.test(line))
      .join('\n')
      .replace(/"[^"]*"/g, '');

  test('reads every attack of the oracle at its place in its bar', () => {
    for (const { seed, asked, score } of straight) {
      // Written out, it has more bars than the block.
      if (asked.features.includes('repeat-several')) continue;
      // abcjs reads no tuplets of ten notes and more, and no notes shorter than a sixty-fourth.
      if (/\(\d\d:|\d\/(?:16|32|64)(?!\d)/.test(musicOf(score))) continue;
      const tune = tuneOf(score);
      // ABC 2.1, 4.14 has `!dacoda!`, and abcjs does not know it.
      const warnings = (tune.warnings ?? []).filter((warning) => !warning.includes('Unknown decoration: dacoda'));
      expect(warnings, asked.text).toEqual([]);
      const bars = asked.bars.map(({ sounds }) =>
        sounds
          .filter(({ tied }) => !tied)
          .map(({ onset: [n, d], notes }) => `${Math.round((n / d) * 960)}: ${notes.length}`),
      );
      while (bars.at(-1)?.length === 0) bars.pop();
      const read = barsOf(elementsOf(tune));
      while (read.at(-1)?.length === 0) read.pop();
      expect({ seed, bars: read }).toEqual({ seed, bars });
    }
  });

  test('has each verse in a line of its own, and the syllables as annotations below the notes', () => {
    const tune = tuneOf(scoreOf('slot: 1/2\n4 4 | 4 4 |]\nsyllables: ta ka * doo\nwords: a b c d\nwords: e * f g'));
    expect(tune.warnings ?? []).toEqual([]);
    const notes = elementsOf(tune).filter(({ el_type }) => el_type === 'note');
    expect(notes.map(({ lyric = [] }) => lyric.map(({ syllable }) => syllable))).toEqual([
      ['4', 'a', 'e'],
      ['4', 'b', ''],
      ['4', 'c', 'f'],
      ['4', 'd', 'g'],
    ]);
    expect(notes.map(({ chord = [] }) => chord.map(({ name, position }) => `${position} ${name}`))).toEqual([
      ['below ta'],
      ['below ka'],
      [],
      ['below doo'],
    ]);
  });

  test('has the chords, the tab and the words of the demo course', () => {
    for (const { name, score, credits } of demoBlocks()) {
      const tune = tuneOf(score, credits);
      expect(tune.warnings ?? [], name).toEqual([]);
      const elements = elementsOf(tune);
      const signs = elements.flatMap(({ chord = [] }) => chord);
      const written = score.bars.flatMap(({ chords }) => chords.map(({ chord }) => chord));
      expect(signs.filter(({ position }) => position === 'default').length, name).toBe(
        written.filter((chord) => chord !== 'none').length,
      );
      // A bar without a chord has words above it.
      expect(signs.filter((sign) => sign.name.includes('N.C.')).length, name).toBe(
        written.filter((chord) => chord === 'none').length,
      );
    }
  });
});
