/** The path page as one student sees it: `<path-view>` says how far they are, and marks the map and the list. */
import { progressText } from '../texts/progress.ts';
import { type LessonAndNeeds, type LessonState, nextLesson, stateOf } from './next-lesson.ts';
import { placeHere, progressHere } from './own-progress.ts';
import { isDone, type Progress } from './record.ts';

interface ListedLesson extends LessonAndNeeds {
  readonly item: HTMLElement;
  readonly title: string;
}

const STATES = ['done', 'ready', 'later', 'next'] as const;

customElements.define(
  'path-view',
  class extends HTMLElement {
    private forget: (() => void) | undefined;

    connectedCallback(): void {
      const store = progressHere();
      const lessons = [...document.querySelectorAll<HTMLElement>('.path-list li[data-lesson]')].map(
        (item): ListedLesson => ({
          id: item.dataset['lesson'] ?? '',
          needs: (item.dataset['needs'] ?? '').split(' ').filter(Boolean),
          item,
          title: item.querySelector('a')?.textContent ?? '',
        }),
      );
      const boxes = new Map(
        [...document.querySelectorAll<SVGElement>('.path-map .lesson-box')].map((box) => [box.dataset['lesson'], box]),
      );
      const names = new Map([...boxes].map(([id, box]) => [id, box.getAttribute('aria-label') ?? '']));
      const dependencies = [...document.querySelectorAll<SVGElement>('.path-map .dependency[data-from]')];
      const show = () => {
        const progress = store.progress();
        const blocks = blocksDone(progress);
        const next = nextLesson(lessons, progress);
        for (const lesson of lessons) {
          const state = stateOf(lesson, progress);
          const isNext = lesson === next;
          const words = progressText(isNext ? 'next' : state);
          const box = boxes.get(lesson.id);
          for (const one of box ? [lesson.item, box] : [lesson.item]) {
            for (const name of STATES) one.classList.toggle(name, name === (isNext ? 'next' : state));
          }
          box?.setAttribute(
            'aria-label',
            progressText('lessonOnMap', { lesson: names.get(lesson.id) ?? '', state: words.toLowerCase() }),
          );
          const label = lesson.item.querySelector('.state');
          if (label) label.textContent = words + blocksInWords(lesson, state, blocks.get(lesson.id));
        }
        for (const dependency of dependencies)
          dependency.classList.toggle('walked', isDone(progress, 'lessons', dependency.dataset['from'] ?? ''));
        for (const part of document.querySelectorAll('.path-part')) {
          const own = lessons.filter(({ item }) => part.contains(item));
          const done = own.filter(({ id }) => isDone(progress, 'lessons', id)).length;
          const count = part.querySelector('.part-done');
          if (count) count.textContent = done > 0 ? progressText('partDone', { count: done }) : '';
        }
        this.describe(lessons, next, lessons.filter(({ id }) => isDone(progress, 'lessons', id)).length);
      };
      this.forget = store.onChange(show);
      show();
      openPart(document.querySelector('.path-list .next'));
    }

    disconnectedCallback(): void {
      this.forget?.();
    }

    /** In a sentence: how many are done, and which comes next. */
    private describe(lessons: readonly ListedLesson[], next: ListedLesson | undefined, done: number): void {
      const line = this.querySelector('.progress-summary');
      if (!line) return;
      line.replaceChildren(done === 0 ? '' : progressText('lessonsDone', { count: done, lessons: lessons.length }));
      const last = lessons.find(({ id }) => id === placeHere()?.lesson);
      const left = last && !isDone(progressHere().progress(), 'lessons', last.id) ? last : undefined;
      const pointTo = (lead: string, { item, title }: ListedLesson): void => {
        const link = document.createElement('a');
        link.href = item.querySelector('a')?.href ?? '';
        link.textContent = title;
        line.append(lead, link, progressText('sentenceEnd'));
      };
      if (left) pointTo(progressText('lastWas'), left);
      if (next && next !== left) {
        if (left) line.append(' ');
        pointTo(progressText(done > 0 || left ? 'nextComes' : 'beginWith'), next);
      }
      if (!next && done > 0) line.append(progressText('allDone'));
    }
  },
);

/** A long path is folded: the part that holds the next lesson is open, and no other. */
function openPart(next: Element | null): void {
  const part = next?.closest('details');
  if (!part) return;
  for (const other of document.querySelectorAll<HTMLDetailsElement>('details.path-part')) other.open = other === part;
}

/** How many blocks are done of each lesson where any are. */
function blocksDone(progress: Progress): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const key of progress.get('blocks')?.keys() ?? []) {
    const lesson = key.slice(0, Math.max(0, key.lastIndexOf('/')));
    if (isDone(progress, 'blocks', key)) counts.set(lesson, (counts.get(lesson) ?? 0) + 1);
  }
  return counts;
}

/** `, 2 of 5 blocks`, where a lesson is begun and not done. */
function blocksInWords({ item }: ListedLesson, state: LessonState, count: number | undefined): string {
  if (state === 'done' || count === undefined) return '';
  return progressText('blocksDone', { count, blocks: item.dataset['blocks'] ?? '' });
}
