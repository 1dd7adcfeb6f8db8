/** The components within a sentence that say something of the music: what an author wrote, read into what will be said. */
import { reporter } from '../../diagnostics/catalogue.ts';
import { type Diagnostic, hasError } from '../../diagnostics/diagnostic.ts';
import type { TabNote } from '../../engrave/figure/figure.ts';
import {
  CHORD_FACTS,
  HARP_FACTS,
  type Inline,
  KEY_FACTS,
  NOTE_FACTS,
  POSITION_FACTS,
} from '../../engrave/inline/inline.ts';
import { MODE_NAMES, type Mode } from '../../harmony/key.ts';
import { keyOfSong } from '../../harmony/song-key.ts';
import type { Harp } from '../../instrument/harp.ts';
import type { InlineName } from '../../lesson/component.ts';
import type { ComponentText } from '../../lesson/component-text.ts';
import { homeSymbols } from '../../notation/setting-values.ts';
import { attributesOf } from '../figures/attributes.ts';
import type { FigureScope } from '../figures/written-figure.ts';
import { INLINE_PROBLEMS } from './problems.ts';
import { beginsSentence } from './sentence.ts';

/** What a component says, with the problems found in it. */
export interface InlineRead {
  /** Undefined where a diagnostic is an error, and where the component is empty, which is reported elsewhere. */
  readonly inline: Inline | undefined;
  /** Whether it is said again for the student's harp. */
  readonly follows: boolean;
  readonly diagnostics: readonly Diagnostic[];
}

const report = reporter(INLINE_PROBLEMS);

/** Reads a component that says something of the music; `source` is the lesson. Attributes it does not take are reported elsewhere. */
export function readInline(
  component: ComponentText & { readonly name: InlineName },
  source: string,
  scope: Pick<FigureScope, 'context' | 'scores'>,
): InlineRead {
  const attributes = attributesOf(component);
  const { at, diagnostics } = attributes;
  const { defaults } = scope.context;
  const {
    harp: stamped,
    tuning,
    position,
    key: named,
    progression,
  } = attributes.settings(['harp', 'tuning', 'position'], defaults, scope.context);
  const harp: Harp = { ...stamped, tuning };
  const key = keyOfSong(harp, position, homeSymbols(progression, scope.context), mode());
  const capital = attributes.yesOrNo('capital') ?? beginsSentence(source, component.span);
  const follows = attributes.yesOrNo('follow') ?? true;
  const article = attributes.yesOrNo('article') ?? false;
  const place = { harp, position, key, capital, ...(article ? { article } : {}) };
  const inline = read();
  return { inline: hasError(diagnostics) ? undefined : inline, follows, diagnostics };

  /** As the author says, or as the lesson does, or as all its blocks on such a harp in this position agree. */
  function mode(): Mode | undefined {
    const own = attributes.choice('mode', MODE_NAMES);
    if (own !== undefined) return own;
    if (position === defaults.position && named) return named.mode;
    const bars = scope.scores.flatMap((score) => (score.harp.tuning.id === tuning.id ? score.bars : []));
    const modes = new Set(bars.filter((bar) => bar.position === position).map((bar) => bar.key.mode));
    return modes.size === 1 ? [...modes][0] : undefined;
  }

  function read(): Inline | undefined {
    switch (component.name) {
      case 'Note': {
        const chord = attributes.chord('over', key);
        const facts = attributes.choices('show', NOTE_FACTS) ?? [at('over') ? 'role' : 'name'];
        if (facts.includes('role') && !at('over'))
          diagnostics.push(report('inline-no-chord', at('show')?.valueSpan ?? component.nameSpan, {}));
        const named = notes();
        return named && { kind: 'note', ...place, notes: named, facts, ...(chord ? { chord } : {}) };
      }
      case 'Chord': {
        const chord = attributes.chord('content', key);
        const facts = attributes.choices('show', CHORD_FACTS) ?? ['name'];
        return chord && { kind: 'chord', ...place, chord, facts };
      }
      case 'Key':
        return { kind: 'key', ...place, fact: attributes.choice('show', KEY_FACTS) ?? 'usual' };
      case 'Harp':
        return { kind: 'harp', ...place, fact: attributes.choice('show', HARP_FACTS) ?? 'harp' };
      case 'Position':
        return { kind: 'position', ...place, fact: attributes.choice('show', POSITION_FACTS) ?? 'number' };
    }
  }

  function notes(): TabNote[] | undefined {
    const content = at('content');
    const before = diagnostics.length;
    const bars = attributes.notes('content', harp);
    if (!content || !bars) return undefined;
    const read = bars.flat();
    // What cannot be read has been reported, and is not reported again as no note.
    if (diagnostics.length === before && (bars.length > 1 || read.length === 0))
      diagnostics.push(report('inline-notes', content.valueSpan, { bars: read.length > 0 }));
    return read.map(({ breath, hole, bend, over, slide }) => ({ breath, hole, bend, over, slide }));
  }
}
