/** Small documents with one bar of music, drawn here by hand: what is planted in one is known. */

/** Outlines with the code points of the music font: simple shapes of about the size of its own. */
const OUTLINES = `
  <path id="g-e0a4" d="M0 0a6 5 0 1 0 12 0a6 5 0 1 0-12 0Z"/>
  <path id="g-e0a3" d="M0 0a6 5 0 1 0 12 0a6 5 0 1 0-12 0Z"/>
  <path id="g-e260" d="M0 7V-17H1.5V0L9-4L8 2Z"/>
  <path id="g-e240" d="M0 0Q12 12 9 30L8 28Q9 14 0 10Z"/>
  <path id="g-e1e7" d="M0 0a2 2 0 1 0 4 0a2 2 0 1 0-4 0Z"/>
  <path id="g-e4e5" d="M0-14L6-4L2 2L6 10L0 4Z"/>
  <path id="g-e4e6" d="M0-6L9-8L4 10L2 10L6-4Z"/>
  <path id="g-e883" d="M0-14H8V0H0Z"/>
  <path id="s1" d="M-11 0a11 11 0 1 0 22 0a11 11 0 1 0-22 0Z"/>
  <path id="s3" d="M0-15.5L14 8.7H-14Z"/>`;

const STYLE = `
  body { margin: 20px; font-family: "Liberation Sans", sans-serif }
  .tab-block { width: 300px }
  .sheet { position: absolute }
  .tile { display: block; width: 300px; height: 220px; overflow: visible }
  .s, .t, .b, .z { fill: none; stroke: #000; stroke-width: 1.5 }
  .t, .z { stroke: #777; stroke-width: 1 }
  .m { fill: #07b; stroke: #07b; stroke-width: 2 }
  .m.f { fill: #fff }
  text { font-size: 11px }
  .n { font: 700 17px "Liberation Sans", sans-serif; text-anchor: middle }
  .c { font-size: 16px }`;

/** A page with one block, whose one picture has five staff lines from 0 to 40 and whatever is drawn in it. */
export const drawnPage = (inside: string, style = ''): string =>
  `<!doctype html><style>${STYLE}${style}</style>` +
  `<svg class="sheet" width="0" height="0"><defs>${OUTLINES}</defs></svg>` +
  `<div class="tab-block"><div class="tab-grid"><svg class="tile" viewBox="0 -60 300 220" data-bar="0">${STAFF}${inside}</svg></div></div>`;

const STAFF = `<path class="t" d="${[0, 10, 20, 30, 40].map((y) => `M0 ${y}H300`).join('')}"/><path class="b" d="M299 0V40"/>`;

/** A glyph by its code point. */
export const glyph = (code: string, x: number, y: number): string => `<use href="#g-${code}" x="${x}" y="${y}"/>`;

/** All that is drawn for one event. */
export const event = (index: number, inside: string): string => `<g class="e" data-event="${index}">${inside}</g>`;

/** A black head whose left side is at `x`, and its stem upwards. */
export const note = (x: number, y: number): string =>
  `<path class="s" d="M${x + 11.3} ${y}V${y - 35}"/>${glyph('e0a4', x, y)}`;

/** A number in the shape of its role. */
export const hole = (x: number, y: number, degree: 1 | 3 = 1): string =>
  `<use href="#s${degree}" class="m" x="${x}" y="${y}"/><text class="n" x="${x}" y="${y + 6}">4</text>`;

/** Notes from `xs`, each an event, a third of the staff high. */
export const notesAt = (...xs: readonly number[]): string =>
  xs.map((x, index) => event(index, note(x, 30) + hole(x + 6, 120))).join('');
