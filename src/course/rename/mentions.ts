/** Every place of a course where a name is written: where it is given, and where it is used. */
import type { TextSpan } from '../../diagnostics/diagnostic.ts';
import { type Placed, placeOf, type SourcePoint } from '../../diagnostics/place.ts';
import { readYaml, type YamlRead, type YamlValue } from '../../document/yaml.ts';
import { isClip, isFigure, isWord } from '../../lesson/component.ts';
import { attributeText, type ComponentText, type WrittenAttribute } from '../../lesson/component-text.ts';
import { type LessonText, readLessonText } from '../../lesson/lesson-text.ts';
import { isList } from '../../lesson/value.ts';
import { quotationSpans } from '../../notation/quotation/quotation.ts';
import type { BlockTree, Item, QuoteItem } from '../../notation/tree.ts';
import { itemAt } from '../../values/checked.ts';
import type { Block, Course, Lesson, Link } from '../course.ts';
import { COURSE_FILE, TECHNIQUES_FILE } from '../folder.ts';
import type { Named } from './name.ts';

/** A name where it is written. */
export interface Mention {
  readonly file: string;
  readonly named: Named;
  /** The characters of the name alone, or of what it is part of where they are not known. */
  readonly span: TextSpan;
  /** Whether the span is that of the name, letter for letter. */
  readonly exact: boolean;
}

/** A link where it is written. */
export interface LinkMention {
  readonly file: string;
  readonly lesson: Lesson;
  readonly link: Link;
  /** The address as it is written, or what it is part of where its own place is not known. */
  readonly span: TextSpan;
  readonly exact: boolean;
}

/** Everything a course mentions. */
export interface Mentions {
  readonly names: readonly Mention[];
  readonly links: readonly LinkMention[];
}

/** All names that are written in the files of a course, and all its links. */
export function mentionsIn(course: Course): Mentions {
  const names: Mention[] = [...inCourseFile(course), ...inTechniques(course)];
  const links: LinkMention[] = [];
  for (const lesson of course.lessons) {
    const text = readLessonText(lesson.source);
    names.push(...inFrontMatter(lesson, text.frontMatter));
    for (const block of lesson.blocks) names.push(...inBlock(lesson, block, text));
    for (const component of text.components) names.push(...inComponent(lesson, component, course));
    text.references.forEach(({ url, span }, index) => {
      const link = itemAt(lesson.links, index);
      links.push({ file: lesson.file, lesson, link, ...narrowed(lesson.source, span, url) });
    });
  }
  return { names, links };
}

/** The place of a text within a span that may hold quotation marks or more around it. */
function narrowed(source: string, { from, to }: TextSpan, text: string): Pick<Mention, 'span' | 'exact'> {
  const whole = source.slice(from, to);
  const at = whole.indexOf(text);
  // A name within a longer word is another name, and of two that fit neither is certain.
  const isAlone = !/[\w-]/.test(whole[at - 1] ?? '') && !/[\w-]/.test(whole[at + text.length] ?? '');
  if (text === '' || at < 0 || !isAlone || whole.includes(text, at + 1)) return { span: { from, to }, exact: false };
  return { span: { from: from + at, to: from + at + text.length }, exact: true };
}

// In YAML

type Step = string | number;

/** The texts at a path of YAML, where a list may be a single item without its dash. */
function* textsAt({ value, spans }: YamlRead, ...path: readonly (Step | '*')[]): Generator<[string, TextSpan]> {
  yield* walk(value, '', path);

  function* walk(
    at: YamlValue,
    where: string,
    [step, ...below]: readonly (Step | '*')[],
  ): Generator<[string, TextSpan]> {
    if (step === undefined) {
      const span = spans.get(where)?.value;
      if (typeof at === 'string' && span) yield [at, span];
    } else if (step === '*') {
      if (typeof at === 'object' && isYamlList(at))
        for (const [index, item] of at.entries()) yield* walk(item, joined(where, index), below);
      else yield* walk(at, where, below);
    } else if (typeof at === 'object' && !isYamlList(at)) {
      for (const [key, item] of Object.entries(at))
        if (step === key || step === ANY) yield* walk(item, joined(where, key), below);
    }
  }
}

