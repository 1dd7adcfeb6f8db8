/** What only an author at work sees. */
export const AUTHORING = {
  draft: 'Draft',
  draftNotPublished: 'Draft, not published',
  errors: { one: '{count} error', other: '{count} errors' },
  warnings: { one: '{count} warning', other: '{count} warnings' },
  hints: { one: '{count} hint', other: '{count} hints' },
  titleWithErrors: '{errors} · {title}',
  problems: 'Problems of the course',
  nothingWrong: 'Nothing wrong',
  onThisPage: '{problems} on this page',
  inOtherFiles: '{problems} in other files',
  problemsOfFile: '{file}: {problems}',
  notPublished: 'The course can be published when its errors are corrected.',
  more: 'and {count} more: run reedway check to see them all.',
  moreFiles: {
    one: 'and {count} more file: run reedway check to see all.',
    other: 'and {count} more files: run reedway check to see all.',
  },
  blockBroken: 'This block cannot be read yet.',
  figureBroken: 'This figure cannot be read yet.',
  saidBroken: 'This cannot be read yet.',
  clipBroken: 'This clip cannot be read yet.',
} as const;
