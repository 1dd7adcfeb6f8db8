/** Notes of figures, which can be pressed. */
export const TONES = {
  soundIt: ', sound it',
  soundItIn: ', hole {hole}, {row}, sound it',
} as const;
