/** Progress as a file: `<progress-file>` saves it, loads it, and hands out what could not be read. */
import { offerFile } from '../offer-file.ts';
import { progressText } from '../texts/progress.ts';
import { takeAsidesOver } from './asides.ts';
import { readFormer, underNewNames } from './former.ts';
import { isKeptForGood, isWorthSaving, type Noted } from './lasting.ts';
import { progressHere } from './own-progress.ts';
import { partOf, sizeOf } from './part-of.ts';
import { fetchPathLessons } from './path-lessons.ts';
import { isDone, type Progress, readRecord, writeRecord } from './record.ts';

customElements.define(
  'progress-file',
  class extends HTMLElement {
    connectedCallback(): void {
      const store = progressHere();
      const course = this.dataset['course'] ?? '';
      const input = this.querySelector<HTMLInputElement>('input[type=file]');
      const said = this.querySelector('[role=status]');
      const say = (text: string) => {
        if (said) said.textContent = text;
      };
      const save = () => {
        const record = new Blob([writeRecord(store.progress(), { course })], { type: 'application/json' });
        offerFile(`progress-${slug(course)}.json`, record);
        store.note({ saved: Date.now() } satisfies Noted);
      };
      this.querySelector('button[name=save]')?.addEventListener('click', save);
      this.querySelector('button[name=load]')?.addEventListener('click', () => input?.click());
      input?.addEventListener('change', async () => {
        const [file] = input.files ?? [];
        if (!file) return;
        const text = await file.text().catch(() => '');
        // So that the same file can be chosen again.
        input.value = '';
        say(await this.load(text));
      });
      takeAsidesOver(store);
      const show = () => this.tellTroubles();
      store.onChange(show);
      show();
      void this.remind(save);
    }

    /** Where much may be lost, a line that offers to save it, until the student has or does not want to. */
    private async remind(save: () => void): Promise<void> {
      const store = progressHere();
      const isNeeded = () =>
        store.trouble() === undefined && isWorthSaving(store.progress(), store.about(), Date.now());
      const line = this.querySelector('.reminder');
      if (!line || !isNeeded() || (await isKeptForGood())) return;
      const answer = (text: string, press: () => void): HTMLButtonElement =>
        button(text, () => {
          press();
          line.replaceChildren();
          // The button that had the focus is gone.
          this.querySelector('summary')?.focus();
        });
      line.replaceChildren(
        progressText('mayBeDeleted'),
        answer(progressText('saveNow'), save),
        ' ',
        answer(progressText('notNow'), () => store.note({ declined: Date.now() } satisfies Noted)),
      );
    }

    /** Takes a file's marks over, and says what became of it. */
    private async load(text: string): Promise<string> {
      const store = progressHere();
      const reading = readRecord(text);
      if (reading.kind === 'version') {
        return progressText('otherVersion', { version: reading.version });
      }
      if (sizeOf(reading.progress) === 0 && reading.kind === 'damaged') {
        return progressText('noRecord');
      }
      // Where the site cannot be reached, it is not known what the course has, and everything is taken.
      const course = await fetchPathLessons();
      const former = readFormer(document.documentElement.dataset['former']);
      const record = underNewNames(reading.progress, former);
      const { part: ofCourse, left } =
        course.length > 0 ? partOf(record, new Set(course.map(({ id }) => id)), former) : { part: record, left: 0 };
      const before = store.progress();
      store.add(ofCourse);
      const after = store.progress();
      const lessons = count(after) - count(before);
      const part = `${reading.kind === 'damaged' ? progressText('partDamaged') : ''}${left > 0 ? progressText('notOfCourse', { count: left }) : ''}`;
      if (before === after) return progressText('nothingNew', { part });
      return lessons > 0 ? progressText('loaded', { count: lessons, part }) : progressText('loadedBlocks', { part });
    }

    /** What could not be read, and whether anything is kept at all. */
    private tellTroubles(): void {
      const store = progressHere();
      const box = this.querySelector('.troubles');
      if (!box) return;
      box.replaceChildren();
      const trouble = store.trouble();
      if (trouble !== undefined) box.append(paragraph(progressText(trouble === 'full' ? 'full' : 'keepsNothing')));
      for (const { key, text } of store.asides()) {
        const line = paragraph(progressText('putAside'));
        line.append(
          button(progressText('saveAside'), () =>
            offerFile('progress-put-aside.txt', new Blob([text], { type: 'text/plain' })),
          ),
          ' ',
          button(progressText('deleteAside'), () => store.removeAside(key)),
        );
        box.append(line);
      }
    }
  },
);

const count = (progress: Progress): number =>
  [...(progress.get('lessons')?.keys() ?? [])].filter((id) => isDone(progress, 'lessons', id)).length;

/** A title as part of a file's name. */
const slug = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '') || 'course';

function paragraph(text: string): HTMLParagraphElement {
  const element = document.createElement('p');
  element.append(text);
  return element;
}

function button(text: string, press: () => void): HTMLButtonElement {
  const element = document.createElement('button');
  element.type = 'button';
  element.textContent = text;
  element.addEventListener('click', press);
  return element;
}
