/** Only one thing sounds on a page: whoever takes the floor asks the one before to pause. */
let quieten: (() => void) | undefined;

export function takeFloor(pause: () => void): void {
  if (quieten !== pause) quieten?.();
  quieten = pause;
}

export const leaveFloor = (pause: () => void): void => {
  if (quieten === pause) quieten = undefined;
};
