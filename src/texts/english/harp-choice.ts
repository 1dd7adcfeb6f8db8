/** Where a student says which harp they play. */
export const HARP_CHOICE = {
  yourHarp: 'Your harp',
  key: 'Key',
  asWritten: 'as written',
  register: 'Register',
  low: 'low',
  usual: 'usual',
  high: 'high',
  tuning: 'Tuning',
  temperament: 'Temperament',
  concertA: 'A, in hertz',
} as const;
