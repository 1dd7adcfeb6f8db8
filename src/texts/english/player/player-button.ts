/** What a block's page has before its player is loaded. */
export const PLAYER_BUTTON = {
  notLoaded: 'The player could not be loaded. Try again',
} as const;
