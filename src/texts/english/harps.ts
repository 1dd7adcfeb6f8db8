/** The pages of the course's harps. */
export const HARPS = {
  harpsDescription: 'The harps this course is played on, and which harp plays which key.',
  inCourse: 'In this course',
  tuningUsed: '{tuning}: {lessons}',
  keys: 'Which harp for which key',
  keysAbout:
    'Find the key of the song in a column; the harp is at the start of that row. Low harps sound an octave below the note given here, high harps an octave above.',
  harp: 'Harp',
  hole1: 'Hole 1, blow',
  position1: '1st',
  position2: '2nd',
  position3: '3rd',
  position4: '4th',
  position5: '5th',
  position12: '12th',

  // One tuning.
  harpOf: '{tuning} harp',
  harpDescription: 'Every note, position and scale of a harp with {holes} holes, tuned {tuning}.',
  harpAbout: 'A harp with {holes} holes. Choose your own harp, and the page shows its notes.',
  stamped:
    'This course names every harp by the note of hole 1 blow. The cover of this one usually says {key}, which is its {position}.',
  slide: {
    one: 'The slide raises every reed a half step; the tab writes * for it.',
    other: 'The slide raises every reed {count} half steps; the tab writes * for it.',
  },
  valves:
    'The reeds are valved, so each sounds alone: a note can be lowered a little, but not by half steps, and nothing overbends. A lowered note is written as a mark: a dip or a fall.',
  map: 'The map',
  mapAbout: 'Blow notes are above the holes, draw notes below them.',
  mapBends:
    'The higher reed of a hole bends down to a half step above the lower one. On the other breath the hole overbends: it sounds a half step above its higher reed.',
  mapSlide: 'In rows with a star the slide is pressed.',
  everyNote: 'Every note',
  positions: 'Positions and scales',
  positionsAbout:
    'Each position is a fifth above the one before. A scale leaves out the notes that this harp has neither on a reed nor as a bend.',
  reeds: 'Temperaments',
  reedsAbout:
    'In equal temperament all half steps are the same size, and chords beat a little. In just temperament each reed has a whole-number ratio to the chord of its breath: chords do not beat, but some single notes are not at zero on a tuner. The compromise is half way between.',
  frequencies:
    'Frequencies in this course are given for {temperament} temperament with A at {hertz}\u00a0Hz, unless you choose otherwise above.',
  centsAbout: 'What a tuner shows for each reed, in cents, with the key note of the harp as zero: {temperaments}.',
  lessons: 'Lessons on this harp',
  lessonOn: '{lesson} ({harps})',
} as const;
