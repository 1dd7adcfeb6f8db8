/** What course.yaml may say. Only the title is required. */
import { z } from 'zod';
import type { Severity } from '../diagnostics/diagnostic.ts';
import { excerpt } from '../diagnostics/excerpt.ts';
import { groups, id, keys, list, namedValues, number, refuse, text, word, yesOrNo } from '../document/schema.ts';
import { fieldOf } from '../document/unknown.ts';
import { FORMS, type Form, readForm } from '../harmony/form.ts';
import { chordHelp } from '../harmony/symbol-help.ts';
import { readTuning } from '../instrument/read-tuning.ts';
import { CONCERT_A, CONCERT_A_RANGE, EQUAL, TEMPERAMENTS, type Temperament } from '../instrument/temperament.ts';
import { TUNINGS, type Tuning } from '../instrument/tuning.ts';
import type { Tables } from '../notation/setting-values.ts';
import type { Settings } from '../notation/settings.ts';
import { mergeSettings, oneProgression, settingShape } from './setting-schema.ts';

/** A named section of the path. */
export interface Stage {
  readonly id: string;
  readonly title: string;
  readonly summary?: string | undefined;
  /** Ids it had before. */
  readonly formerly: readonly string[];
}

/** What `course.yaml` says, with its defaults filled in. */
export interface CourseFile {
  readonly title: string;
  readonly summary?: string | undefined;
  readonly teacher?: string | undefined;
  /** A language tag, for the pages' `lang`. */
  readonly language: string;
  /** Where the site will be, for absolute links. */
  readonly url?: string | undefined;
  /** One line for the foot of every page. */
  readonly licence?: string | undefined;
  /** Shown before the student begins. */
  readonly cautions: readonly string[];
  readonly stages: readonly Stage[];
  /** The frequency of A4 and how the reeds are tuned, wherever a frequency is shown or sounded. */
  readonly concertA: number;
  readonly temperament: Temperament;
  /** The course's own, beside those that ship. */
  readonly tunings: readonly Tuning[];
  readonly forms: readonly Form[];
  /** Findings with a changed severity. */
  readonly severity: ReadonlyMap<string, Severity | 'off'>;
  readonly settings: Partial<Settings>;
}

const form = text.transform((written, context): string => {
  const read = readForm(written);
  if ('bars' in read) return written;
  const what = read.bad === '' ? 'has an empty bar' : `has “${excerpt(read.bad)}” in it, which is no chord symbol`;
  return refuse(context, what, {
    help: chordHelp(read.bad) ?? 'Write bars divided by | with chords in each: I7 | V7 IV7 | I7',
  });
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

const LANGUAGES = new Intl.DisplayNames(['en'], { type: 'language', fallback: 'none' });

const language = text.refine(
  (written) => {
    try {
      // A word such as english has the form of a tag, and no language has it.
      return Intl.getCanonicalLocales(written).length === 1 && LANGUAGES.of(written) !== undefined;
    } catch {
      return false;
    }
  },
  { error: () => 'is a language tag, such as en, en-GB or de' },
);

const webAddress = text.refine((written) => /^https?:$/.test(URL.parse(written)?.protocol ?? ''), {
  error: () => 'is a web address that begins with https://',
});

/** The schema of course.yaml, with the names that the given tables know. */
export const courseSchema = (tables: Tables) =>
  keys({
    title: text,
    summary: text.optional(),
    teacher: text.optional(),
    language: language.optional(),
    url: webAddress.optional(),
    licence: text.optional(),
    cautions: list(text),
    'concert-a': number(CONCERT_A_RANGE.from, CONCERT_A_RANGE.to, false, ['hz', 'hertz']).optional(),
    temperament: word(TEMPERAMENTS.map(({ id }) => id)).optional(),
    stages: groups({ id, title: text, summary: text.optional(), formerly: list(id) }),
    tunings: namedValues(tuning, TUNINGS),
    forms: namedValues(form, FORMS),
    severity: namedValues(word(['error', 'warning', 'hint', 'off'])),
    ...settingShape(tables),
  })
    .superRefine(oneProgression)
    .superRefine(({ key }, context) => {
      if (key?.key?.tonic === undefined) return;
      context.addIssue({
        code: 'custom',
        path: ['key'],
        message: 'A course names the mode of its songs and no tonic, which follows from each harp and position.',
        params: { help: `Write ${key.key.mode}.`, whole: true },
      });
    })
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
      const settings = mergeSettings(read);
      const about = { title, summary, teacher, language, url, licence, cautions };
      const concertA = read['concert-a'] ?? CONCERT_A;
      const temperament = TEMPERAMENTS.find(({ id }) => id === read.temperament) ?? EQUAL;
      return { ...about, concertA, temperament, stages, tunings, forms, severity, settings };
    });

/** What settings are looked up in: the course's own tunings and forms, as far as they can be read, and those that ship. */
export function tablesOf(course: unknown): Tables {
  const tunings = sound(tuning, fieldOf(course, 'tunings')).map(([name, one]) => nameTuning(name, one));
  const forms = sound(form, fieldOf(course, 'forms')).map(([name, bars]) => nameForm(name, bars));
  return { tunings: [...TUNINGS, ...tunings], forms: [...FORMS, ...forms] };
}

/** Those entries of a record that fit their schema. */
function sound<Schema extends z.ZodType>(schema: Schema, record: unknown): [string, z.output<Schema>][] {
  if (typeof record !== 'object' || record === null) return [];
  return Object.entries(record).flatMap(([name, value]): [string, z.output<Schema>][] => {
    const read = schema.safeParse(value);
    return read.success ? [[name, read.data]] : [];
  });
}

const nameForm = (name: string, bars: string): Form => ({ id: name, title: titleOf(name), bars });
const nameTuning = (name: string, tuning: Tuning): Tuning => ({
  ...tuning,
  id: name,
  title: tuning.title === 'own' ? titleOf(name) : tuning.title,
});
const titleOf = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1).replaceAll(/[-_]/g, ' ');
