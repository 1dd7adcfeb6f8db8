/** What is around every page, and the page for an address that has none. */
export const PAGE = {
  skip: 'To the page itself',
  navigation: 'The course',
  path: 'The path',
  techniques: 'Techniques',
  harps: 'Harps',
  guide: 'How to read a block',
  course: '{course}.',
  courseBy: '{course}, by {teacher}.',
  setWith: 'Set with Reedway.',

  light: 'Light',
  asDevice: 'as the device',
  day: 'day',
  night: 'night',

  noPage: 'No such page',
  noPageHeading: 'There is no such page',
  noPageAbout: 'The address may be old or mistyped. Nothing of yours is lost.',
  allLessons: 'All the lessons',
  firstOfStage: '{stage}: {lesson}',
} as const;
