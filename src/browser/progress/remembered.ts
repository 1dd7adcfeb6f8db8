/** How a student played each block last. Read as untrusted. */
import type { PlaySettings } from '../../schedule/settings.ts';
import type { Playback } from '../../score/playback.ts';

/** How a block was played last. */
export interface BlockSettings {
  /** In the unit of {@link PlaySettings}. */
  readonly tempo: number;
  /** The share of a beat its first half takes. */
  readonly swing: number;
  readonly loop: boolean;
  /** Indices of the first and the last bar, where only some were played. */
  readonly bars?: readonly [first: number, last: number];
}

const fieldsOf = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null ? { ...value } : {};
const isIndex = (value: unknown): value is number =>
  typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;

/** Settings as an entry has them; undefined where they are none. */
export function readBlockSettings(value: unknown): BlockSettings | undefined {
  const { tempo, swing, loop, bars } = fieldsOf(value);
  if (typeof tempo !== 'number' || !(tempo > 0) || typeof swing !== 'number') return undefined;
  const [first, last]: readonly unknown[] = Array.isArray(bars) ? bars : [];
  const range = isIndex(first) && isIndex(last) && first <= last ? ([first, last] as const) : undefined;
  return { tempo, swing, loop: loop === true, ...(range && { bars: range }) };
}

/** What is remembered of the settings of a player. */
export const blockSettings = ({ tempo, swing, loop, range }: PlaySettings): BlockSettings => ({
  tempo: Math.round(tempo * 100) / 100,
  swing: Math.round(swing * 1000) / 1000,
  loop,
  ...(range && { bars: [range.first, range.last] }),
});

/** The tempo that a player can be set to, in shares of the written one. */
export const TEMPO_SHARES = { least: 0.3, most: 1.5 } as const;

/** The limits that the player’s controls have. */
export interface SettingLimits {
  readonly tempo: { readonly least: number; readonly most: number };
  readonly swing: { readonly least: number; readonly most: number };
}

/**
 * Remembered settings as far as the block still has them: bars that are gone are dropped, together with their loop, and tempo and swing
 * are brought within the limits.
 */
export function settingsFor(
  { tempo, swing, loop, bars }: BlockSettings,
  { bars: own }: Pick<Playback, 'bars'>,
  limits: SettingLimits,
): Pick<PlaySettings, 'tempo' | 'swing' | 'loop' | 'range'> {
  const has = bars !== undefined && bars[1] < own.length;
  const within = (value: number, { least, most }: { readonly least: number; readonly most: number }): number =>
    Math.min(most, Math.max(least, value));
  return {
    tempo: within(tempo, limits.tempo),
    swing: within(swing, limits.swing),
    loop: loop && (bars === undefined || has),
    range: has ? { first: bars[0], last: bars[1] } : undefined,
  };
}