/** Any key of a group whose names are the author's. */
const ANY = '**';
const isYamlList = (value: YamlValue): value is readonly YamlValue[] => Array.isArray(value);
const joined = (path: string, step: Step): string => (path === '' ? `${step}` : `${path}/${step}`);

function inYaml(
  file: string,
  source: string,
  read: YamlRead,
  path: readonly string[],
  named: (name: string) => Named,
): Mention[] {
  return [...textsAt(read, ...path)].map(([written, span]) => {
    const name = written.trim();
    return { file, named: named(name), ...narrowed(source, span, name) };
  });
}

function inCourseFile({ sources }: Course): Mention[] {
  const source = sources.get(COURSE_FILE) ?? '';
  return inYaml(COURSE_FILE, source, readYaml(source), ['stages', '*', 'id'], (stage) => ({ kind: 'stage', stage }));
}

function inTechniques({ sources }: Course): Mention[] {
  const source = sources.get(TECHNIQUES_FILE) ?? '';
  const read = readYaml(source);
  return [['id'], ['requires', '*'], ['kind-of', '*']].flatMap((path) =>
    inYaml(TECHNIQUES_FILE, source, read, ['techniques', '*', ...path], (technique) => ({
      kind: 'technique',
      technique,
    })),
  );
}

function inFrontMatter({ id, file, source }: Lesson, read: YamlRead): Mention[] {
  return [
    ...inYaml(file, source, read, ['requires', '*'], (lesson) => ({ kind: 'lesson', lesson })),
    ...inYaml(file, source, read, ['teaches', '*'], (technique) => ({ kind: 'technique', technique })),
    ...inYaml(file, source, read, ['stage'], (stage) => ({ kind: 'stage', stage })),
    ...inYaml(file, source, read, ['clips', ANY, 'cues', '*', 'block'], (block) => ({
      kind: 'block',
      lesson: id,
      block,
    })),
  ];
}

// In blocks

function inBlock(
  { id: lesson, file, source }: Lesson,
  { id: block, tree, placed }: Block,
  text: LessonText,
): Mention[] {
  const own = { lesson, block };
  const inFile = (span: TextSpan): TextSpan => {
    const from = offsetIn(text.placed, placed, span.from);
    return { from, to: from + span.to - span.from };
  };
  const at = (named: Named, span: TextSpan, name: string): Mention => {
    const place = inFile(span);
    return { file, named, span: place, exact: source.slice(place.from, place.to) === name };
  };
  const id = tree.header.get('id');
  return [
    ...(id?.value === block ? [at({ kind: 'block', ...own }, id.valueSpan, block)] : []),
    ...[...tree.phrases.values()].map(({ name, nameSpan }) =>
      at({ kind: 'phrase', ...own, phrase: name }, nameSpan, name),
    ),
    ...quotesIn(tree).flatMap((quote) => {
      const inner = quote.span.from + 1;
      const spans = quotationSpans(tree.text.slice(inner, quote.span.to - 1), inner);
      const its = { lesson: quote.lesson ?? lesson, block: quote.block ?? block };
      const { phrase } = quote;
      return [
        ...(spans.lesson ? [at({ kind: 'lesson', lesson: its.lesson }, spans.lesson, its.lesson)] : []),
        ...(spans.block ? [at({ kind: 'block', ...its }, spans.block, its.block)] : []),
        ...(spans.phrase && phrase !== undefined ? [at({ kind: 'phrase', ...its, phrase }, spans.phrase, phrase)] : []),
      ];
    }),
  ];
}

/** All quotations of a block, in its music and in its phrases. */
function quotesIn(tree: BlockTree): QuoteItem[] {
  const gather = (items: readonly Item[]): QuoteItem[] =>
    items.flatMap((item) => (item.kind === 'group' ? gather(item.items) : item.kind === 'quote' ? item : []));
  return [...[...tree.phrases.values()].flatMap(({ items }) => gather(items)), ...gather(tree.music)];
}

