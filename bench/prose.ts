/** Made-up prose in the shape of a lesson: paragraphs, lists, emphasis, links. It says nothing. */
import type { Random } from './random.ts';

const NOUNS = 'breath note hole bend tongue lip beat bar line phrase chord answer tune figure harp hand jaw throat tempo count rest third root fifth lick chorus verse sound reed'.split(' '); // biome-ignore format: words
const VERBS = 'holds leaves turns lands opens closes waits moves comes rests settles drops rises leans answers follows begins ends stays grows'.split(' '); // biome-ignore format: words
const QUALITIES = 'slow even warm small round deep soft steady open loose clean long short quiet late early low bright plain gentle'.split(' '); // biome-ignore format: words
const LINKS = 'before the next beat,over the same chord,with half the breath,as if singing,without the tongue,on the way home,behind the bar line,in one motion,a little later,at the end of the line'.split(','); // biome-ignore format: words

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const title = (random: Random): string => capital(`${random.pick(QUALITIES)} ${random.pick(NOUNS)}s`);

export function sentence(random: Random): string {
  const clause = (): string => {
    const noun = `${random.percent(60) ? `${random.pick(QUALITIES)} ` : ''}${random.pick(NOUNS)}`;
    const marked = random.percent(5) ? `*${noun}*` : random.percent(3) ? `**${noun}**` : noun;
    return `the ${marked} ${random.pick(VERBS)} ${random.pick(LINKS)}`;
  };
  const joined = random.percent(45) ? `, and ${clause()}` : random.percent(20) ? `; ${clause()}` : '';
  return `${capital(clause())}${joined}.`;
}

const wordsIn = (text: string): number => text.split(/\s+/).filter(Boolean).length;

/** About so many words, in paragraphs and now and then a list; `linked` are addresses to work in. */
export function prose(random: Random, words: number, linked: readonly string[]): string {
  const pieces: string[] = [];
  const links = [...linked];
  for (let count = 0; count < words; ) {
    const link = links.pop();
    const piece =
      link !== undefined
        ? `Go back to [the ${random.pick(NOUNS)}](${link}) first. ${sentence(random)}`
        : random.percent(15)
          ? Array.from({ length: random.whole(2, 4) }, () => `- ${sentence(random)}`).join('\n')
          : Array.from({ length: random.whole(2, 5) }, () => sentence(random)).join(' ');
    pieces.push(piece);
    count += wordsIn(piece);
  }
  return pieces.join('\n\n');
}

export const syllables = (random: Random, count: number): string =>
  Array.from({ length: count }, () => (random.percent(12) ? '_' : random.percent(5) ? '*' : random.pick(SUNG))).join(
    ' ',
  );
const SUNG = 'oh my morn-ing train roll down slow I hear you call-ing all night long'
  .split(' ')
  .flatMap((word) => word.split('-').map((piece, index, all) => (index < all.length - 1 ? `${piece}-` : piece)));
