/** The button of a rhythm line: starts the browser's sound, and loads what plays the rhythm with the first press. */
import type { Playback } from '../../score/playback.ts';
import { wakeSound } from '../player/context.ts';
import { rhythmText } from '../texts/rhythm.ts';
import type { RhythmLoop } from './loop.ts';

class Rhythm extends HTMLElement {
  private loop: Promise<RhythmLoop> | undefined;

  connectedCallback(): void {
    const button = this.querySelector('button');
    button?.addEventListener('click', () => void this.press(button));
  }

  disconnectedCallback(): void {
    void this.loop?.then(({ stop }) => stop());
  }

  private async press(button: HTMLButtonElement): Promise<void> {
    const context = wakeSound();
    if (!context) {
      this.report(rhythmText('noSound'));
      return;
    }
    this.report('');
    try {
      this.loop ??= import('./loop.ts').then(({ createRhythmLoop }) => {
        const playback = JSON.parse(this.querySelector('script')?.textContent ?? '') as Playback;
        return createRhythmLoop(playback, context, this.closest('figure') ?? this, (plays) => {
          button.textContent = rhythmText(plays ? 'stop' : 'play');
        });
      });
      (await this.loop).toggle();
    } catch {
      this.loop = undefined;
      this.report(rhythmText('notLoaded'));
    }
  }

  private report(text: string): void {
    const place = this.querySelector('[role="alert"]');
    if (place) place.textContent = text;
  }
}

customElements.define('reedway-rhythm', Rhythm);
