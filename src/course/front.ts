/** What course.yaml and the front matter of a lesson may say. Only the title is required in either. */
import { z } from 'zod';
import type { Severity } from '../diagnostics/diagnostic.ts';
import { FORMS, type Form, readForm } from '../harmony/form.ts';
import { readTuning } from '../instrument/reeds.ts';
import { CONCERT_A, CONCERT_A_RANGE, EQUAL, TEMPERAMENTS, type Temperament } from '../instrument/temperament.ts';
import { TUNINGS, type Tuning } from '../instrument/tuning.ts';
import type { Settings } from '../notation/settings.ts';
import { readSetting, SETTING_KEYS, type SettingKey, type Tables } from '../notation/values.ts';
import { clipSchema, type FrontClip } from './clips.ts';
import { groups, id, isId, keys, list, number, refuse, shown, text, word, yesOrNo } from './schema.ts';

export interface Stage {
  readonly id: string;
  readonly title: string;
  readonly summary?: string | undefined;
}

/** Silences one kind of finding in its lesson. */
export interface Allow {
  readonly code: string;
  readonly reason: string;
}

export interface CourseFile {
  readonly title: string;
  readonly summary?: string | undefined;
  readonly teacher?: string | undefined;
  /** A language tag, for the pages' `lang`. */
  readonly language: string;
  /** Where the site will stand, for absolute links. */
  readonly url?: string | undefined;
  /** One line for the foot of every page. */
  readonly licence?: string | undefined;
  /** Shown before the student begins. */
  readonly cautions: readonly string[];
  readonly stages: readonly Stage[];
  /** The frequency of A4 and how the reeds are tuned, wherever a frequency is told or sounded. */
  readonly concertA: number;
  readonly temperament: Temperament;
  /** The course's own, beside those that ship. */
  readonly tunings: readonly Tuning[];
  readonly forms: readonly Form[];
  /** Findings made louder or quieter than they are by themselves. */
  readonly severity: ReadonlyMap<string, Severity | 'off'>;
  readonly settings: Partial<Settings>;
}

export interface LessonFront {
  readonly title: string;
  readonly summary?: string | undefined;
  /** The id of a stage; a lesson of none stands before all of them. */
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
  readonly allow: readonly Allow[];
  /** Recordings, by the names that place them in the text. */
  readonly clips: Readonly<Record<string, FrontClip>>;
  readonly settings: Partial<Settings>;
}

/** The settings, in the words a block's header takes. */
const settingShape = (tables: Tables) =>
  Object.fromEntries(SETTING_KEYS.map((key) => [key, setting(key, tables).optional()])) as {
    [Key in SettingKey]: z.ZodOptional<ReturnType<typeof setting>>;
  };

const setting = (key: SettingKey, tables: Tables) =>
  text.transform((written, context): Partial<Settings> => {
    const read = readSetting(key, written, tables);
    return 'value' in read ? read.value : refuse(context, read.message, { help: read.help, whole: true });
  });

type SettingsRead = { readonly [Key in SettingKey]?: Partial<Settings> | undefined };
const gather = (read: SettingsRead): Partial<Settings> => Object.assign({}, ...SETTING_KEYS.map((key) => read[key]));

const oneProgression = (read: SettingsRead, context: z.RefinementCtx): void => {
  if (read.form === undefined || read.chords === undefined) return;
  context.addIssue({
    code: 'custom',
    path: ['chords'],
    message: 'Chords are listed here, and a form is named as well.',
    params: { help: 'Keep either form or chords.', whole: true },
  });
};

export const lessonSchema = (tables: Tables) =>
  keys({
    title: text,
    summary: text.optional(),
    stage: text.optional(),
    requires: list(text),
    teaches: list(text),
    minutes: number(1, 600).optional(),
    draft: yesOrNo.optional(),
    order: number(-1_000_000, 1_000_000, false).optional(),
    allow: groups({ code: text, reason: text }),
    clips: named(clipSchema),
    ...settingShape(tables),
  })
    .superRefine(oneProgression)
    .transform((read): LessonFront => {
      const { title, summary, stage, requires, teaches, minutes, draft = false, order, allow, clips } = read;
      return { title, summary, stage, requires, teaches, minutes, draft, order, allow, clips, settings: gather(read) };
    });

/** `name: value` lines whose names are the author's. */
const named = <Value extends z.ZodType>(value: Value, taken: readonly { readonly id: string }[] = []) =>
  z.preprocess(
    (written) => written ?? {},
    z
      .record(z.string(), value, {
        error: ({ input }) => `is a group of “name: …” lines${Array.isArray(input) ? ', without dashes' : ''}`,
      })
      .superRefine((record, context) => {
        for (const name of Object.keys(record)) {
          const refused = !isId(name)
            ? 'is no name: it is made of letters, digits and hyphens'
            : taken.some((one) => one.id === name) && 'is the name of one that is there already';
          if (refused) context.addIssue({ code: 'custom', path: [name], message: refused, params: { key: true } });
        }
      }),
  );

