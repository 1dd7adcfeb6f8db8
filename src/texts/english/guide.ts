/** How to read a block. */
export const GUIDE = {
  description: 'Breath lanes, bends, roles, marks and the rest: the parts of a block and what they mean.',
  about:
    'Read a block like any music, bar by bar. A row has as many bars as there is room for. The chords are on top, the staff below them, and below the staff the breath lanes, which show what to do on the harp.',

  lanes: 'The breath lanes',
  lanesAbout:
    'The line through the lanes is the comb of your harp. A number above it is a hole you blow, because the blow reeds are on top. A number below it is a hole you draw.',
  bends: 'Bends',
  bendsAbout:
    'A bend drops its number one notch for each half step, so you see how deep it goes. An o beside the number is an overblow, or on the draw an overdraw: a note above both reeds of the hole. A q after the number is a quarter step, half of a half step lower.',
  bendOnBoth: 'On a harp with {tuning} tuning, these holes bend on the draw: {draw}; and these on the blow: {blow}.',
  bendOnDraw: 'On a harp with {tuning} tuning, these holes bend on the draw: {holes}.',
  bendOnBlow: 'On a harp with {tuning} tuning, these holes bend on the blow: {holes}.',
  noBends: 'No hole of a harp with {tuning} tuning bends by half steps.',
  glidesAbout: 'A line from one note to the next means: move there on the same breath, without a new attack.',
  together: 'Several holes at once',
  togetherAbout:
    'Numbers above each other sound together on one breath. Holes that are not neighbours are a split: the tongue covers the holes between them.',
  time: 'How long',
  timeAbout:
    'The staff shows how long notes are, and every number is right below its note. A tie continues a note past the bar line. In a shuffle, two eighths are played long and short, two to one, although they are written the same.',
  views: 'Staff, lanes or both',
  viewsAbout:
    'Choose what blocks show: staff and lanes, lanes only or staff only. Lanes only show how long a note lasts in another way: a line goes on for as long as the note, and the short marks on the line between blow and draw are the beats. Signs such as accents and fermatas are in a line above. Your choice is kept in this browser, and you print what you see. Under each block, “The tab as text” has its holes in plain letters.',

  playing: 'Hear a block, and play along',
  playingAbout:
    'Press “Hear it” over a block. You hear the tune with a band, and the note of the moment is marked. The bar at the foot of the window has the controls:',
  playingSlower: '“Slower” and “Faster” change the tempo. The notes keep their pitch.',
  playingLoop:
    'Tap a bar, and then another, to loop the bars between them. “Speed up” plays each round a little faster than the one before.',
  playingMore:
    '“More” has the band, which you can mute part by part, the count-in and the metronome. “Large type” there shows what to play now and next, to read from a music stand.',
  playingHarp:
    'You have another harp? Choose its key at the head of a lesson, under “Your harp”. Every block is then drawn and played for it.',

  roles: 'What a note does: its role',
  rolesAbout:
    'Behind each number is a shape. It shows what the note is in the chord of that moment. The number of sides is the degree: three for the third, five for the fifth, seven for the seventh. The root is round. A hollow shape is flat. A label with n is neutral: n3 lies between the flat and the plain third, where the blues has its blue third. An arrow down is a quarter step below the note it is before. When the chord changes, the same hole gets another shape: that is what the shapes are there to show.',
  root: 'The root.',
  rootDoes: 'The note the chord is named after.',
  third: 'The third.',
  thirdDoes: 'Makes the chord major or minor. Flat over a major chord, it is the sound of the blues.',
  fifth: 'The fifth.',
  fifthDoes: 'Stable. The flat fifth is tense and wants to move on.',
  seventh: 'The seventh.',
  seventhDoes: 'Leads on to the next chord.',
  others: 'The second, fourth and sixth.',
  othersDo: 'Notes between the notes of the chord. They have no colour of their own.',

  mouth: 'The mouth',
  mouthAbout:
    'The band below the lanes is plain where you play with the lips and hatched where the tongue blocks holes.',
  marks: 'Marks',
  mark: '{mark}.',
  repeats: 'Parts, repeats and lyrics',
  repeatsAbout:
    'A name above the staff begins a part, and slanted words there say how to play. N.C. in place of a chord means that no chord sounds; a letter behind a slash is the note in the bass. Dots at a thick bar line mean: go back to the dots that face them, once, or until you have played it as often as a number with × says. Numbered endings are for the times they name. D.C. leads back to the beginning and D.S. to the slanted S with two dots; from there no repeats are played, up to Fine, or from To Coda on to the circle with a cross. A slanted line between two dots in a bar means: play the bar before once more.',
  wordsAbout:
    'Lyrics are below the lanes, one syllable per note. Of several numbered lines each time through a repeat has its own. Slanted syllables above them, such as ta ka, say how the tongue begins the notes.',
} as const;
