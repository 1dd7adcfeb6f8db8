/** The formats a block can be saved in, and what their files are called. */

/** One format. */
export interface Format {
  readonly extension: string;
  readonly mediaType: string;
  /** What it is for, in a line. */
  readonly about: string;
  /** Whether it can hold the band besides the tune. */
  readonly holdsBand?: true;
}

/** Every format, by the name it is asked for. */
export const FORMATS = {
  musicxml: {
    extension: '.musicxml',
    mediaType: 'application/vnd.recordare.musicxml+xml',
    about: 'sheet music for notation programs',
  },
  mxl: {
    extension: '.mxl',
    mediaType: 'application/vnd.recordare.musicxml',
    about: 'the same as a smaller file',
  },
  midi: {
    extension: '.mid',
    mediaType: 'audio/midi',
    about: 'the notes as they are played, for sequencers',
    holdsBand: true,
  },
  abc: { extension: '.abc', mediaType: 'text/vnd.abc', about: 'sheet music as text' },
  text: { extension: '.txt', mediaType: 'text/plain', about: 'the tab in 72 columns, for any editor' },
  svg: { extension: '.svg', mediaType: 'image/svg+xml', about: 'a picture to scale and to print' },
  png: { extension: '.png', mediaType: 'image/png', about: 'a picture for documents' },
  wav: {
    extension: '.wav',
    mediaType: 'audio/wav',
    about: 'the sound of the page',
    holdsBand: true,
  },
} as const satisfies Readonly<Record<string, Format>>;

/** The name of a format. */
export type FormatName = keyof typeof FORMATS;

/** Whether a text names a format. */
export const isFormatName = (text: string): text is FormatName => Object.hasOwn(FORMATS, text);

/** The names of all formats, in the order of the table. */
export const FORMAT_NAMES: readonly FormatName[] = Object.keys(FORMATS).filter(isFormatName);

/** A format without the exact texts of the table. */
export const formatOf = (name: FormatName): Format => FORMATS[name];

/** Who plays: the harp, the band without it, or both. */
export const PLAYERS = ['tune', 'band', 'both'] as const;
/** One of {@link PLAYERS}. */
export type Players = (typeof PLAYERS)[number];

/** Names of devices, which some systems give no file. Source: “Naming Files, Paths, and Namespaces”, Microsoft. */
const DEVICES = /^(?:con|prn|aux|nul|com\d|lpt\d)$/i;

/**
 * What a file of a block is called: the same for the same block, and safe on every system. Ids of lessons and blocks are made of
 * letters, digits, hyphens and underscores already; the folders of a lesson are kept.
 */
export const fileNameOf = (lesson: string, block: string, format: FormatName, players: Players = 'tune'): string => {
  const part = (name: string): string => (DEVICES.test(name) ? `${name}_` : name);
  const suffix = players === 'tune' ? '' : `-${players === 'both' ? 'with-band' : 'band'}`;
  return `${lesson.split('/').map(part).join('/')}/${part(block)}${suffix}${FORMATS[format].extension}`;
};
