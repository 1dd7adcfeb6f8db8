/** The student's harp. */
export const HARP = {
  settingFor: 'Setting the page for {harp} …',
  settingAsWritten: 'Setting the page as it is written …',
  notSet: 'The page could not be set for your harp. It is as it is written; the tab is right on any harp.',
  asWritten: 'The page is as it is written.',
  standsFor: 'The page stands for {harp}.',
  standsForInKey: 'The page stands for {harp}. In {position} it plays in {key}.',
  aHarp: 'a {key} harp',
  anHarp: 'an {key} harp',
} as const;
