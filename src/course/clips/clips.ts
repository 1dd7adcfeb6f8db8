/**
 * The clips of a lesson: a teacher's recordings, with cues that tie times of the recording to bars of the lesson's blocks.
 * A clip is described where it is used, `<Clip src="media/head.mp3" cues={…} />`, or in the front matter under `clips`, and is
 * then placed by its name.
 */
import { reporter } from '../../diagnostics/catalogue.ts';
import { type Diagnostic, type Fix, hasError, type TextSpan } from '../../diagnostics/diagnostic.ts';
import { certainly } from '../../diagnostics/edit.ts';
import { excerpt } from '../../diagnostics/excerpt.ts';
import { type FormerNames, nearest, nearestNow } from '../../diagnostics/nearest.ts';
import { keyCalled } from '../../document/file-keys.ts';
import { COMPONENTS } from '../../lesson/component.ts';
import { attributeText, type ComponentText, type WrittenAttribute } from '../../lesson/component-text.ts';
import { isList } from '../../lesson/value.ts';
import type { Score } from '../../score/score.ts';
import { append } from '../../values/append.ts';
import { isOneOf } from '../../values/checked.ts';
import type { Resolved } from '../link.ts';
import { captionsFault } from './captions.ts';
import type { FrontMatterClip } from './clip-schema.ts';
import { CLIP_PROBLEMS } from './problems.ts';
import { barsMeant, secondsOf, timeInWords, timeMeant } from './times.ts';

/** A recording in a lesson, with the bars it is tied to. */
export interface Clip {
  readonly title?: string;
  readonly kind: 'video' | 'audio' | 'page';
  readonly source: ClipSource;
  /** Of a WebVTT file, below the course folder. */
  readonly captions?: string;
  /** In order of time. */
  readonly cues: readonly ClipCue[];
}

/** A file below the course folder, or somebody else's address, which a page loads only when it is asked to. */
export type ClipSource = { readonly path: string } | { readonly url: string; readonly host: string };

/** A passage of a recording, and the bars that are played in it. */
export interface ClipCue {
  /** Seconds from the recording's start. */
  readonly at: number;
  /** Where the passage ends, unless the next cue or the recording's end comes first. */
  readonly until?: number;
  /** The id of a block of the same lesson. */
  readonly block: string;
  /** Indices of the block's bars, both included. */
  readonly first: number;
  readonly last: number;
}

/** What is written of a clip, in the front matter or at its place. */
interface ClipText {
  readonly title?: string | undefined;
  readonly src: string;
  readonly captions?: string | undefined;
  readonly cues: readonly CueText[];
}

interface CueText {
  /** Undefined where it is missing, which has been reported. */
  readonly at?: string | undefined;
  readonly until?: string | undefined;
  readonly block?: string | undefined;
  readonly bars?: string | undefined;
}

/** What the clips of a lesson are read against. */
export interface ClipScope {
  /** Ids of the lesson's blocks. */
  readonly blocks: readonly string[];
  /** Ids they had before. */
  readonly formerBlocks?: FormerNames | undefined;
  /** Undefined for a block that has an error. */
  readonly scoreOf: (block: string) => Score | undefined;
  /** Where an address of a recording or of captions leads. */
  readonly resolve: (url: string, span: TextSpan) => Resolved;
  /** A text file by its path below the course folder; undefined where it cannot be read. */
  readonly textOf: (path: string) => { readonly text: string; readonly diagnostics: readonly Diagnostic[] } | undefined;
  /** How long a recording of the media folder lasts, in seconds; undefined where its file does not say. */
  readonly lengthOf: (path: string) => number | undefined;
  /** Whether the front matter has a clip of this name, readable or not. */
  readonly isWritten: (name: string) => boolean;
  /** Whether the lesson has components that could not be read. */
  readonly isCut: boolean;
  /** The place of something in the front matter, by its path there. */
  readonly placeOf: (path: readonly (string | number)[], which: 'key' | 'value') => TextSpan;
}

/** The clips of a lesson, with the problems found in them. */
export interface ClipsRead {
  /** One for each component; undefined where it has an error. */
  readonly clips: readonly (Clip | undefined)[];
  readonly diagnostics: readonly Diagnostic[];
}

const report = reporter(CLIP_PROBLEMS);

