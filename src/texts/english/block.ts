/** What is with a block on its page. */
export const BLOCK = {
  hear: 'Hear it',
  titled: ': {title}',
  inClip: 'In the clip: {cues}',
  inClipTitled: 'In “{title}”: {cues}',
  barsAtTime: '{bars}, {time}',
  difficulty: 'Difficulty {level} of 10',
  nothingHard: 'Nothing in it is out of the ordinary.',
  points: '+{points}',
  howReckoned: 'Reckoned from the notes alone: it compares the blocks of this course, not players.',
  done: 'I can play this',

  // Breath.
  mindBreath: 'Mind your breath.',
  longDraw: 'There are about {seconds} seconds here on the draw without a turn.',
  longBlow: 'There are about {seconds} seconds here on the blow without a turn.',
  moreDraw: 'There is far more draw than blow here, and your lungs will fill up.',
  moreBlow: 'There is far more blow than draw here, and your lungs will run empty.',
  breatheSoftly: 'Play softly, breathe through the nose where you need to, and stop if you feel light-headed.',
} as const;
