/**
 * Points a student onward: `<path-onward>` holds a link to the lesson that comes next in the course's order, which gives
 * way to the one that comes next for this student.
 */
import { nextLesson } from './next-lesson.ts';
import { progressHere } from './own-progress.ts';
import { fetchPathLessons } from './path-lessons.ts';

customElements.define(
  'path-onward',
  class extends HTMLElement {
    private forget: (() => void) | undefined;

    connectedCallback(): void {
      const link = this.querySelector('a');
      if (!link) return;
      const store = progressHere();
      const written = { href: link.href, text: link.textContent };
      const show = async () => {
        const begun = [...store.progress().lessons.values()].some(({ done }) => done);
        const lessons = begun ? await fetchPathLessons() : [];
        const next = nextLesson(lessons, store.progress());
        const finished = lessons.length > 0 && !next;
        link.href = next?.address ?? written.href;
        link.textContent = next
          ? (this.dataset['nextText'] ?? '%').replace('%', () => next.title)
          : finished
            ? (this.dataset['doneText'] ?? written.text)
            : written.text;
        // The summary of the lesson that was shown here does not fit another.
        for (const part of this.querySelectorAll<HTMLElement>('[data-summary-of]')) {
          part.hidden = next !== undefined && part.dataset['summaryOf'] !== next.id;
        }
      };
      this.forget = store.onChange(show);
      void show();
    }

    disconnectedCallback(): void {
      this.forget?.();
    }
  },
);
