/** What can be wrong with what a link to a block asks to be played, by code. Codes are permanent; the words are for a teacher. */
import { type Catalogue, didYouMean, error, type Near, nearestInstead, warning } from '../../diagnostics/catalogue.ts';
import type { Fix, TextSpan } from '../../diagnostics/diagnostic.ts';
import { certainly, perhaps } from '../../diagnostics/edit.ts';
import { LINK_PARAMETERS } from '../../schedule/block-link.ts';

const ALL = LINK_PARAMETERS.join(', ');

/** How the value of each parameter is written. */
const FORMS: Readonly<Record<(typeof LINK_PARAMETERS)[number], string>> = {
  bars: 'Write one bar, as in bars=3, or the first and the last, as in bars=3-4.',
  tempo: 'Write beats a minute, as in tempo=60, or a share of the block’s own tempo, as in tempo=60%.',
  loop: 'Write loop=no or loop=yes. Bars loop unless loop=no is written.',
  harp: 'Write a key, as in harp=A or harp=low+F.',
  tuning: 'Write the id of a tuning.',
};

export const BLOCK_LINK_PROBLEMS = {
  'link-query-unknown': warning<Near & { name: string }>({
    about: `What a link asks of a lesson’s page is one of these: ${ALL}.`,
    message: ({ name }) => `A link cannot ask for “${name}”.`,
    help: (facts) => didYouMean(facts) ?? `It can ask for: ${ALL}.`,
    fix: nearestInstead,
  }),
  'link-query-twice': warning<{ name: string }>({
    about: 'A link says each thing it asks for once.',
    message: ({ name }) => `This link has ${name} twice, and only the first one counts.`,
    help: () => 'Remove one of them.',
  }),
  'link-query-place': error<{ name: string }>({
    about: 'Bars, a tempo and a loop are those of a block, so the link names one behind #.',
    message: ({ name }) => `This link has ${name}, and leads to no block.`,
    help: ({ name }) => `Write the id of a block behind it, as in ?${name}=…#head.`,
  }),
  'link-query-value': error<{
    name: keyof typeof FORMS;
    value: string;
    meant: string | undefined;
    certain: boolean;
  }>({
    about: 'Bars are written bars=3 or bars=3-4, a tempo tempo=60 or tempo=60%, a loop loop=no or loop=yes.',
    message: ({ name, value }) =>
      value === '' ? `Nothing is behind ${name} here.` : `“${value}” cannot be read as ${name}.`,
    help: ({ name, meant }) => (meant === undefined ? FORMS[name] : `Did you mean ${name}=${meant}?`),
    fix: ({ meant, certain }, span) =>
      meant === undefined ? undefined : certain ? certainly(span, meant) : perhaps(span, meant),
  }),
  'link-bars-unknown': error<{ bar: string; block: string; bars: string }>({
    about:
      'A link can ask for bars that its block has. They are counted as musicians count, and the endings of a repeat share their numbers: 0 is a pickup, 8.2 is bar 8 of the second ending.',
    message: ({ bar, block }) => `The block “${block}” has no bar ${bar}.`,
    help: ({ bars }) => `Its bars are: ${bars}.`,
  }),
  'link-bars-ending': error<{ bar: string; names: readonly string[] }>({
    about:
      'Where several endings have a bar of one number, a link says which is meant: 8.1 is bar 8 of the first ending.',
    message: ({ bar, names }) => `There are ${names.length} bars ${bar}, each in an ending of its own.`,
    help: ({ names }) => `Write one of: ${names.join(', ')}.`,
  }),
  'link-bars-backwards': error<{ value: string; meant: string }>({
    about: 'The first of the bars is written first.',
    message: ({ value }) => `The bars ${value} end before they begin.`,
    help: ({ meant }) => `Did you mean ${meant}?`,
    fix: ({ meant }, span) => perhaps(span, meant),
  }),
  'link-tempo-range': error<{ value: string; least: string; most: string; meant: string }>({
    about: 'A link can ask for a tempo from 30 to 150 percent of the block’s own, as the player can.',
    message: ({ value, least, most }) => `The tempo ${value} is not between ${least} and ${most}.`,
    help: ({ meant }) => `The nearest it can be is ${meant}.`,
    fix: ({ meant }, span): Fix => perhaps(span, meant),
  }),
  'link-harp-unknown': error<{ value: string }>({
    about: 'A link names a harp by its key, as the choice of a harp does: A, Bb, low F.',
    message: ({ value }) => `There is no harp in “${value}”.`,
    help: () => `${FORMS.harp} A sharp is written as %23, as in harp=F%23.`,
  }),
  'link-tuning-unknown': error<Near & { value: string; known: readonly string[] }>({
    about: 'A link names a tuning by its id: one that ships with Reedway, or one of the course.',
    message: ({ value }) => `There is no tuning “${value}”.`,
    help: (facts) => didYouMean(facts) ?? `The tunings are: ${facts.known.join(', ')}.`,
    fix: (facts: Near, span: TextSpan) => nearestInstead(facts, span),
  }),
} satisfies Catalogue;
