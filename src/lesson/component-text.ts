/** A component as an author wrote it, checked against the list of known components. */
import type { MdastNode } from 'satteri';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, Fix, TextSpan } from '../diagnostics/diagnostic.ts';
import { applyEdits, certainly, editsFit } from '../diagnostics/edit.ts';
import { nearest } from '../diagnostics/nearest.ts';
import { keyCalled } from '../document/file-keys.ts';
import { ADDRESS_ATTRIBUTES, COMPONENTS, isWord, WITH_CONTENT } from './component.ts';
import { ELEMENTS } from './element.ts';
import { oneLine } from './line.ts';
import { markdownText, spanOf } from './markdown.ts';
import { LESSON_PROBLEMS } from './problems.ts';
import type { Reference } from './reference.ts';
import { type AttributeSpan, attributesAt } from './tag.ts';
import { type AttributeValue, readValue, type Value, type ValueParts } from './value.ts';
import { valueMistake } from './value-mistake.ts';

/** A component as it is in a lesson. */
export interface ComponentText {
  readonly name: string;
  /** From its `<` to the end of what it encloses. */
  readonly span: TextSpan;
  readonly nameSpan: TextSpan;
  readonly attributes: readonly WrittenAttribute[];
  /** What is between its tags, of a component that may hold something. Undefined where it is one tag, or where there are only blanks. */
  readonly content?: WrittenAttribute | undefined;
  /** Whether something is between its tags that it does not show, which has been reported. */
  readonly holds?: boolean;
  /** Whether it is in the text of a link. */
  readonly linked: boolean;
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

/** What may be in the text of a link to a word, which is shown letter for letter. */
const PLAIN: ReadonlySet<string> = new Set(['text', 'paragraph']);

/** Attributes whose file a browser fetches for itself. */
const FETCHED: ReadonlySet<string> = new Set(['src', 'poster']);

/** A name that is neither that of a component nor that of an element a lesson may hold. */
function unknownName(source: string, whole: TextSpan, name: string, span: TextSpan): Diagnostic {
  if (name === 'script') return report('script-in-lesson', span, { name: `<${name}>` });
  const components = [...COMPONENTS.keys()];
  const plain = name.replaceAll('-', '').toLowerCase();
  // A component's name in small letters is taken for an element of HTML.
  const same = components.find((one) => one.toLowerCase() === plain) ?? (ELEMENTS.has(plain) ? plain : undefined);
  if (same !== undefined) {
    const fix = renamed(source, whole, name, span, same);
    return report('component-unknown', span, { name, nearest: same, known: components }, fix);
  }
  const isElement = /^[a-z][a-z0-9-]*$/.test(name) && !components.some((one) => one.toLowerCase() === plain);
  return isElement
    ? report('element-unknown', span, { name, nearest: nearest(name, ELEMENTS.keys()) })
    : report('component-unknown', span, { name, nearest: nearest(name, components), known: components });
}

/** The file of the media folder that is named between the tags of a component, in the place of an attribute. */
function fileBetween(children: readonly MdastNode[]): string | undefined {
  const text = children
    .map((child) => markdownText(child))
    .join('')
    .trim();
  return /^media\/[^\s"<>]{1,200}$/.test(text) ? text : undefined;
}

/** A tag, and the one that closes it, by another name. */
function renamed(source: string, whole: TextSpan, name: string, span: TextSpan, text: string): Fix | undefined {
  if (source.slice(span.from, span.to) !== name) return undefined;
  const closing = /<\/\s*([\w.:-]+)\s*>$/.exec(source.slice(Math.max(span.to, whole.to - 100), whole.to));
  if (closing?.[1] !== name) return certainly(span, text);
  const from = whole.to - closing[0].length + closing[0].indexOf(name);
  return {
    edits: [
      { span, text },
      { span: { from, to: from + name.length }, text },
    ],
    certain: true,
  };
}

/** A value in braces that would have to be computed: at the very word, where that can be said. */
function unreadValue(source: string, span: TextSpan, value: string): Diagnostic {
  const mistake = source.slice(span.from, span.to) === value ? valueMistake(source, span.from, span.to) : undefined;
  if (!mistake?.edits) return report('lesson-expression', span, { text: oneLine(value) });
  const { edits = [], what, fix } = mistake;
  const inValue = edits.map(({ span: { from, to }, text }) => ({
    span: { from: from - span.from, to: to - span.from },
    text,
  }));
  const isRead = editsFit(value, inValue) && 'value' in readValue(applyEdits(value, inValue));
  // A single word may be the name of something to compute.
  const isData = /^\s*[[{]/.test(value);
  return report(
    'lesson-expression',
    mistake.span,
    { text: value, what, fix },
    isRead ? { edits, certain: isData } : undefined,
  );
}

/** Where a tag has its name; its first word where the name has white space in it, as MDX allows around a colon or a full stop. */
function nameSpanAt(source: string, { from, to }: TextSpan, name: string): TextSpan {
  let at = Math.min(from + 1, to);
  while (at < to && /\s/.test(source[at] ?? '')) at++;
  if (source.startsWith(name, at)) return { from: at, to: at + name.length };
  const word = /^[\p{L}\p{N}$_-]+/u.exec(source.slice(at, at + name.length))?.[0];
  return word === undefined ? { from, to: Math.min(from + 1, to) } : { from: at, to: at + word.length };
}

/** The text between the tags of a component as it is in the file: a note's signs are no Markdown. */
function contentBetween(source: string, span: TextSpan, children: readonly MdastNode[]): WrittenAttribute | undefined {
  const [first, last] = [children[0]?.position?.start.offset, children.at(-1)?.position?.end.offset];
  if (first === undefined || last === undefined) return undefined;
  const written = source.slice(first, Math.min(last, span.to));
  const value = written.trim();
  if (value === '') return undefined;
  const from = first + written.indexOf(value);
  const valueSpan = { from, to: from + value.length };
  // In a block quote every line begins with its sign.
  const unquoted = value.replace(/(\r?\n)[ \t]*>[ \t>]*/g, '$1');
  return { name: 'content', value: unquoted, verbatim: unquoted === value, nameSpan: valueSpan, valueSpan };
}

/** Reads the component that is at `span`; `linked` is whether that is in the text of a link. */
export function readComponent(
  source: string,
  span: TextSpan,
  { name, attributes, children }: ComponentNode,
  linked: boolean,
): ComponentRead {
  const references: Reference[] = [];
  const diagnostics: Diagnostic[] = [];
  // <> and </> only group other elements.
  if (name === null) return { component: undefined, references, diagnostics };
  const nameSpan = nameSpanAt(source, span, name);
  const takes = COMPONENTS.get(name);
  const elementTakes = ELEMENTS.get(name);
  if (!takes && !elementTakes) diagnostics.push(unknownName(source, span, name, nameSpan));

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
  // An attribute under another name is reported under that.
  const strange = written.filter(({ name: key }) => takes && !Object.hasOwn(takes, key)).map(({ name: key }) => key);
  const meant = new Set(strange.map((key) => nearest(key, Object.keys(takes ?? {}))));
  for (const [key, need] of Object.entries(takes ?? {})) {
    if (need === 'required' && !meant.has(key) && !written.some((attribute) => attribute.name === key))
      diagnostics.push(report('component-key-missing', nameSpan, { component: name, key }));
  }
  const content = contentBetween(source, span, children);
  const holds = WITH_CONTENT.has(name);
  if (takes && !holds && children.length > 0)
    diagnostics.push(report('component-content', nameSpan, { component: name, file: fileBetween(children) }));
  if (holds && !content && strange.length === 0)
    diagnostics.push(report('component-empty', nameSpan, { component: name }));
  const marked = isWord({ name }) ? children.find((child) => !PLAIN.has(child.type)) : undefined;
  if (marked) diagnostics.push(report('component-marks', spanOf(marked), { component: name }));
  // An empty text is how HTML says that a picture only decorates; a text of blanks says nothing.
  if (name === 'img') {
    const words = written.find((attribute) => attribute.name === 'alt')?.value;
    if (typeof words !== 'string' || /^\s+$/.test(words))
      diagnostics.push(report('picture-alt', nameSpan, { url: undefined }));
  }
  return {
    component: takes && {
      ...(children.length > 0 && !holds ? { holds: true } : {}),
      name,
      span,
      nameSpan,
      attributes: written,
      linked,
      ...(holds && content ? { content } : {}),
    },
    references,
    diagnostics,
  };

  function readAttribute(
    element: string,
    key: string,
    text: AttributeValue,
    { nameSpan: keySpan, valueSpan }: AttributeSpan,
  ): WrittenAttribute {
    const keys = takes && Object.keys(takes);
    if (keys && !keys.includes(key)) {
      const near = nearest(key, keys) ?? keyCalled(key, keys);
      const said = typeof text === 'string' && WITH_CONTENT.has(element) && children.length === 0 ? text : undefined;
      const facts = { component: element, key, nearest: near, known: keys, said };
      const isSame = near === key.toLowerCase() && source.slice(keySpan.from, keySpan.to) === key;
      diagnostics.push(report('component-key', keySpan, facts, isSame ? certainly(keySpan, near) : undefined));
    }
    if (/^on[a-z]/i.test(key)) diagnostics.push(report('script-in-lesson', keySpan, { name: key }));
    else if (elementTakes && !elementTakes.has(key)) {
      const facts = { element, key, nearest: nearest(key, elementTakes), known: [...elementTakes] };
      diagnostics.push(report('element-attribute', keySpan, facts));
    }
    const { value, ...given } = givenValue(text, valueSpan);
    // An empty attribute of a component is reported with the component.
    const names = typeof value === 'string' && (!takes || value.trim() !== '');
    // What an element that may not be here would fetch is reported with the element.
    if (names && (takes || elementTakes) && (ADDRESS_ATTRIBUTES.has(key) || /^(?:\.{0,2}\/)*media\//.test(value))) {
      references.push({ url: value, span: valueSpan, use: takes ? 'play' : FETCHED.has(key) ? 'embed' : 'link' });
    }
    const verbatim = source.slice(valueSpan.from, valueSpan.to) === value;
    return { name: key, value, verbatim, nameSpan: keySpan, valueSpan, ...given };
  }

  /** `true` where none is given, and where what is given would have to be computed. */
  function givenValue(text: AttributeValue, span: TextSpan): Pick<WrittenAttribute, 'value' | 'parts' | 'unread'> {
    if (typeof text === 'string') return { value: text };
    if (!text) return { value: true };
    const read = readValue(text.value);
    // In an element of HTML a list would become a text, which may be an address that nobody checked.
    if ('value' in read && (takes || typeof read.value !== 'object')) {
      // Where the reader of MDX has left something out (the marks of a quotation), places do not hold.
      if (source.slice(span.from, span.to) !== text.value) return { value: read.value };
      const inFile = ([path, { from, to }]: [string, TextSpan]): [string, TextSpan] => [
        path,
        { from: span.from + from, to: span.from + to },
      ];
      return { value: read.value, parts: new Map([...read.parts].map(inFile)) };
    }
    diagnostics.push(unreadValue(source, span, text.value));
    return { value: true, unread: true };
  }
}
