/** Progress as a file: `<progress-file>` saves it, loads it, and hands out what could not be read. */
import { progressHere } from './here.ts';
import { type Progress, readRecord, sameProgress, writeRecord } from './record.ts';

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
      this.querySelector('button[name=save]')?.addEventListener('click', () => {
        download(`progress-${slug(course)}.json`, writeRecord(store.progress(), course));
      });
      this.querySelector('button[name=load]')?.addEventListener('click', () => input?.click());
      input?.addEventListener('change', async () => {
        const [file] = input.files ?? [];
        if (!file) return;
        const text = await file.text().catch(() => '');
        // So that the same file can be chosen again.
        input.value = '';
        say(this.load(text));
      });
      const show = () => this.tellTroubles();
      store.onChange(show);
      show();
    }

    /** Takes a file's marks over, and says what became of it. */
    private load(text: string): string {
      const store = progressHere();
      const reading = readRecord(text);
      if (reading.kind === 'version') {
        return `This file was saved by another version of this site (${reading.version}), and cannot be read here. Nothing was changed.`;
      }
      const { progress } = reading;
      if (progress.lessons.size + progress.blocks.size === 0 && reading.kind === 'damaged') {
        return 'This is no file of progress, or it is damaged. Nothing was changed.';
      }
      const before = store.progress();
      store.add(progress);
      const after = store.progress();
      const lessons = count(after) - count(before);
      const part = reading.kind === 'damaged' ? ' Part of the file is damaged and was left out.' : '';
      if (sameProgress(before, after)) return `The file says nothing that is not known here already.${part}`;
      return lessons > 0
        ? `Loaded: ${lessons} more ${lessons === 1 ? 'lesson' : 'lessons'} done.${part}`
        : `Loaded, with no more lessons done than before.${part}`;
    }

    /** What could not be read, and whether anything is kept at all. */
    private tellTroubles(): void {
      const store = progressHere();
      const box = this.querySelector('.troubles');
      if (!box) return;
      box.replaceChildren();
      if (!store.keeps()) {
        box.append(
          paragraph(
            'This browser keeps nothing for this site: what you mark lasts until you close the page. Save it as a file.',
          ),
        );
      }
      for (const { key, text } of store.asides()) {
        const line = paragraph(
          'Progress that was kept in this browser could not be read in full. It has been put aside as it was, and nothing of it is deleted. ',
        );
        line.append(
          button('Save it as a file', () => download('progress-put-aside.txt', text)),
          ' ',
          button('Delete it', () => store.removeAside(key)),
        );
        box.append(line);
      }
    }
  },
);

const count = ({ lessons }: Progress): number => [...lessons.values()].filter(({ done }) => done).length;

/** A title as part of a file's name. */
const slug = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-|-$/g, '') || 'course';

function download(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

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
