/** The formats that a page makes from a score alone, each loaded when it is asked for. The others take more code. */
import type { Score } from '../score/score.ts';
import type { Credits } from './credits.ts';
import type { FormatName, Players } from './formats.ts';

/** Writes the file of a score. */
export type Writer = (score: Score, credits: Credits, players: Players) => string | Uint8Array<ArrayBuffer>;

const WRITERS = {
  musicxml: async () => (await import('./musicxml/document.ts')).musicXmlOf,
  midi: async () => (await import('./midi/file.ts')).midiOf,
  abc: async () => (await import('./abc/document.ts')).abcOf,
  text: async () => (await import('./tab-text.ts')).tabTextOf,
} as const satisfies Partial<Readonly<Record<FormatName, () => Promise<Writer>>>>;

/** A format that is made from a score alone. */
export type WrittenFormat = keyof typeof WRITERS;

/** Whether a format is made from a score alone. */
export const isWritten = (format: FormatName): format is WrittenFormat => Object.hasOwn(WRITERS, format);

/** Loads the writer of a format. */
export const writerOf = (format: WrittenFormat): Promise<Writer> => WRITERS[format]();
