/**
 * A VexFlow render context that writes SVG text. It knows what notes, stems, flags, beams, accidentals and dots are drawn
 * with, and throws on anything else: a call it does not know would otherwise leave a hole in the picture.
 * Colours stay out of it: everything is drawn in the ink of its surroundings, noteheads carry the class of their role.
 */
import { type FontInfo, RenderContext, type TextMeasure } from 'vexflow/core';
import { CLASS } from './classes.ts';
import { glyphOf, sizeInPixels, textMetrics, UNITS_PER_EM } from './glyphs/metrics.ts';
import { n } from './markup.ts';

/** The stroke width the style sheet gives to lines of class `s`. */
export const LINE_WIDTH = 1.5;

interface Pen {
  readonly lineWidth: number;
  readonly font: string;
}

/** A drawing context of VexFlow that writes SVG text, without a document. */
export class StringContext extends RenderContext {
  /** Code points drawn so far, in hexadecimal. */
  readonly glyphs = new Set<string>();
  #out = '';
  #path = '';
  #at: readonly [number, number] = [0, 0];
  #pen: Pen = { lineWidth: 1, font: '' };
  readonly #saved: Pen[] = [];
  #headClasses: readonly (string | undefined)[] = [];
  #inHead = false;

  /** What was drawn since the last call. */
  take(): string {
    const drawn = this.#out;
    this.#out = '';
    return drawn;
  }

  /** Classes for the noteheads of the next note, from the lowest up. */
  headClasses(classes: readonly (string | undefined)[]): void {
    this.#headClasses = classes;
  }

  override openGroup(kind?: string): void {
    this.#inHead = kind === 'notehead';
  }
  override closeGroup(): void {
    this.#inHead = false;
  }

  override save(): this {
    this.#saved.push(this.#pen);
    return this;
  }
  override restore(): this {
    this.#pen = this.#saved.pop() ?? this.#pen;
    return this;
  }
  override setLineWidth(lineWidth: number): this {
    this.#pen = { ...this.#pen, lineWidth };
    return this;
  }
  override setFont(font?: string | FontInfo, size?: string | number): this {
    const css =
      typeof font === 'object' ? `${font.size} ${font.family}` : size === undefined ? (font ?? '') : `${size} ${font}`;
    this.#pen = { ...this.#pen, font: css };
    return this;
  }
  override getFont(): string {
    return this.#pen.font;
  }

  override beginPath(): this {
    this.#path = '';
    return this;
  }
  override moveTo(x: number, y: number): this {
    this.#path += `M${n(x)} ${n(y)}`;
    this.#at = [x, y];
    return this;
  }
  override lineTo(x: number, y: number): this {
    const [fromX, fromY] = this.#at;
    this.#path += n(x) === n(fromX) ? `V${n(y)}` : n(y) === n(fromY) ? `H${n(x)}` : `L${n(x)} ${n(y)}`;
    this.#at = [x, y];
    return this;
  }
  override closePath(): this {
    this.#path += 'Z';
    return this;
  }
  override fill(): this {
    this.#out += `<path d="${this.#path}"/>`;
    return this;
  }
  override stroke(): this {
    const { lineWidth } = this.#pen;
    this.#out += `<path class="${CLASS.stroke}"${lineWidth === LINE_WIDTH ? '' : ` stroke-width="${n(lineWidth)}"`} d="${this.#path}"/>`;
    return this;
  }

  override fillText(text: string, x: number, y: number): this {
    const scale = sizeInPixels(this.#pen.font) / UNITS_PER_EM;
    const role = this.#inHead ? this.#headClasses[0] : undefined;
    if (this.#inHead) this.#headClasses = this.#headClasses.slice(1);
    let at = x;
    for (const character of text) {
      const glyph = glyphOf(character);
      this.glyphs.add(glyph.code);
      this.#out += use(glyph.code, at, y, role, scale);
      at += glyph.advance * scale;
    }
    // Accidentals and dots are drawn within the head's group, after the head itself.
    this.#inHead = false;
    return this;
  }
  override measureText(text: string): TextMeasure {
    const metrics = textMetrics(text, this.#pen.font);
    const height = metrics.actualBoundingBoxAscent + metrics.actualBoundingBoxDescent;
    return { x: 0, y: -metrics.actualBoundingBoxAscent, width: metrics.width, height };
  }

  // Colours are the style sheet's.
  override setFillStyle(): this {
    return this;
  }
  override setBackgroundFillStyle(): this {
    return this;
  }
  override setStrokeStyle(): this {
    return this;
  }
  override setShadowColor(): this {
    return this;
  }
  override setShadowBlur(): this {
    return this;
  }
  override setLineCap(): this {
    return this;
  }
  override get fillStyle(): string {
    return 'currentColor';
  }
  override set fillStyle(_style: string) {}
  override get strokeStyle(): string {
    return 'currentColor';
  }
  override set strokeStyle(_style: string) {}
  /** VexFlow marks an area for the pointer with it; our own groups do that. */
  override pointerRect(): this {
    return this;
  }

  override setLineDash(dashes: number[]): this {
    return dashes.length === 0 ? this : unknown('setLineDash');
  }
  override clear(): void {
    unknown('clear');
  }
  override scale(): this {
    return unknown('scale');
  }
  override resize(): this {
    return unknown('resize');
  }
  override rect(): this {
    return unknown('rect');
  }
  override fillRect(): this {
    return unknown('fillRect');
  }
  override clearRect(): this {
    return unknown('clearRect');
  }
  override bezierCurveTo(): this {
    return unknown('bezierCurveTo');
  }
  override quadraticCurveTo(): this {
    return unknown('quadraticCurveTo');
  }
  override arc(): this {
    return unknown('arc');
  }
  override openRotation(): void {
    unknown('openRotation');
  }
  override closeRotation(): void {
    unknown('closeRotation');
  }
  override add(): void {
    unknown('add');
  }
}

function unknown(call: string): never {
  throw new Error(`StringContext does not draw with ${call}()`);
}

/** A glyph of the page's sheet at a place, by its code point in hexadecimal. */
export function use(code: string, x: number, y: number, className?: string, scale = 1): string {
  const role = className ? ` class="${className}"` : '';
  const place = scale === 1 ? ` x="${n(x)}" y="${n(y)}"` : ` transform="translate(${n(x)} ${n(y)})scale(${n(scale)})"`;
  return `<use href="#g-${code}"${place}${role}/>`;
}
