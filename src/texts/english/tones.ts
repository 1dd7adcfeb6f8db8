/** Notes of figures, which can be pressed. */
export const TONES = {
  soundIt: ', play it',
  soundItIn: ', hole {hole}, {row}, play it',
} as const;
