/** What starts and stops with a button of the page to play along with. */
export interface SoundSwitch {
  readonly toggle: () => void;
}
