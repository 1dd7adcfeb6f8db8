/** As much of opentype.js as `extract.ts` uses; the package has no types of its own. */
declare module 'opentype.js' {
  export interface PathCommand {
    readonly type: 'M' | 'L' | 'C' | 'Q' | 'Z';
    readonly x?: number;
    readonly y?: number;
    readonly x1?: number;
    readonly y1?: number;
    readonly x2?: number;
    readonly y2?: number;
  }
  export interface Glyph {
    readonly index: number;
    readonly advanceWidth?: number;
    getBoundingBox(): { readonly x1: number; readonly y1: number; readonly x2: number; readonly y2: number };
    getPath(x: number, y: number, fontSize: number): { readonly commands: readonly PathCommand[] };
  }
  export interface Font {
    readonly unitsPerEm: number;
    charToGlyph(character: string): Glyph;
  }
  const opentype: { parse(data: ArrayBuffer): Font };
  export default opentype;
}
