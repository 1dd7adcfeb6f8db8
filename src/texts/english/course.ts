/** The lessons of a course as a list, a map and a path. */
export const COURSE = {
  lessons: 'Lessons',
  stage: 'Stage {number}',
  stageTitled: 'Stage {number}: {title}',
  lessonCount: { one: '{count} lesson', other: '{count} lessons' },
  lessonNumbered: '{number}. {title}',
  after: 'after {lessons}',

  // The home page.
  teacher: 'with {teacher}',
  length: '{lessons}.',
  lengthInStages: '{lessons} in {stages}.',
  lengthInTime: '{lessons}, about {time}.',
  lengthInStagesAndTime: '{lessons} in {stages}, about {time}.',
  stageCount: { one: '{count} stage', other: '{count} stages' },
  harp: 'Written for a harp in {harps}.',
  harps: 'Written for harps in {harps}.',
  harpAndTunings: 'Written for a harp in {harps}, and for {tunings}.',
  harpsAndTunings: 'Written for harps in {harps}, and for {tunings}.',
  otherTunings: { one: '{count} other tuning', other: '{count} other tunings' },
  begin: 'Start with “{lesson}”',
  goOn: 'Continue with “{lesson}”',
  allDone: 'All lessons done. See the path',
  beforeYouBegin: 'Before you begin',

  // The path.
  pathDescription: 'How the lessons of this course build on each other, and which are open to you.',
  pathAbout:
    'Each lesson is below the lessons it builds on. Where the path branches, take either branch first; where branches meet, you need both.',
  map: 'Map of the path',
  mapOf: 'Map of {part}',
  part: '{stage}, part {part}',
  begins: 'start here',
  opens: 'leads to {lessons}',
  difficulty: 'difficulty {level} of 10',
  continued: '{stage} (continued)',
  lessonOnMap: '{number} {title}',
  lessonOnMapAfter: '{number} {title}, after {lessons}',

  // The student's progress.
  progress: 'Your progress',
  progressAbout:
    'What you mark as done, how you played each block last and how long you practised are stored only in this browser. Save them to a file to back them up, or to continue on another device.',
  save: 'Save to a file',
  load: 'Load from a file',
} as const;
