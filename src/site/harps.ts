/** The harps a course is played on: its tunings, and for each the keys and the lessons that use it. */
import { type Course, harpsOf, type Lesson } from '../course/course.ts';
import type { SongKey } from '../harmony/key.ts';
import type { Harp } from '../instrument/harp.ts';
import { keyNote } from '../instrument/harp.ts';
import { RICHTER, type Tuning } from '../instrument/tuning.ts';
import { harpInWords } from './in-words.ts';

/** A tuning that blocks of the course are written for. */
export interface UsedTuning {
  readonly tuning: Tuning;
  /** The harp its page shows first: the one most blocks are written for. */
  readonly harp: Harp;
  readonly lessons: readonly { readonly lesson: Lesson; readonly harps: readonly string[] }[];
}

/** Every page asks, and the answer is the same for all of a site. */
const answers = new WeakMap<readonly Lesson[], readonly UsedTuning[]>();

/** Every tuning the lessons use, in the order of the course's table of tunings. */
export function tuningsUsed(course: Course, lessons: readonly Lesson[]): readonly UsedTuning[] {
  const known = answers.get(lessons) ?? findTunings(course, lessons);
  answers.set(lessons, known);
  return known;
}

function findTunings(course: Course, lessons: readonly Lesson[]): readonly UsedTuning[] {
  return course.tunings.flatMap((tuning): UsedTuning[] => {
    const users = lessons.flatMap((lesson) => {
      const harps = harpsOf(lesson).filter((harp) => harp.tuning.id === tuning.id);
      return harps.length > 0 ? [{ lesson, harps }] : [];
    });
    const harp = mostUsed(users.flatMap(({ harps }) => harps));
    if (!harp) return [];
    const named = users.map(({ lesson, harps }) => ({ lesson, harps: [...new Set(harps.map(keyName))] }));
    return [{ tuning, harp, lessons: named }];
  });
}

/** `low F`: the tuning goes without saying. */
const keyName = ({ key, register }: Harp): string => harpInWords({ key, register }, RICHTER);

/** Of those used equally often, the lowest. */
const mostUsed = (harps: readonly Harp[]): Harp | undefined =>
  byUse(
    [...harps].sort((a, b) => keyNote(a) - keyNote(b)),
    keyName,
  )[0];

/** Each of them once, the most used first, and of those used equally often the first. */
export function byUse<Thing>(things: readonly Thing[], nameOf: (thing: Thing) => string | number): readonly Thing[] {
  const alike = [...Map.groupBy(things, nameOf).values()];
  return alike.sort((a, b) => b.length - a.length).flatMap(([first]) => first ?? []);
}

/** Whether a lesson has music, and none of it is for a tuning. */
export function isOfOtherTunings(lesson: Lesson, tuning: Tuning): boolean {
  const harps = harpsOf(lesson);
  return harps.length > 0 && harps.every((harp) => harp.tuning.id !== tuning.id);
}

/** Every harp that blocks of these lessons are written for, the most used first. */
export const harpsPlayed = (lessons: readonly Lesson[]): readonly Harp[] =>
  byUse(
    lessons.flatMap(({ blocks }) => blocks.flatMap(({ score }) => score?.harp ?? [])),
    (harp) => harpInWords(harp, harp.tuning),
  );

/** Every position a lesson's blocks are played in, the most used first. */
export const positionsPlayed = ({ blocks }: Lesson): readonly number[] =>
  byUse(
    blocks.flatMap(({ score }) => [...new Set(score?.bars.map(({ position }) => position))]),
    (position) => position,
  );

/** What a block's key is on any harp: it follows the harp, its position and its mode do not. */
export interface PlayedKey {
  readonly position: number;
  readonly mode: SongKey['mode'];
}

/** Every position and mode a lesson's blocks are played in, the most used first. */
export const keysPlayed = ({ blocks }: Lesson): readonly PlayedKey[] =>
  byUse(
    blocks.flatMap(({ score }) => {
      const keys = score?.bars.map(({ position, key }) => ({ position, mode: key.mode })) ?? [];
      return [...new Map(keys.map((own) => [`${own.position} ${own.mode}`, own])).values()];
    }),
    ({ position, mode }) => `${position} ${mode}`,
  );

/** Below the site's base. */
export const harpPath = (tuning: Tuning): string => `harps/${tuning.id}/`;
