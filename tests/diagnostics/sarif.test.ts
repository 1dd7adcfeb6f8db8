import { expect, test } from 'vitest';
import type { Problem } from '../../src/diagnostics/place.ts';
import { type SarifRule, sarifOf } from '../../src/diagnostics/sarif.ts';

const RULES: readonly SarifRule[] = [
  { code: 'a-b', subject: 'The course', severity: 'error', about: 'The first sentence. And {a second} one.' },
  { code: 'c-d', subject: 'The path', severity: 'hint', about: 'One sentence only.' },
];

const problem = (more: Partial<Problem> = {}): Problem => ({
  file: 'lessons/a.mdx',
  line: 3,
  column: 5,
  endLine: 3,
  endColumn: 9,
  severity: 'error',
  code: 'a-b',
  message: 'It is wrong.',
  ...more,
});

const resultOf = (one: Problem, isText = true) =>
  sarifOf({
    problems: [one],
    rules: RULES,
    version: '1.2.3',
    root: 'file:///repo/',
    pathOf: (file) => file,
    isText: () => isText,
  }).runs[0]?.results[0];

const location = { uri: 'lessons/a.mdx', uriBaseId: '%SRCROOT%' };

test('a log has the rules and the way places are counted', () => {
  const log = sarifOf({
    problems: [],
    rules: RULES,
    version: '1.2.3',
    root: 'file:///repo/',
    pathOf: String,
    isText: () => true,
  });
  expect(log).toEqual({
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'Reedway',
            semanticVersion: '1.2.3',
            rules: [
              {
                id: 'a-b',
                shortDescription: { text: 'The first sentence.' },
                fullDescription: { text: 'The first sentence. And {{a second}} one.' },
                help: { text: 'The first sentence. And {{a second}} one. reedway messages a-b prints this.' },
                defaultConfiguration: { level: 'error' },
                properties: { tags: ['The course'] },
              },
              {
                id: 'c-d',
                shortDescription: { text: 'One sentence only.' },
                fullDescription: { text: 'One sentence only.' },
                help: { text: 'One sentence only. reedway messages c-d prints this.' },
                defaultConfiguration: { level: 'note' },
                properties: { tags: ['The path'] },
              },
            ],
          },
        },
        columnKind: 'utf16CodeUnits',
        newlineSequences: ['\r\n', '\n', '\r'],
        originalUriBaseIds: { '%SRCROOT%': { uri: 'file:///repo/' } },
        results: [],
      },
    ],
  });
});

test('a problem has its rule, its words, its place and its fix', () => {
  const edits = [
    { line: 3, column: 5, endLine: 3, endColumn: 9, text: '{new}' },
    { line: 4, column: 1, endLine: 4, endColumn: 2, text: '' },
  ];
  expect(
    resultOf(problem({ help: 'Write {new}.', code: 'c-d', severity: 'hint', fix: { certain: true, edits } })),
  ).toEqual({
    ruleId: 'c-d',
    ruleIndex: 1,
    level: 'note',
    message: { text: 'It is wrong. Write {{new}}.' },
    locations: [
      {
        physicalLocation: {
          artifactLocation: location,
          region: { startLine: 3, startColumn: 5, endLine: 3, endColumn: 9 },
        },
      },
    ],
    fixes: [
      {
        description: { text: 'Write {{new}}.' },
        artifactChanges: [
          {
            artifactLocation: location,
            replacements: [
              {
                deletedRegion: { startLine: 3, startColumn: 5, endLine: 3, endColumn: 9 },
                insertedContent: { text: '{new}' },
              },
              { deletedRegion: { startLine: 4, startColumn: 1, endLine: 4, endColumn: 2 } },
            ],
          },
        ],
        properties: { certain: true },
      },
    ],
  });
});

test.each([
  ['lessons/the bend #2.mdx', 'lessons/the%20bend%20%232.mdx'],
  ['a:b/50%?.mdx', 'a%3Ab/50%25%3F.mdx'],
  ['lessons/ü.mdx', 'lessons/%C3%BC.mdx'],
  ['', './'],
])('the path %j is the address %j', (path, uri) => {
  const at = resultOf(problem({ file: path }))?.locations[0]?.physicalLocation.artifactLocation;
  expect(at).toEqual({ uri, uriBaseId: '%SRCROOT%' });
  expect(decodeURI(new URL(uri, 'file:///repo/').pathname)).toMatch(/^\/repo\//);
});

test('what is no text has no lines, and a rule of another time no index', () => {
  const result = resultOf(problem({ code: 'x-y' }), false);
  expect(result?.locations).toEqual([{ physicalLocation: { artifactLocation: location } }]);
  expect(result).not.toHaveProperty('ruleIndex');
});

test('a message has no link and no placeholder that it does not mean', () => {
  expect(resultOf(problem({ message: 'Write [a](b) or [c] for {0}.' }))?.message.text).toBe(
    'Write \\[a](b) or [c] for {{0}}.',
  );
});
