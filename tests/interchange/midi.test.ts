/** What of a score is where in a MIDI file. Other parsers, and the oracle, are asked in tests/outside/exchange. */
import fc from 'fast-check';
import { type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, test } from 'vitest';
import { midiOf } from '../../src/interchange/midi/file.ts';
import { channelOf, midiFile, textEvent } from '../../src/interchange/midi/smf.ts';
import { itemAt } from '../../src/values/checked.ts';
import { scoreOf } from '../engrave/pictures.ts';

const read = (text: string, players: 'tune' | 'band' | 'both' = 'tune') =>
  parseMidi(midiOf(scoreOf(text), { title: 'A block', licence: 'Free' }, players));

/** Events of a track with their ticks. */
function timed(track: readonly MidiEvent[]): (MidiEvent & { readonly tick: number })[] {
  let tick = 0;
  return track.map((event) => {
    tick += event.deltaTime;
    return { ...event, tick };
  });
}
const ofType = (track: readonly MidiEvent[], type: string) => timed(track).filter((event) => event.type === type);

test('a file has what its bytes say, whatever they are', () => {
  const event = fc.record({ tick: fc.nat(100_000), key: fc.nat(127), velocity: fc.integer({ min: 1, max: 127 }) });
  fc.assert(
    fc.property(fc.array(event, { maxLength: 40 }), fc.string({ unit: 'grapheme' }), (events, name) => {
      const channel = channelOf(5);
      const bytes = midiFile(960, [
        [textEvent(0, 'name', name), ...events.map(({ tick, key, velocity }) => channel.on(tick, key, velocity))],
      ]);
      const [track = []] = parseMidi(bytes).tracks;
      const notes = timed(track).flatMap((one) =>
        one.type === 'noteOn' ? [{ tick: one.tick, key: one.noteNumber, velocity: one.velocity }] : [],
      );
      expect(notes).toEqual(events.toSorted((a, b) => a.tick - b.tick));
    }),
  );
});

test('the first track has title, terms, tempo, meter, key, parts and chords', () => {
  const [track = []] = read(
    'harp: A\nposition: 2\ntempo: 92\nslot: 1/4\nchords: I7 | IV7\npart: Head\ntext: soft\n4 4 4 4 | 5 5 5 5 |]',
  ).tracks;
  expect(track.filter(({ deltaTime }) => deltaTime === 0)).toEqual(
    expect.arrayContaining([
      expect.objectContaining({ type: 'trackName', text: 'A block' }),
      expect.objectContaining({ type: 'copyrightNotice', text: 'Free' }),
      expect.objectContaining({ type: 'setTempo', microsecondsPerBeat: Math.round(60_000_000 / 92) }),
      expect.objectContaining({ type: 'timeSignature', numerator: 4, denominator: 4 }),
      expect.objectContaining({ type: 'keySignature', key: 4, scale: 0 }),
      expect.objectContaining({ type: 'marker', text: 'Head' }),
      expect.objectContaining({ type: 'text', text: 'soft' }),
      expect.objectContaining({ type: 'text', text: 'E7' }),
    ]),
  );
  expect(ofType(track, 'text').map(({ tick }) => tick)).toEqual([0, 0, 3840]);
});

test('names a bass and that no chord sounds, plays the one and is silent for the other', () => {
  const { tracks } = read('slot: 1/1\nchords: D/F# | N.C. | V7/V\n4 | 4 | 4 |]', 'band');
  expect(ofType(itemAt(tracks, 0), 'text').map((event) => 'text' in event && event.text)).toEqual([
    'D/F#',
    'N.C.',
    'D7',
  ]);
  const bass = ofType(itemAt(tracks, 1), 'noteOn').map(({ tick }) => tick);
  expect([bass.some((tick) => tick < 3840), bass.some((tick) => tick >= 3840 && tick < 7680)]).toEqual([true, false]);
  expect(ofType(itemAt(tracks, 1), 'noteOn')[0]).toMatchObject({ noteNumber: 42 });
});

