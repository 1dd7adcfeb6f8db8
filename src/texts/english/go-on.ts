/** What a student reached in a block, offered again beside its player’s button. */
export const GO_ON = {
  goOn: 'Go on: {what}',
  goOnSince: 'Go on: {what} ({when})',
  barsAt: '{bars} at {tempo}',
  wholeAt: 'whole block at {tempo}',
} as const;
