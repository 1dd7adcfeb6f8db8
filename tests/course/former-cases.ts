/** What can be wrong with former names, and what is said where one is used. */
import { type ProblemCase, yaml } from './problem-case.ts';
import { lesson } from './some-course.ts';

const stages = (lines: string) => yaml(`title: One\nstages:\n${lines}`);
const techniques = (lines: string) => ({
  'techniques.yaml': `techniques:\n${lines}`,
});
const technique = (id: string, more = '') =>
  `  - id: ${id}\n    title: ${id}\n    about: So.\n    group: time\n    find: not-in-score\n${more}`;
const block = (head: string) => `\`\`\`tab\n${head}\nslot: 1/1\n4\n\`\`\`\n`;
const REMOVE = 'Remove it here, or rename the other.';
const ONE = 'Remove it from one of the two.';
const now = (name: string) => `It is called “${name}” now.`;
const MOVED = { 'lessons/new.mdx': lesson(block('id: tune\nformerly: riff'), 'title: New\nformerly: old') };

/** Each is reported at its very characters. */
export const FORMER_CASES: readonly ProblemCase[] = [
  [
    'a former name that is that of a lesson, whatever its capital letters',
    { 'lessons/first.mdx': lesson('', 'title: One\nformerly: [zero, Second]'), 'lessons/second.mdx': lesson() },
    [
      [
        'lessons/first.mdx:3:18-24',
        'former-in-use',
        '“Second” is the name of a lesson, so it is no former name.',
        REMOVE,
      ],
    ],
  ],
  [
    'a former name of two lessons',
    {
      'lessons/first.mdx': lesson('', 'title: One\nformerly: zero'),
      'lessons/second.mdx': lesson('', 'title: Two\nformerly:\n  - "zero"'),
    },
    [['lessons/second.mdx:4:5-11', 'former-twice', '“zero” is a former name of the lesson “first” already.', ONE]],
  ],
  [
    'a former name of a block that is its own',
    { 'lessons/first.mdx': lesson(block('id: riff\nformerly: lick, riff')) },
    [['lessons/first.mdx:7:17-21', 'former-in-use', '“riff” is the name of a block, so it is no former name.', REMOVE]],
  ],
  [
    'a former name of two blocks',
    { 'lessons/first.mdx': lesson(`${block('id: riff\nformerly: lick')}\n${block('id: tune\nformerly: run lick')}`) },
    [['lessons/first.mdx:14:15-19', 'former-twice', '“lick” is a former name of the block “riff” already.', ONE]],
  ],
  [
    'a former name of a technique that ships',
    techniques(technique('a-b', '    formerly: [c, bends]\n')),
    [
      [
        'techniques.yaml:7:19-24',
        'former-in-use',
        '“bends” is the name of a technique, so it is no former name.',
        REMOVE,
      ],
    ],
  ],
  [
    'a former name of two techniques',
    techniques(technique('a-b', '    formerly: "c"\n') + technique('d-e', '    formerly:\n      - c\n')),
    [['techniques.yaml:14:9-10', 'former-twice', '“c” is a former name of the technique “a-b” already.', ONE]],
  ],
  [
    'a former name of a stage that is in use',
    stages('  - { id: a, title: A, formerly: b }\n  - { id: b, title: B }\n'),
    [['course.yaml:3:34-35', 'former-in-use', '“b” is the name of a stage, so it is no former name.', REMOVE]],
  ],
  [
    'a former name of two stages',
    stages('  - { id: a, title: A, formerly: [c, d] }\n  - { id: b, title: B, formerly: [d] }\n'),
    [['course.yaml:4:35-36', 'former-twice', '“d” is a former name of the stage “a” already.', ONE]],
  ],
  [
    'a lesson required by a former name',
    { ...MOVED, 'lessons/first.mdx': lesson('', 'title: One\nrequires: old') },
    [['lessons/first.mdx:3:11-14', 'requires-unknown', 'There is no lesson “old” to require.', now('new')]],
  ],
  [
    'links to former names',
    { ...MOVED, 'lessons/first.mdx': lesson('[a](./old.mdx#riff) [b](new#riff)') },
    [
      ['lessons/first.mdx:5:5-19', 'link-unknown', 'There is no lesson “old” to link to.', now('new')],
      [
        'lessons/first.mdx:5:29-33',
        'link-anchor-unknown',
        'The lesson “new” has neither a block nor a heading with the id “riff”.',
        now('tune'),
      ],
    ],
  ],
  [
    'a stage by its former name',
    {
      ...stages('  - { id: a, title: A, formerly: c }\n'),
      'lessons/first.mdx': lesson('[c](/#stage-c)', 'title: One\nstage: c'),
    },
    [
      ['lessons/first.mdx:3:8-9', 'stage-unknown', 'course.yaml has no stage “c”.', now('a')],
      [
        'lessons/first.mdx:6:5-14',
        'link-page-anchor',
        'The page / has no place with the id “stage-c”.',
        now('stage-a'),
      ],
    ],
  ],
  [
    'music of a lesson and of a block by their former names',
    { ...MOVED, 'lessons/first.mdx': lesson('```tab\nslot: 1/1\n<old/riff> | <new/riff> |]\n```\n') },
    [
      ['lessons/first.mdx:7:1-11', 'quote-unknown', 'There is no lesson “old” to quote.', now('new')],
      ['lessons/first.mdx:7:14-24', 'quote-unknown', 'There is no block “new/riff” to quote.', now('<new/tune>')],
    ],
  ],
  [
    'figures and cues with former names',
    {
      ...MOVED,
      'lessons/first.mdx': lesson(
        `<HarpMap block="old/tune" />\n\n<HarpMap phrase="new/riff:up" />\n\n${block('id: a\nformerly: b')}\n<Clip src="media/a.mp3" cues={[{ at: 0, block: 'b', bars: 1 }]} />\n`,
      ),
      'media/a.mp3': '',
    },
    [
      ['lessons/first.mdx:5:17-25', 'figure-unknown', 'There is no lesson “old”.', now('new')],
      ['lessons/first.mdx:7:18-29', 'figure-unknown', 'There is no block “riff”.', now('tune')],
      ['lessons/first.mdx:16:48-51', 'clip-block', 'This lesson has no block “b”.', now('a')],
    ],
  ],
  [
    'a technique by its former name',
    {
      ...techniques(technique('a-b', '    formerly: c\n') + technique('d-e', '    requires: c\n')),
      'lessons/first.mdx': lesson('[c](/techniques/c) <Technique>c</Technique>', 'title: One\nteaches: [a-b, c]'),
    },
    [
      ['lessons/first.mdx:3:16-17', 'teaches-unknown', 'There is no technique “c” to teach.', now('a-b')],
      ['lessons/first.mdx:6:5-18', 'link-page-unknown', 'The site has no page /techniques/c.', now('/techniques/a-b')],
      ['lessons/first.mdx:6:31-32', 'technique-not-known', 'There is no technique “c”.', now('a-b')],
      ['techniques.yaml:13:15-16', 'technique-unknown', 'There is no technique “c”.', now('a-b')],
    ],
  ],
];
