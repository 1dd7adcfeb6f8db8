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
  allDone: 'That is all of them.',
  beginWith: 'Begin with ',
  nextComes: 'Next comes ',
  sentenceEnd: '.',

  // The file.
  otherVersion:
    'This file was saved by another version of this site ({version}), and cannot be read here. Nothing was changed.',
  noRecord: 'This is no file of progress, or it is damaged. Nothing was changed.',
  partDamaged: ' Part of the file is damaged and was left out.',
  nothingNew: 'The file says nothing that is not known here already.{part}',
  loaded: { one: 'Loaded: {count} more lesson done.{part}', other: 'Loaded: {count} more lessons done.{part}' },
  loadedBlocks: 'Loaded, with no more lessons done than before.{part}',
  keepsNothing:
    'This browser keeps nothing for this site: what you mark lasts until you close the page. Save it as a file.',
  putAside:
    'Progress that was kept in this browser could not be read in full. It has been put aside as it was, and nothing of it is deleted. ',
  saveAside: 'Save it as a file',
  deleteAside: 'Delete it',
} as const;
