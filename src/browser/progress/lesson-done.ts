/** `<lesson-done>` beside or within a lesson’s link, wherever lessons are listed: says that the lesson is done. */
import { marksText } from '../texts/marks.ts';
import { progressHere } from './own-progress.ts';
import { isDone } from './record.ts';

customElements.define(
  'lesson-done',
  class extends HTMLElement {
    private forget: (() => void) | undefined;

    connectedCallback(): void {
      const store = progressHere();
      /** A link with a name of its own, which is read in place of what it holds. */
      const named = this.closest('a[aria-label]');
      const name = named?.getAttribute('aria-label') ?? '';
      const show = () => {
        const done = isDone(store.progress(), 'lessons', this.dataset['lesson'] ?? '');
        const tick = document.createElement('span');
        tick.setAttribute('aria-hidden', 'true');
        tick.textContent = marksText('doneTick');
        this.replaceChildren(...(done ? [tick, ...(named ? [] : [' ', marksText('doneShown')])] : []));
        named?.setAttribute('aria-label', done ? marksText('lessonDone', { lesson: name }) : name);
      };
      this.forget = store.onChange(show);
      show();
    }

    disconnectedCallback(): void {
      this.forget?.();
    }
  },
);
