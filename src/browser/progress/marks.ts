/**
 * The checkboxes by which a student marks things done: `<block-mark>` under a block, `<lesson-mark>` at the end of a
 * lesson.
 */
import { progressText } from '../texts/progress.ts';
import { progressHere } from './own-progress.ts';
import { isDone, type ProgressKind } from './record.ts';

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
      store.mark(this.kind, key, box.checked);
      const trouble = store.trouble();
      report.textContent =
        trouble === undefined ? '' : progressText(trouble === 'full' ? 'notKeptFull' : 'notKeptBlocked');
    });
    this.forget = store.onChange(show);
    show();
  }

  disconnectedCallback(): void {
    this.forget?.();
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
