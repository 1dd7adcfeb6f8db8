/** XML written element by element, each on a line of its own. */
import { escapeText } from '../../engrave/markup.ts';

type Attributes = Readonly<Record<string, string | number>>;

/** A document that is being written. */
export interface XmlWriter {
  /** Begins an element that holds others. */
  open(name: string, attributes?: Attributes): void;
  /** Ends the element that was begun last. */
  close(): void;
  /** An element that holds a text, or nothing. */
  leaf(name: string, text?: string | number, attributes?: Attributes): void;
  /** The whole, once every element is closed. */
  text(): string;
}

/** Starts a document in UTF-8. */
export function xmlWriter(): XmlWriter {
  const lines = ['<?xml version="1.0" encoding="UTF-8"?>'];
  const open: string[] = [];
  const put = (line: string): void => {
    lines.push('  '.repeat(open.length) + line);
  };
  return {
    open(name, attributes) {
      put(`<${name}${written(attributes)}>`);
      open.push(name);
    },
    close() {
      const name = open.pop();
      if (name === undefined) throw new RangeError('no element is open');
      put(`</${name}>`);
    },
    leaf(name, text, attributes) {
      const tag = name + written(attributes);
      put(text === undefined ? `<${tag}/>` : `<${tag}>${valueText(text)}</${name}>`);
    },
    text() {
      if (open.length > 0) throw new RangeError(`<${open.at(-1)}> is still open`);
      return `${lines.join('\n')}\n`;
    },
  };
}

/** Most values are numbers and words of the standard, in which nothing has to be escaped. */
const valueText = (value: string | number): string =>
  typeof value === 'number' || /^[\w .-]*$/.test(value) ? `${value}` : escapeText(value);

function written(attributes: Attributes | undefined): string {
  if (attributes === undefined) return '';
  let text = '';
  for (const [name, value] of Object.entries(attributes)) text += ` ${name}="${valueText(value)}"`;
  return text;
}
