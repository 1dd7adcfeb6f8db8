/**
 * What a drawn element is to a musician. All that the checker knows of the engraver's markup is here: the classes of
 * src/engrave/classes.ts and the code points of the music font (SMuFL). Where they leave it open, its shape decides.
 */
import type { Drawn } from './collect.ts';

export type Kind =
  | 'staff lines'
  | 'lane line'
  | 'bar line'
  | 'ending bracket'
  | 'phrase bracket'
  | 'phrase name'
  | 'clef'
  | 'meter'
  | 'key sign'
  | 'notehead'
  | 'grace note'
  | 'fermata'
  | 'parenthesis'
  | 'breath mark'
  | 'accidental'
  | 'stem'
  | 'flag'
  | 'beam'
  | 'curve'
  | 'tuplet figure'
  | 'tuplet bracket'
  | 'dot'
  | 'articulation'
  | 'bent mark'
  | 'rest'
  | 'ledger line'
  | 'chord name'
  | 'numeral'
  | 'part label'
  | 'direction'
  | 'jump sign'
  | 'repeated bar'
  | 'dynamic'
  | 'bar number'
  | 'small text'
  | 'mark word'
  | 'wave'
  | 'lyric'
  | 'lyric line'
  | 'verse number'
  | 'syllable'
  | 'lane name'
  | 'role shape'
  | 'hole number'
  | 'role label'
  | 'bend line'
  | 'overbend ring'
  | 'slide sign'
  | 'held line'
  | 'glide line'
  | 'breath line'
  | 'mouth band'
  | 'tongue hatching'
  | 'unknown';

/** Kinds of the font's code points, first and last. */
const GLYPHS: readonly (readonly [number, number, Kind])[] = [
  [0xe047, 0xe048, 'jump sign'],
  [0xe050, 0xe07f, 'clef'],
  [0xe080, 0xe08f, 'meter'],
  [0xe0a0, 0xe0f4, 'notehead'],
  [0xe0f5, 0xe0f6, 'parenthesis'],
  [0xe1e7, 0xe1e7, 'dot'],
  [0xe210, 0xe21f, 'stem'],
  [0xe240, 0xe25f, 'flag'],
  [0xe260, 0xe26f, 'accidental'],
  [0xe280, 0xe283, 'accidental'],
  [0xe4a0, 0xe4bf, 'articulation'],
  [0xe4c0, 0xe4c0, 'fermata'],
  [0xe4ce, 0xe4ce, 'breath mark'],
  [0xe4e0, 0xe4ff, 'rest'],
  [0xe500, 0xe500, 'repeated bar'],
  [0xe880, 0xe889, 'tuplet figure'],
];

/** Kinds of the classes that say all. */
const CLASSES: Readonly<Record<string, Kind>> = {
  t: 'staff lines',
  z: 'lane line',
  B: 'bar line',
  v: 'curve',
  d: 'held line',
  g: 'glide line',
  q: 'breath line',
  o: 'mouth band',
  h: 'tongue hatching',
  H: 'phrase bracket',
  N: 'phrase name',
  u: 'numeral',
  c: 'chord name',
  p: 'part label',
  C: 'direction',
  I: 'direction',
  J: 'jump sign',
  D: 'dynamic',
  k: 'mark word',
  y: 'lyric',
  V: 'verse number',
  Y: 'syllable',
  n: 'hole number',
  l: 'role label',
  m: 'role shape',
  'row-head-line': 'staff lines',
  'row-head-word': 'lane name',
};

/** The SMuFL code point that draws an element. */
export function codePointOf({ outline }: Drawn): number | undefined {
  const code = /^g-([0-9a-f]{4,5})$/.exec(outline ?? '')?.[1];
  return code === undefined ? undefined : Number.parseInt(code, 16);
}

/** Size in units of the drawing, which are a tenth of the distance of two staff lines. */
function sizeOf({ box: [left, top, right, bottom], matrix: [a, b] }: Drawn): { width: number; height: number } {
  const scale = Math.hypot(a, b);
  return { width: (right - left) / scale, height: (bottom - top) / scale };
}

export function kindOf(drawn: Drawn): Kind {
  const code = codePointOf(drawn);
  // All of a grace note on the staff is one: its head, sign, stem, flag and stroke. In the lanes it is a number as others are.
  if (drawn.around.includes('G') && (code !== undefined || (drawn.classes.includes('s') && /L/.test(drawn.path ?? ''))))
    return 'grace note';
  if (code !== undefined) {
    const kind = GLYPHS.find(([first, last]) => code >= first && code <= last)?.[2] ?? 'unknown';
    return kind === 'accidental' && drawn.event === undefined && drawn.around.includes('row-head') ? 'key sign' : kind;
  }
  if (/^s[1-7]$/.test(drawn.outline ?? '')) return 'role shape';
  // At the head of a row the lines of both have one class.
  if (drawn.classes.includes('row-head-line') && drawn.path?.match(/M/g)?.length === 1) return 'lane line';
  for (const name of drawn.classes) {
    const kind = CLASSES[name];
    if (kind !== undefined) return kind;
  }
  if (drawn.classes.includes('i')) return /^\d+$/.test(drawn.text ?? '') ? 'bar number' : 'small text';
  if (drawn.text !== undefined) return 'unknown';
  const { width, height } = sizeOf(drawn);
  if (drawn.classes.includes('b')) return /[hl]/i.test(drawn.path ?? '') ? 'ending bracket' : 'bar line';
  if (drawn.classes.includes('s')) return strokeKind(drawn, width, height);
  if (drawn.around.includes('j') || drawn.event !== undefined) {
    if (curved(drawn)) return 'curve';
    return /^M[^LlHhVv]*[Ll][^LlHhVv]*[VvLlHh][^LlHhVv]*Z$/.test(drawn.path ?? '') ? 'slide sign' : 'beam';
  }
  return 'unknown';
}

/** Kinds of all elements of a block. */
export function kindsOf(block: readonly Drawn[]): readonly Kind[] {
  const kinds = block.map(kindOf);
  // A short level line belongs to the staff it is beside; elsewhere it is that of a held syllable.
  const staves = new Map(
    block.flatMap((drawn, index) => (kinds[index] === 'staff lines' ? [[drawn.part, drawn] as const] : [])),
  );
  const lanes = new Map(
    block.flatMap((drawn, index) => (kinds[index] === 'lane line' ? [[drawn.part, drawn] as const] : [])),
  );
  return block.map((drawn, index) => {
    const kind = kinds[index] ?? 'unknown';
    if (kind !== 'ledger line') return kind;
    const lane = lanes.get(drawn.part);
    return staves.has(drawn.part) && !(lane && drawn.box[1] > lane.box[1]) ? kind : 'lyric line';
  });
}

/** Whether it is drawn with curves. */
const curved = ({ path = '' }: Drawn): boolean => /[cqsta]/i.test(path);

/** Lines of one class, which differ only in their shape. */
function strokeKind(drawn: Drawn, width: number, height: number): Kind {
  if (drawn.tag === 'circle') return 'overbend ring';
  if (curved(drawn)) return /t/i.test(drawn.path ?? '') ? 'wave' : 'bent mark';
  if (width < 0.5) return 'stem';
  if (height < 0.5) return 'ledger line';
  return drawn.path !== undefined && /^M[^M]*V[^M]*(?:M[^M]*h[^M]*)+$/.test(drawn.path)
    ? 'bend line'
    : 'tuplet bracket';
}
