/** As much of jsdom as the tests use; the package has no types of its own. */
declare module 'jsdom' {
  export class JSDOM {
    constructor(html?: string, options?: { readonly url?: string; readonly contentType?: string });
    readonly window: Window & typeof globalThis;
    serialize(): string;
  }
}
