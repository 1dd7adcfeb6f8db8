/** What a page carries until the reader presses play: a button that starts the browser's sound and loads the player. */
import { playerButtonText } from '../texts/player-button.ts';
import { wakeSound } from './context.ts';

class Player extends HTMLElement {
  connectedCallback(): void {
    const hear = this.querySelector('button');
    hear?.addEventListener('click', async () => {
      const context = wakeSound();
      hear.disabled = true;
      try {
        const { openPlayer } = await import('./player.ts');
        openPlayer(this, context);
      } catch {
        hear.disabled = false;
        hear.textContent = playerButtonText('notLoaded');
        // A disabled button loses the focus.
        hear.focus();
      }
    });
  }
}

customElements.define('reedway-player', Player);
