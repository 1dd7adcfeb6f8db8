/** A technique: something a lesson teaches and a score needs. Data, from the catalogue or from a course's `techniques.yaml`. */
import { z } from 'zod';
import { byShape, groups, keys, list, matching, names, text, word, yesOrNo } from '../document/schema.ts';
import { type Rule, type RuleInput, ruleSchema } from './rule.ts';

/** The groups of the list of techniques, in its order. */
export const GROUPS = [
  'tone',
  'mouth',
  'breath',
  'reach',
  'bends',
  'overbends',
  'ornament',
  'time',
  'harmony',
] as const;
/** One of {@link GROUPS}. */
export type Group = (typeof GROUPS)[number];

/** Small letters and digits, words joined by hyphens. */
export const ID = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;
const id = matching(ID, 'is an id: small letters, digits and single hyphens');

/** Something a player can do, and the rule that finds it in a block. */
export interface Technique {
  readonly id: string;
  readonly title: string;
  /** What it is, for the student. */
  readonly about: string;
  readonly group: Group;
  /** Techniques to have before this one. */
  readonly requires: readonly string[];
  /** Wider techniques this is a kind of: a student who was taught one of them, or this, can play what both are found in. */
  readonly kindOf: readonly string[];
  readonly cautions: readonly string[];
  /** What a student is assumed to know: missed only where the course does teach it, and teaches it too late. */
  readonly assumed: boolean;
  /** `not-in-score` for what no score shows: how to sit, how to hold the harp. */
  readonly find: Rule | 'not-in-score';
  /** Ids it had before, by which its page is still found. */
  readonly formerly?: readonly string[];
}

const findSchema = byShape<z.ZodType<Rule | 'not-in-score', RuleInput | 'not-in-score'>>((value) =>
  typeof value === 'string'
    ? z.literal('not-in-score', { error: () => 'is a rule, or the word not-in-score' })
    : ruleSchema,
);

const fields = {
  title: text.describe('as a player calls it'),
  about: text.describe('what it is, in a sentence or two for the student'),
  group: word(GROUPS).describe(`the family it is listed under: ${GROUPS.join(', ')}`),
  requires: names(id).describe('techniques to have before this one'),
  'kind-of': names(id).describe(
    'wider techniques this is a kind of: to be taught one of them is to be taught this, unless a lesson teaches this by name',
  ),
  cautions: list(text).describe('what to take care of; shown wherever the technique is taught'),
  assumed: yesOrNo.describe('what a student is assumed to know, unless the course teaches it'),
  find: findSchema.describe('the rule that finds it in a score, or `not-in-score` for what no score shows'),
};

/** One technique as it is written, complete. */
export const techniqueSchema = keys({
  id,
  title: fields.title,
  about: fields.about,
  group: fields.group,
  requires: fields.requires.optional(),
  'kind-of': fields['kind-of'].optional(),
  cautions: fields.cautions.optional(),
  assumed: fields.assumed.optional(),
  find: fields.find,
});

const courseTechniqueShape = {
  id: id.describe('small letters, digits and hyphens; lessons name it in `teaches`'),
  ...z.object(fields).partial().shape,
  formerly: list(id).optional().describe('ids it had before, so that old addresses still lead to it'),
};
/** One technique of a course: new, or a shipped one of which only what changes is written. */
export const courseTechniqueSchema = keys(courseTechniqueShape);

/** The file `techniques.yaml` of a course. */
export const techniquesFileSchema = keys({
  catalogue: word(['extend', 'replace'])
    .default('extend')
    .describe('whether the techniques below add to the shipped ones or are alone'),
  techniques: groups(courseTechniqueShape).describe('the techniques of this course'),
});

export type TechniqueInput = z.input<typeof techniqueSchema>;
export type TechniquesFile = z.output<typeof techniquesFileSchema>;

/** A technique from its validated entry in a file. */
export const techniqueOf = (
  written: z.output<typeof techniqueSchema> & { readonly formerly?: readonly string[] | undefined },
): Technique => ({
  id: written.id,
  title: written.title,
  about: written.about,
  group: written.group,
  requires: written.requires ?? [],
  kindOf: written['kind-of'] ?? [],
  cautions: written.cautions ?? [],
  assumed: written.assumed ?? false,
  find: written.find,
  ...(written.formerly && written.formerly.length > 0 ? { formerly: written.formerly } : {}),
});
