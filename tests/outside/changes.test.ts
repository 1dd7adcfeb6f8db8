/**
 * Settings that change within a block and fermatas, against what an independent oracle works out (oracle/changing.ts): the time of every
 * attack in seconds, its pitch, the chord with its numeral, the meter of every bar.
 */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { chromaOf } from '../../src/instrument/pitch.ts';
import { abcOf } from '../../src/interchange/abc/document.ts';
import { midiOf } from '../../src/interchange/midi/file.ts';
import { musicXmlOf } from '../../src/interchange/musicxml/document.ts';
import { ALONE, readBlock } from '../../src/notation/read.ts';
import { roundOf } from '../../src/schedule/round.ts';
import { writtenSettings } from '../../src/schedule/settings.ts';
import { tuneOf } from '../../src/schedule/tune.ts';
import { playbackOf } from '../../src/score/playback-of.ts';
import type { Bar, Event, Score } from '../../src/score/score.ts';
import { meterName } from '../../src/time/meter.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { run } from '../setup/debian.ts';
import { cases } from '../setup/long.ts';
import { attacksInSeconds, lateOrWrong } from './exchange/seconds.ts';
import { type ChangingAttack, type ChangingBar, type ChangingSample, changingSample } from './oracle/changing.ts';
import { memoryFreed, verovioReading } from './verovio.ts';

const SEEDS = Array.from({ length: cases(80, 3000) }, (_, index) => index + 1);

function barsOf({ bars }: Score): ChangingBar[] {
  return bars.map(({ meter, key, chords }) => {
    const chord = chords[0]?.chord;
    if (chord === undefined || chord === 'none') throw new Error('a bar without a chord');
    return {
      meter: meterName(meter),
      tonic: chromaOf(key.tonic),
      root: chromaOf(chord.root),
      numeral: chord.numeral ?? '',
    };
  });
}

function playedBy(score: Score): ChangingAttack[] {
  const playback = playbackOf(score);
  return tuneOf(playback, roundOf(playback, writtenSettings(playback), 0)).flatMap(({ at, parts }) =>
    parts.flatMap((part) => part.notes.map(({ midi }) => ({ seconds: at + part.at, midi }))),
  );
}

/** In what a block differs from the oracle, one line each. Times are compared to a tenth of a millisecond: the oracle integrates in steps. */
function differences(seed: number, change = (score: Score): Score => score): string[] {
  const asked = changingSample(seed);
  const { score: read, diagnostics } = readBlock(asked.text, ALONE);
  const errors = diagnostics.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) return errors.map(({ message }) => message);
  const score = change(present(read, 'the score'));
  const facts = (bars: readonly ChangingBar[]): string[] => bars.map((bar) => JSON.stringify(bar));
  const theirs = facts(asked.bars);
  const bars = facts(barsOf(score)).flatMap((bar, index) =>
    bar === theirs[index] ? [] : [`bar ${index}: ${bar}, oracle ${theirs[index]}`],
  );
  return [...bars, ...lateOrWrong(playedBy(score), asked.played, 1e-4)];
}

test('every attack, chord, numeral and meter is what the oracle says', () => {
  for (const seed of SEEDS) {
    const found = differences(seed);
    if (found.length > 0) expect({ seed, block: changingSample(seed).text, found }).toEqual({ seed, found: [] });
  }
});

test('the oracle writes every kind of change, in repeats and in endings too', () => {
  const features = new Set(SEEDS.flatMap((seed) => [...changingSample(seed).features]));
  const wanted = ['meter', 'slot', 'feel', 'position', 'tempo', 'gradual', 'fermata', 'swing'];
  const places = ['repeat', 'ending', 'tie-over-bar', 'chord-over-new-position'];
  expect([...wanted, ...places].filter((feature) => !features.has(feature))).toEqual([]);
});

