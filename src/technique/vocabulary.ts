/** The words of techniques.yaml with what each means, for the author's reference: read off the schemas themselves. */
import { z } from 'zod';
import { betweenSchema, blockSchema, noteSchema, ruleShape } from './rule.ts';
import { courseTechniqueSchema, techniquesFileSchema } from './technique.ts';

/** The words of one subject, for the reference. */
export interface WordList {
  readonly title: string;
  readonly about: string;
  readonly words: readonly (readonly [word: string, meaning: string])[];
}

const wordsOf = (shape: Readonly<Record<string, z.ZodType>>): [string, string][] =>
  Object.entries(shape).map(([word, schema]) => [word, sentence(meaningOf(schema) ?? '')]);

/** A schema is described before it is made optional. */
const meaningOf = (schema: z.ZodType): string | undefined =>
  schema.description ??
  (schema instanceof z.ZodOptional ? z.globalRegistry.get(schema.unwrap())?.description : undefined);

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

/** The reference of `techniques.yaml`, made from its schema. */
export const VOCABULARY: readonly WordList[] = [
  {
    title: 'techniques.yaml',
    about: 'The file is beside course.yaml.',
    words: wordsOf(techniquesFileSchema.shape),
  },
  {
    title: 'a technique',
    about:
      'Each begins with a dash and its id. Of one that ships with Reedway only what changes is written; a new one needs title, about, group and find.',
    words: wordsOf(courseTechniqueSchema.shape),
  },
  {
    title: 'find',
    about:
      'A rule holds where everything it names holds. A number is written as 3, as [2, 3], as "1-4", or as { least: 2, most: 4 }, where below leaves its limit out.',
    words: [...wordsOf(ruleShape), ['any', 'Several rules, of which one is enough; it is alone.']],
  },
  { title: 'block', about: 'What the whole block is.', words: wordsOf(blockSchema.shape) },
  {
    title: 'note and next',
    about: 'What one note is. A note held over a bar line is one note.',
    words: wordsOf(noteSchema.shape),
  },
  { title: 'between', about: 'What is between a note and the very next one.', words: wordsOf(betweenSchema.shape) },
];
