/** What the long run measures: which windows, papers and harps. */
import type { Found } from './page.ts';
import { PAPER_WIDTHS, type Setting } from './site.ts';

const WIDTHS = [320, 360, 820, 1440] as const;

const onScreen = (width: number, also: Partial<Setting> = {}): Setting => ({
  width,
  text: 100,
  theme: 'light',
  medium: 'screen',
  ...also,
});

export const PHONE = onScreen(360);

export const SUITES = {
  /** Two lessons on a phone, which `npm test` has time for. */
  twoLessons: [PHONE],
  screens: WIDTHS.map((width) => onScreen(width)),
  largeText: WIDTHS.map((width) => onScreen(width, { text: 200 })),
  paper: Object.values(PAPER_WIDTHS).map((width) => onScreen(width, { medium: 'print' })),
  harps: ['Db', 'F#', 'Ab'].map((harp) => onScreen(360, { harp })),
  /** What of the music a reader may choose to see. */
  views: (['lanes', 'staff'] as const).map((music) => onScreen(360, { music })),
  /** Of a course of random blocks. */
  random: [PHONE, onScreen(1440)],
} as const satisfies Readonly<Record<string, readonly Setting[]>>;

export type Suite = keyof typeof SUITES;

/** Chords, chugs and rests; bends, splits, ties and the third position. */
export const TWO_LESSONS = ['chords-and-chugs', 'third-position'] as const;
export const RANDOM_BLOCKS = 200;

/** How often each kind of fault was found. */
export type Counts = Readonly<Record<string, number>>;

/** Text is measured on a screen at the usual size: a reader who enlarges it, or prints, chose so. */
export function countsOf(found: readonly Found[], { text, medium }: Setting): Counts {
  const judged = found.filter(({ kind }) => !kind.startsWith('small:') || (text === 100 && medium === 'screen'));
  return Object.fromEntries([...Map.groupBy(judged, ({ kind }) => kind)].map(([kind, own]) => [kind, own.length]));
}

/** The most of each kind in any of several counts, by their names. */
export function most(counts: readonly Counts[]): Counts {
  const kinds = [...new Set(counts.flatMap((own) => Object.keys(own)))].sort();
  return Object.fromEntries(kinds.map((kind) => [kind, Math.max(...counts.map((own) => own[kind] ?? 0))]));
}

/** What is found more often than a limit allows; what no limit names may not be found at all. */
export const above = (counts: Counts, limits: Counts): readonly string[] =>
  Object.entries(counts).flatMap(([kind, count]) =>
    count > (limits[kind] ?? 0) ? [`${kind}: ${count}, at most ${limits[kind] ?? 0}`] : [],
  );
