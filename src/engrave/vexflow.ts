/**
 * VexFlow set up to engrave without a browser. These settings lean on its internals, so its version is pinned, and the
 * golden pictures in the tests guard them. They are made once and hold no state.
 */
import { Element, Font, type FontInfo, Metrics, Stave } from 'vexflow/core';
import { textMetrics } from './glyphs/metrics.ts';
import { LINE_WIDTH } from './string-context.ts';

const measuring = {
  font: '',
  measureText(text: string): TextMetrics {
    return textMetrics(text, this.font);
  },
};
// VexFlow only ever asks its canvas for a 2d context, and that for a font and a measure.
Element.setTextMeasurementCanvas({ getContext: () => measuring } as unknown as HTMLCanvasElement);

// The original reads a font shorthand by way of a DOM element.
Font.fromCSSString = (css: string): Required<FontInfo> => {
  const match = /^(.*?)([\d.]+(?:pt|px|em))\s*(.*)$/.exec(css);
  const [, before = '', size = '30pt', family = css] = match ?? [];
  return {
    family,
    size,
    weight: before.includes('bold') ? 'bold' : 'normal',
    style: before.includes('italic') ? 'italic' : 'normal',
  };
};

// Every element clones these small tables with `structuredClone`, which is half the time of engraving; a spread is the same.
const fontInfo = remembering(Metrics.getFontInfo.bind(Metrics));
Metrics.getFontInfo = (key) => ({ ...fontInfo(key) });
const style = remembering(Metrics.getStyle.bind(Metrics));
Metrics.getStyle = (key) => ({ ...style(key) });
const metric = remembering((key: string): unknown => original(key));
const original = Metrics.get.bind(Metrics);
Metrics.get = (key, otherwise) => metric(key) ?? otherwise;

function remembering<Value>(find: (key: string) => Value): (key: string) => Value {
  const known = new Map<string, Value>();
  return (key) => {
    let value = known.get(key);
    if (value === undefined) {
      value = find(key);
      known.set(key, value);
    }
    return value;
  };
}

/** The one staff all tiles are drawn on: its top line at 0, its lines 10 apart, its notes where their columns say. */
export const STAFF = new Stave(0, 0, 100, { spaceAboveStaffLn: 0 });
STAFF.setNoteStartX(-Metrics.get('Stave.padding'));
STAFF.setDefaultLedgerLineStyle({ lineWidth: LINE_WIDTH });