describe('a deliberate error is found', () => {
  const found = (change: (bar: Bar) => Bar): boolean =>
    SEEDS.slice(0, 60).some(
      (seed) => differences(seed, (score) => ({ ...score, bars: score.bars.map(change) })).length > 0,
    );
  test('in a goal, in a tempo, in a feel and in a meter', () => {
    expect(found((bar) => bar)).toBe(false);
    expect(found((bar) => (bar.tempo?.to ? { ...bar, tempo: { ...bar.tempo, to: bar.tempo.to + 1 } } : bar))).toBe(
      true,
    );
    expect(
      found((bar) => (bar.tempo?.from ? { ...bar, tempo: { ...bar.tempo, from: bar.tempo.from + 1 } } : bar)),
    ).toBe(true);
    expect(found((bar) => ({ ...bar, feel: { name: 'ratio', long: 55, short: 45 } }))).toBe(true);
    expect(found((bar) => (bar.meter.unit === 8 ? { ...bar, meter: { beats: 3, unit: 4 } } : bar))).toBe(true);
  });
  test('in a wait', () => {
    const plain = (event: Event): Event => (event.kind === 'sound' ? { ...event, marks: [] } : event);
    expect(found((bar) => ({ ...bar, events: bar.events.map(plain) }))).toBe(true);
  });
});

describe('the MIDI file, as the library midi-file reads it', () => {
  /** The meters where they change in the order of playing. */
  function metersOf({ bars, order, lengths }: ChangingSample): string[] {
    let [at, before] = [0, ''];
    return order.flatMap((bar) => {
      const { meter } = itemAt(bars, bar);
      const [n, d] = itemAt(lengths, bar);
      const line = meter === before ? [] : [`${at}: ${meter}`];
      at += n / d;
      before = meter;
      return line;
    });
  }

  test('has every attack within five milliseconds, and the bar lines', () => {
    for (const seed of SEEDS) {
      const asked = changingSample(seed);
      const score = present(readBlock(asked.text, ALONE).score, asked.text);
      const { attacks, meters } = attacksInSeconds(midiOf(score, { title: '' }), 8);
      const found = lateOrWrong(attacks, asked.played, 5e-3);
      if (found.length > 0) expect({ seed, block: asked.text, found }).toEqual({ seed, found: [] });
      expect({ seed, meters }).toEqual({ seed, meters: metersOf(asked) });
    }
  });
});

describe('other programs, of blocks without gradual tempo, fermata and swing, which they play in their own ways', () => {
  const plain = SEEDS.slice(0, cases(30, 800)).map((seed) => {
    const asked = changingSample(seed, true);
    return { seed, asked, score: present(readBlock(asked.text, ALONE).score, asked.text) };
  });

  // MusicXML 4.0, “sound”: its attribute `tempo` is in quarter notes a minute, from where it is.
  test('Verovio plays the MusicXML file', async () => {
    const engraver = await verovioReading('xml');
    // It plays a repeat at the tempo it comes with, and endings at that of the bar before them on the page.
    const once = plain.filter(({ asked }) => !asked.features.has('repeat'));
    expect(once.length).toBeGreaterThan(plain.length / 6);
    for (const { seed, asked, score } of once) {
      const document = musicXmlOf(score, { title: '' });
      expect(engraver.loadData(document)).toBeTruthy();
      const { attacks } = attacksInSeconds(Buffer.from(engraver.renderToMIDI(), 'base64'), 0);
      const found = lateOrWrong(attacks, asked.played, 5e-3);
      if (found.length > 0) expect({ seed, block: asked.text, found }).toEqual({ seed, found: [] });
      await memoryFreed();
    }
  });

  // ABC 2.1, 3.2: Q:, M: and K: may stand within a tune, on a line of their own or in brackets.
  test('abc2midi plays the ABC file', () => {
    const dir = mkdtempSync(join(tmpdir(), 'reedway-changes-'));
    const [text, midi] = [join(dir, 'tune.abc'), join(dir, 'tune.mid')];
    for (const { seed, asked, score } of plain) {
      // Of its own accord it would add the chords.
      writeFileSync(text, abcOf(score, { title: '' }).replace(/^X:1$/m, 'X:1\n%%MIDI gchordoff'));
      run('abc2midi', [text, '-o', midi], { fails: true });
      const { attacks } = attacksInSeconds(readFileSync(midi), 2);
      const found = lateOrWrong(attacks, asked.played, 5e-3);
      if (found.length > 0) expect({ seed, block: asked.text, found }).toEqual({ seed, found: [] });
    }
  });
});
