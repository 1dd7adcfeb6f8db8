/** The files of a new course: one lesson with a tune of our own, and the settings that most courses have. */
import { stringify } from 'yaml';
import { COURSE_FILE, LESSONS } from '../../course/folder.ts';
import type { NewFile } from '../export/destination.ts';

/** A text as YAML writes it on one line, quoted where it has to be. */
export const yamlText = (text: string): string => stringify(text, { lineWidth: 0 }).trimEnd();

/** The files of a new course with this title. */
export const starterCourse = (title: string): readonly NewFile[] => [
  { name: COURSE_FILE, content: courseFile(title) },
  { name: `${LESSONS}/first-notes.mdx`, content: FIRST_LESSON },
];

const courseFile = (title: string): string => `title: ${yamlText(title)}
# summary: A sentence or two, for the first page and for search engines.
# teacher: Who teaches it
language: en

# The parts of the course, in their order. Each lesson names the id of its stage.
stages:
  - id: beginning
    title: The beginning
    summary: Single notes, one hole at a time.

# What holds for every block, unless a lesson or a block says otherwise.
harp: C
position: 1
meter: 4/4
tempo: 72
`;

const FIRST_LESSON = `---
title: First notes
summary: Three holes next to each other, breathing out and in.
stage: beginning
minutes: 10
---

Rest your lips on hole 5 and breathe out gently until the note is steady. Then breathe in at the same hole, and do not
press harder for it.

## A tune on three holes

A plain number is a note you blow, a minus makes it a draw note. Each \`=\` holds the note before it for one more beat.

\`\`\`tab
id: window-seat
title: The window seat
slot: 1/4

5 6 -5 = | -4 5 4 . | -4 -5 5 -4 | 5 -4 4 = |]
\`\`\`

Play it slowly, and let the last note of each line ring to its end.
`;

/** A lesson to be written: its front matter, and a comment in place of its text, which no page shows. */
export function starterLesson(title: string, { stage, requires, order, draft }: LessonPlacing): string {
  const lines = [
    `title: ${yamlText(title)}`,
    '# summary: One sentence, for lists and search engines.',
    ...(stage === undefined ? [] : [`stage: ${yamlText(stage)}`]),
    ...(requires === undefined ? [] : [`requires: ${yamlText(requires)}`]),
    ...(order === undefined ? [] : [`order: ${order}`]),
    '# minutes: 15',
    ...(draft ? ['draft: true'] : []),
  ];
  return `---\n${lines.join('\n')}\n---\n\n{/* The lesson goes here: Markdown, with its music in tab blocks. */}\n`;
}

/** Where a new lesson is on the path, as its front matter says it. */
export interface LessonPlacing {
  readonly stage: string | undefined;
  /** The lesson before it. */
  readonly requires: string | undefined;
  readonly order: number | undefined;
  readonly draft: boolean;
}
