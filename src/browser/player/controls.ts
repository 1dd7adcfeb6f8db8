/**
 * The controls of a block's player: a button over the block, and a bar at the foot of the window that stays there wherever the page is
 * scrolled to. The further controls are in a sheet over the bar, loaded when it is first opened. A page has one bar: that of the
 * block played last.
 */
import { playerText } from '../texts/player.ts';
import { isRunning, type PlayState } from '../transport.ts';
import type { PlayerActions } from './actions.ts';
import { make } from './dom.ts';
import { mainControls } from './main-controls.ts';
import type { FurtherControls } from './sheet/sheet.ts';

/** The controls of a block, and what they show. */
export interface Controls {
  /** The bar. */
  readonly element: HTMLElement;
  /** Shows the settings as they are. */
  readonly show: () => void;
  readonly showState: (state: PlayState) => void;
  readonly showRound: (round: number, tempo: number) => void;
  readonly showLargeType: () => void;
  readonly showHarp: () => void;
  /** Offers what there is to choose in a block that its author has changed, set as it was. */
  readonly showMusic: () => void;
  readonly focusPlay: () => void;
  /** Makes this bar the one of the page. */
  readonly appear: () => void;
  /** Where on the screen the bar begins; the bottom of the window while it is hidden. */
  readonly top: () => number;
}

/** Hides the bar of the page, which is that of some block. */
let hideOther: (() => void) | undefined;

/** `message` is shown in the bar. `signal` ends the controls. */
export function createControls(
  wiring: PlayerActions,
  playHere: HTMLButtonElement,
  message: HTMLElement,
  signal: AbortSignal,
): Controls {
  const { block } = wiring;
  const title = titleOf(block);
  const main = mainControls(wiring, title, () => openSheet(holder.hidden !== false));
  const holder = make('div', {
    class: 'player-sheet',
    id: `further-controls-${block.id}`,
    role: 'group',
    'aria-label': playerText('moreControls'),
    hidden: true,
  });
  main.more.setAttribute('aria-controls', holder.id);
  // In the top layer no other part of the page lies over it, though it comes after its block for who goes on by the keyboard.
  const element = make(
    'div',
    {
      class: 'player',
      role: 'group',
      'aria-label': title ? playerText('playerOf', { title }) : playerText('player'),
      popover: 'manual',
    },
    main.element,
    message,
    holder,
  );
  let sheet: FurtherControls | undefined;
  let state: PlayState = 'stopped';
  let inSight = true;

  function openSheet(open: boolean): void {
    holder.hidden = !open;
    main.more.setAttribute('aria-expanded', String(open));
    if (!open) return;
    // The sheet may cover what is played.
    const keepInSight = (): void => {
      if (isRunning(state)) wiring.keepInSight();
    };
    if (sheet) {
      keepInSight();
      return;
    }
    import('./sheet/sheet.ts').then(
      ({ createSheet }) => {
        if (sheet) return;
        sheet = createSheet(wiring);
        holder.replaceChildren(sheet.element);
        keepInSight();
      },
      () => holder.replaceChildren(make('p', { role: 'alert' }, playerText('sheetNotLoaded'))),
    );
  }
  function closeSheet(): void {
    openSheet(false);
    main.more.focus({ preventScroll: true });
  }
  element.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && !holder.hidden) closeSheet();
  });

  /** The bar is there while its block is in sight or plays, and as long as the focus is in it. */
  function place(): void {
    const wanted = hideOther === hide && (inSight || isRunning(state) || element.contains(document.activeElement));
    if (wanted !== element.classList.contains('shown')) {
      element.classList.toggle('shown', wanted);
      // A browser that knows no popovers shows and hides it by its class.
      if (wanted) element.showPopover?.();
      else element.hidePopover?.();
    }
    main.showAway(!inSight);
  }
  function hide(): void {
    hideOther = undefined;
    place();
  }
  function appear(): void {
    if (hideOther !== hide) hideOther?.();
    hideOther = hide;
    place();
  }
  const sight = new IntersectionObserver((entries) => {
    inSight = entries.at(-1)?.isIntersecting ?? true;
    place();
  });
  sight.observe(block);
  element.addEventListener('focusout', () => setTimeout(place));
  // Its height is left free at the end of the page, and where the page scrolls to what has the focus.
  const height = new ResizeObserver(() => {
    if (hideOther === hide)
      document.documentElement.style.setProperty('--player-bar', `${main.element.offsetHeight}px`);
  });
  height.observe(main.element);
  signal.addEventListener('abort', () => {
    sight.disconnect();
    height.disconnect();
    if (hideOther === hide) hide();
  });
  playHere.addEventListener('click', wiring.playOrPause, { signal });

  return {
    element,
    show: () => {
      main.show();
      sheet?.show();
    },
    showState: (next) => {
      state = next;
      main.showState(next);
      setLabel(playHere, playerText(isRunning(next) ? 'pauseIt' : 'hearIt'));
      place();
    },
    showRound: main.showRound,
    showLargeType: () => {
      sheet?.showLargeType();
      // It is there to be read, so the sheet makes room for it.
      if (wiring.isLargeTypeOpen() && !holder.hidden) closeSheet();
    },
    showHarp: () => sheet?.showHarp(),
    showMusic: () => {
      main.show();
      sheet?.showMusic();
    },
    focusPlay: () => main.play.focus({ preventScroll: true }),
    appear,
    top: () => {
      const { top } = element.getBoundingClientRect();
      return top > 0 ? top : innerHeight;
    },
  };
}

/** The title of a block; that of the section it is in where it has none. */
function titleOf(block: HTMLElement): string {
  const headings = [...document.querySelectorAll('main :is(h1, h2, h3)')].filter(
    (heading) => heading.compareDocumentPosition(block) & Node.DOCUMENT_POSITION_FOLLOWING,
  );
  return (block.querySelector('.block-title') ?? headings.at(-1))?.textContent?.trim() ?? '';
}

/** The words of a button before what is only read aloud. */
function setLabel(button: HTMLElement, text: string): void {
  const [first] = button.childNodes;
  if (first instanceof Text) first.data = text;
  else button.prepend(text);
}
