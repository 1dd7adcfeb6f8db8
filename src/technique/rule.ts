/**
 * The vocabulary in which a technique says how it is found in a score. A rule is data: what the block is, what one note
 * is, what the note after it is, and what is between the two. Everything a rule names has to hold at once.
 * Each word carries its meaning here, and the author's reference is printed from it.
 */
import type { z } from 'zod';
import { byShape, keys, matching, number, oneOrMore, text, word, yesOrNo } from '../document/schema.ts';

import { CHORD_KINDS } from '../harmony/chord.ts';
import { MARK_NAMES } from '../score/mark.ts';
import { rangeSchema } from './range.ts';

const breath = word(['blow', 'draw']);
const mouth = word(['lips', 'tongue']);

/** What one note can be asked to be. */
export const noteSchema = keys({
  breath: breath.optional().describe('blow or draw'),
  hole: rangeSchema.optional().describe('the hole, counted from the low end; of several holes at once, any of them'),
  bend: rangeSchema.optional().describe('half steps bent down; 0 for none, 0.5 for a quarter step'),
  overbend: yesOrNo.optional().describe('an overblow (with breath: blow) or an overdraw (with breath: draw)'),
  slide: yesOrNo.optional().describe('the slide pressed'),
  holes: rangeSchema.optional().describe('how many holes sound at once'),
  span: rangeSchema.optional().describe('holes from the lowest that sounds to the highest, both counted: 4 for (1 4)'),
  split: yesOrNo.optional().describe('whether a hole between two that sound is blocked off'),
  octave: yesOrNo.optional().describe('whether the lowest and the highest note are an octave apart'),
  mouth: mouth.optional().describe('the embouchure: lips or tongue'),
  mark: oneOrMore(word(MARK_NAMES))
    .optional()
    .describe(`a mark of the note: ${MARK_NAMES.join(', ')}`),
  attacked: yesOrNo
    .optional()
    .describe('whether the note has an attack of its own, not glided into from the one before'),
  role: oneOrMore(
    matching(/^(?:(?:R|[b#]?(?:[2-7]|9|11|13))q?|n[2367])$/, 'is a role: R, b3, n3, 3, 5, b7 and the like'),
  )
    .optional()
    .describe(
      'what the note is to the chord that sounds: R, b3, 3, 4, b5, 5, 6, b7 …, n3 for the neutral third, 5q for a quarter step below the fifth',
    ),
  'chord-tone': yesOrNo.optional().describe('whether the note is one of the tones of the chord that sounds'),
  chord: oneOrMore(text).optional().describe('the chord that sounds, as a numeral of the key: I7, IV7 …'),
  'chord-kind': oneOrMore(word(CHORD_KINDS))
    .optional()
    .describe(
      'the kind of chord that sounds: major (or a major seventh), minor, dominant (a major third and a minor seventh), diminished (a minor third and a flat fifth), augmented, or other',
    ),
  seconds: rangeSchema.optional().describe('how long the note sounds at the tempo of the block, ties counted'),
  beats: rangeSchema.optional().describe('how long the note sounds in beats, ties counted'),
  length: rangeSchema.optional().describe('how long the note sounds as a part of a whole note: 1/16, ties counted'),
  triplet: yesOrNo.optional().describe('whether the note belongs to a beat in three in a meter that counts in twos'),
  'off-beat': yesOrNo.optional().describe('whether the note begins between two beats'),
  'held-over': yesOrNo.optional().describe('whether it begins between two beats and sounds on into the next one'),
});

/** What the step from one note to the next can be asked to be. */
export const betweenSchema = keys({
  breath: word(['same', 'changes']).optional().describe('whether the breath turns round from one note to the next'),
  mouth: word(['same', 'changes']).optional().describe('whether the embouchure is switched'),
  hole: word(['same', 'changes']).optional().describe('whether the lowest hole stays'),
  chord: word(['same', 'changes']).optional().describe('whether the harmony changes'),
  pitch: word(['up', 'down', 'same']).optional().describe('where the lowest pitch goes'),
  jump: rangeSchema
    .optional()
    .describe(
      'how many holes the mouth moves; where several sound at once, the less of what the lowest and the highest move',
    ),
  glide: yesOrNo.optional().describe('whether the first note moves into the second on one breath with no new attack'),
  rest: yesOrNo.optional().describe('whether a rest is between the two'),
  beats: rangeSchema.optional().describe('beats from the beginning of the one to the beginning of the other'),
  seconds: rangeSchema
    .optional()
    .describe('the same in seconds, at the tempo of the block, as written: swing is left out'),
  'notes-per-second': rangeSchema.optional().describe('how many notes a second that pace makes'),
});

/** What a whole block can be asked to be. */
export const blockSchema = keys({
  position: rangeSchema.optional().describe('the position the harp is played in, 1 to 12'),
  form: oneOrMore(text).optional().describe('the named form the block is played over'),
  meter: oneOrMore(matching(/^\d{1,2}\/(?:2|4|8|16)$/, 'is a meter such as 12/8'))
    .optional()
    .describe('the meter: 3/4, 12/8'),
  feel: oneOrMore(word(['straight', 'shuffle', 'ratio']))
    .optional()
    .describe('straight, shuffle, or a ratio of its own'),
  tempo: rangeSchema.optional().describe('the tempo, as the block gives it'),
  tuning: oneOrMore(text).optional().describe('the tuning of the harp'),
  pickup: yesOrNo.optional().describe('whether the block begins with a pickup'),
  'form-bar': rangeSchema
    .optional()
    .describe('a bar of its form that the block plays, counted from 1; of several, any of them'),
  'form-bar-step': oneOrMore(matching(/^[b#]?(?:VII|VI|V|IV|III|II|I)$/, 'is a step: I, IV, V, bVI'))
    .optional()
    .describe('with form-bar: the step of a chord that sounds in that bar, major or minor: IV, V'),
  compound: yesOrNo.optional().describe('whether the beats divide in three, as in 6/8, 9/8 and 12/8'),
  repeats: yesOrNo.optional().describe('whether bars are repeated'),
});

/** The keys of a rule. */
export const ruleShape = {
  block: blockSchema.optional().describe('what the whole block is; a rule of nothing else finds the block as a whole'),
  note: noteSchema.optional().describe('what one note, or several holes on one breath, is'),
  next: noteSchema.optional().describe('what the very next note is'),
  between: betweenSchema.optional().describe('what is between a note and the very next one'),
  run: number(2, 999)
    .optional()
    .describe('how many such notes in a row it takes at least; `between` holds for each step'),
  turns: number(1, 999).optional().describe('with run: how often the breath turns round within it at least'),
};

const SAYS_NOTHING = 'has at least one of block, note, next and between';
const says = (rule: object): boolean => ['block', 'note', 'next', 'between'].some((key) => key in rule);

const plainRuleSchema = keys(ruleShape)
  .refine(says, SAYS_NOTHING)
  .refine(
    (rule) => !('run' in rule && 'next' in rule),
    'has run and next, which do not go together: say with note what each note is',
  )
  .refine(
    (rule) => !('turns' in rule && !('run' in rule)),
    'has turns without run: say how many notes in a row it takes',
  );

const anySchema = keys({
  any: oneOrMore(plainRuleSchema).describe('several rules, of which one is enough'),
});

export type PlainRule = z.output<typeof plainRuleSchema>;
/** One rule, or several of which one has to fit. */
export type Rule = PlainRule | { readonly any: readonly PlainRule[] };
type PlainRuleInput = z.input<typeof plainRuleSchema>;
export type RuleInput = PlainRuleInput | { readonly any: readonly PlainRuleInput[] };

/** A rule in YAML. */
export const ruleSchema = byShape<z.ZodType<Rule, RuleInput>>((value) =>
  typeof value === 'object' && value !== null && 'any' in value ? anySchema : plainRuleSchema,
);

export type NoteRule = z.output<typeof noteSchema>;
export type BetweenRule = z.output<typeof betweenSchema>;
export type BlockRule = z.output<typeof blockSchema>;
