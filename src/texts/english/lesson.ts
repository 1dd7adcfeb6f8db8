/** A lesson's page around what its author wrote. */
export const LESSON = {
  placeOnPath: 'Place on the path',
  lesson: 'Lesson {number}',
  lessonInStage: 'Stage {stage}, {title} · Lesson {number}',
  facts: 'About this lesson',
  choices: 'Your harp, and what blocks show',
  harp: 'Harp',
  playedIn: 'Played in',
  key: 'Key',
  tempo: 'Tempo',
  time: 'Time',
  comesAfter: 'Builds on',
  opensWay: 'Leads to',
  teaches: 'Teaches',
  done: 'I have done this lesson',

  next: 'Next lesson',
  end: 'This is the end of the path. You can play any lesson again.',
  alsoOpened: 'This lesson also leads to',
  before: 'Previous lesson',
} as const;
