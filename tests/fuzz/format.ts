/** The target of the formatter: what a block says stays, its comments stay where they are, and a second time changes nothing. */
import fc from 'fast-check';
import { hasError } from '../../src/diagnostics/diagnostic.ts';
import { formatLesson } from '../../src/lesson/format-lesson.ts';
import { plainCharacters } from '../../src/notation/characters.ts';
import { formatBlock } from '../../src/notation/format/format.ts';
import { linesOfBlock, parseBlock } from '../../src/notation/parse.ts';
import { readBlock } from '../../src/notation/read.ts';
import { blockText } from '../notation/arbitrary.ts';
import { withoutPlaces } from '../notation/without-places.ts';
import { anyBlock, looseBlock } from './blocks/arbitrary.ts';
import { contextWith } from './blocks/reading.ts';
import { mutated } from './mutated.ts';
import { must, type Target } from './target.ts';

/** One text to format, what it may quote, and what is around it in its lesson. */
interface FormatCase {
  readonly text: string;
  readonly others: readonly string[];
  /** What a list or a quotation puts before each line. */
  readonly prefix: string;
  readonly lineBreak: string;
}

/** What people put between the lines of a block. */
const between = fc.constantFrom(
  '\n# a remark\n',
  '\n\n\n',
  '\n  \n# two words of it  \n\n',
  '  # behind it\n',
  ' # ',
  '\n#\n',
  '\n \t',
  '   ',
  '\n| ',
  '\nwords: la so-la * _\n',
  '\ntext: away\n',
);

const spaced = fc
  .tuple(fc.oneof(blockText, blockText, looseBlock), fc.array(fc.tuple(fc.nat(), between), { maxLength: 3 }))
  .map(([text, places]) =>
    places.reduce((sum, [at, what]) => {
      const spaces = [...sum.matchAll(/ \|? ?|\n/g)];
      const place = spaces[at % Math.max(1, spaces.length)];
      return place ? sum.slice(0, place.index) + what + sum.slice(place.index + place[0].length) : sum + what;
    }, text),
  );

const pieces = fc.oneof(
  between,
  fc.constantFrom('|', ' ', '\n', '4', '{4 4}', '"I7"', '<a>', '%', '.x2', ' > ', '|:', ':|2 ', '||', '|]'),
);

/** Blocks as people write them, and worse. */
export const careless: fc.Arbitrary<string> = fc.oneof(
  { weight: 6, arbitrary: spaced },
  { weight: 2, arbitrary: mutated(spaced, pieces) },
  { weight: 2, arbitrary: anyBlock },
);

/** Aligned, a block that is nearly too long may be too long. */
const LONGEST = 16 * 1024;

/** Checks what holds for a formatted block. */
export function checkFormatted(text: string, others: readonly string[]): void {
  const formatted = formatBlock(text);
  if ('errors' in formatted || text.length > LONGEST) return;
  must(
    !('fault' in formatted),
    'a clean form says the same',
    () => `${text}\n\n${'fault' in formatted ? formatted.fault.join('\n') : ''}`,
  );
  if ('fault' in formatted) return;
  const { lines } = formatted;
  const clean = lines.join('\n');
  const shown = (): string => `${text}\n\n${clean}`;
  must(
    lines.every((line) => line === line.trimEnd()),
    'no line ends with a space',
    shown,
  );
  must(
    lines[0] !== '' && lines.at(-1) !== '' && !/\n\n\n/.test(clean),
    'empty lines are alone and between others',
    shown,
  );
  const again = formatBlock(clean);
  must(
    'lines' in again && again.lines.join('\n') === clean,
    'a second time changes nothing',
    () => `${shown()}\n\n${'lines' in again ? again.lines.join('\n') : ''}`,
  );
  must(commentsOf(clean).join('\n') === commentsOf(text).join('\n'), 'comments stay where they are', shown);
  const context = contextWith(others);
  const before = readBlock(text, context);
  if (hasError(before.diagnostics) || !before.score) return;
  const after = readBlock(clean, context);
  const codes = (read: typeof before): string => read.diagnostics.map(({ code }) => code).join();
  must(codes(after) === codes(before), 'the problems are the same', () =>
    [codes(before), codes(after), shown()].join('\n'),
  );
  must(
    after.score !== undefined &&
      JSON.stringify(withoutPlaces(after.score)) === JSON.stringify(withoutPlaces(before.score)),
    'the score is the same',
    shown,
  );
}

/** Each comment, with how much music is before it and whether it has a line of its own. */
function commentsOf(text: string): string[] {
  const plain = plainCharacters(text);
  const { music, phrases, header } = parseBlock(text);
  const kept = music.filter(
    ({ kind }) => kind !== 'bar' && kind !== 'line-end' && kind !== 'words' && kind !== 'syllables',
  );
  const heads = [...header.values()].map(({ keySpan }) => keySpan);
  const names = [...phrases.values()].map(({ nameSpan }) => nameSpan);
  return [...linesOfBlock(plain)].flatMap(({ from, to, end }) => {
    const comment = text.slice(to, end).trim();
    const isAlone = plain.slice(from, to).trim() === '';
    if (comment === '' || (comment === '#' && !isAlone)) return [];
    const before = [...kept.map(({ span }) => span), ...heads, ...names].filter((span) => span.from < to).length;
    return [`${before} ${isAlone ? 'alone' : 'behind'} ${comment}`];
  });
}

/** In a lesson the formatted block is where it was, and nothing around it has changed. */
function checkInLesson({ text, prefix, lineBreak }: FormatCase): void {
  const own = text.split(/\r\n|\r|\n/);
  if (own.some((line) => /`{3}|~{3}|[\0\ud800-\udfff]/.test(line))) return;
  const opening = `Words.${lineBreak}${lineBreak}${prefix === '  ' ? '- ' : prefix}\`\`\`tab${lineBreak}`;
  const closing = `${prefix}\`\`\`${lineBreak}${lineBreak}More words. ${lineBreak}`;
  const source = opening + own.map((line) => prefix + line + lineBreak).join('') + closing;
  const { text: clean, left } = formatLesson(source);
  must(
    clean.startsWith(opening) && clean.endsWith(closing),
    'nothing around a block changes',
    () => `${source}\n\n${clean}`,
  );
  const inside = clean.slice(opening.length, clean.length - closing.length);
  const formatted = formatBlock(own.join('\n'));
  if ('lines' in formatted && formatted.lines.length > 0 && left.length === 0) {
    const expected = formatted.lines
      .map((line) => (line === '' ? prefix.trimEnd() : prefix + line) + lineBreak)
      .join('');
    must(inside === expected, 'a block in a lesson has the clean form', () => `${source}\n\n${clean}`);
  }
  must(formatLesson(clean).text === clean, 'a second time changes nothing in a lesson', () => `${source}\n\n${clean}`);
}

export const format: Target<FormatCase> = {
  name: 'format',
  cases: fc.record({
    text: careless,
    others: fc.oneof(
      { weight: 3, arbitrary: fc.constant([]) },
      fc.array(fc.oneof(blockText, looseBlock), { minLength: 1, maxLength: 2 }),
    ),
    prefix: fc.constantFrom('', '', '  ', '> ', '>   '),
    lineBreak: fc.constantFrom('\n', '\n', '\r\n'),
  }),
  check(value) {
    checkFormatted(value.text, value.others);
    checkInLesson(value);
  },
  limit: 3,
  batch: 250,
  pure: true,
};
