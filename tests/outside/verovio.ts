/** Verovio 6.3, an independent engraver, in its build that reads Humdrum as well. */
import { setImmediate } from 'node:timers/promises';
import { parsed } from '../engrave/pictures.ts';

export interface Verovio {
  setOptions(options: Record<string, unknown>): void;
  loadData(data: string): number;
  renderToSVG(page: number): string;
  renderToMIDI(): string;
  getMEI(): string;
}

/** A Verovio that reads a language and draws everything in one row; ties and slurs name the note where they begin. */
export async function verovioReading(inputFrom: 'xml' | 'humdrum'): Promise<Verovio> {
  const [{ default: load }, { VerovioToolkit }] = await Promise.all([
    import('verovio/wasm-hum'),
    import('verovio/esm'),
  ]);
  const verovio = new VerovioToolkit(await load()) as unknown as Verovio;
  verovio.setOptions({
    inputFrom,
    breaks: 'none',
    header: 'none',
    footer: 'none',
    adjustPageWidth: true,
    svgAdditionalAttribute: ['tie@startid', 'slur@startid'],
  });
  return verovio;
}

/**
 * To be awaited between documents. jsdom holds its documents by weak references, and what one of these was asked for stays in
 * memory until the running job ends: hundreds of documents read in one job fill the heap.
 */
export const memoryFreed = (): Promise<void> => setImmediate();

/** What Verovio draws of a document. */
export function pageOf(verovio: Verovio, document: string): Document {
  if (!verovio.loadData(document)) throw new Error(`Verovio does not read:\n${document}`);
  // `parsed` names the namespace itself.
  const svg = verovio.renderToSVG(1).replace(/(<svg [^>]*?)xmlns="[^"]*"/, '$1');
  return parsed(svg.replace(/<style[\s\S]*?<\/style>/, ''));
}

/** The heads of notes within an element of a page, without the parentheses around them: SMuFL, “Noteheads”, from U+E0A0. */
export const headsOfNotes = (element: Element): Element[] =>
  [...element.querySelectorAll('.notehead use')].filter((use) =>
    /^#E0A/.test(use.getAttribute('href') ?? use.getAttribute('xlink:href') ?? ''),
  );

/**
 * Whether every tuplet of an exported document is within one beam, or every beam within one tuplet, as MEI has them: where a beam leaves
 * a tuplet in its middle, Verovio 6.3 puts what follows into the tuplet.
 */
export const beamsNest = (document: string): boolean =>
  [...document.matchAll(/<note>[\s\S]*?<\/note>/g)].every(([note]) => {
    const beam = /<beam number="1">(\w+)/.exec(note)?.[1];
    const starts = note.includes('<tuplet type="start"/>');
    const stops = note.includes('<tuplet type="stop"/>');
    if (note.includes('<chord/>')) return true;
    return (
      !(starts && (beam === 'continue' || beam === 'end')) && !(stops && (beam === 'continue' || beam === 'begin'))
    );
  });
