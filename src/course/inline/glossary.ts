/** glossary.yaml, read: the words that a course explains. A course may have none. */
import GithubSlugger from 'github-slugger';
import type { z } from 'zod';
import { reporter } from '../../diagnostics/catalogue.ts';
import { hasError } from '../../diagnostics/diagnostic.ts';
import { locate, type Problem, placeOf } from '../../diagnostics/place.ts';
import { checkYaml } from '../../document/check-yaml.ts';
import { groups, keys, names, text } from '../../document/schema.ts';
import { readYaml } from '../../document/yaml.ts';
import type { TextFile } from '../folder.ts';
import { INLINE_PROBLEMS } from './problems.ts';

/** A word, and what it means in this course. */
export interface Term {
  /** Its anchor on the page of the glossary. */
  readonly id: string;
  readonly term: string;
  /** A sentence or two. */
  readonly means: string;
  /** Other forms and other words for the same: `riffs`. */
  readonly also: readonly string[];
}

/** The words that a course explains, and the problems found in their file. */
export interface Glossary {
  /** What was read; undefined where there is no file. */
  readonly text: string | undefined;
  /** In the order of the alphabet. */
  readonly terms: readonly Term[];
  /** By every form, in small letters. */
  readonly byForm: ReadonlyMap<string, Term>;
  readonly problems: readonly Problem[];
  /** Whether a mistake in the file leaves words of it unread. */
  readonly unread: boolean;
}

/** One term as it is written. */
const termShape = {
  term: text.describe('the word or words'),
  means: text.describe('what it means, in a sentence or two for the student'),
  also: names(text).describe('other forms and other words for the same'),
};

/** The file `glossary.yaml` of a course. */
export const glossarySchema = keys({ terms: groups(termShape).describe('the words that this course explains') });

const report = reporter(INLINE_PROBLEMS);

/** The form a word is looked up by. */
export const formOf = (word: string): string => word.normalize().replace(/\s+/g, ' ').trim().toLowerCase();

/** Reads glossary.yaml; the result is reused while its text is unchanged. */
export function readGlossary(file: TextFile | undefined, before: Glossary | undefined): Glossary {
  const source = file?.text;
  if (before && before.text === source) return before;
  const read = readYaml(source ?? '');
  const { value, diagnostics } = checkYaml(glossarySchema, read, {}, 'glossary');
  const { terms, byForm, twice } = named(value.terms);
  const clashes = twice.map(({ path, word }) => {
    const span = read.spans.get(path)?.value ?? { from: 0, to: 0 };
    return report('term-twice', span, { word });
  });
  const placed = placeOf(source ?? '');
  return {
    unread: hasError([...read.diagnostics, ...diagnostics]),
    text: source,
    terms: terms.toSorted((a, b) => COLLATOR.compare(a.term, b.term)),
    byForm,
    problems: file
      ? [...read.diagnostics, ...diagnostics, ...clashes].map((one) => locate(one, file.file, placed))
      : [],
  };
}

const COLLATOR = new Intl.Collator('en');

function named(written: z.output<typeof glossarySchema>['terms']) {
  const slugger = new GithubSlugger();
  const byForm = new Map<string, Term>();
  const twice: { readonly path: string; readonly word: string }[] = [];
  const terms = written.map(({ term, means, also }, index): Term => {
    const one = { id: slugger.slug(term), term, means, also };
    for (const [at, word] of [term, ...also].entries()) {
      const path = `terms/${index}/${at === 0 ? 'term' : `also/${at - 1}`}`;
      if (byForm.has(formOf(word))) twice.push({ path, word });
      else byForm.set(formOf(word), one);
    }
    return one;
  });
  return { terms, byForm, twice };
}
