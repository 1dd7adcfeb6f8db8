/** How to read a block. */
export const GUIDE = {
  title: 'How to read a block',
  description: 'Breath lanes, bends, roles, marks and the rest: what is in a block and what to do about it.',
  about:
    'A block is read like any music, bar by bar, as many bars to a row as there is room for. The chords are on top, the staff under them, and under the staff the breath lanes: what to do with the harp.',

  lanes: 'The breath lanes',
  lanesAbout:
    'The line through the lanes is the comb of your harp. A number above it is a hole you blow, as the blow reeds lie on top; a number below it is a hole you draw.',
  bends: 'Bends',
  bendsAbout:
    'A bend drops its number one notch for each half step, so you see how deep it goes. Holes 1 to 6 bend on the draw, holes 7 to 10 on the blow. An o beside the number is an overblow, or on the draw an overdraw: the note that lies above the hole’s two reeds.',
  glidesAbout: 'A line from one note to the next says that you get there on the same breath without beginning again.',
  together: 'Several holes at once',
  togetherAbout:
    'Numbers one above another sound on one breath. Holes that are not neighbours are a split: the tongue lies on those between.',
  time: 'How long',
  timeAbout:
    'The staff tells the lengths, and every number is right under its note. A tie keeps a note going past the bar line. In a shuffle, two eighths are played long and short, two to one, though they are written alike.',

  roles: 'What a note does: its role',
  rolesAbout:
    'Behind each number is a shape. It tells what the note is to the chord of that moment, and the number of its sides is the number of the step: three for the third, five for the fifth, seven for the seventh. The root is round. A hollow shape is flat. The same hole changes its shape when the chord changes, and that is the point.',
  root: 'The root.',
  rootDoes: 'The note the chord is named after. Home.',
  third: 'The third.',
  thirdDoes: 'Makes the chord bright or dark. Flat over a major chord, it is the blues.',
  fifth: 'The fifth.',
  fifthDoes: 'Firm and plain. Flat, it leans and wants to move.',
  seventh: 'The seventh.',
  seventhDoes: 'Leads on to the next chord.',
  others: 'The second, fourth and sixth.',
  othersDo: 'Colours between the notes of the chord, in plain ink.',

  mouth: 'The mouth',
  mouthAbout:
    'The band under the lanes is plain for a note made with the lips and hatched where the tongue blocks holes.',
  marks: 'Marks',
  mark: '{mark}.',
  repeats: 'Parts, repeats and words',
  repeatsAbout:
    'A name above the staff begins a part. Dots at a thick bar line send you back to the dots that face them; the numbered endings are for the first time through and the second.',
  wordsAbout: 'Words to sing are under the lanes, a syllable to a note.',
} as const;
