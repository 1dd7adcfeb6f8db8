/** What a page carries until the reader presses play: a button that starts the browser's sound and loads the player. */
import '../block-link/watch.ts';
import type { PlaySettings } from '../../schedule/settings.ts';
import { playerButtonText } from '../texts/player-button.ts';
import { wakeSound } from './context.ts';

class Player extends HTMLElement {
  private close: (() => void) | undefined;

  connectedCallback(): void {
    const hear = this.querySelector('button');
    // A script asks for settings in the click's detail; that of a student's own click is a number, which sets nothing.
    hear?.addEventListener('click', async ({ detail }: CustomEventInit<Partial<PlaySettings>>) => {
      if (this.close) return;
      const context = wakeSound();
      hear.disabled = true;
      try {
        const { openPlayer } = await import('./player.ts');
        // An author's save may have replaced it.
        if (this.isConnected) this.close = openPlayer(this, context, detail);
      } catch {
        hear.disabled = false;
        hear.firstChild?.replaceWith(playerButtonText('notLoaded'));
        // A disabled button loses the focus.
        hear.focus();
      }
    });
  }

  disconnectedCallback(): void {
    this.close?.();
  }
}

customElements.define('reedway-player', Player);
