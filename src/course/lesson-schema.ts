/** What the front matter of a lesson may say. Only the title is required. */
import { groups, keys, list, matching, namedValues, names, number, text, yesOrNo } from '../document/schema.ts';
import type { Tables } from '../notation/setting-values.ts';
import type { Settings } from '../notation/settings.ts';
import { clipSchema, type FrontMatterClip } from './clips/clip-schema.ts';
import { mergeSettings, oneProgression, settingShape } from './setting-schema.ts';

/** Silences one kind of finding in its lesson. */
export interface Allow {
  readonly code: string;
  readonly reason: string;
}

/** The front matter of a lesson. */
export interface LessonFrontMatter {
  readonly title: string;
  readonly summary?: string | undefined;
  /** The id of a stage; a lesson of none is before all of them. */
  readonly stage?: string | undefined;
  /** Ids of lessons. */
  readonly requires: readonly string[];
  /** Ids of techniques. */
  readonly teaches: readonly string[];
  /** How long a student will need, roughly. */
  readonly minutes?: number | undefined;
  /** Checked like any lesson, and not published. */
  readonly draft: boolean;
  /** Settles the order among lessons that the path leaves free. */
  readonly order?: number | undefined;
  /** Names it had before. */
  readonly formerly: readonly string[];
  readonly allow: readonly Allow[];
  /** Recordings, by the names that place them in the text. */
  readonly clips: Readonly<Record<string, FrontMatterClip>>;
  readonly settings: Partial<Settings>;
}

/** What the name of a lesson is made of, with the folders it is in. */
export const LESSON_NAME = /^[A-Za-z0-9][A-Za-z0-9_-]*(?:\/[A-Za-z0-9][A-Za-z0-9_-]*)*$/;
const formerLesson = matching(LESSON_NAME, 'is a list of names that this lesson had before, such as first-bends');

const MINUTES = ['min', 'mins', 'minute', 'minutes', 'minuten', 'm'];

/** The schema of a lesson's front matter, with the names that the given tables know. */
export const lessonSchema = (tables: Tables) =>
  keys({
    title: text,
    summary: text.optional(),
    stage: text.optional(),
    requires: names(text),
    teaches: names(text),
    minutes: number(1, 600, true, MINUTES).optional(),
    draft: yesOrNo.optional(),
    order: number(-1_000_000, 1_000_000, false).optional(),
    formerly: list(formerLesson),
    allow: groups({ code: text, reason: text }),
    clips: namedValues(clipSchema),
    ...settingShape(tables),
  })
    .superRefine(oneProgression)
    .transform((read): LessonFrontMatter => {
      const { title, summary, stage, requires, teaches, minutes, draft = false, order, formerly, allow, clips } = read;
      return {
        title,
        summary,
        stage,
        requires,
        teaches,
        minutes,
        draft,
        order,
        formerly,
        allow,
        clips,
        settings: mergeSettings(read),
      };
    });
