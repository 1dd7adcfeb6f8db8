/** The player of a block: the bar at the foot of the window, and what is announced. */
export const PLAYER = {
  player: 'Player',
  playerOf: 'Player: {title}',
  /** The button over the block, which is a second one to play and pause. */
  hearIt: 'Hear it',
  pauseIt: 'Pause it',
  play: 'Play',
  pause: 'Pause',
  stop: 'Stop',
  loop: 'Loop',
  loopBars: 'Loop: {bars}',
  speedUp: 'Speed up',
  tempo: 'Tempo',
  percentOf: '{percent} %',
  slower: 'Slower',
  faster: 'Faster',
  more: 'More',
  moreControls: 'More controls',
  toTheMusic: 'To the music',
  sheetNotLoaded: 'These controls could not be loaded. Close them and try again.',
  round: 'Round {number}',
  roundSaid: 'Round {number}, {tempo}.',
  perMinute: '{beats} a minute',

  // What happens, as a screen reader announces it.
  stopped: 'Stopped.',
  pausedIn: 'Paused in {bar}.',
  countIn: 'Count-in.',
  playingAt: 'Playing at {tempo}.',
  loopOf: 'Loop: {bars}.',
  wholeBlockSaid: 'The whole block.',
  noSound:
    'This browser cannot play sound here: Web Audio is missing or did not start. Close other pages that play sound and try again, or use another browser. You can still read the block.',
  notNow: 'The browser is blocking sound on this page.',
  letItSound: 'Play anyway',

  // Which bars.
  barsToLoop: 'Bars to loop',
  pressBars: 'Press a bar to loop it, and another to loop as far as that.',
  hideHint: 'Got it',
  loopBar: 'Loop {bar}',
  loopBarOfPart: 'Loop {bar}, {part}',
} as const;
