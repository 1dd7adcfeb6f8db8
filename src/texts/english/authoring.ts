/** What only an author at work sees. */
export const AUTHORING = {
  draft: 'Draft',
  draftNotPublished: 'Draft, not published',
  errors: { one: '{count} error', other: '{count} errors' },
  findings: { one: '{count} finding', other: '{count} findings' },
  errorsAndFindings: '{errors}, {findings}',
  notPublished: '{problems}: the course cannot be published yet',
  more: 'and {count} more: run reedway check to see them all.',
  blockBroken: 'This block cannot be read yet.',
  figureBroken: 'This figure cannot be read yet.',
  saidBroken: 'This cannot be read yet.',
  clipBroken: 'This clip cannot be read yet.',
} as const;
