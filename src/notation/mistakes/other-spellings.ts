/**
 * How notes, rests and bar lines are spelled elsewhere, and what each would be here: common practice, no source. One problem names
 * all of one kind in a block.
 */
import type { Diagnostic, Fix, TextEdit, TextSpan } from '../../diagnostics/diagnostic.ts';
import { nameOfText } from '../characters.ts';
import { report } from '../problems.ts';
import { type SpellingKind, unquotedChord } from './spelling-words.ts';

/** A word of the music that is spelled in another way. */
export interface OtherSpelling {
  readonly kind: SpellingKind;
  /** As it is written here. */
  readonly meant: string;
  /** Whether nothing else can be meant. */
  readonly isCertain: boolean;
}

type Row = readonly [SpellingKind, RegExp, (...parts: string[]) => string, 'certain' | 'likely'];

const isUp = (arrow: string): boolean => '↑⬆▲△'.includes(arrow);
const breathOf = (letter: string): string => (letter.toLowerCase() === 'd' ? '-' : '');
const repeated = (sign: string, count: number): string => (count === 1 ? sign : `${sign}${count}`);

/** The first row that fits counts. */
const ROWS: readonly Row[] = [
  ['rest', /^(?:[rRz]|rest)(\d{0,2})$/, (_, count = '') => `.${count}`, 'certain'],
  ['ellipsis', /^…$/, () => '...', 'certain'],
  ['dash', /^([-_~]+)$/, (_, run = '') => repeated('=', run.length), 'likely'],
  ['arrow', /^([↑↓⬆⬇▲▼△▽])(\d{1,2})('*)$/, (_, arrow = '', hole, bend) => `${isUp(arrow) ? '' : '-'}${hole}${bend}`, 'likely'],
  ['arrow', /^(\d{1,2})('*)([↑↓⬆⬇▲▼△▽])$/, (_, hole, bend, arrow = '') => `${isUp(arrow) ? '' : '-'}${hole}${bend}`, 'likely'],
  ['sign-behind', /^(\d{1,2})('*)([+-])('*)$/, (_, hole, before, sign, behind) => `${sign === '-' ? '-' : ''}${hole}${before}${behind}`, 'certain'],
  ['bend-letter', /^-(\d{1,2})(b{1,3})$/, (_, hole, run = '') => `-${hole}${"'".repeat(run.length)}`, 'likely'],
  ['bend-letter', /^-(b{1,3})(\d{1,2})$/, (_, run = '', hole) => `-${hole}${"'".repeat(run.length)}`, 'likely'],
  [
    'bend-letter',
    /^(\d{1,2})(b{2,3})$/,
    (_, hole, run = '') => `${Number(hole) > 6 ? '' : '-'}${hole}${"'".repeat(run.length)}`,
    'likely',
  ],
  ['bend-quotes', /^([-+]?\d{1,2}'*)"(o?)$/, (_, note, over) => `${note}''${over}`, 'certain'],
  ['breath-letter', /^(\d{1,2})([dDbB])('*)$/, (_, hole, letter = '', bend) => `${breathOf(letter)}${hole}${bend}`, 'likely'],
  ['breath-letter', /^([dDbB])(\d{1,2})('*)$/, (_, letter = '', hole, bend) => `${breathOf(letter)}${hole}${bend}`, 'likely'],
  ['over-letters', /^(-?)(\d{1,2})(?:ob|OB|O)$/, (_, sign, hole) => `${sign}${hole}o`, 'certain'],
  ['over-letters', /^-?(\d{1,2})(?:od|OD)$/, (_, hole) => `-${hole}o`, 'certain'],
  ['over-letters', /^(-?)[oO](\d{1,2})$/, (_, sign, hole) => `${sign}${hole}o`, 'certain'],
  ['comma', /^([-+]?\d{1,2}(?:'*|o))[,;]$/, (_, note = '') => note, 'certain'],
  ['glued', /^([-+]?\d{1,2}'*(?:[-+]\d{1,2}'*){1,7})$/, (_, run = '') => run.replace(/(?<=.)(?=[-+])/g, ' '), 'likely'],
  ['together', /^(-?)(\d{1,2}(?:[/&,]-?\d{1,2}){1,4})$/, (_, sign, run = '') => `${sign}(${run.split(/[/&,]-?/).join(' ')})`, 'likely'],
  ['bar-line', /^\/$/, () => '|', 'likely'],
  ['bar-line', /^\]$/, () => '|]', 'certain'],
]; // biome-ignore format: a table

/** A word that is longer is none of these. In characters. */
const LONGEST = 40;

/** What a word of the music means that is spelled as elsewhere; undefined where that cannot be seen. */
export function otherSpelling(text: string): OtherSpelling | undefined {
  if (text.length > LONGEST) return undefined;
  const chord = unquotedChord(text);
  // Marks, holds and rests may be right behind a note.
  const [, word = '', behind = ''] = /^(.[^[=.]*)((?:\[[^[\]]*\])*(?:[=.]\d*)*)$/.exec(text) ?? [];
  for (const [kind, pattern, meaning, surety] of ROWS) {
    const parts = pattern.exec(word);
    if (!parts) continue;
    // D7 may be a chord, or the draw note of hole 7.
    const isCertain = surety === 'certain' && chord === undefined;
    return { kind, meant: meaning(...parts) + behind, isCertain };
  }
  return chord === undefined ? undefined : { kind: 'chord', meant: `"${chord}"`, isCertain: true };
}

interface Met {
  readonly diagnostic: Diagnostic;
  readonly written: string;
  readonly spelling: OtherSpelling;
}

/** The diagnostics of a block with one problem for each kind of spelling in it, at the first place, with a fix for all places. */
export function withSpellingsTogether(text: string, diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const met = new Map<SpellingKind, Met[]>();
  const others: Diagnostic[] = [];
  for (const diagnostic of diagnostics) {
    const { from, to } = diagnostic.span;
    const written = text.slice(from, to);
    const spelling = diagnostic.code === 'other-spelling' ? otherSpelling(written) : undefined;
    if (!spelling) others.push(diagnostic);
    else {
      const all = met.get(spelling.kind) ?? [];
      const isCertain = spelling.isCertain && isSure(text, spelling.kind, diagnostic.span);
      all.push({ diagnostic, written, spelling: { ...spelling, isCertain } });
      met.set(spelling.kind, all);
    }
  }
  if (met.size === 0) return others;
  lettersAsMeant(met, /(?:^|[\s(])-\d/.test(text));
  const together = [...met].flatMap(([kind, all]) => (all.length > 0 ? [togetherOf(kind, all)] : []));
  return [...others, ...together];
}

/** Whether what is around a word leaves no other meaning: a last bar line ends its line, and other words stand alone. */
function isSure(text: string, kind: SpellingKind, { from, to }: TextSpan): boolean {
  if (kind === 'bar-line') return !/[{(<]$/.test(text.slice(0, from)) && /^[ \t]*(?:#|[\r\n]|$)/.test(text.slice(to));
  return from === 0 || /[\s|:{}%>]/.test(text.charAt(from - 1));
}

const take = (met: ReadonlyMap<SpellingKind, Met[]>, kind: SpellingKind): Met[] => met.get(kind) ?? [];

/**
 * `D7` is a chord where all such words can be one and there are others; otherwise all are notes. `3b` is a bend where draw notes have
 * their sign and no letter.
 */
function lettersAsMeant(met: Map<SpellingKind, Met[]>, hasSigns: boolean): void {
  const letters = take(met, 'breath-letter');
  if (hasSigns && letters.length > 0 && letters.every(({ written }) => /b/.test(written))) {
    const bends = letters.map((one): Met => {
      const hole = Number(/\d+/.exec(one.written)?.[0]);
      // The higher reed bends: up to hole 6 that is the draw reed.
      return { ...one, spelling: { kind: 'bend-letter', meant: `${hole > 6 ? '' : '-'}${hole}'`, isCertain: false } };
    });
    met.set('bend-letter', inOrder([...take(met, 'bend-letter'), ...bends]));
    met.set('breath-letter', []);
    return;
  }
  if (take(met, 'chord').length === 0 || letters.some(({ written }) => unquotedChord(written) === undefined)) return;
  const chords = letters.map((one): Met => {
    return { ...one, spelling: { kind: 'chord', meant: `"${one.written}"`, isCertain: true } };
  });
  met.set('chord', inOrder([...take(met, 'chord'), ...chords]));
  met.set('breath-letter', []);
}

const inOrder = (all: readonly Met[]): Met[] => all.toSorted((a, b) => a.diagnostic.span.from - b.diagnostic.span.from);

function togetherOf(kind: SpellingKind, all: readonly Met[]): Diagnostic {
  const [first] = all;
  if (!first) throw new RangeError(`nothing is spelled as ${kind}`);
  const edits = all.map(({ diagnostic, spelling }): TextEdit => ({ span: diagnostic.span, text: spelling.meant }));
  const fix: Fix = { edits, certain: all.every(({ spelling }) => spelling.isCertain) };
  const pairs = [...new Map(all.map(({ written, spelling }) => [written, spelling.meant]))];
  return report(
    'other-spelling',
    first.diagnostic.span,
    { kind, pairs, count: all.length, isCertain: fix.certain },
    fix,
  );
}

/** What is said of a word of the music that is none. */
export function notASlot(text: string, span: TextSpan): Diagnostic {
  const spelling = otherSpelling(text);
  if (!spelling) return report('not-a-slot', span, { text: nameOfText(text) });
  const { kind, meant, isCertain } = spelling;
  const fix: Fix = { edits: [{ span, text: meant }], certain: isCertain };
  return report('other-spelling', span, { kind, pairs: [[text, meant]], count: 1, isCertain }, fix);
}
