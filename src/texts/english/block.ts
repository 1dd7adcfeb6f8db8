/** What is with a block on its page. */
export const BLOCK = {
  hear: 'Hear it',
  save: 'Save as a file',
  saveNotLoaded: 'The list of files could not be loaded. Check the connection and open it again.',
  titled: ': {title}',
  inClip: 'In the clip: {cues}',
  inClipTitled: 'In “{title}”: {cues}',
  barsAtTime: '{bars}, {time}',
  difficulty: 'Difficulty {level} of 10',
  nothingHard: 'Nothing in it is unusual.',
  points: '+{points}',
  howEstimated: 'Estimated from the notes alone. It compares the blocks of this course with each other, not players.',
  done: 'I can play this',
  writtenTab: 'The tab as text',

  // Breath.
  mindBreath: 'Watch your breath.',
  longDraw: 'Here you draw for about {seconds} seconds without a change of breath.',
  longBlow: 'Here you blow for about {seconds} seconds without a change of breath.',
  moreDraw: 'Here you draw far more than you blow, so your lungs fill up.',
  moreBlow: 'Here you blow far more than you draw, so your lungs run empty.',
  breatheSoftly: 'Play softly, breathe through the nose where you need to, and stop if you feel light-headed.',
} as const;
