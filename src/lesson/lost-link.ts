/** Links and pictures that are written as in another program, or with a sign too few, and so are plain text. */

/** A text that was meant as a link, and how it is written. */
export interface LostLink {
  readonly index: number;
  readonly link: string;
  readonly meant: string;
}

/** What is an address beyond doubt. */
const ADDRESS = String.raw`(?:https?:\/\/|media\/)[^\s()[\]]{1,200}|[\w/-]{1,100}\.mdx`;

/** How a link is lost, and how it is written from the parts of the match. */
const KINDS: readonly (readonly [RegExp, (first: string, second: string) => string])[] = [
  [
    /\[\[([^\][\r\n|]{1,100})(?:\|([^\][\r\n|]{1,100}))?\]\]/g,
    (target, words) => `[${words === '' ? target : words}](${target.trim().toLowerCase().replace(/\s+/g, '-')})`,
  ],
  [new RegExp(String.raw`\((${ADDRESS})\)\[([^\][\r\n]{1,200})\]`, 'g'), (target, words) => `[${words}](${target})`],
  [
    new RegExp(String.raw`\[([^\][\r\n]{1,200})\] (?=\()\((${ADDRESS})\)`, 'g'),
    (words, target) => `[${words}](${target})`,
  ],
  [/\[([^\][\r\n]{1,200})\]\(([^\s()[\]]{1,200})(?=[^()\r\n]*$)/gm, (words, target) => `[${words}](${target})`],
];

/** The links of a text that are none, in time by its length. */
export function lostLinksIn(text: string): LostLink[] {
  if (!text.includes('[')) return [];
  return KINDS.flatMap(([pattern, written]) =>
    [...text.matchAll(pattern)].map(({ 0: link, 1: first = '', 2: second = '', index }) => ({
      index,
      link,
      meant: written(first, second),
    })),
  );
}
