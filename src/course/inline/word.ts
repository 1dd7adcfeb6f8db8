/** The components that link to what a word means: a technique's page, or an entry of the glossary. */
import { reporter } from '../../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';
import { nearest, nearestNow } from '../../diagnostics/nearest.ts';
import type { WordName } from '../../lesson/component.ts';
import { attributeText, type ComponentText } from '../../lesson/component-text.ts';
import type { Repertoire } from '../../technique/repertoire.ts';
import { formOf, type Glossary } from './glossary.ts';
import { INLINE_PROBLEMS } from './problems.ts';
import { beginsSentence } from './sentence.ts';

/** A word in a sentence that leads to what it means. */
export interface WordLink {
  /** As it is shown. */
  readonly text: string;
  /** The page below the base, and the place on it. */
  readonly path: string;
  /** Behind the path: empty, or `#` and the place. */
  readonly rest: string;
}

/** What words are looked up in. */
export interface WordScope {
  readonly repertoire: Repertoire;
  readonly glossary: Glossary;
}

/** A word with the problems found in it; undefined if one of them is an error. */
export interface WordRead {
  readonly word: WordLink | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

const report = reporter(INLINE_PROBLEMS);

/** Reads a word that leads to what it means; `source` is the lesson. */
export function readWord(
  component: ComponentText & { readonly name: WordName },
  source: string,
  { repertoire, glossary }: WordScope,
): WordRead {
  const { content, nameSpan, linked } = component;
  // What holds nothing has been reported.
  if (!content) return { word: undefined, diagnostics: [] };
  const of = component.attributes.find(({ name }) => name === 'of');
  const named = of ?? content;
  const name = attributeText(named);
  const diagnostics: Diagnostic[] = [];
  if (linked) diagnostics.push(report('link-in-link', nameSpan, { component: component.name }));
  const word = component.name === 'Technique' ? technique(named.valueSpan) : term(named.valueSpan);
  return { word: linked ? undefined : word, diagnostics };

  function technique(span: TextSpan): WordLink | undefined {
    const known = repertoire.techniques;
    const found =
      repertoire.byId.get(name) ?? known.find(({ title }) => title.toLowerCase() === name.trim().toLowerCase());
    if (found) {
      return { text: of ? attributeText(content) : shownName(found.title), path: `techniques/${found.id}/`, rest: '' };
    }
    const near = nearestNow(
      name,
      known.flatMap(({ id, title }): [string, string][] => [
        [id, id],
        [title, id],
      ]),
      repertoire.former,
    );
    diagnostics.push(report('technique-not-known', span, { name, ...near }));
    return undefined;
  }

  /** A title as it is written in the sentence; in the place of an id with the first letter that the sentence asks for. */
  function shownName(title: string): string {
    if (name.trim().toLowerCase() === title.toLowerCase()) return name;
    return beginsSentence(source, component.span) ? title : title.charAt(0).toLowerCase() + title.slice(1);
  }

  function term(span: TextSpan): WordLink | undefined {
    const found = glossary.byForm.get(formOf(name));
    if (found) return { text: attributeText(content), path: 'glossary/', rest: `#term-${found.id}` };
    // The mistake in the glossary is reported once, and not again with each of its words.
    if (glossary.unread) return undefined;
    const near = nearest(
      formOf(name),
      [...glossary.byForm].map(([form, { term: word }]): [string, string] => [form, word]),
    );
    diagnostics.push(report('term-not-known', span, { name, nearest: near, glossary: glossary.text !== undefined }));
    return undefined;
  }
}
