/** The buttons of the page to play along with: each starts the browser's sound, and loads what plays with the first press. */
import { wakeSound } from '../player/context.ts';
import { query } from '../query.ts';
import { playAlongText } from '../texts/play-along.ts';
import type { SoundSwitch } from './sound-switch.ts';
import { createTapTempo } from './tap-tempo.ts';

class PlayAlong extends HTMLElement {
  private readonly playing = new Map<string, Promise<SoundSwitch>>();

  connectedCallback(): void {
    this.onPress('band', async (context) => (await import('./band.ts')).createBand(this, context));
    this.onPress('drone', async (context) => (await import('./drone.ts')).createDroneOf(this, context));
    const tap = createTapTempo();
    const tempo = query(this, 'input[name="tempo"]', HTMLInputElement);
    query(this, 'button[name="tap"]', HTMLButtonElement).addEventListener('click', ({ timeStamp }) => {
      const beats = tap(timeStamp);
      if (beats === undefined) return;
      tempo.value = String(Math.min(Number(tempo.max), Math.max(Number(tempo.min), beats)));
      tempo.dispatchEvent(new Event('change', { bubbles: true }));
    });
  }

  private onPress(name: string, create: (context: AudioContext) => Promise<SoundSwitch>): void {
    query(this, `button[name="${name}"]`, HTMLButtonElement).addEventListener('click', async () => {
      const context = wakeSound();
      this.report(context ? '' : playAlongText('noSound'));
      if (!context) return;
      const playing = this.playing.get(name) ?? create(context);
      this.playing.set(name, playing);
      try {
        (await playing).toggle();
      } catch {
        this.playing.delete(name);
        this.report(playAlongText('notLoaded'));
      }
    });
  }

  private report(text: string): void {
    query(this, '[role="alert"]', HTMLElement).textContent = text;
  }
}

customElements.define('play-along', PlayAlong);
