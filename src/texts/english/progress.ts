/** What a student has marked as done: on the path, and as a file. */
export const PROGRESS = {
  done: 'Done',
  ready: 'Ready',
  later: 'Not yet',
  next: 'Next',
  lessonOnMap: '{lesson}, {state}',
  partDone: ', {count} done',
  blocksDone: ', {count} of {blocks} blocks',
  lessonsDone: '{count} of {lessons} lessons done. ',
  allDone: 'You have finished the course.',
  beginWith: 'Start with ',
  nextComes: 'Next: ',
  lastWas: 'Go on with ',
  sentenceEnd: '.',

  // The file.
  otherVersion:
    'This file was saved by another version of this site ({version}) and cannot be read. Nothing was changed.',
  noRecord: 'This is not a progress file, or it is damaged. Nothing was changed.',
  partDamaged: ' Part of the file is damaged and was left out.',
  nothingNew: 'The file contains nothing new.{part}',
  loaded: { one: 'Loaded: {count} more lesson done.{part}', other: 'Loaded: {count} more lessons done.{part}' },
  loadedBlocks: 'Loaded. No more lessons are done than before.{part}',
  keepsNothing:
    'This browser does not store anything for this site: what you mark is lost when you close the page. Save it to a file.',
  full: 'This browser has no room left for this site, so what you mark now is lost when you close the page. Save it to a file, or free some space and mark it again.',
  notOfCourse: {
    one: ' {count} mark is for something that this course does not have, and was left out.',
    other: ' {count} marks are for something that this course does not have, and were left out.',
  },
  putAside: 'Some progress stored in this browser could not be read. A copy has been kept; nothing was deleted. ',
  saveAside: 'Save the copy to a file',
  deleteAside: 'Delete the copy',

  // Before a browser may delete it.
  mayBeDeleted:
    'This browser may delete your progress when its disk is full or when you do not come back for some weeks. A file keeps it. ',
  saveNow: 'Save to a file',
  notNow: 'Not now',
} as const;
