/** The words of a sentence that lead to a technique's page or to the glossary: what is shown, and where it leads. */
import { describe, expect, test } from 'vitest';
import { loadFrom } from '../../../src/course/load.ts';
import { present } from '../../../src/values/checked.ts';
import { filesInMemory } from '../files-in-memory.ts';

const GLOSSARY = `terms:
  - term: Quick change
    means: The IV in the second bar.
    also: [quick four, "R&B start"]
  - term: riff
    means: A short figure.
    also: [riffs]
`;
const TECHNIQUES = `techniques:
  - { id: my-shout, title: "My “shout” & more", about: A., group: tone, find: not-in-score }
`;

/** `shown -> address` of each word. */
function words(text: string): readonly string[] {
  const { byId } = loadFrom(
    filesInMemory({
      'course.yaml': 'title: A course\n',
      'glossary.yaml': GLOSSARY,
      'techniques.yaml': TECHNIQUES,
      'lessons/one.mdx': `---\ntitle: One\n---\n\n${text}\n`,
    }),
  );
  return present(byId.get('one'), 'the lesson').words.map(({ word }) =>
    word ? `${word.text} -> ${word.path}${word.rest}` : 'none',
  );
}

describe('a technique', () => {
  test.each([
    ['A <Technique>vibrato</Technique>.', 'vibrato -> techniques/vibrato/'],
    ['A <Technique>Vibrato</Technique>.', 'Vibrato -> techniques/vibrato/'],
    // By its id it is shown as its title, which begins as the sentence has it.
    ['A <Technique>hand-wahs</Technique>.', 'wahs -> techniques/hand-wahs/'],
    ['<Technique>hand-wahs</Technique> are it.', 'Wahs -> techniques/hand-wahs/'],
    ['A <Technique>Wahs</Technique>.', 'Wahs -> techniques/hand-wahs/'],
    ['A <Technique>wahs</Technique>.', 'wahs -> techniques/hand-wahs/'],
    ['A <Technique> vibrato </Technique>.', 'vibrato -> techniques/vibrato/'],
    ['A <Technique of="hand-wahs">shout of the hand</Technique>.', 'shout of the hand -> techniques/hand-wahs/'],
    ['A <Technique of="Wahs">shout</Technique>.', 'shout -> techniques/hand-wahs/'],
    ['A <Technique>my-shout</Technique>.', 'my “shout” & more -> techniques/my-shout/'],
    ['A <Technique>none-such</Technique>.', 'none'],
    ['A <Technique of="">wah</Technique>.', 'none'],
    ['A <Technique></Technique>.', 'none'],
  ])('%s', (text, wanted) => {
    expect(words(text)).toEqual([wanted]);
  });
});

describe('a word of the glossary', () => {
  test.each([
    ['A <Term>riff</Term>.', 'riff -> glossary/#term-riff'],
    ['Two <Term>riffs</Term>.', 'riffs -> glossary/#term-riff'],
    ['<Term>Riff</Term> is it.', 'Riff -> glossary/#term-riff'],
    ['A <Term>RIFF</Term>.', 'RIFF -> glossary/#term-riff'],
    ['The <Term>quick change</Term>.', 'quick change -> glossary/#term-quick-change'],
    ['The <Term>quick four</Term>.', 'quick four -> glossary/#term-quick-change'],
    ['The <Term>quick\nfour</Term>.', 'quick\nfour -> glossary/#term-quick-change'],
    ['> The <Term>quick\n> four</Term>.', 'quick\nfour -> glossary/#term-quick-change'],
    ['The <Term>R&B start</Term>.', 'R&B start -> glossary/#term-quick-change'],
    ['The <Term of="riff">short one</Term>.', 'short one -> glossary/#term-riff'],
    ['The <Term of="nothing">riff</Term>.', 'none'],
    ['The <Term>no riff</Term>.', 'none'],
  ])('%s', (text, wanted) => {
    expect(words(text)).toEqual([wanted]);
  });
});

test('in the text of a link neither leads anywhere', () => {
  expect(
    words(
      '[a <Term>riff</Term>](https://example.org), [<Technique>vibrato</Technique>][x]\n\n[x]: https://example.org',
    ),
  ).toEqual(['none', 'none']);
  expect(words('<a href="https://example.org">a <Term>riff</Term></a> <Term>riff</Term>')).toEqual([
    'none',
    'riff -> glossary/#term-riff',
  ]);
});
