/**
 * Points a student onward: `<path-onward>` holds a link to the lesson that comes next in the course's order, which gives
 * way to the one that comes next for this student. With `data-from-last` it is to where they were last, if that lesson is not done.
 */
import { nextLesson } from './next-lesson.ts';
import { placeHere, progressHere } from './own-progress.ts';
import { fetchPathLessons } from './path-lessons.ts';
import { blockHash } from './place.ts';
import { isDone } from './record.ts';

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
        const last = this.dataset['fromLast'] === undefined ? undefined : placeHere();
        const begun = [...(store.progress().get('lessons')?.values() ?? [])].some(({ value }) => value === true);
        const lessons = begun || last ? await fetchPathLessons() : [];
        const left = lessons.find(({ id }) => id === last?.lesson && !isDone(store.progress(), 'lessons', id));
        const next = left ?? nextLesson(lessons, store.progress());
        const finished = lessons.length > 0 && !next;
        const anchor = left && last?.block !== undefined ? blockHash(last.block) : '';
        link.href = next ? next.address + anchor : written.href;
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