test('the tempo of compound time counts dotted quarters', () => {
  const [track = []] = read('meter: 6/8\ntempo: 60\nslot: 3/8\n4 4').tracks;
  expect(ofType(track, 'setTempo')).toEqual([expect.objectContaining({ microsecondsPerBeat: 666_667 })]);
});

test('a pickup ends where the first full bar begins', () => {
  const [, tune = []] = read('slot: 1/4\npickup: 1\n5 | 4 4 4 4').tracks;
  expect(ofType(tune, 'noteOn').map(({ tick }) => tick)).toEqual([2880, 3840, 4800, 5760, 6720]);
});

test('swing is played out, and repeats come in order', () => {
  const [, tune = []] = read('slot: 1/8\nmeter: 2/4\nfeel: shuffle\n|: 4 4 4 4 :|').tracks;
  expect(ofType(tune, 'noteOn').map(({ tick }) => tick)).toEqual([0, 640, 960, 1600, 1920, 2560, 2880, 3520]);
});

describe('a bend', () => {
  const bends = (text: string) => {
    const [, tune = []] = read(text).tracks;
    return ofType(tune, 'pitchBend').map((event) => [event.tick, 'value' in event ? event.value : 0]);
  };
  test('is the key of its reed with the pitch bend down, in a range that is said before', () => {
    const [, tune = []] = read("slot: 1/4\nharp: C\n-3'' 4 -3' 4").tracks;
    expect(ofType(tune, 'noteOn').map((event) => 'noteNumber' in event && event.noteNumber)).toEqual([71, 72, 71, 72]);
    expect(bends("slot: 1/4\nharp: C\n-3'' 4 -3' 4")).toEqual([
      [0, -2048],
      [960, 0],
      [1920, -1024],
      [2880, 0],
    ]);
    const settings = timed(tune).filter(({ type }) => type === 'controller');
    expect(settings.map((event) => 'controllerType' in event && [event.controllerType, event.value])).toEqual([
      [101, 0],
      [100, 0],
      [6, 8],
      [38, 0],
      [101, 127],
      [100, 127],
    ]);
  });
  test('of a quarter step is half of one, and has a channel of its own beside notes that are not bent', () => {
    expect(bends("slot: 1/4\nharp: C\n-3q -3'q> -3q .")).toEqual([
      [0, -512],
      [960, -1536],
      [1920, -512],
    ]);
    const [, tune = []] = read('slot: 1/4\nharp: C\n-(2 3q) -(2q 3q) . .').tracks;
    const keys = ofType(tune, 'noteOn').map((event) => 'noteNumber' in event && [event.channel, event.noteNumber]);
    expect(keys).toEqual([
      [0, 67],
      [3, 71],
      [0, 67],
      [0, 71],
    ]);
    expect(
      ofType(tune, 'pitchBend').map((event) => 'value' in event && [event.channel, event.tick, event.value]),
    ).toEqual([
      [3, 0, -512],
      [0, 960, -512],
    ]);
  });
  test('that is released is one key', () => {
    const [, tune = []] = read("slot: 1/4\nharp: C\n-3'> -3 . .").tracks;
    expect(ofType(tune, 'noteOn').length).toBe(1);
    expect(bends("slot: 1/4\nharp: C\n-3'> -3 . .")).toEqual([
      [0, -1024],
      [960, 0],
    ]);
  });
});

