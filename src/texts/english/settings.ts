/** A course's settings and amounts in words. */
export const SETTINGS = {
  harpInRegister: '{register} {key}',
  tuned: '{harp} ({tuning})',
  low: 'low',
  high: 'high',
  namedPosition: '{position} ({name} harp)',
  // What a file of a block without a title is called.
  blockOfLesson: '{lesson}, block {number}',

  // Tempo.
  from: '{least} to {most}',
  quarters: '♩ = {tempo}',
  dottedQuarters: '♩. = {tempo}',
  quartersSaid: '{tempo} quarter notes a minute',
  dottedQuartersSaid: '{tempo} dotted quarter notes a minute',
  shuffled: '{tempo}, shuffle',
  swung: '{tempo}, swung {long} to {short}',

  minutes: { one: '{count} minute', other: '{count} minutes' },
  hours: { one: '{count} hour', other: '{count} hours' },
  hoursAndMinutes: '{hours} {minutes}',
} as const;
