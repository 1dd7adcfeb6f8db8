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
  begin: 'Begin with “{lesson}”',
  goOn: 'Go on with “{lesson}”',
  allDone: 'All done. See the path again',
  beforeYouBegin: 'Before you begin',

  // The path.
  path: 'The path',
  pathDescription: 'How the lessons of this course build on each other, and which are open to you.',
  pathAbout:
    'Each lesson is below what it builds on. Where the way forks, take whichever branch you like; where branches meet, you will want both.',
  map: 'Map of the path',
  mapOf: 'Map of {part}',
  part: '{stage}, part {part}',
  begins: 'the path begins here',
  opens: 'opens {lessons}',
  difficulty: 'difficulty {level} of 10',
  continued: '{stage} (continued)',
  lessonOnMap: '{number} {title}',
  lessonOnMapAfter: '{number} {title}, after {lessons}',

  // The student's progress.
  progress: 'Your progress',
  progressAbout:
    'What you mark as done is kept in this browser and nowhere else. Save it as a file to keep it safe, or to go on with it on another device.',
  save: 'Save to a file',
  load: 'Load from a file',
} as const;
