/** What can be wrong with the path. What makes the site wrong is an error; what a teacher may have meant is a warning or a hint. */
import { type Catalogue, didYouMean, error, hint, type Near, warning } from '../diagnostics/catalogue.ts';
import { certainly, perhaps } from '../diagnostics/edit.ts';

/** A technique in a message: its title for the reader, its id for the file. */
interface Named {
  readonly id: string;
  readonly title: string;
}
const named = ({ id, title }: Named): string => `“${title}” (${id})`;
const quoted = (id: string): string => `“${id}”`;
const litres = (value: number): string => `${Math.round(value * 10) / 10}`;

export const PATH_PROBLEMS = {
  'requires-self': error<{ lesson: string }>({
    about: 'A lesson that requires itself could never be begun.',
    message: ({ lesson }) => `The lesson ${quoted(lesson)} requires itself.`,
    help: () => 'Remove this entry.',
  }),
  'path-cycle': error<{ steps: readonly { readonly lesson: string; readonly how: 'requires' | 'quotes' }[] }>({
    about: 'Lessons that need each other in a cycle have no first one, so no student could begin.',
    // Reported as the author wrote it: each lesson with what it needs next.
    message: ({ steps }) =>
      `These lessons need each other in a cycle: ${steps.map(({ lesson, how }) => `${quoted(lesson)} ${how} `).join('')}${quoted(steps[0]?.lesson ?? '')}.`,
    help: () => 'Remove one of these requirements or quotations.',
  }),
  'requires-draft': error<{ lesson: string }>({
    about: 'A draft is not published, so a published lesson that needs it would have a gap in its path.',
    message: ({ lesson }) => `The lesson ${quoted(lesson)} is a draft, so students cannot have done it.`,
    help: () => 'Remove draft: true there, or make this lesson a draft as well.',
  }),
  'quotes-draft': warning<{ lesson: string }>({
    about:
      'A published lesson quotes music of a draft: the music is shown and played, but students cannot open the lesson it comes from.',
    message: ({ lesson }) => `The lesson ${quoted(lesson)} is a draft, so students will not know what is quoted here.`,
    help: () => 'Remove draft: true there, make this lesson a draft as well, or write the music out here.',
  }),
  'teaches-unknown': error<Near & { id: string; certain?: boolean }>({
    about:
      'A lesson teaches techniques by their ids: those that ship with Reedway, and those of the course’s techniques.yaml.',
    message: ({ id }) => `There is no technique ${quoted(id)} to teach.`,
    help: (facts) =>
      didYouMean(facts) ?? 'The command reedway techniques lists those there are; techniques.yaml adds your own.',
    fix: ({ nearest, certain }, span) =>
      nearest === undefined ? undefined : certain ? certainly(span, nearest) : perhaps(span, nearest),
  }),
  'taught-twice': warning<{ technique: Named; first: string }>({
    about:
      'Two lessons teach the same thing for the first time, and neither comes after the other: one of them repeats what the student already knows, or names the wrong technique.',
    message: ({ technique, first }) =>
      `${named(technique)} is taught for the first time here, and in ${quoted(first)} as well.`,
    help: ({ first }) =>
      `Require ${quoted(first)} here if this continues from there, or teach it in one of the two only.`,
  }),
  'used-before-taught': warning<{ technique: Named; lesson: string; teacher: string; later: boolean }>({
    about: 'A block uses a technique that no lesson on the way to it has taught, though another lesson does.',
    message: ({ technique, lesson, teacher, later }) =>
      `${named(technique)} is used here, and no lesson on the way to ${quoted(lesson)} teaches it: ${quoted(teacher)} does, ${later ? 'which comes after it' : 'which it does not require'}.`,
    help: ({ lesson, teacher, later }) =>
      later
        ? `Play it another way here, or teach it in ${quoted(lesson)} or before.`
        : `Add ${quoted(teacher)} to what ${quoted(lesson)} requires, or teach it here.`,
  }),
  'never-taught': warning<{ technique: Named; more: readonly string[]; lesson: string }>({
    about:
      'A block uses a technique that no lesson of the course teaches. Where a lesson is the first to use many such, they are reported together, at the first of them.',
    message: ({ technique, more }) =>
      more.length === 0
        ? `${named(technique)} is used here, and no lesson of the course teaches it.`
        : `${named(technique)} is used here, and no lesson of the course teaches it, nor ${more.length} more that this lesson is the first to use: ${more.join(', ')}.`,
    help: ({ technique, more, lesson }) =>
      more.length === 0
        ? `Add ${technique.id} to what a lesson up to here teaches, or mark it as assumed: true in techniques.yaml.`
        : `Add them to what lessons up to here teach, or mark them as assumed: true in techniques.yaml; reedway techniques ${lesson} shows where each is used.`,
  }),
  'taught-unused': warning<{ technique: Named }>({
    about:
      'A lesson teaches a technique that none of its blocks uses, so the student never practises what was promised.',
    message: ({ technique }) => `${named(technique)} is taught here, and no block of this lesson uses it.`,
    help: () => 'Write a block that does, or remove this entry.',
  }),
  'taught-too-early': warning<{ technique: Named; needs: Named; teacher: string }>({
    about: 'A technique is taught before one that it builds on.',
    message: ({ technique, needs, teacher }) =>
      `${named(technique)} builds on ${named(needs)}, which no lesson on the way teaches: ${quoted(teacher)} does.`,
    help: ({ teacher }) => `Require ${quoted(teacher)} here, or change the order.`,
  }),
  'lesson-unreached': warning<{ first: string; last: string }>({
    about:
      'A lesson that requires and quotes nothing, and that no other lesson requires or quotes, is not connected to the course.',
    message: ({ first }) =>
      `Nothing leads to this lesson: it requires no other, and the course begins with ${quoted(first)}.`,
    help: ({ last }) => `Write a line requires: … with the lesson it comes after, such as requires: ${last}`,
  }),
  'requirement-implied': hint<{ lesson: string; through: string }>({
    about: 'A requirement that another one already implies says nothing new.',
    message: ({ lesson, through }) =>
      `${quoted(lesson)} is required by ${quoted(through)} already, which this lesson builds on.`,
    help: () => 'Remove this entry.',
  }),
  'named-twice': hint<{ id: string; key: string }>({
    about: 'An entry appears twice in one list.',
    message: ({ id, key }) => `${quoted(id)} is in ${key} twice.`,
    help: () => 'Remove one of the two.',
  }),
  'stage-contradicts': warning<{ lesson: string; stage: string; needed: string; neededStage: string }>({
    about:
      'A lesson needs one of a later stage, so the stages are not in the order in which they can be worked through.',
    message: ({ lesson, stage, needed, neededStage }) =>
      `${quoted(lesson)} is in the stage ${quoted(stage)}, and needs ${quoted(needed)} of the later stage ${quoted(neededStage)}.`,
    help: () => 'Move one of the two lessons to another stage, or remove the requirement.',
  }),
  'order-contradicts': warning<{ lesson: string; order: number; needed: string; neededOrder: number }>({
    about: 'The order a lesson asks for within its stage is not one in which it can be learnt.',
    message: ({ lesson, order, needed, neededOrder }) =>
      `${quoted(lesson)} is to come before ${quoted(needed)} (order ${order} and ${neededOrder}), and needs it.`,
    help: ({ neededOrder }) => `Give it an order above ${neededOrder}, or none.`,
  }),
  'difficulty-jump': hint<{ level: number; before: number; reason: string }>({
    about: 'The hardest block of a lesson is far harder than anything in the lessons it builds on.',
    message: ({ level, before, reason }) =>
      `This block comes out at ${level} of 10, and nothing on the way to this lesson is harder than ${before}. ${reason}`,
    help: () => 'A step in between, or a slower tempo, would help.',
  }),
  'long-breath': warning<{ breath: 'blow' | 'draw'; litres: number; seconds: number; oneWay: boolean }>({
    about:
      'The breath goes in one direction for too long to be comfortable. This is a rough estimate from the holes and the time.',
    message: ({ breath, seconds, oneWay, ...rest }) =>
      oneWay
        ? `Here the ${breath} continues for too long to be comfortable: about ${Math.round(seconds)} seconds without a turn, roughly ${litres(rest.litres)} litres of air.`
        : `Here there is far more ${breath} than ${breath === 'draw' ? 'blow' : 'draw'}: over about ${Math.round(seconds)} seconds it comes to roughly ${litres(rest.litres)} litres of air.`,
    help: ({ breath }) => `A rest or a ${breath === 'draw' ? 'blow' : 'draw'} note on the way gives relief.`,
  }),
} satisfies Catalogue;
