/**
 * What machines read about a course and its lessons, in schema.org's terms (Course, LearningResource; property names as
 * in its published vocabulary).
 */
import type { Lesson } from '../course/course.ts';
import { minutesAsDuration } from './in-words.ts';
import type { Placement } from './outline.ts';
import type { Site } from './site.ts';

const person = (name: string | undefined): object =>
  name === undefined ? {} : { author: { '@type': 'Person', name } };
const described = (text: string | undefined): object => (text === undefined ? {} : { description: text });
const located = (site: Site, address: string): object =>
  site.origin ? { url: new URL(address, site.origin).href } : {};

function courseFacts(site: Site): object {
  const { file } = site.course;
  return {
    '@type': 'Course',
    name: file.title,
    ...described(file.summary),
    ...located(site, site.addresses.page('')),
    inLanguage: file.language,
    ...person(file.teacher),
  };
}

/** The course as a schema.org Course, for a script element of type application/ld+json. */
export function courseMetadata(site: Site): object {
  const minutes = totalMinutes(site.lessons);
  return {
    '@context': 'https://schema.org',
    ...courseFacts(site),
    ...(minutes > 0 ? { timeRequired: minutesAsDuration(minutes) } : {}),
    hasPart: site.lessons.map((lesson, index) => ({
      '@type': 'LearningResource',
      name: lesson.frontMatter.title,
      position: index + 1,
      ...located(site, site.addresses.lesson(lesson.id)),
    })),
  };
}

/** A lesson as a schema.org LearningResource. */
export function lessonMetadata(site: Site, { lesson, number }: Placement): object {
  const { frontMatter } = lesson;
  const taught = frontMatter.teaches.flatMap((id) => site.course.repertoire.byId.get(id)?.title ?? []);
  const required = frontMatter.requires.flatMap((id) => site.course.byId.get(id)?.frontMatter.title ?? []);
  return {
    '@context': 'https://schema.org',
    '@type': 'LearningResource',
    name: frontMatter.title,
    ...described(frontMatter.summary),
    ...located(site, site.addresses.lesson(lesson.id)),
    learningResourceType: 'lesson',
    position: number,
    inLanguage: site.course.file.language,
    ...person(site.course.file.teacher),
    ...(frontMatter.minutes === undefined ? {} : { timeRequired: minutesAsDuration(frontMatter.minutes) }),
    ...(taught.length > 0 ? { teaches: taught } : {}),
    ...(required.length > 0 ? { competencyRequired: required } : {}),
    isPartOf: courseFacts(site),
  };
}

/** Minutes of all lessons together; a lesson that does not say counts as 0. */
export const totalMinutes = (lessons: readonly Lesson[]): number =>
  lessons.reduce((sum, { frontMatter }) => sum + (frontMatter.minutes ?? 0), 0);

/** JSON that can be in a script element: no text in it can end the element. */
export const inScript = (value: object): string => JSON.stringify(value).replaceAll('<', '\\u003c');
