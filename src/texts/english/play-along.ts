/** The page to play along with: a band on any form of the course, a metronome and a drone. */
export const PLAY_ALONG = {
  title: 'Play along',
  about:
    'A band that plays any form of this course in any key and tempo, a metronome, and a note to hold under your bends.',
  withoutScripts:
    'The band, the metronome and the drone need scripts, which this browser has switched off. The forms below can be read without.',

  band: 'Band and metronome',
  play: 'Play',
  form: 'Form',
  metronomeOnly: 'none: metronome only',
  meter: 'Meter',
  key: 'Key',
  feel: 'Feel',
  straight: 'straight',
  lightSwing: 'light swing, 58 to 42',
  shuffle: 'shuffle, 2 to 1',
  tempo: 'Tempo, beats a minute',
  tapTempo: 'Tap the tempo',
  countIn: 'Count-in',
  start: 'Start',
  stop: 'Stop',
  levels: 'Levels',
  metronome: 'Metronome',
  metronomeVolume: 'Metronome volume',
  caution:
    'Set the volume low before you start, above all with headphones, and raise it until you hear the band under your harp.',

  // What sounds.
  chorus: 'Chorus {number}',
  barOf: 'bar {bar} of {bars}',
  now: 'Now',
  next: 'Next',
  noChord: 'no chord',
  counting: 'Count-in',

  // Which harp.
  harps: 'Harps for {key}: {harps}.',
  harpIn: '{harp} in {position}',
  yourHarp: 'On your {harp} harp it is {position}.',

  drone: 'Drone',
  droneAbout: 'A held note to bend against: lower a bend until it stops beating against it.',
  note: 'Note',
  octave: 'Octave',
  low: 'low',
  middle: 'middle',
  high: 'high',
  withFifth: 'with its fifth',
  level: 'Volume',

  forms: 'The forms',
  formsAbout: 'Each box is a bar. The numerals count the chord’s root from the key note.',

  noSound:
    'This browser cannot play sound here. Close other pages that play sound and try again, or use another browser.',
  notLoaded: 'The sound could not be loaded. Try again.',
} as const;
