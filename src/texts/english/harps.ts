/** The pages of the course's harps. */
export const HARPS = {
  harps: 'Harps',
  harpsDescription: 'The harps this course is played on, and which harp plays which key.',
  inCourse: 'In this course',
  tuningUsed: '{tuning}: {lessons}',
  keys: 'Which harp for which key',
  keysAbout:
    'Find the key of the song in a column, and the harp at the head of its row. Low harps sound an octave below the note given here, and high ones an octave above.',
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
  harpAbout:
    'A harp of {holes} holes. Everything on this page follows from its reeds; choose your own harp, and the page follows that.',
  stamped:
    'It is named here, as every harp in this course, by the note of hole 1 blow. On the cover of this one you will usually find {key}, which is its {position}.',
  slide: {
    one: 'The slide raises every reed a half step; the tab writes * for it.',
    other: 'The slide raises every reed {count} half steps; the tab writes * for it.',
  },
  valves:
    'The reeds are valved, so each sounds alone: a note can be shaded down, but no second reed gives a bend its half steps, and nothing overbends. What a shaded note does is written as a mark, a dip or a fall.',
  map: 'The map',
  mapAbout: 'What you blow is above the holes, what you draw below them.',
  mapBends:
    'The higher reed of a hole bends down to a half step above the lower one; on the other breath it overbends, a half step above itself.',
  mapSlide: 'The rows with a star have the slide pressed.',
  everyNote: 'Every note',
  positions: 'Positions and scales',
  positionsAbout:
    'Each position lies a fifth above the one before. Where a scale lacks a note, the harp has it neither on a reed nor as a bend.',
  reeds: 'How the reeds are tuned',
  reedsAbout:
    'Tuned equally, every half step is alike, and a chord beats a little. Tuned just, each reed is in a whole-number ratio to the chord of its breath: the chord is still, and some single notes lie off what a tuner calls zero. The compromise lies half way.',
  frequencies:
    'Frequencies in this course are told for {temperament} temperament with A at {hertz}\u00a0Hz, unless you say otherwise above.',
  centsAbout: 'What a tuner shows for each reed, in cents, with the key note of the harp at zero: {temperaments}.',
  lessons: 'Lessons on this harp',
  lessonOn: '{lesson} ({harps})',
} as const;
