/** Notes without a rhythm: what a figure or a question names, in the words of a block's music. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import type { Breath, Harp, HoleNote } from '../instrument/harp.ts';
import { plainCharacters } from './characters.ts';
import type { ReadContext } from './context.ts';
import { withSpellingsTogether } from './mistakes/other-spellings.ts';
import { checkHole } from './playable.ts';
import { scanMusic } from './scan.ts';
import type { BlockTree, Item, NoteItem } from './tree.ts';

/** A note in an attribute or argument, with its place. */
export interface NamedNote extends HoleNote {
  readonly breath: Breath;
  readonly span: TextSpan;
}

/** The notes of a chord or split one by one. */
const notesOfItem = ({ breath, notes }: NoteItem): NamedNote[] => notes.map((note) => ({ ...note, breath }));

/** A list of notes with the problems found in it. */
export interface NotesRead {
  /** Divided by bar lines, for those who ask for a note in each bar: one bar where there is none. */
  readonly bars: readonly (readonly NamedNote[])[];
  /** The notes the harp has not got, and what cannot be read at all. */
  readonly diagnostics: readonly Diagnostic[];
  /** Music that is no note: where nothing else is asked for, the reader says so. */
  readonly strays: readonly TextSpan[];
}

/** Reads `-2 -3' (1 4)` and `-2 | . | -3'`. Spans count from the start of the text. */
export function readNotes(text: string, harp: Harp): NotesRead {
  const diagnostics: Diagnostic[] = [];
  const strays: TextSpan[] = [];
  const plain = plainCharacters(text).replace(/[\r\n]/g, ' ');
  const bars: NamedNote[][] = [[]];
  for (const item of scanMusic(plain, 0, plain.length, diagnostics)) {
    if (item.kind === 'note') {
      const notes = notesOfItem(item);
      for (const note of notes) checkHole(note, note.breath, harp, note.span, diagnostics);
      bars.at(-1)?.push(...notes);
    } else if (item.kind === 'bar') bars.push([]);
    else if (item.kind !== 'rest' && item.kind !== 'unreadable') strays.push(item.span);
  }
  return { bars, diagnostics: withSpellingsTogether(plain, diagnostics), strays };
}

/** Every note of a phrase, quotations followed; undefined where the tree has no phrase of that name. */
export function notesOfPhrase(
  tree: BlockTree,
  name: string,
  find: ReadContext['find'],
): readonly NamedNote[] | undefined {
  const seen = new Set<unknown>();
  return tree.phrases.has(name) ? walk(phraseItems(tree, name), tree) : undefined;

  function phraseItems(from: BlockTree, phrase: string): readonly Item[] {
    const found = from.phrases.get(phrase);
    // A cycle of quotations is reported where it is.
    if (!found || seen.has(found)) return [];
    seen.add(found);
    return found.items;
  }

  function walk(items: readonly Item[], from: BlockTree): NamedNote[] {
    return items.flatMap((item): NamedNote[] => {
      if (item.kind === 'note') return notesOfItem(item);
      if (item.kind === 'group') return walk(item.items, from);
      if (item.kind !== 'quote') return [];
      if (item.lesson === undefined || item.block === undefined)
        return walk(phraseItems(from, item.phrase ?? ''), from);
      const found = find(item.lesson, item.block);
      if ('missing' in found || seen.has(found.tree)) return [];
      if (item.phrase !== undefined) return walk(phraseItems(found.tree, item.phrase), found.tree);
      seen.add(found.tree);
      return walk(found.tree.music, found.tree);
    });
  }
}