/** Reads all clips of a lesson: those of its front matter, and its `<Clip>` components in the order of the lesson. */
export function readClips(
  components: readonly ComponentText[],
  frontMatter: Readonly<Record<string, FrontMatterClip>>,
  scope: ClipScope,
): ClipsRead {
  const diagnostics: Diagnostic[] = [];
  const named = new Map(
    Object.entries(frontMatter).map(([name, written]): [string, Clip | undefined] => {
      const place = (...path: (string | number)[]) => scope.placeOf(['clips', name, ...path], 'value');
      const read = readClip(written, place, scope);
      for (const [key, url] of [
        ['src', written.src],
        ['captions', written.captions],
      ] as const) {
        // What is in a component has been followed with the lesson's other links.
        if (url !== undefined) append(diagnostics, scope.resolve(url, place(key)).diagnostics);
      }
      append(diagnostics, read.diagnostics);
      return [name, read.clip];
    }),
  );
  const placed = new Set<string>();
  const meant = new Set<string>();
  const clips = components.map((component) => {
    const read = readComponentClip(component, named, scope);
    append(diagnostics, read.diagnostics);
    if (read.name !== undefined) placed.add(read.name);
    if (read.meant !== undefined) meant.add(read.meant);
    return read.clip;
  });
  for (const name of named.keys()) {
    // A name with a mistake in it, or a component that cannot be read, has been reported.
    if (!placed.has(name) && !meant.has(name) && !scope.isCut)
      diagnostics.push(report('clip-unused', scope.placeOf(['clips', name], 'key'), { name }));
  }
  return { clips, diagnostics };
}

