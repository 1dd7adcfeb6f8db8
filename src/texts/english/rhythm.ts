/** Below a rhythm line. */
export const RHYTHM = {
  play: 'Play it in a loop',
  stop: 'Stop',
  notLoaded: 'The sound could not be loaded. Try again',
  noSound:
    'This browser cannot play sound here. Close other pages that play sound and try again, or use another browser.',
} as const;
