/** What was measured, as lines a person reads. */
export interface Row {
  readonly what: string;
  /** As it is shown: `0.12`, `2.31 s`. */
  readonly value: string;
  /** What it is to be, where something was set. */
  readonly aim?: string;
  /** Undefined where nothing was set. */
  readonly met?: boolean;
}

export interface Section {
  readonly title: string;
  /** How it was measured, in a line or two. */
  readonly how: string;
  readonly rows: readonly Row[];
}

export function row(what: string, value: string): Row {
  return { what, value };
}

/** A number that should not be above a limit. */
export const atMost = (what: string, value: number, limit: number, shown: (value: number) => string): Row => ({
  what,
  value: shown(value),
  aim: `at most ${shown(limit)}`,
  met: value <= limit,
});

/** A number that should not be below a limit. */
export const atLeast = (what: string, value: number, limit: number, shown: (value: number) => string): Row => ({
  what,
  value: shown(value),
  aim: `at least ${shown(limit)}`,
  met: value >= limit,
});

export const ratio = (value: number): string => value.toFixed(value < 1 ? 3 : 2);
export const seconds = (value: number): string =>
  value < 0.001
    ? `${(value * 1e6).toFixed(0)} µs`
    : value < 1
      ? `${(value * 1000).toFixed(value < 0.1 ? 2 : 0)} ms`
      : `${value.toFixed(2)} s`;
export const kilobytes = (bytes: number): string => `${(bytes / 1024).toFixed(1)} KB`;
export const megabytes = (bytes: number): string => `${(bytes / 1024 / 1024).toFixed(0)} MB`;
export const count = (value: number): string => Math.round(value).toLocaleString('en');

export function print({ title, how, rows }: Section): void {
  const width = Math.max(0, ...rows.map(({ what }) => what.length));
  const values = Math.max(0, ...rows.map(({ value }) => value.length));
  console.log(`\n${title}\n${how}\n`);
  for (const { what, value, aim, met } of rows) {
    const note = aim === undefined ? '' : `   ${aim}${met === undefined ? '' : met ? '' : '  ← missed'}`;
    console.log(`  ${what.padEnd(width)}  ${value.padStart(values)}${note}`);
  }
}
