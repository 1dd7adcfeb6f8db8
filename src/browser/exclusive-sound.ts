/** Only one thing sounds on a page: what starts asks what played before to pause. The screen stays on while anything plays. */
import { keepAwake } from './screen-awake.ts';

let quieten: (() => void) | undefined;

/** Makes the caller the one thing that sounds; `pause` is called when something else starts. */
export function startSounding(pause: () => void): void {
  const before = quieten;
  // The turn is taken before the pause: the sound before may end its own turn later, and must not end this one.
  quieten = pause;
  if (before !== pause) before?.();
  keepAwake('playing', true);
}

/** Ends the caller's turn, if it still has it. */
export function stopSounding(pause: () => void): void {
  if (quieten !== pause) return;
  quieten = undefined;
  keepAwake('playing', false);
}
