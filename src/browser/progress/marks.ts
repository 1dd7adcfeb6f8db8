/**
 * The checkboxes by which a student marks things done: `<block-mark>` under a block, `<lesson-mark>` at the end of a
 * lesson.
 */
import { progressHere } from './own-progress.ts';
import { isDone, type ProgressKind } from './record.ts';

/** A checkbox that says whether one thing is done. The element's `data-progress-id` names the thing. */
abstract class MarkElement extends HTMLElement {
  abstract readonly kind: ProgressKind;

  connectedCallback(): void {
    const box = this.querySelector('input');
    const key = this.dataset['progressId'];
    if (!box || key === undefined) return;
    const store = progressHere();
    const show = () => {
      box.checked = isDone(store.progress(), this.kind, key);
    };
    box.addEventListener('change', () => store.mark(this.kind, key, box.checked));
    store.onChange(show);
    show();
  }
}

customElements.define(
  'block-mark',
  class extends MarkElement {
    readonly kind = 'blocks';
  },
);
customElements.define(
  'lesson-mark',
  class extends MarkElement {
    readonly kind = 'lessons';
  },
);
