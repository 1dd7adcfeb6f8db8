/**
 * The style sheet of blocks for a picture that other programs open. Many of them know no variables, no queries and no mixed
 * colours: what is left is what paints, with the colours of paper.
 */

const PAINTS = /^(?:fill|stroke|font|text-anchor|color\b)/;

/** The values a page gives that the sheet only names. */
const PAPER: ReadonlyMap<string, string> = new Map([
  ['--ink', '#1e1b17'],
  ['--paper', '#ffffff'],
]);

/** `css` is the text of `block.css`. */
export function pictureStyle(css: string): string {
  const values = new Map(PAPER);
  const rules: string[] = [];
  for (const { selector, declarations } of rulesOf(css)) {
    for (const [name, value] of declarations)
      if (name.startsWith('--') && !values.has(name)) values.set(name, resolved(value, values));
    // Colours by day come first; those by night have an attribute beside the root.
    const painting = declarations.filter(([name]) => PAINTS.test(name));
    if (painting.length === 0) continue;
    rules.push(`${selector}{${painting.map(([name, value]) => `${name}:${resolved(value, values)}`).join(';')}}`);
  }
  return rules.join('\n');
}

interface Rule {
  readonly selector: string;
  readonly declarations: readonly (readonly [string, string])[];
}

/** The rules outside of any at-rule. */
function rulesOf(css: string): Rule[] {
  const plain = css.replace(/\/\*[\s\S]*?\*\//g, '').replace(/@[^{]*\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}/g, '');
  return [...plain.matchAll(/([^{}]+)\{([^{}]*)\}/g)].map(([, selector = '', body = '']) => ({
    selector: selector.replace(/\s+/g, ' ').trim(),
    declarations: body
      .split(';')
      .map((line) => line.trim())
      .filter((line) => line.includes(':'))
      .map((line) => [line.slice(0, line.indexOf(':')).trim(), line.slice(line.indexOf(':') + 1).trim()] as const),
  }));
}

/** A value without variables and without mixed colours. */
const resolved = (value: string, values: ReadonlyMap<string, string>): string =>
  value
    .replace(/var\((--[\w-]+)(?:,\s*([^()]*))?\)/g, (_, name: string, other = 'inherit') => values.get(name) ?? other)
    .replace(/color-mix\(in srgb, (#\w{6}) (\d+)%, (#\w{6})\)/g, (_, one: string, part: string, other: string) =>
      mixed(one, other, Number(part) / 100),
    );

function mixed(one: string, other: string, part: number): string {
  const channel = (colour: string, at: number): number => Number.parseInt(colour.slice(at, at + 2), 16);
  const channels = [1, 3, 5].map((at) => Math.round(channel(one, at) * part + channel(other, at) * (1 - part)));
  return `#${channels.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}
