/** A component as an author wrote it, checked against the list of known components. */
import type { MdastNode } from 'satteri';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { nearest } from '../diagnostics/nearest.ts';
import { ADDRESS_ATTRIBUTES, COMPONENTS, REFUSED_ELEMENTS } from './component.ts';
import { oneLine } from './line.ts';
import { LESSON_PROBLEMS } from './problems.ts';
import type { Reference } from './reference.ts';
import { type AttributeSpan, attributesAt } from './tag.ts';
import { readValue, type Value, type ValueParts } from './value.ts';

/** A component as it is in a lesson. */
export interface ComponentText {
  readonly name: string;
  /** From its `<` to the end of what it encloses. */
  readonly span: TextSpan;
  readonly nameSpan: TextSpan;
  readonly attributes: readonly WrittenAttribute[];
}

/** An attribute of a component, as written. */
export interface WrittenAttribute {
  readonly name: string;
  /** `true` for an attribute without a value. */
  readonly value: Value;
  /** Whether the value is in the file letter for letter. */
  readonly verbatim: boolean;
  readonly nameSpan: TextSpan;
  readonly valueSpan: TextSpan;
  /** Places inside a value in braces, where they are known. */
  readonly parts?: ValueParts;
  /** The value cannot be read, which has been reported. */
  readonly unread?: true;
}

/** A value as text; what is neither text nor number is none. */
export const attributeText = (attribute: WrittenAttribute | undefined): string => {
  const value = attribute?.value;
  return typeof value === 'string' || typeof value === 'number' ? `${value}` : '';
};

/** A component with the problems found in it. */
export interface ComponentRead {
  /** Undefined for an element of HTML, and for what is neither. */
  readonly component: ComponentText | undefined;
  /** Files and addresses its attributes name. */
  readonly references: readonly Reference[];
  /** Spans count from the start of the file. */
  readonly diagnostics: readonly Diagnostic[];
}

/** A component or an element of HTML in the parsed MDX. */
export type ComponentNode = MdastNode & { readonly type: 'mdxJsxFlowElement' | 'mdxJsxTextElement' };

const report = reporter(LESSON_PROBLEMS);

/** Reads the component that is at `span`. */
export function readComponent(
  source: string,
  span: TextSpan,
  { name, attributes, children }: ComponentNode,
): ComponentRead {
  const references: Reference[] = [];
  const diagnostics: Diagnostic[] = [];
  // <> and </> only group other elements.
  if (name === null) return { component: undefined, references, diagnostics };
  const nameAt = source.indexOf(name, span.from);
  const nameSpan: TextSpan = { from: nameAt, to: nameAt + name.length };
  const takes = COMPONENTS.get(name);
  const known = [...COMPONENTS.keys()];
  // A component's name in small letters would be taken for an HTML element that shows nothing.
  const isElement =
    /^[a-z][a-z0-9-]*$/.test(name) && !known.some((one) => one.toLowerCase() === name.replaceAll('-', ''));
  if (REFUSED_ELEMENTS.has(name)) diagnostics.push(report('script-in-lesson', nameSpan, { name: `<${name}>` }));
  else if (!takes && !isElement) {
    diagnostics.push(report('component-unknown', nameSpan, { name, nearest: nearest(name, known), known }));
  }

  const spans = attributesAt(source, span.from);
  // Where the place of an attribute is not found, the problem points at the whole tag.
  const somewhere: AttributeSpan = { name: undefined, nameSpan, valueSpan: nameSpan };
  const aligned = spans.length === attributes.length;
  const written = attributes.flatMap((attribute, index): WrittenAttribute[] => {
    const place = (aligned ? spans[index] : undefined) ?? somewhere;
    if (attribute.type === 'mdxJsxAttribute') return [readAttribute(name, attribute.name, attribute.value, place)];
    diagnostics.push(report('lesson-expression', place.valueSpan, { text: oneLine(attribute.value) }));
    return [];
  });
  for (const [key, need] of Object.entries(takes ?? {})) {
    if (need === 'required' && !written.some((attribute) => attribute.name === key))
      diagnostics.push(report('component-key-missing', nameSpan, { component: name, key }));
  }
  if (takes && children.length > 0) diagnostics.push(report('component-content', nameSpan, { component: name }));
  // An empty text is how HTML says that a picture only decorates; a text of blanks says nothing.
  if (name === 'img') {
    const words = written.find((attribute) => attribute.name === 'alt')?.value;
    if (typeof words !== 'string' || /^\s+$/.test(words))
      diagnostics.push(report('picture-alt', nameSpan, { url: undefined }));
  }
  return { component: takes && { name, span, nameSpan, attributes: written }, references, diagnostics };

  function readAttribute(
    element: string,
    key: string,
    text: string | { readonly value: string } | null | undefined,
    { nameSpan: keySpan, valueSpan }: AttributeSpan,
  ): WrittenAttribute {
    const keys = takes && Object.keys(takes);
    if (keys && !keys.includes(key)) {
      const facts = { component: element, key, nearest: nearest(key, keys), known: keys };
      diagnostics.push(report('component-key', keySpan, facts));
    }
    if (/^on[a-z]/i.test(key)) diagnostics.push(report('script-in-lesson', keySpan, { name: key }));
    const { value, ...given } = givenValue(text, valueSpan);
    // An empty attribute of a component is reported with the component.
    const names = typeof value === 'string' && (isElement || value.trim() !== '');
    if (names && (ADDRESS_ATTRIBUTES.has(key) || /^(?:\.{0,2}\/)*media\//.test(value))) {
      references.push({ url: value, span: valueSpan, use: element === 'a' ? 'link' : isElement ? 'embed' : 'play' });
    }
    const verbatim = source.slice(valueSpan.from, valueSpan.to) === value;
    return { name: key, value, verbatim, nameSpan: keySpan, valueSpan, ...given };
  }

  /** `true` where none is given, and where what is given would have to be computed. */
  function givenValue(
    text: string | { readonly value: string } | null | undefined,
    span: TextSpan,
  ): Pick<WrittenAttribute, 'value' | 'parts' | 'unread'> {
    if (typeof text === 'string') return { value: text };
    if (!text) return { value: true };
    const read = readValue(text.value);
    if ('value' in read) {
      // Where the reader of MDX has left something out (the marks of a quotation), places do not hold.
      if (source.slice(span.from, span.to) !== text.value) return { value: read.value };
      const inFile = ([path, { from, to }]: [string, TextSpan]): [string, TextSpan] => [
        path,
        { from: span.from + from, to: span.from + to },
      ];
      return { value: read.value, parts: new Map([...read.parts].map(inFile)) };
    }
    diagnostics.push(report('lesson-expression', span, { text: oneLine(text.value) }));
    return { value: true, unread: true };
  }
}
