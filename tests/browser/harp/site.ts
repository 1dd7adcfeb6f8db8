/** A small course on harps of two tunings, built and served, for tests that open its pages. */
import { type Browser, chromium } from 'playwright-core';
import type { Course } from '../../../src/course/course.ts';
import { write } from '../../course/some-course.ts';
import { CHROMIUM } from '../chromium.ts';
import { sharedSite } from '../shared-site.ts';

const BAR = "-2 -3' -3 4 -4 -5 4 -3";
const TWELVE = Array.from({ length: 12 }, () => BAR).join(' | ');
const CHORUS = `\`\`\`tab\nid: chorus-1\n\n${TWELVE} |]\n\`\`\`\n`;
const riff = (number: number) => `\`\`\`tab\nid: chorus-${number}\nform: none\n\n${BAR} | ${BAR} |]\n\`\`\`\n`;

const LESSON = `---
title: On an A harp
harp: A
position: 2
feel: shuffle
form: twelve-bar
---

${CHORUS}
${[2, 3, 4, 5, 6].map(riff).join('\n')}
<RoleTable notes="-3 -3' -3''" />

<HarpMap scale="blues" overbends="yes" />

<FormChart targets="-2 | . | 4" />

<BendLadder hole={3} cents="yes" hertz="yes" />
`;

const MINOR = `---
title: Another tuning
harp: C
tuning: natural-minor
position: 2
---

\`\`\`tab
id: riff
chords: i7

-2 -3 4 -4 = . . . |]
\`\`\`

<TargetNotes chords="i7 | iv7" holes="1-3" />

<SideBySide block="riff" harps="C, F" />

<RhythmLine rhythm="x = x x = x x x" />
`;

/** What a lesson says within its sentences, on the harps of two blocks. */
const SAID = `---
title: In its sentences
harp: C
position: 2
---

## Home is <Key /> on <Harp article="yes" />

<Harp article="yes" /> has <Note show="pitch">-3'</Note> in hole 3: <Note over="I7">-3'</Note> of <Chord>I7</Chord>, and <Chord show="tones">IV7</Chord> are the
tones of the other. On <Harp harp="low F" article="yes" follow="no" /> it is <Note harp="low F" show="pitch" follow="no">-3'</Note>. A <Term>riff</Term> in [<Key show="full" />](one).

| Chord | Name |
|---|---|
| <Chord show="numeral">V7</Chord> | <Chord>V7</Chord> |

\`\`\`tab
id: on-c
chords: I7
-2 -3' -3 4 -4 -5 4 -3 |]
\`\`\`

\`\`\`tab
id: on-d
harp: D
chords: I7
-2 -3' -3 4 -4 -5 4 -3 |]
\`\`\`
`;
const GLOSSARY = 'terms:\n  - term: riff\n    means: A short figure.\n    also: [riffs]\n';

export interface OpenSite {
  readonly course: Course;
  readonly url: string;
  readonly browser: Browser;
  close(): Promise<void>;
}

export async function openSite(): Promise<OpenSite> {
  const { course, address, close } = await sharedSite('harp', '/under/', (folder) => {
    write(folder, 'course.yaml', 'title: A course\n');
    write(folder, 'lessons/one.mdx', LESSON);
    write(folder, 'lessons/minor.mdx', MINOR);
    write(folder, 'lessons/said.mdx', SAID);
    write(folder, 'glossary.yaml', GLOSSARY);
  });
  const browser = await chromium.launch(CHROMIUM);
  return {
    course,
    url: address.slice(0, -1),
    browser,
    async close() {
      await browser.close();
      close();
    },
  };
}
