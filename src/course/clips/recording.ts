/**
 * How long a recording lasts, as its own file says at its beginning or its end. Nothing is decoded; a file that does
 * not say gives no length. The layouts are those of RIFF/WAVE (Microsoft and IBM, 1991), FLAC (RFC 9639), Ogg
 * (RFC 3533) with Opus (RFC 7845) and Vorbis I, ISO/IEC 14496-12, and Matroska (RFC 9559), and of MP3 ISO/IEC 11172-3.
 */

/** A file that is read in parts. A part that goes past the end is shorter than was asked for. */
export interface Bytes {
  readonly size: number;
  readonly read: (from: number, length: number) => Buffer;
}

/** In seconds. Throws a RangeError where the file is cut short. */
export function lengthOf(bytes: Bytes): number | undefined {
  const head = bytes.read(0, 12);
  const seconds = FORMATS.find(([begins]) => begins(head))?.[1](bytes);
  return seconds !== undefined && Number.isFinite(seconds) && seconds > 0 ? seconds : undefined;
}

const named = (head: Buffer, name: string, at = 0): boolean => head.toString('latin1', at, at + name.length) === name;

const FORMATS: readonly (readonly [(head: Buffer) => boolean, (bytes: Bytes) => number | undefined])[] = [
  [(head) => named(head, 'RIFF') && named(head, 'WAVE', 8), ofWave],
  [(head) => named(head, 'fLaC'), ofFlac],
  [(head) => named(head, 'OggS'), ofOgg],
  [(head) => named(head, 'ftyp', 4), ofBoxes],
  [(head) => head.readUInt32BE(0) === 0x1a45dfa3, ofMatroska],
  [(head) => named(head, 'ID3') || (head.readUInt16BE(0) & 0xffe0) === 0xffe0, ofMp3],
];

function ofWave({ size, read }: Bytes): number | undefined {
  let bytesASecond = 0;
  for (let at = 12; at < size; ) {
    const chunk = read(at, 20);
    const length = chunk.readUInt32LE(4);
    if (named(chunk, 'fmt ')) bytesASecond = chunk.readUInt32LE(16);
    // A recorder that was cut off has not filled in how much there is.
    if (named(chunk, 'data')) return Math.min(length || size, size - at - 8) / bytesASecond;
    at += 8 + length + (length % 2);
  }
  return undefined;
}

function ofFlac({ read }: Bytes): number {
  const packed = read(18, 8).readBigUInt64BE();
  return Number(packed & 0xf_ffff_ffffn) / Number(packed >> 44n);
}

/** The longest page there can be. */
const OGG_PAGE = 65_307;

function ofOgg({ size, read }: Bytes): number | undefined {
  const first = read(0, OGG_PAGE);
  const packet = first.subarray(27 + first.readUInt8(26));
  const tail = read(Math.max(0, size - OGG_PAGE), OGG_PAGE);
  const last = tail.subarray(tail.lastIndexOf('OggS'));
  // A film holds several streams, whose ends are given in units of their own.
  if (last.readUInt32LE(14) !== first.readUInt32LE(14)) return undefined;
  const samples = Number(last.readBigInt64LE(6));
  if (named(packet, 'OpusHead')) return (samples - packet.readUInt16LE(10)) / 48_000;
  return named(packet, '\u0001vorbis') ? samples / packet.readUInt32LE(12) : undefined;
}

/** The films and sounds of ISO/IEC 14496: boxes in boxes, of which `mvhd` in `moov` has the length. */
function ofBoxes({ size, read }: Bytes): number | undefined {
  for (let [at, end] = [0, size]; at < end; ) {
    const box = read(at, 40);
    const short = box.readUInt32BE(0);
    const length = short === 1 ? Number(box.readBigUInt64BE(8)) : short || end - at;
    if (named(box, 'mvhd', 4)) {
      return box.readUInt8(8) === 1
        ? Number(box.readBigUInt64BE(32)) / box.readUInt32BE(28)
        : box.readUInt32BE(24) / box.readUInt32BE(20);
    }
    if (length < 8) return undefined;
    const entered = named(box, 'moov', 4);
    if (entered) end = at + length;
    at += entered ? 8 : length;
  }
  return undefined;
}

const [SEGMENT, INFO, CLUSTER, SCALE, DURATION] = [0x18538067, 0x1549a966, 0x1f43b675, 0x2ad7b1, 0x4489];

/** Matroska and WebM: elements in elements, of which `Duration` in `Info` has the length, in units of `TimestampScale`. */
function ofMatroska({ size, read }: Bytes): number | undefined {
  let [scale, duration]: [number, number | undefined] = [1_000_000, undefined];
  for (let at = 0; at < size; ) {
    const element = read(at, 20);
    const idBytes = Math.clz32(element.readUInt8(0)) - 23;
    const id = element.readUIntBE(0, idBytes);
    const sizeBytes = Math.clz32(element.readUInt8(idBytes)) - 23;
    const from = idBytes + sizeBytes;
    const written = element.readBigUInt64BE(idBytes) >> BigInt(64 - 8 * sizeBytes);
    const length = Number(BigInt.asUintN(7 * sizeBytes, written));
    if (id === CLUSTER) break;
    if (id === SCALE) scale = element.readUIntBE(from, length);
    if (id === DURATION) duration = length === 4 ? element.readFloatBE(from) : element.readDoubleBE(from);
    at += id === SEGMENT || id === INFO ? from : from + length;
  }
  return duration === undefined ? undefined : (duration * scale) / 1e9;
}

const MP3_RATES = [44_100, 48_000, 32_000];
/** Kilobits a second, of whole and of lower sampling rates. */
const MP3_SPEEDS = {
  whole: [0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320],
  lower: [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160],
} as const;
/** What may follow the last frame: texts about the recording. */
const MP3_TAIL = 4096;

/** Frame by frame, since nothing else is certain. */
function ofMp3({ size, read }: Bytes): number | undefined {
  const tag = read(0, 10);
  let at = named(tag, 'ID3') ? 10 + [6, 7, 8, 9].reduce((sum, byte) => sum * 128 + tag.readUInt8(byte), 0) : 0;
  let seconds = 0;
  while (at + 4 <= size) {
    const frame = mp3Frame(read(at, 4));
    if (!frame) break;
    seconds += frame.seconds;
    at += frame.length;
  }
  return size - at <= MP3_TAIL ? seconds : undefined;
}

function mp3Frame(head: Buffer): { readonly length: number; readonly seconds: number } | undefined {
  const bits = head.readUInt32BE();
  const version = (bits >> 19) & 3;
  const slower = version === 3 ? 1 : version === 2 ? 2 : 4;
  const rate = (MP3_RATES[(bits >> 10) & 3] ?? Number.NaN) / slower;
  const speed = MP3_SPEEDS[slower === 1 ? 'whole' : 'lower'][(bits >> 12) & 15];
  // Eleven bits of a frame’s sign, then the third layer.
  if (bits >>> 21 !== 0x7ff || version === 1 || ((bits >> 17) & 3) !== 1 || !speed || !rate) return undefined;
  const samples = slower === 1 ? 1152 : 576;
  return { length: Math.floor(((samples / 8) * speed * 1000) / rate) + ((bits >> 9) & 1), seconds: samples / rate };
}
