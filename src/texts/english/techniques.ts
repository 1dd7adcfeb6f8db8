/** The pages of the course's techniques. */
export const TECHNIQUES = {
  description: 'What this course teaches, by technique.',
  about:
    'What the lessons teach and what their blocks use. Each technique has a page with every block that uses it, the easiest first.',
  taughtInLesson: 'Taught in {lesson}',
  inBlocks: { one: 'in {count} block', other: 'in {count} blocks' },
  taughtIn: 'Taught in',
  buildsOn: 'Builds on',
  kindOf: 'A kind of',
  whereItIsPlayed: 'Where it is played',
  easiestFirst: 'The easiest block comes first.',
  notesMarked: 'The notes that use it are marked.',
  blockNumbered: '{lesson}, block {number}',
  places: { one: '{count} place', other: '{count} places' },
  unseen: 'It cannot be seen in a score: it is about how you sit, hold the harp and breathe.',
  unused: 'No block of {lessons} uses it.',
  unusedInCourse: 'No block of the course uses it.',
} as const;

/** What the groups of techniques are called. */
export const TECHNIQUE_GROUPS = {
  tone: 'Tone',
  mouth: 'Mouth',
  breath: 'Breath',
  reach: 'Moving between holes',
  bends: 'Bends',
  overbends: 'Overbends',
  ornament: 'Ornament',
  time: 'Time',
  harmony: 'Harmony',
} as const;
