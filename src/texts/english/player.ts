/** The player of a block, from the button that loads it to the large type on a music stand. */
export const PLAYER = {
  player: 'Player',
  play: 'Play',
  pause: 'Pause',
  stop: 'Stop',
  loop: 'Loop',
  largeType: 'Large type',
  practiceAndBand: 'Practice and band',
  round: 'Round {number}, {tempo}',
  roundSaid: 'Round {number}, {tempo}.',
  perMinute: '{beats} a minute',
  percent: '{percent} percent',
  percentSign: '{percent} %',

  // What happens, as a screen reader is told it.
  stopped: 'Stopped.',
  pausedIn: 'Paused in {bar}.',
  countIn: 'Count-in.',
  playingAt: 'Playing at {tempo}.',
  loopOf: 'Loop: {bars}.',
  wholeBlockSaid: 'The whole block.',
  noSound:
    'This browser cannot make sound on a page: it has no Web Audio. The block can still be read, and another browser on this device will play it.',
  notNow: 'The browser does not let this page sound now.',
  letItSound: 'Let it sound',

  // Which bars.
  barsToLoop: 'Bars to loop',
  loopBar: 'Loop {bar}',
  loopBarOfPart: 'Loop {bar}, {part}',
  barsToPlay: 'Bars to play',
  allBars: 'All bars',
  wholeBlock: 'whole block',
  part: 'Part',
  from: 'From',
  to: 'to',

  // Tempo.
  tempo: 'Tempo',
  tempoSaid: '{percent} percent, {tempo}',
  quartersPerMinute: 'quarters a minute',
  dottedQuartersPerMinute: 'dotted quarters a minute',

  // Practice.
  practice: 'Practice',
  countInSetting: 'Count-in',
  metronome: 'Metronome',
  oneBarAtATime: 'One bar at a time: the band goes on, the next bar is yours',
  loopThatSpeedsUp: 'A loop that speeds up',
  speedUp: 'Speed up each round',
  speedUpBy: 'by',
  speedUpTo: 'to',
  aMinute: 'a minute',
  swing: 'Swing',
  straight: 'straight',
  swingShares: '{long} : {short}',
  swingSaid: '{long} to {short}',

  // The band.
  band: 'Band',
  mute: 'Mute',
  muteTune: 'Mute tune',
  muteBass: 'Mute bass',
  muteDrums: 'Mute drums',
  muteChords: 'Mute chords',
  muteMetronome: 'Mute metronome',
  muteDrone: 'Mute drone',
  tune: 'Tune',
  bass: 'Bass',
  drums: 'Drums',
  chords: 'Chords',
  drone: 'Drone',
  toBendAgainst: 'To bend against',
  noDrone: 'none',
  keyNote: '{note}, the key note',
  keyNoteAndFifth: '{note} and its fifth',

  // Large type.
  whatToPlay: 'What to play',
  pressPlay: 'Press play.',
  now: 'Now',
  next: 'Next',
  countInShown: 'count-in',
  yourAnswer: 'your answer',
  rest: 'rest',
  hold: 'hold',
  blow: 'blow',
  draw: 'draw',
  lips: 'lips',
  tongueBlock: 'tongue block',
  overblow: 'overblow',
  overdraw: 'overdraw',
  slidePressed: 'slide pressed',
  glideOn: 'glide on',
  quotedFrom: 'from {quote}',
} as const;

/** What a block's page has before its player is loaded. */
export const PLAYER_BUTTON = {
  notLoaded: 'The player could not be loaded. Try again',
} as const;
