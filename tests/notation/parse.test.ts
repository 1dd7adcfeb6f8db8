/** The lines of a block: settings, words, phrases, music and comments. */
import { describe, expect, test } from 'vitest';
import { HEADER_KEYS, LONGEST_BLOCK, parseBlock } from '../../src/notation/parse.ts';

/** Every problem as its code and the characters it points at. */
const problems = (text: string): string[] =>
  parseBlock(text).diagnostics.map(({ code, span }) => `${code} ${text.slice(span.from, span.to)}`);
const kinds = (text: string): string[] => parseBlock(text).music.map(({ kind }) => kind);

describe('a setting', () => {
  test('is a key, a colon and a value, each with its place', () => {
    const text = '\n  harp :  low F  # a remark\n4';
    const line = parseBlock(text).header.get('harp');
    expect(line).toEqual({
      key: 'harp',
      value: 'low F',
      keySpan: { from: 3, to: 7 },
      valueSpan: { from: 11, to: 16 },
    });
  });
  test('may be any of the known ones, in any order', () => {
    const keys = [...HEADER_KEYS].reverse();
    const { header, diagnostics } = parseBlock(keys.map((key) => `${key}: x`).join('\n'));
    expect([...header.keys()]).toEqual(keys);
    expect(diagnostics).toEqual([]);
  });
  test('counts as it was written first', () => {
    const { header } = parseBlock('harp: A\nharp: C\n4');
    expect(header.get('harp')?.value).toBe('A');
  });
  test.each(['apart', 'party', 'swords', 'wordsmith', 'paraphrase', 'phrases', 'Harp', 'two words', 'a-b'])(
    '“%s” is none',
    (key) => expect(problems(`${key}: x\n4`)).toEqual([`header-unknown ${key}`]),
  );
  test('stands before the music, before words, parts and phrases', () => {
    for (const before of ['4', 'part: A', 'phrase a: 4', '4\nwords: la'])
      expect(problems(`${before}\nharp: A`)).toEqual(['header-late harp']);
    expect(problems('# a remark\n\n \nharp: A')).toEqual([]);
  });
  test.each(["d4' 5 |: 4 :|", 'é: 4', '4: 5', '-: 4', 'a.b: 4'])('%s is music, with mistakes in it', (line) => {
    const { header, diagnostics } = parseBlock(line);
    expect(header.size).toBe(0);
    expect(diagnostics[0]?.code).toMatch(/^(?:not-a-slot|other-spelling)$/);
  });
});

describe('a comment', () => {
  test.each([
    ['4 # 5', 'note line-end'],
    ['# 5', ''],
    ['#5', ''],
    ['4 5 # the second part: up', 'note note line-end'],
    ['"#IVdim7" 4 # 5', 'chord note line-end'],
    ['"C" 4 # a "quoted" word', 'chord note line-end'],
    ['"C" 4 # a quotation mark "', 'chord note line-end'],
    [' # 5', ''],
  ])('%s', (line, music) => {
    expect(kinds(line).join(' ')).toBe(music);
    expect(problems(line)).toEqual([]);
  });
  test('is none at a sharp, inside quotation marks, or with nothing behind it', () => {
    expect(problems('4 #5')).toEqual(['not-a-slot #5']);
    expect(problems('4# 5')).toEqual(['not-a-slot 4#']);
    expect(problems('4 #')).toEqual(['not-a-slot #']);
    expect(problems('4 " # " 5')).toEqual(['chord-unknown " # "']);
    expect(parseBlock('harp: F #\n4').header.get('harp')?.value).toBe('F #');
  });
  test('is none in lines of words, however these are indented', () => {
    for (const key of ['title', ' title'])
      expect(parseBlock(`${key}: A # B\n4`).header.get('title')?.value).toBe('A # B');
    const [part] = parseBlock('  part : A # B\n4').music;
    expect(part).toMatchObject({ kind: 'part', name: 'A # B' });
    const [direction] = parseBlock('text: like # 2\n4').music;
    expect(direction).toMatchObject({ kind: 'direction', text: 'like # 2', span: { from: 6, to: 14 } });
    const words = parseBlock('4 4 4\n words: a # b').music.at(-1);
    expect(words?.kind === 'words' && words.syllables.length).toBe(3);
  });
});