interface ClipRead {
  readonly clip: Clip | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

function readComponentClip(
  { nameSpan, attributes, holds }: ComponentText,
  named: ReadonlyMap<string, Clip | undefined>,
  scope: ClipScope,
): ClipRead & { readonly name?: string; readonly meant?: string | undefined } {
  if (attributes.some(({ unread }) => unread)) return { clip: undefined, diagnostics: [] };
  const at = (key: string): WrittenAttribute | undefined => attributes.find(({ name }) => name === key);
  const given = at('name');
  if (given) {
    const name = attributeText(given);
    const own = (['src', 'captions', 'cues', 'title'] as const).flatMap((key) => at(key) ?? []);
    const diagnostics = own.map(({ name: key, nameSpan: span }) => report('clip-twice', span, { key }));
    if (!named.has(name)) {
      // A clip of the front matter that cannot be read is reported there.
      if (scope.isWritten(name)) return { clip: undefined, diagnostics };
      const near = nearest(name, named.keys());
      const fault = report('clip-unknown', given.valueSpan, { name: excerpt(name), nearest: near });
      return { clip: undefined, diagnostics: [...diagnostics, fault], meant: near };
    }
    return { clip: named.get(name), diagnostics, name };
  }
  const source = at('src');
  if (attributeText(source).trim() === '') {
    // A recording under another name, or between the tags, has been reported.
    const isElsewhere = !source && (holds || attributes.some(({ name }) => !CLIP_KEYS.has(name)));
    return { clip: undefined, diagnostics: isElsewhere ? [] : [report('clip-source', nameSpan, {})] };
  }
  const cues = cuesOf(at('cues'));
  const [title, captions] = [at('title'), at('captions')].map((one) => one && attributeText(one).trim());
  const written = { src: attributeText(source).trim(), title: title || undefined, captions, cues: cues.cues };
  const place: Place = (key, ...path) => {
    const attribute = at(`${key}`);
    return attribute ? placeIn(attribute, path) : nameSpan;
  };
  const read = readClip(written, place, scope);
  const diagnostics = [...cues.diagnostics, ...read.diagnostics];
  return { clip: hasError(diagnostics) ? undefined : read.clip, diagnostics };
}

const CLIP_KEYS: ReadonlySet<string> = new Set(Object.keys(COMPONENTS.get('Clip') ?? {}));
const CUE_KEYS = ['at', 'until', 'block', 'bars'] as const;

function cuesOf(attribute: WrittenAttribute | undefined): {
  cues: readonly CueText[];
  diagnostics: readonly Diagnostic[];
} {
  if (!attribute) return { cues: [], diagnostics: [] };
  const diagnostics: Diagnostic[] = [];
  const refuse = (what: string, ...path: (string | number)[]): void => {
    diagnostics.push(report('clip-cues', placeIn(attribute, path), { what }));
  };
  if (!Array.isArray(attribute.value)) refuse('Cues are a list of groups of “key: value”.');
  const list = isList(attribute.value) ? attribute.value : [];
  // Where none is a group, that is one mistake.
  const isWrongShape =
    list.length > 1 && list.every((value) => typeof value !== 'object' || value === null || isList(value));
  const cues = (isWrongShape ? list.slice(0, 1) : list).map((value, index): CueText => {
    const which = `Cue ${index + 1}`;
    if (typeof value !== 'object' || value === null || isList(value)) {
      refuse(`${which} is no group of “key: value”.`, index);
      return {};
    }
    let isNamed = false;
    for (const key of Object.keys(value)) {
      if (isOneOf(CUE_KEYS, key)) continue;
      const meant = nearest(key, CUE_KEYS) ?? keyCalled(key, CUE_KEYS);
      if (meant === 'at') isNamed = true;
      const what = `${which} has no use for “${excerpt(key)}”: it takes ${CUE_KEYS.join(', ')}.`;
      diagnostics.push(report('clip-cues', keyIn(attribute, index, key), { what, meant }));
    }
    const read = (key: (typeof CUE_KEYS)[number]): string | undefined => {
      const written = value[key];
      if (typeof written === 'string' || typeof written === 'number') return `${written}`;
      if (written !== undefined) refuse(`“${key}” of cue ${index + 1} is neither a text nor a number.`, index, key);
      return undefined;
    };
    if (value['at'] === undefined && !isNamed) refuse(`${which} does not say at what time it is.`, index);
    return { at: read('at'), until: read('until'), block: read('block'), bars: read('bars') };
  });
  return { cues, diagnostics };
}

/** Where a key of a cue is, or at least its value. */
function keyIn({ parts, valueSpan }: WrittenAttribute, index: number, key: string): TextSpan {
  return parts?.get(`${index}/${key}:`) ?? parts?.get(`${index}/${key}`) ?? parts?.get(`${index}`) ?? valueSpan;
}

/** Where a part of a value in braces is, or at least the value. */
const placeIn = ({ parts, valueSpan }: WrittenAttribute, path: readonly (string | number)[]): TextSpan =>
  parts?.get(path.join('/')) ?? parts?.get(path.slice(0, -1).join('/')) ?? valueSpan;

/** Where something of a clip is written, by its path there: `'cues', 0, 'at'`. */
type Place = (...path: (string | number)[]) => TextSpan;

function readClip(written: ClipText, at: Place, scope: ClipScope): ClipRead {
  const diagnostics: Diagnostic[] = [];
  const target = scope.resolve(written.src, at('src')).target;
  const isFile = target.kind === 'media';
  const url = target.kind === 'outside' ? URL.parse(written.src, 'https://example.org') : null;
  const kind = kindOf(isFile ? target.path : (url?.pathname ?? ''));
  if (isFile && !kind) {
    diagnostics.push(report('clip-kind', at('src'), { path: excerpt(written.src), kinds: [...KINDS.keys()] }));
  }
  const captions = captionsOf();
  if (target.kind === 'outside' && !kind && written.captions !== undefined) {
    diagnostics.push(report('clip-captions-page', at('captions'), {}));
  }
  if (isFile && kind === 'video' && written.captions === undefined) {
    diagnostics.push(report('clip-no-captions', at('src'), {}));
  }
  const lasts = target.kind === 'media' && written.cues.length > 0 ? scope.lengthOf(target.path) : undefined;
  const cues = written.cues.flatMap((cue, index) => readCue(cue, (key) => at('cues', index, key)) ?? []);
  cues.sort((a, b) => a.at - b.at);
  const source = sourceOf();
  const clip: Clip | undefined = source && {
    kind: kind ?? 'page',
    source,
    ...(written.title === undefined ? {} : { title: written.title }),
    ...(captions === undefined ? {} : { captions }),
    cues,
  };
  return { clip: hasError(diagnostics) ? undefined : clip, diagnostics };

  function sourceOf(): ClipSource | undefined {
    if (target.kind === 'media') return { path: target.path };
    if (target.kind !== 'outside') return undefined;
    if (url?.protocol === 'https:') return { url: url.href, host: url.host };
    diagnostics.push(report('clip-address', at('src'), { url: excerpt(written.src), open: url !== null }));
    return undefined;
  }

  function captionsOf(): string | undefined {
    if (written.captions === undefined) return undefined;
    const { target } = scope.resolve(written.captions, at('captions'));
    // A file that is not there has been reported as such.
    if (written.captions !== '' && target.kind === 'broken') return undefined;
    if (target.kind !== 'media' || !/\.vtt$/i.test(target.path)) {
      diagnostics.push(report('clip-captions', at('captions'), { path: excerpt(written.captions) }));
      return undefined;
    }
    const read = scope.textOf(target.path);
    const fault = read && (read.diagnostics.length > 0 ? NO_TEXT : captionsFault(read.text));
    if (fault) diagnostics.push(report('clip-captions-text', at('captions'), { path: target.path, ...fault }));
    return target.path;
  }

  function readCue(cue: CueText, placeOf: (key: string) => TextSpan): ClipCue | undefined {
    const time = (key: 'at' | 'until'): number | undefined => {
      const text = cue[key];
      const seconds = text === undefined ? undefined : secondsOf(text);
      if (text !== undefined && seconds === undefined) {
        const span = placeOf(key);
        const meant = timeMeant(text);
        const fix = meant?.certain ? inPlace(span, text, meant.time) : undefined;
        diagnostics.push(report('clip-time', span, { text: excerpt(text), meant: meant?.time }, fix));
      } else if (text !== undefined && /:\d$/.test(text.trim())) {
        const facts = { text: excerpt(text), read: text.trim().replace(/\d$/, '0$&'), other: `${text.trim()}0` };
        diagnostics.push(report('clip-time-short', placeOf(key), facts));
      }
      return seconds;
    };
    const [from, until] = [time('at'), time('until')];
    if (from !== undefined && until !== undefined && until <= from) {
      diagnostics.push(report('clip-until', placeOf('until'), { at: cue.at ?? '', until: cue.until ?? '' }));
    }
    if (from !== undefined && lasts !== undefined && from >= lasts && target.kind === 'media') {
      const facts = { at: excerpt(cue.at ?? ''), path: target.path, lasts: timeInWords(lasts) };
      diagnostics.push(report('clip-after-end', placeOf('at'), facts));
    }
    // A passage may be to end with its recording, whose length is rounded.
    if (
      until !== undefined &&
      lasts !== undefined &&
      until > lasts + 1 &&
      (from ?? 0) < lasts &&
      target.kind === 'media'
    ) {
      const facts = { at: excerpt(cue.until ?? ''), path: target.path, lasts: timeInWords(lasts) };
      diagnostics.push(report('clip-after-end', placeOf('until'), facts));
    }
    const block = blockOf(cue, placeOf);
    const bars = block === undefined ? undefined : barsOf(block, cue, placeOf);
    if (from === undefined || !bars || block === undefined) return undefined;
    return { at: from, ...(until === undefined ? {} : { until }), block, ...bars };
  }

  function blockOf({ block }: CueText, placeOf: (key: string) => TextSpan): string | undefined {
    const { blocks } = scope;
    if (block === undefined) {
      if (blocks.length === 1) return blocks[0];
      diagnostics.push(report('clip-which-block', placeOf('at'), { blocks }));
      return undefined;
    }
    if (blocks.includes(block)) return block;
    diagnostics.push(
      report('clip-block', placeOf('block'), {
        block: excerpt(block),
        ...nearestNow(block, blocks, scope.formerBlocks),
      }),
    );
    return undefined;
  }

  function barsOf(block: string, { bars: text }: CueText, placeOf: (key: string) => TextSpan) {
    const score = scope.scoreOf(block);
    // The error of the block is reported there.
    if (!score) return undefined;
    const { bars } = score;
    if (text === undefined) return { first: 0, last: bars.length - 1 };
    const match = /^(\d{1,4})(?:\s*[-–]\s*(\d{1,4}))?$/.exec(text.trim());
    const [from, to] = [Number(match?.[1]), Number(match?.[2] ?? match?.[1])];
    if (!match || to < from) {
      const meant = barsMeant(text);
      const span = placeOf('bars');
      const fix = meant?.certain ? inPlace(span, text, meant.bars) : undefined;
      diagnostics.push(report('clip-bars', span, { text: excerpt(text), meant: meant?.bars }, fix));
      return undefined;
    }
    const numbers = bars.map((bar) => bar.number);
    const missing = [from, to].find((number) => !numbers.includes(number));
    if (missing !== undefined) {
      const facts = { bar: missing, block, first: Math.min(...numbers), last: Math.max(...numbers) };
      diagnostics.push(report('clip-bar', placeOf('bars'), facts));
      return undefined;
    }
    return { first: numbers.indexOf(from), last: numbers.lastIndexOf(to) };
  }
}

/** The fix that writes something else for a text which is at a place, perhaps with quotation marks around it. */
const inPlace = (span: TextSpan, text: string, written: string): Fix | undefined =>
  span.to - span.from === text.length
    ? certainly(span, written)
    : span.to - span.from === text.length + 2
      ? certainly({ from: span.from + 1, to: span.to - 1 }, written)
      : undefined;

const NO_TEXT = { what: 'is no text in UTF-8', fix: 'Save it as plain text in UTF-8.' };

const KINDS: ReadonlyMap<string, 'video' | 'audio'> = new Map([
  ...['mp4', 'm4v', 'webm', 'ogv'].map((end) => [end, 'video'] as const),
  ...['mp3', 'm4a', 'ogg', 'oga', 'opus', 'wav', 'flac'].map((end) => [end, 'audio'] as const),
]);

const kindOf = (path: string): 'video' | 'audio' | undefined =>
  KINDS.get(/\.([a-z0-9]+)$/i.exec(path)?.[1]?.toLowerCase() ?? '');
