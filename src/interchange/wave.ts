/**
 * Sound as a WAV file of 16 bits. Source: “Multimedia Programming Interface and Data Specifications 1.0”, IBM and Microsoft,
 * 1991, chapter “Waveform Audio File Format”.
 */

const HEAD = 44;
const BITS = 16;

/** The bytes of a file with one channel. Samples are from -1 to 1, `rate` of them a second; what is beyond is cut off. */
export function waveFile(samples: Float32Array, rate: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(HEAD + (samples.length * BITS) / 8);
  const view = new DataView(bytes.buffer);
  const text = (at: number, name: string): void => bytes.set(new TextEncoder().encode(name), at);
  text(0, 'RIFF');
  view.setUint32(4, bytes.length - 8, true);
  text(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  // Plain numbers, one channel.
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, (rate * BITS) / 8, true);
  view.setUint16(32, BITS / 8, true);
  view.setUint16(34, BITS, true);
  text(36, 'data');
  view.setUint32(40, bytes.length - HEAD, true);
  samples.forEach((sample, index) => {
    const level = Math.max(-1, Math.min(1, sample));
    view.setInt16(HEAD + (index * BITS) / 8, Math.round(level * 32767), true);
  });
  return bytes;
}
