/** The student's harp. */
export const HARP = {
  settingFor: 'Changing the page to {harp} …',
  settingAsWritten: 'Changing the page back to the harp it was written for …',
  // Why a page could not be changed, and behind it what it shows.
  offline: 'There is no network connection.',
  tooSlow: 'The network did not answer in time.',
  notLoaded: 'Something that this needs could not be loaded.',
  notSet:
    'The page could not be changed to your harp. It shows the harp it was written for; the tab is right on any harp.',
  tryAgain: 'Try again',
  asWritten: 'Showing the page as written.',
  standsFor: 'Showing the page for {harp}.',
  standsForInKey: 'Showing the page for {harp}. In {position} the key is {key}.',
  // Below a block, on a harp that lacks some of its notes.
  notOnHarp: 'This harp cannot play everything here. {bars}.',
  inBar: 'Bar {bar}: {notes}',
  insteadOf: '{given} in place of {wanted}',
  more: { one: 'and {count} more note', other: 'and {count} more notes' },
  // Behind it, where the music is shown on another tuning.
  textStays: 'The text is about the {tuning} tuning.',
  aHarp: 'a {key} harp',
  tunedHarp: 'another harp ({tuning})',
  tunedHarpInKey: 'a harp in {key} ({tuning})',
  anHarp: 'an {key} harp',
} as const;
