/**
 * Standard MIDI files, format 1. Source of every number here: “Standard MIDI Files 1.0” and “MIDI 1.0 Detailed Specification”,
 * MIDI Manufacturers Association, 1996.
 */

/** An event of a track: a tick from the track's start, and the bytes of its message. */
export interface TrackEvent {
  readonly tick: number;
  readonly bytes: Uint8Array | readonly number[];
}

/** Text events by their type. */
const TEXTS = { text: 0x01, copyright: 0x02, name: 0x03, lyric: 0x05, marker: 0x06 } as const;

/** Sixteen channels, from 0. Percussion has number 9 by General MIDI. */
export interface MidiChannel {
  readonly on: (tick: number, key: number, velocity: number) => TrackEvent;
  readonly off: (tick: number, key: number) => TrackEvent;
  readonly control: (tick: number, controller: number, value: number) => TrackEvent;
  readonly program: (tick: number, program: number) => TrackEvent;
  /** `value` from -8192 to 8191; the receiver's range says how many cents that is. */
  readonly bend: (tick: number, value: number) => TrackEvent;
}

const byte = (value: number): number => Math.max(0, Math.min(127, Math.round(value)));

/** The messages of a channel. Values outside the range of their message are set to its nearest end. */
export const channelOf = (number: number): MidiChannel => ({
  on: (tick, key, velocity) => ({ tick, bytes: [0x90 | number, byte(key), Math.max(1, byte(velocity))] }),
  off: (tick, key) => ({ tick, bytes: [0x80 | number, byte(key), 64] }),
  control: (tick, controller, value) => ({ tick, bytes: [0xb0 | number, controller, byte(value)] }),
  program: (tick, program) => ({ tick, bytes: [0xc0 | number, program] }),
  bend: (tick, value) => {
    const sent = Math.max(0, Math.min(16383, Math.round(value) + 8192));
    return { tick, bytes: [0xe0 | number, sent & 127, sent >> 7] };
  },
});

const utf8 = new TextEncoder();

const meta = (tick: number, type: number, data: Uint8Array | readonly number[]): TrackEvent => ({
  tick,
  bytes: [0xff, type, ...variableLength(data.length), ...data],
});

/** A text event, in UTF-8. */
export const textEvent = (tick: number, type: keyof typeof TEXTS, text: string): TrackEvent =>
  meta(tick, TEXTS[type], utf8.encode(text));

/** Three bytes hold no more. */
const LONGEST_QUARTER = 0xffffff;

/** The tempo, in quarter notes a minute: at least 3.6, which is the slowest a file can say. */
export function tempoEvent(tick: number, quarters: number): TrackEvent {
  const microseconds = Math.min(LONGEST_QUARTER, Math.round(60_000_000 / quarters));
  return meta(tick, 0x51, [microseconds >> 16, (microseconds >> 8) & 255, microseconds & 255]);
}

/** A meter. `unit` is a power of two, `clicks` the metronome's beat in 24ths of a quarter note. */
export const meterEvent = (tick: number, beats: number, unit: number, clicks: number): TrackEvent =>
  meta(tick, 0x58, [beats, Math.log2(unit), clicks, 8]);

/** A key signature: `fifths` from -7 to 7. */
export const keyEvent = (tick: number, fifths: number, isMinor: boolean): TrackEvent =>
  meta(tick, 0x59, [fifths & 255, isMinor ? 1 : 0]);

/**
 * The file of these tracks, with `division` ticks in a quarter note. At one tick, notes end before controllers and the
 * pitch bend move, and others begin after that; otherwise events keep their order.
 */
export function midiFile(division: number, tracks: readonly (readonly TrackEvent[])[]): Uint8Array<ArrayBuffer> {
  const head = chunk('MThd', [0, 1, tracks.length >> 8, tracks.length & 255, division >> 8, division & 255]);
  const chunks = [head, ...tracks.map((track) => chunk('MTrk', trackBytes(track)))];
  const file = new Uint8Array(chunks.reduce((length, { byteLength }) => length + byteLength, 0));
  let at = 0;
  for (const one of chunks) {
    file.set(one, at);
    at += one.byteLength;
  }
  return file;
}

function trackBytes(events: readonly TrackEvent[]): number[] {
  const bytes: number[] = [];
  let tick = 0;
  for (const event of events.toSorted((a, b) => a.tick - b.tick || rankOf(a) - rankOf(b))) {
    bytes.push(...variableLength(event.tick - tick), ...event.bytes);
    tick = event.tick;
  }
  bytes.push(0, 0xff, 0x2f, 0);
  return bytes;
}

function rankOf({ bytes: [status = 0] }: TrackEvent): number {
  const message = status & 0xf0;
  return message === 0x80 ? 0 : message === 0x90 ? 2 : 1;
}

function chunk(type: string, data: readonly number[]): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(8 + data.length);
  bytes.set(utf8.encode(type));
  new DataView(bytes.buffer).setUint32(4, data.length);
  bytes.set(data, 8);
  return bytes;
}

/** Seven bits a byte, the highest first; all but the last have their top bit set. */
function variableLength(value: number): number[] {
  const bytes = [value & 127];
  for (let rest = value >> 7; rest > 0; rest >>= 7) bytes.unshift((rest & 127) | 128);
  return bytes;
}
