/** A teacher's recording, as it is on the page before any script. */
export const CLIP_FIGURE = {
  open: 'Open this at {host}',
  play: 'Play this at {host}',
  nothingLoaded: 'Nothing is loaded from there until you do.',
  captions: 'Captions',
  captionsAsText: 'Captions as text',
  barsOfBlock: '{bars} of {block}',
  recordingAt: 'Recording: {address}',
  clipAt: '{title}: {address}',
} as const;
