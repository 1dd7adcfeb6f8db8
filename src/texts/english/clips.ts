/** A teacher's recording on a lesson's page. */
export const CLIPS = {
  clip: 'Clip',
  fromThisBar: 'From this bar in a clip',
  loopPassage: 'Loop the passage',
  speed: 'Speed',
  speedPercent: '{percent} %',
  openAlone: 'Open the recording',
  cannotBePlayed: 'This recording cannot be played in this browser. ',
  loading: 'Loading the recording to play it from {time} …',
  endsBefore: 'The recording ends before {time}.',
  captions: 'Captions',
  playFrom: 'Play “{title}” from {time}',
} as const;
