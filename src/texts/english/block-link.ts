/** What a link to a block asks to be played, and the link that is copied. */
export const BLOCK_LINK = {
  ready: 'Ready to play: {what}.',
  wholeBlock: 'the whole block',
  fromBar: '{first} to {last}',
  once: '{what} at {tempo}',
  looped: '{what} at {tempo}, looped',

  // What of an address cannot be played.
  ignored: 'Not all that this address asks for could be used.',
  noBlock: 'This address asks for bars of a block that is not on this page.',
  twice: 'It has {name} twice.',
  unreadable: '“{value}” cannot be read as {name}.',
  noBar: 'There is no bar {bar}: the bars are {bars}.',
  whichBar: 'Bar {bar} is in several endings: {names}.',
  backwards: 'The bars {value} end before they begin.',
  tempoRange: 'The tempo {value} is not between {least} and {most}.',
  noHarp: 'There is no harp in “{value}”.',
  noTuning: 'There is no tuning “{value}”.',

  // The button that copies a link.
  copyLink: 'Copy a link to this',
  copied: 'Copied a link to {what}.',
  copyByHand: 'The browser does not let this page copy. Copy this link to {what}:',
} as const;
