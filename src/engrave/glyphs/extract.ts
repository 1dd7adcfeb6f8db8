/**
 * Development only, run by `npm run glyphs`: reads the music font and writes the outlines and metrics of the glyphs we
 * can need to `outlines.ts`. The font is under the SIL Open Font License with a reserved name, so the extract has a
 * name of its own and the licence is beside it.
 */
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import opentype, { type PathCommand } from 'opentype.js';

/** Code points by the names of the Standard Music Font Layout; a pair is a run of them. */
const WANTED: readonly (number | readonly [number, number])[] = [
  [0xe047, 0xe048], // segno and coda
  0xe050, // treble clef
  [0xe052, 0xe054], // the same with its octave signs
  [0xe080, 0xe089], // digits of the meter
  0xe0a0, // noteheads
  [0xe0a2, 0xe0a4],
  [0xe0f5, 0xe0f6], // parentheses of a notehead
  0xe1e7, // augmentation dot
  [0xe240, 0xe249], // flags, eighth to 128th
  [0xe260, 0xe264], // accidentals
  [0xe280, 0xe283], // quarter tones
  [0xe4a0, 0xe4a5], // accent, staccato and tenuto
  0xe4c0, // fermata
  0xe4ce, // breath mark
  [0xe4e2, 0xe4ea], // rests, double whole to 128th
  0xe500, // repeat of one bar
  [0xe880, 0xe889], // digits of tuplets
];

/** Units an em is drawn in: four spaces of the staff, whose lines are 10 apart. */
const EM = 40;

const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
const folder = new URL(import.meta.resolve('@vexflow-fonts/bravura/package.json'));
const file = readFileSync(fileURLToPath(new URL('bravura.otf', folder)));
const font = opentype.parse(new Uint8Array(file).buffer);

const codes = WANTED.flatMap((entry) => {
  if (typeof entry === 'number') return [entry];
  const [from, to] = entry;
  return Array.from({ length: to - from + 1 }, (_, index) => from + index);
});

const round = (value: number): number => Math.round((value / font.unitsPerEm) * 1000);

/** Outlines are kept to a hundredth of the distance of two staff lines. */
const STEPS = 10;

/** A number of such steps, as short as a path may hold it. */
function short(steps: number): string {
  const text = String(steps / STEPS);
  return text.replace(/^(-?)0\./, '$1.');
}

/** Numbers side by side: a minus sign parts them as well as a space. */
const run = (numbers: readonly number[]): string =>
  numbers.map((value, index) => (index > 0 && value >= 0 ? ' ' : '') + short(value)).join('');

/** The outline in relative steps, which are shorter and pack better. Steps are between rounded points: nothing adds up. */
function relative(commands: readonly PathCommand[]): string {
  let at: readonly [number, number] = [0, 0];
  let start = at;
  let last = '';
  const point = (x = 0, y = 0): readonly [number, number] => [Math.round(x * STEPS), Math.round(y * STEPS)];
  return commands
    .map((command) => {
      const to = point(command.x, command.y);
      const from = at;
      const step = ([x, y]: readonly [number, number]): [number, number] => [x - from[0], y - from[1]];
      at = command.type === 'Z' ? start : to;
      let letter = command.type.toLowerCase();
      let numbers: number[] = [];
      if (command.type === 'M') {
        letter = 'M';
        numbers = [...to];
        start = to;
      } else if (command.type === 'L') {
        const [dx, dy] = step(to);
        if (dy === 0) [letter, numbers] = ['h', [dx]];
        else if (dx === 0) [letter, numbers] = ['v', [dy]];
        else numbers = [dx, dy];
      } else if (command.type === 'C') {
        numbers = [...step(point(command.x1, command.y1)), ...step(point(command.x2, command.y2)), ...step(to)];
      } else if (command.type === 'Q') {
        numbers = [...step(point(command.x1, command.y1)), ...step(to)];
      }
      const repeated = letter === last && 'clq'.includes(letter);
      last = letter;
      const text = run(numbers);
      return repeated ? (text.startsWith('-') ? text : ` ${text}`) : letter + text;
    })
    .join('');
}

function row(code: number): string {
  const glyph = font.charToGlyph(String.fromCodePoint(code));
  const box = glyph.getBoundingBox();
  const metrics = [glyph.advanceWidth ?? 0, box.x1, box.y1, box.x2, box.y2].map(round).join(', ');
  return `  ${code.toString(16)}: [${metrics}, '${relative(glyph.getPath(0, 0, EM).commands)}'],`;
}

const rows = codes.filter((code) => font.charToGlyph(String.fromCodePoint(code)).index > 0).map(row);

writeFileSync(
  here('outlines.ts'),
  `/**
 * Reedway music outlines: written by extract.ts, not by hand. Derived from a font under the SIL Open Font License 1.1,
 * and under that licence itself: see OFL.txt beside this file.
 */

/** Advance, left, bottom, right and top in thousandths of an em (up is positive), and the outline at ${EM} units an em (down is positive). */
export type Outline = readonly [number, number, number, number, number, string];

/** By code point, in hexadecimal. */
export const OUTLINES: Readonly<Record<string, Outline>> = {
${rows.join('\n')}
};
`,
);
copyFileSync(fileURLToPath(new URL('LICENSE.txt', folder)), here('OFL.txt'));
console.log(`${rows.length} glyphs`);
