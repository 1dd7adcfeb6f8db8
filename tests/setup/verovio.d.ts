/** As much of Verovio as is used here; the package has no types of its own. */
declare module 'verovio/wasm' {
  export default function load(): Promise<unknown>;
}

declare module 'verovio/wasm-hum' {
  const load: () => Promise<unknown>;
  export default load;
}
declare module 'verovio/esm' {
  export class VerovioToolkit {
    constructor(module: unknown);
    setOptions(options: Record<string, unknown>): void;
    loadData(data: string): number;
    renderToSVG(page: number): string;
    getMEI(options: Record<string, unknown>): string;
  }
}