/** Where an offset of a block is in its file. */
function offsetIn(file: Placed, block: Placed, offset: number): number {
  const index = block.lines.findLastIndex((line) => line.offset <= offset);
  const line = itemAt(block.lines, index);
  return offsetOf(file, { ...line.at, column: line.at.column + offset - line.offset });
}

/** The same where only the text of the file is there. */
export const offsetInBlock = (source: string, block: Placed, offset: number): number =>
  offsetIn(placeOf(source), block, offset);

/** The offset of a line and column. */
export const offsetOf = (file: Placed, { line, column }: SourcePoint): number =>
  itemAt(file.lines, line - 1).offset + column - 1;

/** The same in a text. */
export const offsetInText = (text: string, point: SourcePoint): number => offsetOf(placeOf(text), point);

// In components

function inComponent({ id: lesson, file, source }: Lesson, component: ComponentText, course: Course): Mention[] {
  const at = (key: string): WrittenAttribute | undefined => component.attributes.find(({ name }) => name === key);
  const names = (attribute: WrittenAttribute | undefined, pattern: RegExp): Mention[] => {
    if (!attribute) return [];
    const text = attributeText(attribute);
    const whole = verbatimAt(attribute, source);
    const { groups = {}, indices } = new RegExp(pattern, 'd').exec(text) ?? {};
    const part = (key: string, named: Named): Mention[] => {
      const [from, to] = indices?.groups?.[key] ?? [];
      if (from === undefined || to === undefined) return [];
      if (whole === undefined) return [{ file, named, span: attribute.valueSpan, exact: false }];
      return [{ file, named, span: { from: whole + from, to: whole + to }, exact: true }];
    };
    const its = { lesson: groups['lesson'] ?? lesson, block: groups['block'] ?? '' };
    const phrase = groups['phrase'] ?? '';
    return [
      ...part('lesson', { kind: 'lesson', lesson: its.lesson }),
      ...part('block', { kind: 'block', ...its }),
      ...part('phrase', { kind: 'phrase', ...its, phrase }),
    ];
  };
  if (isFigure(component)) return [...names(at('block'), BLOCK), ...names(at('phrase'), PHRASE)];
  if (isClip(component)) {
    const cues = at('cues');
    const list = cues && isList(cues.value) ? cues.value : [];
    return list.flatMap((cue, index): Mention[] => {
      const block = typeof cue === 'object' && cue !== null && !isList(cue) ? cue['block'] : undefined;
      const span = cues?.parts?.get(`${index}/block`) ?? cues?.valueSpan;
      if (typeof block !== 'string' || !span) return [];
      return [{ file, named: { kind: 'block', lesson, block }, ...narrowed(source, span, block) }];
    });
  }
  if (isWord(component) && component.name === 'Technique') {
    const named = at('of') ?? component.content;
    const technique = attributeText(named);
    // By its title a technique is named whatever its id.
    if (!named || !course.repertoire.byId.has(technique)) return [];
    return [{ file, named: { kind: 'technique', technique }, ...placed(named, technique) }];
  }
  return [];

  function placed(attribute: WrittenAttribute, text: string): Pick<Mention, 'span' | 'exact'> {
    const from = verbatimAt(attribute, source);
    if (from === undefined) return { span: attribute.valueSpan, exact: false };
    return { span: { from, to: from + text.length }, exact: true };
  }
}

/** `lick`, `first-bends/lick` */
const BLOCK = /^(?:(?<lesson>.+)\/)?(?<block>[^/]+)$/;
/** `lick:answer`, `first-bends/lick:answer` */
const PHRASE = /^(?:(?<lesson>.+)\/)?(?<block>[^/:]+):(?<phrase>[^/:]+)$/;

/** Where an attribute's text begins in the file, in quotation marks or in braces; undefined where it is written otherwise. */
function verbatimAt(attribute: WrittenAttribute, source: string): number | undefined {
  if (attribute.verbatim) return attribute.valueSpan.from;
  const literal = attribute.parts?.get('');
  const text = attributeText(attribute);
  return literal && source.slice(literal.from + 1, literal.to - 1) === text ? literal.from + 1 : undefined;
}
