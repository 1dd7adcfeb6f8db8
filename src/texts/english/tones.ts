/** Notes of figures, which can be pressed. */
export const TONES = {
  soundIt: ', play it',
  soundItIn: ', hole {hole}, {row}, play it',
  noSound:
    'This browser cannot play sound here. Close other pages that play sound and try again, or use another browser.',
} as const;
