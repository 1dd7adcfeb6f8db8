/** Contrast as the Web Content Accessibility Guidelines 2.2 compute it: 4.5:1 for text, 3:1 for marks (1.4.3, 1.4.11). */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { itemAt } from '../../src/values/checked.ts';

const css = readFileSync(new URL('../../src/engrave/block.css', import.meta.url), 'utf8');
const ground = readFileSync(new URL('../../src/site/styles/ground.css', import.meta.url), 'utf8');

/** The custom properties of the first rule that begins so. */
function rule(text: string, start: string): Map<string, string> {
  const from = text.indexOf(start);
  expect(from, start).toBeGreaterThanOrEqual(0);
  const body = text.slice(from, text.indexOf('}', from));
  return new Map([...body.matchAll(/(--[\w-]+): (#[0-9a-f]+);/g)].map((match) => [itemAt(match, 1), itemAt(match, 2)]));
}

const day = rule(css, ':root {');
const night = rule(css, ':root[data-light="night"]');
const dusk = rule(css, ':root:not([data-light="day"]');
const paper = rule(css.slice(css.indexOf('@media print')), ':root,');

const THEMES = [
  { name: 'day', colours: day, paper: rule(ground, ':root {').get('--paper') },
  {
    name: 'night',
    colours: new Map([...day, ...night]),
    paper: rule(ground, ':root[data-light="night"]').get('--paper'),
  },
  { name: 'print', colours: new Map([...day, ...paper]), paper: '#ffffff' },
];
const ROLES = ['root', 'third', 'fifth', 'seventh', 'other'];

function luminance(hex: string): number {
  const digits = hex.length === 4 ? [...hex.slice(1)].map((digit) => digit + digit) : (hex.slice(1).match(/../g) ?? []);
  const [red, green, blue] = digits.map((pair) => {
    const part = Number.parseInt(pair, 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string | undefined, other: string | undefined): number {
  if (!one || !other) throw new Error('a colour is missing');
  const [a, b] = [luminance(one), luminance(other)];
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}

describe('the colours of roles', () => {
  it('are computed as the guidelines say', () => {
    expect(contrast('#000', '#fff')).toBeCloseTo(21);
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  });

  it.each(THEMES)('stand out from the page at 3:1 by $name, as marks and as noteheads', ({ colours, paper: page }) => {
    for (const role of ROLES) expect(contrast(colours.get(`--role-${role}`), page), role).toBeGreaterThanOrEqual(3);
    expect(contrast(colours.get('--accent'), page)).toBeGreaterThanOrEqual(3);
  });

  it.each(THEMES)('carry their hole numbers at 4.5:1 by $name', ({ colours }) => {
    for (const role of ROLES) {
      expect(contrast(colours.get(`--on-${role}`), colours.get(`--role-${role}`)), role).toBeGreaterThanOrEqual(4.5);
    }
  });

  it('are the same at night whether the page or the system asks for it', () => {
    expect([...dusk]).toEqual([...night]);
  });

  it('are those of the published set by day, but for the one that had to be deepened', () => {
    // Okabe and Ito, "Color Universal Design": blue, vermillion, bluish green.
    expect(['root', 'third', 'fifth'].map((role) => day.get(`--role-${role}`))).toEqual([
      '#0072b2',
      '#d55e00',
      '#009e73',
    ]);
  });
});