describe('a phrase', () => {
  test('has a name, and its music with its places', () => {
    const text = 'phrase turn-1:  4 | 5 # up\n<turn-1>';
    const { phrases, diagnostics } = parseBlock(text);
    expect(diagnostics).toEqual([]);
    const phrase = phrases.get('turn-1');
    expect(text.slice(phrase?.nameSpan.from, phrase?.nameSpan.to)).toBe('turn-1');
    expect(phrase?.items.map(({ kind, span }) => `${kind} ${text.slice(span.from, span.to)}`)).toEqual([
      'note 4',
      'bar |',
      'note 5',
    ]);
  });
  test('has no repeat, ending, jump or closing line in it', () => {
    for (const line of ['|:', ':|', '|1', '||', '|]', '|fine'])
      expect(problems(`phrase a: 4 ${line} 5\n4`)).toEqual([`phrase-repeats ${line}`]);
  });
  test('is the first of its name', () => {
    const { phrases } = parseBlock('phrase a: 4\nphrase a: 5 6\n4');
    expect(phrases.get('a')?.items.length).toBe(1);
  });
  test.each(['phrase', 'phrase a b', 'phrase  '])('“%s” has no name', (key) => {
    expect(problems(`${key}: 4\n4`)).toEqual([`phrase-without-name ${key.trim()}`]);
  });
});

describe('words', () => {
  const syllables = (words: string) => {
    const text = `4\nwords:${words}`;
    const item = parseBlock(text).music.at(-1);
    return item?.kind === 'words'
      ? item.syllables.map((one) => {
          const written = text.slice(one.span.from, one.span.to);
          return one.kind === 'text' ? `${written}${one.hyphen ? ' -' : ''}` : `${one.kind} ${written}`;
        })
      : [];
  };
  test('are divided by spaces, and by hyphens within a word', () => {
    expect(syllables(' A-ma-zing grace')).toEqual(['A -', 'ma -', 'zing', 'grace']);
    expect(syllables(' two- three')).toEqual(['two -', 'three']);
    expect(syllables(' a--b -')).toEqual(['a -', 'b']);
  });
  test('go on with _ and leave a note out with *', () => {
    expect(syllables(' sing_ _ * on')).toEqual(['sing_', 'extend _', 'skip *', 'on']);
    expect(syllables(' a-_-b')).toEqual(['a -', 'extend _', 'b']);
  });
});

describe('a part', () => {
  test('has a name', () => {
    expect(problems('part:   \n4')).toEqual(['part-without-name part']);
    expect(kinds('part: A\n4')).toEqual(['part', 'note', 'line-end']);
  });
});

describe('a block that is too long', () => {
  const longest = '4 '.repeat(LONGEST_BLOCK / 2);
  test('is longer than 64 thousand characters', () => {
    expect(problems(longest)).toEqual([]);
    const { diagnostics, music } = parseBlock(`${longest} `);
    expect(diagnostics.map(({ code, message }) => [code, message])).toEqual([
      ['block-too-long', expect.stringContaining('64 thousand characters')],
    ]);
    expect(music).toEqual([]);
  });
  test('is pointed at in its first line, as far as that can be shown', () => {
    expect(problems(`harp: C\n${longest}`)).toEqual(['block-too-long harp: C']);
    expect(problems(`harp: C\r${longest}`)).toEqual(['block-too-long harp: C']);
    expect(problems(`${longest} `)).toEqual([`block-too-long ${longest.slice(0, 80)}`]);
  });
});
