/** The pages of the course's techniques. */
export const TECHNIQUES = {
  techniques: 'Techniques',
  description: 'What this course teaches, by technique.',
  about:
    'What the lessons teach and their blocks take. Each has a page with every block that uses it, the easiest first.',
  taughtInLesson: 'Taught in {lesson}',
  inBlocks: { one: 'in {count} block', other: 'in {count} blocks' },
  taughtIn: 'Taught in',
  buildsOn: 'Builds on',
  kindOf: 'A kind of',
  whereItIsPlayed: 'Where it is played',
  easiestFirst: 'The easiest block first.',
  notesMarked: 'The notes that take it are marked.',
  blockNumbered: '{lesson}, block {number}',
  difficulty: 'Difficulty {level} of 10',
  places: { one: '{count} place', other: '{count} places' },
  unseen: 'No score shows it: it lives in how you sit, hold and breathe.',
  unused: 'No block of {lessons} uses it.',
  unusedInCourse: 'No block of the course uses it.',
} as const;

/** What the groups of techniques are called. */
export const TECHNIQUE_GROUPS = {
  tone: 'Tone',
  mouth: 'The mouth',
  breath: 'The breath',
  reach: 'Getting about',
  bends: 'Bends',
  overbends: 'Overbends',
  ornament: 'Ornament',
  time: 'Time',
  harmony: 'Harmony',
} as const;