describe('a mark', () => {
  const notes = (mark: string) => {
    const [, tune = []] = read(`slot: 1/4\ntempo: 60\nharp: C\n-4${mark} . . .`).tracks;
    const find = (type: string) => ofType(tune, type);
    return { on: find('noteOn'), off: find('noteOff'), bend: find('pitchBend'), control: find('controller') };
  };
  test('of staccato shortens the key', () => {
    expect(itemAt(notes('[staccato]').off, 0).tick).toBeLessThan(itemAt(notes('').off, 0).tick * 0.6);
  });
  test('of tenuto holds the key up to the next note', () => {
    expect(itemAt(notes('[tenuto]').off, 0).tick).toBe(960);
    expect(itemAt(notes('').off, 0).tick).toBeLessThan(960);
  });
  test('of an accent presses it harder, and of a ghost note softer', () => {
    const velocity = (mark: string) =>
      itemAt(
        notes(mark).on.flatMap((event) => ('velocity' in event ? [event.velocity] : [])),
        0,
      );
    expect(velocity('[accent]')).toBeGreaterThan(velocity('') * 1.3);
    expect(velocity('[ghost]')).toBeLessThan(velocity('') * 0.5);
  });
  test('of a dip begins below, and of a fall ends below', () => {
    const values = (mark: string) => notes(mark).bend.flatMap((event) => ('value' in event ? [event.value] : []));
    expect(itemAt(values('[dip]'), 0)).toBeLessThan(-1000);
    expect(values('[dip]').at(-1)).toBe(0);
    expect(values('[fall]').at(-1)).toBeLessThan(-3000);
  });
  test('of vibrato moves the modulation wheel and puts it back', () => {
    const wheel = notes('[vibrato]').control.flatMap((event) =>
      'controllerType' in event && event.controllerType === 1 ? [event.value] : [],
    );
    expect(wheel).toEqual([64, 0]);
  });
  test('of a shake goes to the other hole and back', () => {
    const keys = notes('[shake 5]').on.flatMap((event) => ('noteNumber' in event ? [event.noteNumber] : []));
    expect(keys.length).toBeGreaterThan(8);
    expect(new Set(keys.filter((_, index) => index % 2 === 0))).toEqual(new Set([74]));
    expect(new Set(keys.filter((_, index) => index % 2 === 1))).toEqual(new Set([77]));
  });
});

describe('the band', () => {
  const TEXT = 'form: twelve-bar\nslot: 1/1\ntempo: 120\n4 | 4 | 4 | 4 | 4 | 4 | 4 | 4 | 4 | 4 | 4 | 4 |]';
  test('has a channel for each part', () => {
    const channels = (players: 'tune' | 'band' | 'both') =>
      read(TEXT, players).tracks.map((track) => [
        ...new Set(track.flatMap((event) => (event.type === 'noteOn' ? [event.channel] : []))),
      ]);
    expect(channels('tune')).toEqual([[], [0]]);
    expect(channels('both')).toEqual([[], [0], [1], [2], [9]]);
    expect(channels('band')).toEqual([[], [1], [2], [9]]);
  });
  test('ends every key that it presses', () => {
    for (const track of read(TEXT, 'both').tracks) {
      const pressed = new Map<number, number>();
      for (const event of track) {
        if (event.type === 'noteOn') pressed.set(event.noteNumber, (pressed.get(event.noteNumber) ?? 0) + 1);
        if (event.type === 'noteOff') pressed.set(event.noteNumber, (pressed.get(event.noteNumber) ?? 0) - 1);
      }
      expect([...pressed.values()].filter(Boolean)).toEqual([]);
    }
  });
});

test('words are those of the verse that is sung', () => {
  const [, tune = []] = read('slot: 1/2\n|: 4 4 :|\nwords: one two\nwords: three _\n5 5 |]\nwords: end *').tracks;
  expect(ofType(tune, 'lyrics').map((event) => 'text' in event && [event.tick, event.text])).toEqual([
    [0, 'one '],
    [1920, 'two '],
    [3840, 'three '],
    [7680, 'end '],
  ]);
});

test('words are at their notes, with the hyphen of a word that continues', () => {
  const [, tune = []] = read('slot: 1/4\n4 4 4 4\nwords: A- ma- zing grace').tracks;
  const words = ofType(tune, 'lyrics').map((event) => 'text' in event && [event.tick, event.text]);
  expect(words).toEqual([
    [0, 'A-'],
    [960, 'ma-'],
    [1920, 'zing '],
    [2880, 'grace '],
  ]);
});
