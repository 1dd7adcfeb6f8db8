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
  pitch: 'Temperament and pitch',
  temperament: 'Temperament',
  concertA: 'A, in hertz',
} as const;
