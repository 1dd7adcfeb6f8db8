/** The further controls of a player, in the sheet over its bar. */
export const PLAYER_SHEET = {
  largeType: 'Large type',
  percent: '{percent} percent',
  percentSign: '{percent} %',

  // Which bars.
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
  metronomeVolume: 'Metronome volume',
  oneBarAtATime: 'One bar at a time: the band plays on, and you play the next bar',
  loopThatSpeedsUp: 'A loop that speeds up',
  speedUpEachRound: 'Speed up each round',
  speedUpBy: 'by',
  speedUpTo: 'to',
  aMinute: 'a minute',
  goalTooLow: 'It does not speed up: the tempo is {tempo} already. Set a slower tempo or a faster goal.',
  swing: 'Swing',
  straight: 'straight',
  swingShares: '{long} : {short}',
  swingSaid: '{long} to {short}',

  // Phrases that a block repeats.
  phrases: 'Phrases',
  phrase: 'Phrase',
  noPhrase: 'none',
  hearPhrase: 'Hear',
  hearAll: 'the whole tune',
  hearPhraseAlone: 'this phrase alone',
  leavePhraseOut: 'all but this phrase, which you play',
  loopPhrase: 'Loop it',

  // The band.
  band: 'Band',
  mute: 'Mute',
  muteTune: 'Mute tune',
  muteBass: 'Mute bass',
  muteDrums: 'Mute drums',
  muteChords: 'Mute chords',
  muteDrone: 'Mute drone',
  tune: 'Tune',
  bass: 'Bass',
  drums: 'Drums',
  chords: 'Chords',
  drone: 'Drone',
  toBendAgainst: 'Reference note for bends',
  noDrone: 'none',
  keyNote: '{note}, the key note',
  keyNoteAndFifth: '{note} and its fifth',
} as const;
