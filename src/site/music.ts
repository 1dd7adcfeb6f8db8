/** The music of a lesson as a file of the site, fetched only where a student plays another harp than the one it is written for, or saves a block. */
import type { LessonMusic } from '../browser/harp/music.ts';
import type { Course, Lesson } from '../course/course.ts';
import type { Inline } from '../engrave/inline/inline.ts';
import { blockParts } from './addresses.ts';
import { creditsOf } from './credits.ts';
import { headFacts } from './prose/head-facts.ts';

const FOLDER = 'music/';

/** Where a lesson's file is, below the base. */
export const musicPath = (lesson: Lesson): string => `${FOLDER}${lesson.id}.json`;

/** The lesson whose file a path below the base names. */
export const lessonOfMusic = (path: string, lessons: readonly Lesson[]): Lesson | undefined =>
  path.startsWith(FOLDER) ? lessons.find((lesson) => musicPath(lesson) === path) : undefined;

/** The JSON of a lesson's scores and of what is said of them; what has errors is left out. */
export function musicText(course: Course, lesson: Lesson): string {
  const scores = Object.fromEntries(
    lesson.blocks.flatMap((block) => {
      const { id, score } = block;
      return score ? [[id, { id: blockParts(id), score, credits: creditsOf(course, lesson, block) }]] : [];
    }),
  );
  const { harps, keys } = headFacts(lesson);
  const sentences = lesson.inlines.map(({ inline, follows }, index) => ({
    id: `${index}`,
    inline: follows ? inline : undefined,
  }));
  const music: LessonMusic = { scores, head: byPlace([...harps, ...keys]), said: byPlace(sentences) };
  return JSON.stringify(music);
}

const byPlace = (all: readonly { readonly id: string; readonly inline: Inline | undefined }[]): LessonMusic['said'] =>
  Object.fromEntries(all.flatMap(({ id, inline }) => (inline ? [[id, inline] as const] : [])));
