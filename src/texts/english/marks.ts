/** Where a student marks something as done, and wherever lessons are listed. */
export const DONE_MARKS = {
  doneTick: '✓',
  doneShown: 'Done',
  lessonDone: '{lesson}, done',
  notKeptBlocked:
    'Not stored: this browser stores nothing for this site, so the tick is lost when you leave the page. Allow the site to store data.',
  notKeptFull:
    'Not stored: this browser has no room left, so the tick is lost when you leave the page. Free some space, then tick it again.',
} as const;
