/** As much of two chord libraries as the tests use: one has no types of its own, the other none for its bundled file. */
declare module 'teoria' {
  export function chord(symbol: string): { readonly intervals: readonly { semitones(): number }[] };
}
declare module 'chord-symbol/lib/chord-symbol-esm.js' {
  export function chordParserFactory(): (symbol: string) => {
    readonly error?: readonly unknown[];
    readonly normalized?: { readonly semitones: readonly number[] };
  };
}
