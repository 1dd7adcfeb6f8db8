/** Where a sentence begins in the text of a lesson: what is there begins with a capital. */
import { describe, expect, test } from 'vitest';
import { loadFrom } from '../../../src/course/load.ts';
import { inlineText } from '../../../src/engrave/inline/words.ts';
import { present } from '../../../src/values/checked.ts';
import { filesInMemory } from '../files-in-memory.ts';

/** What each `@` of a text says, where it is a note. */
function saidIn(text: string): string {
  const source = `---\ntitle: One\n---\n${text.replaceAll('@', '<Note>-3</Note>')}\n`;
  const { byId } = loadFrom(filesInMemory({ 'course.yaml': 'title: A course\n', 'lessons/one.mdx': source }));
  const { inlines } = present(byId.get('one'), 'the lesson');
  return inlines.map(({ inline }) => (inline ? inlineText(inline) : 'none')).join(', ');
}

describe('a sentence begins', () => {
  test.each([
    ['right below the front matter', '@ is.'],
    ['in a paragraph', '\n@ is.'],
    ['in a second paragraph', '\nWords\n\n@ is.'],
    ['behind an empty line of blanks', '\nWords\n  \t\n@ is.'],
    ['in a heading', '\n## @ and more'],
    ['in a heading of six signs', '\n###### @ and more'],
    ['in a heading that is underlined', '\n@ and more\n=========='],
    ['right below a heading', '\n## Words\n@ is.'],
    ['right below a line across', '\nWords\n\n***\n@ is.'],
    ['right below a fence', '\n```text\nwords\n```\n@ is.'],
    ['in an item', '\n- @ is.'],
    ['in an item of a list in a list', '\n- Words\n  - @ is.'],
    ['in a list that an item begins with', '\n- - @ is.'],
    ['in an item with a number', '\n12. @ is.'],
    ['in an item with a number and a bracket', '\n1) @ is.'],
    ['in an item with a star', '\n* @ is.'],
    ['in an item with a box', '\n- [ ] @ is.'],
    ['in a block quote', '\n> @ is.'],
    ['in a second paragraph of a block quote', '\n> Words\n>\n> @ is.'],
    ['in an item of a block quote', '\n> - @ is.'],
    ['in a cell', '\n| a |\n|---|\n| @ |'],
    ['in a second cell', '\n| a | b |\n|---|---|\n| words | @ |'],
    ['in a head of a column', '\n| @ | b |\n|---|---|\n| c | d |'],
    ['in a footnote', '\nWords.[^1]\n\n[^1]: @ is.'],
    ['behind a full stop', '\nWords. @ is.'],
    ['behind a question mark', '\nWords? @ is.'],
    ['behind an exclamation mark', '\nWords! @ is.'],
    ['behind three dots', '\nWords… @ is.'],
    ['behind a quoted sentence', '\n“Words.” @ is. '],
    ['behind a sentence in straight quotes', '\n"Words." @ is. '],
    ['behind a sentence in brackets', '\n(Words.) @ is.'],
    ['behind a sentence in emphasis', '\n**Words.** @ is.'],
    ['behind a sentence with a footnote', '\nWords.[^1] @ is.\n\n[^1]: Words.'],
    ['behind a full stop at the end of a line', '\nWords.\n@ is.'],
    ['behind a full stop at the end of a line of a block quote', '\n> Words.\n> @ is.'],
    ['behind a full stop at the end of a line of an item', '\n- Words.\n  @ is.'],
    ['in quotes', '\nWords. “@ is.”'],
    ['in straight quotes', '\n"@ is."'],
    ['in emphasis', '\n**@** is.'],
    ['in strong emphasis within emphasis', '\n***@*** is.'],
    ['in emphasis of an item', '\n- _@_ is.'],
    ['in a link', '\n[@ is](https://example.org).'],
    ['in a bracket behind a full stop', '\nWords. (@ is.)'],
    ['in an element', '\n<b>@</b> is.'],
    ['in an element with attributes', '\nWords. <span lang="en">@</span> is.'],
    ['far into a long paragraph', `\n${'Words and words. '.repeat(40)}@ is.`],
  ])('%s', (_, text) => {
    expect(saidIn(text)).toBe('Draw 3');
    expect(saidIn(text.replaceAll('\n', '\r\n'))).toBe('Draw 3');
  });
});

describe('no sentence begins', () => {
  test.each([
    ['within a line', '\nWords @ is.'],
    ['at the beginning of a line that was wrapped', '\nWords\n@ is.'],
    ['at the beginning of a wrapped line of an item', '\n- Words\n  @ is.'],
    ['at the beginning of a wrapped line of a block quote', '\n> Words\n> @ is.'],
    ['behind a comma', '\nWords, @ is.'],
    ['behind a colon', '\nWords: @ is.'],
    ['behind a semicolon', '\nWords; @ is.'],
    ['behind a dash', '\nWords – @ is.'],
    ['in quotes', '\nWords “@” is.'],
    ['in brackets', '\nWords (@) are.'],
    ['in emphasis', '\nWords **@** are.'],
    ['behind an abbreviation', '\nWords, e.g. @, and i.e. @, cf. @.'],
    ['behind a number with a full stop in it', '\nThe 2.5 @ are.'],
    ['in a heading', '\n## Words @'],
    ['in a cell', '\n| a |\n|---|\n| words @ |'],
    ['far into a long paragraph', `\n${'Words and words '.repeat(40)}@ is.`],
  ])('%s', (_, text) => {
    for (const ends of ['\n', '\r\n'])
      expect(new Set(saidIn(text.replaceAll('\n', ends)).split(', '))).toEqual(new Set(['draw 3']));
  });
});

test('an author says otherwise where the first letter is not as wanted', () => {
  const attribute = (word: string) => `\n<Note capital="${word}">-3</Note> and more <Note capital="${word}">-3</Note>`;
  expect(saidIn(attribute('no'))).toBe('draw 3, draw 3');
  expect(saidIn(attribute('yes'))).toBe('Draw 3, Draw 3');
});
