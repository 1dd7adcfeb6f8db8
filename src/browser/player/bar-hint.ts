/** Says once that bars can be pressed: until some are chosen, or the reader has seen it. */
import { playerText } from '../texts/player.ts';
import { button, make } from './dom.ts';

const STORED_AS = 'reedway-hint-bars';

/** The hint, and the function that ends it for good; nothing where it was seen before. */
export function barHint(): { readonly element: HTMLElement; readonly seen: () => void } | undefined {
  try {
    if (localStorage.getItem(STORED_AS) !== null) return undefined;
  } catch {
    // A browser that keeps nothing shows it on each page.
  }
  const seen = (): void => {
    element.remove();
    try {
      localStorage.setItem(STORED_AS, 'seen');
    } catch {
      // The same.
    }
  };
  const element = make(
    'p',
    { class: 'player-hint' },
    playerText('pressBars'),
    ' ',
    button(playerText('hideHint'), seen),
  );
  return { element, seen };
}
