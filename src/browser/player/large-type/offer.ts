/** Opens large type, which is loaded when it is first asked for. */
import type { Playback } from '../../../score/playback.ts';
import type { Showing } from '../../transport.ts';
import type { LargeType } from './large-type.ts';

/** Whether the large type of some block is open. */
export const isLargeTypeOpen = (): boolean => document.querySelector('.large-type:not([hidden])') !== null;

/** The large type of a block, before and after it is loaded. `opened` is called when it opens or closes, and when it cannot be loaded. */
export function offerLargeType(playback: () => Playback, opened: () => void): LargeType {
  let panel: LargeType | undefined;
  let latest: Showing | undefined;
  let wanted = false;

  function open(on: boolean): void {
    wanted = on;
    if (panel) panel.open(on);
    else if (on) {
      import('./large-type.ts').then(({ createLargeType }) => {
        panel ??= createLargeType(playback, opened);
        panel.show(latest);
        panel.open(wanted);
        // Without a network it stays closed, and its button says so.
      }, opened);
    }
  }

  return {
    show: (showing) => {
      latest = showing;
      panel?.show(showing);
    },
    open,
    isOpen: () => panel?.isOpen() ?? false,
    covered: () => panel?.covered() ?? 0,
  };
}
