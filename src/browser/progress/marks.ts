/**
 * The checkboxes by which a student marks things done: `<block-mark>` under a block, `<lesson-mark>` at the end of a
 * lesson. Where something was reached in a block, or is played, the scripts for that are loaded.
 */
import { PLAYED_EVENT } from '../player/played.ts';
import { marksText } from '../texts/marks.ts';
import { placeHere, progressHere } from './own-progress.ts';
import { PLACE } from './place.ts';
import { entryOf, isDone, type ProgressKind } from './record.ts';

/** What is only needed where something was reached, is played or was marked. */
const later = () => import('./later.ts');

/** A checkbox that says whether one thing is done. The element's `data-progress-id` names the thing. */
abstract class MarkElement extends HTMLElement {
  abstract readonly kind: ProgressKind;
  private forget: (() => void) | undefined;

  connectedCallback(): void {
    const box = this.querySelector('input');
    const key = this.dataset['progressId'];
    if (!box || key === undefined) return;
    const store = progressHere();
    const show = () => {
      box.checked = isDone(store.progress(), this.kind, key);
    };
    const report = document.createElement('p');
    report.setAttribute('role', 'status');
    this.append(report);
    box.addEventListener('change', () => {
      store.set(this.kind, key, box.checked);
      const trouble = store.trouble();
      report.textContent =
        trouble === undefined ? '' : marksText(trouble === 'full' ? 'notKeptFull' : 'notKeptBlocked');
      // A browser that cannot load it keeps what it can.
      if (box.checked)
        later().then(
          ({ askToKeep }) => askToKeep(store),
          () => {},
        );
    });
    this.forget = store.onChange(show);
    show();
    this.begin(key);
  }

  disconnectedCallback(): void {
    this.forget?.();
  }

  protected abstract begin(key: string): void;
}

customElements.define(
  'block-mark',
  class extends MarkElement {
    readonly kind = 'blocks';

    protected begin(key: string): void {
      if (!entryOf(progressHere().progress(), 'settings', key)) return;
      later().then(
        ({ offerToGoOn }) => offerToGoOn(this, key),
        () => {},
      );
    }
  },
);
customElements.define(
  'lesson-mark',
  class extends MarkElement {
    readonly kind = 'lessons';

    protected begin(lesson: string): void {
      if (placeHere()?.lesson !== lesson) progressHere().set('place', PLACE, { lesson });
    }
  },
);

document.addEventListener(
  PLAYED_EVENT,
  (event) => {
    later().then(
      ({ watchPlaying }) => watchPlaying(event),
      () => {},
    );
  },
  { once: true },
);
