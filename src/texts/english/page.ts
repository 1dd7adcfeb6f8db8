/** What is around every page, and the page for an address that has none. */
export const PAGE = {
  skip: 'Skip to content',
  navigation: 'Course',
  table: 'Table',
  path: 'The path',
  techniques: 'Techniques',
  harps: 'Harps',
  guide: 'How to read a block',
  glossary: 'Glossary',
  glossaryAbout: 'Words that this course uses, and what they mean here.',
  alsoCalled: 'Also: {words}.',
  course: '{course}.',
  courseBy: '{course}, by {teacher}.',
  madeWith: 'Made with Reedway.',
  licences: 'Licences',

  light: 'Appearance',
  asDevice: 'match device',
  day: 'light',
  night: 'dark',

  music: 'Music',
  staffAndLanes: 'staff and lanes',
  lanesOnly: 'lanes only',
  staffOnly: 'staff only',

  noPage: 'Page not found',
  noPageHeading: 'Page not found',
  noPageAbout: 'The address may be old or mistyped. Your progress is not lost.',
  allLessons: 'All the lessons',
  firstOfStage: '{stage}: {lesson}',
} as const;
