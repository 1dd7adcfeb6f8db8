/** A lesson's page around what its author wrote. */
export const LESSON = {
  placeOnPath: 'Place on the path',
  lesson: 'Lesson {number}',
  lessonInStage: 'Stage {stage}, {title} · Lesson {number}',
  harp: 'Harp',
  playedIn: 'Played in',
  tempo: 'Tempo',
  time: 'Time',
  comesAfter: 'Comes after',
  opensWay: 'Opens the way to',
  teaches: 'Teaches',
  done: 'I have done this lesson',

  next: 'What next',
  end: 'The end of the path. Play any of it again.',
  alsoOpened: 'Also opened by this lesson',
  before: 'Before this',
} as const;
