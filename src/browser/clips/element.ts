/**
 * All a page carries of its clips until one is used: the cues become buttons, and the first press or the first play loads
 * the rest. A cue beside a block is a link to the clip, which then plays from there.
 */
import { elementAt } from '../query.ts';
import type { ClipOnPage } from './clip.ts';

class Clip extends HTMLElement {
  private opened: Promise<ClipOnPage> | undefined;

  connectedCallback(): void {
    // A page on another site cannot be started at a given time.
    if (!this.isPage) this.offerCues();
    this.querySelector('video, audio')?.addEventListener('play', () => void this.open(), { once: true });
    this.querySelector<HTMLElement>('a[data-external-kind]')?.addEventListener('click', (event) => {
      // A click that opens a link in another tab is left to the browser.
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      void this.open().then((clip) => clip.load());
    });
  }

  disconnectedCallback(): void {
    void this.opened?.then((clip) => clip.close());
  }

  get isPage(): boolean {
    return this.querySelector('[data-external-kind="page"], iframe') !== null;
  }

  /** Plays from a cue on. */
  jump(cue: number): void {
    void this.open().then((clip) => clip.jump(cue));
  }

  private offerCues(): void {
    for (const time of this.querySelectorAll<HTMLElement>('[data-cue]')) {
      const button = document.createElement('button');
      button.type = 'button';
      button.append(...time.childNodes);
      button.addEventListener('click', () => this.jump(Number(time.dataset['cue'])));
      time.append(button);
    }
  }

  private open(): Promise<ClipOnPage> {
    this.opened ??= import('./clip.ts').then(({ openClip }) => openClip(this));
    return this.opened;
  }
}

customElements.define('reedway-clip', Clip);

document.addEventListener('click', (event) => {
  const link = elementAt(event)?.closest<HTMLElement>('a[data-cue-number]');
  const clip = link && document.querySelector(`${link.getAttribute('href')} > reedway-clip`);
  if (!(clip instanceof Clip) || clip.isPage) return;
  event.preventDefault();
  clip.jump(Number(link?.dataset['cueNumber']));
});