const form = text.transform((written, context): string => {
  const read = readForm(written);
  if ('bars' in read) return written;
  const what = read.bad === '' ? 'has an empty bar' : `has “${shown(read.bad)}” in it, which is no chord symbol`;
  return refuse(context, what, { help: 'Write bars divided by | with chords in each: I7 | V7 IV7 | I7' });
});

const reeds = z.union([text, z.array(text)], { error: () => 'is a row of notes, such as C E G C' });

const tuning = keys({
  title: text.optional(),
  blow: reeds,
  draw: reeds,
  key: text.optional(),
  slide: yesOrNo.optional(),
  valves: yesOrNo.optional(),
}).transform((written, context): Tuning => {
  const read = readTuning({ id: 'own', ...written });
  if ('tuning' in read) return read.tuning;
  for (const { field, message, help } of read.faults) {
    context.addIssue({ code: 'custom', path: [field], message, params: { help, whole: true } });
  }
  return z.NEVER;
});

const language = text.refine(
  (written) => {
    try {
      return Intl.getCanonicalLocales(written).length === 1;
    } catch {
      return false;
    }
  },
  { error: () => 'is a language tag, such as en, en-GB or de' },
);

const webAddress = text.refine((written) => /^https?:$/.test(URL.parse(written)?.protocol ?? ''), {
  error: () => 'is a web address that begins with https://',
});

export const courseSchema = (tables: Tables) =>
  keys({
    title: text,
    summary: text.optional(),
    teacher: text.optional(),
    language: language.optional(),
    url: webAddress.optional(),
    licence: text.optional(),
    cautions: list(text),
    'concert-a': number(CONCERT_A_RANGE.from, CONCERT_A_RANGE.to, false).optional(),
    temperament: word(TEMPERAMENTS.map(({ id }) => id)).optional(),
    stages: groups({ id, title: text, summary: text.optional() }),
    tunings: named(tuning, TUNINGS),
    forms: named(form, FORMS),
    severity: named(word(['error', 'warning', 'hint', 'off'])),
    ...settingShape(tables),
  })
    .superRefine(oneProgression)
    .superRefine(({ stages }, context) => {
      for (const [index, stage] of stages.entries()) {
        if (stages.findIndex((one) => one.id === stage.id) === index) continue;
        context.addIssue({
          code: 'custom',
          path: ['stages', index, 'id'],
          message: 'is the id of another stage already',
        });
      }
    })
    .transform((read): CourseFile => {
      const { title, summary, teacher, language = 'en', url, licence, cautions, stages } = read;
      const tunings = Object.entries(read.tunings).map(([name, one]) => nameTuning(name, one));
      const forms = Object.entries(read.forms).map(([name, bars]) => nameForm(name, bars));
      const severity = new Map(Object.entries(read.severity));
      const settings = gather(read);
      const about = { title, summary, teacher, language, url, licence, cautions };
      const concertA = read['concert-a'] ?? CONCERT_A;
      const temperament = TEMPERAMENTS.find(({ id }) => id === read.temperament) ?? EQUAL;
      return { ...about, concertA, temperament, stages, tunings, forms, severity, settings };
    });

/** What settings are looked up in: the course's own tunings and forms, as far as they can be read, and those that ship. */
export function tablesOf(course: unknown): Tables {
  const record = (course ?? {}) as { readonly tunings?: unknown; readonly forms?: unknown };
  const tunings = sound(tuning, record.tunings).map(([name, one]) => nameTuning(name, one));
  const forms = sound(form, record.forms).map(([name, bars]) => nameForm(name, bars));
  return { tunings: [...TUNINGS, ...tunings], forms: [...FORMS, ...forms] };
}

/** Those entries of a record that fit their schema. */
function sound<Schema extends z.ZodType>(schema: Schema, record: unknown): [string, z.output<Schema>][] {
  if (typeof record !== 'object' || record === null) return [];
  return Object.entries(record).flatMap(([name, value]) => {
    const read = schema.safeParse(value);
    return read.success ? [[name, read.data] as [string, z.output<Schema>]] : [];
  });
}

const nameForm = (name: string, bars: string): Form => ({ id: name, title: titleOf(name), bars });
const nameTuning = (name: string, tuning: Tuning): Tuning => ({
  ...tuning,
  id: name,
  title: tuning.title === 'own' ? titleOf(name) : tuning.title,
});
const titleOf = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1).replaceAll(/[-_]/g, ' ');
