/** The student's harp. */
export const HARP = {
  settingFor: 'Changing the page to {harp} …',
  settingAsWritten: 'Changing the page back to the harp it was written for …',
  notSet:
    'The page could not be changed to your harp. It shows the harp it was written for; the tab is right on any harp.',
  asWritten: 'Showing the page as written.',
  standsFor: 'Showing the page for {harp}.',
  standsForInKey: 'Showing the page for {harp}. In {position} the key is {key}.',
  aHarp: 'a {key} harp',
  anHarp: 'an {key} harp',
} as const;
