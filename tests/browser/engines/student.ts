/** What a student does on a page, by the roles and names of what is on it: the same in every engine. */
import { expect } from 'vitest';
import type { EnginePage } from './engine.ts';

/** Something on the page: what it is and how it is called, perhaps only within an element. */
export interface Wanted {
  readonly role: 'button' | 'checkbox' | 'select';
  /** The whole of its name, or with `*` at its end how it begins. Of a select, how it begins. */
  readonly name: string;
  /** A selector. */
  readonly within?: string;
}

export interface Student {
  readonly page: EnginePage;
  /** Waits until something is there, brings it into the window and presses it. */
  readonly press: (wanted: Wanted) => Promise<void>;
  /** Waits until something is there, and says whether it is pressed or ticked. */
  readonly isOn: (wanted: Wanted) => Promise<boolean>;
  /** Chooses an option by its text, which may contain more. */
  readonly choose: (wanted: Wanted, option: string) => Promise<void>;
  /** Waits until a question about the page is answered with true. */
  readonly sees: <Argument>(
    what: string,
    question: (argument: Argument) => boolean,
    argument?: Argument,
  ) => Promise<void>;
}

/** Milliseconds to wait for what is to come. */
const PATIENCE = 15_000;

export function studentAt(page: EnginePage): Student {
  const poll = <Answer>(what: string, ask: () => Promise<Answer>) =>
    expect.poll(ask, { timeout: PATIENCE, interval: 40, message: what });

  return {
    page,
    press: async (wanted) => {
      let at: { x: number; y: number } | undefined;
      // What moves, as while the page scrolls, is not pressed yet.
      await poll(`press ${JSON.stringify(wanted)}`, async () => {
        const before = at;
        at = (await page.run(middleOf, wanted)) ?? undefined;
        return at !== undefined && at.x === before?.x && at.y === before.y;
      }).toBe(true);
      await page.pressAt(at?.x ?? 0, at?.y ?? 0);
    },
    isOn: async (wanted) => {
      let on: boolean | undefined;
      await poll(`find ${JSON.stringify(wanted)}`, async () => {
        on = (await page.run(stateOf, wanted)) ?? undefined;
        return on !== undefined;
      }).toBe(true);
      return on === true;
    },
    choose: (wanted, option) =>
      poll(`choose ${option} of ${JSON.stringify(wanted)}`, () => page.run(optionChosen, { wanted, option })).toBe(
        true,
      ),
    sees: (what, question, argument) => poll(what, () => page.run(question as never, argument)).toBe(true),
  };
}

// These run in the page, each alone: finding an element is repeated in them.

/** The middle of an element in the window; null while it is not there or something lies over it. */
function middleOf({ role, name, within }: Wanted): { x: number; y: number } | null {
  const kinds = { button: 'button', checkbox: 'input[type=checkbox]', select: 'select' };
  const nameOf = (one: HTMLElement): string => {
    const { labels } = one as HTMLInputElement;
    return (one.getAttribute('aria-label') ?? labels?.[0]?.textContent ?? one.textContent ?? '').trim();
  };
  const found = [...document.querySelectorAll<HTMLElement>(`${within ?? 'body'} ${kinds[role]}`)].find((one) => {
    const own = nameOf(one).replace(/\s+/g, ' ');
    return one.checkVisibility() && (name.endsWith('*') ? own.startsWith(name.slice(0, -1)) : own === name);
  });
  if (!found) return null;
  const inWindow = (): DOMRect => found.getBoundingClientRect();
  const point = (): { x: number; y: number } => {
    const { left, top, width, height } = inWindow();
    return { x: Math.round(left + width / 2), y: Math.round(top + Math.min(height / 2, 60)) };
  };
  let at = point();
  const isFree = (): boolean => {
    const top = document.elementFromPoint(at.x, at.y);
    return top !== null && (found.contains(top) || top.contains(found));
  };
  if (!isFree()) {
    found.scrollIntoView({ block: 'center', behavior: 'instant' });
    at = point();
  }
  return isFree() ? at : null;
}

/** Whether a button is pressed or a box ticked; null while it is not there. */
function stateOf({ role, name, within }: Wanted): boolean | null {
  const nameOf = (one: HTMLElement): string => {
    const { labels } = one as HTMLInputElement;
    return (one.getAttribute('aria-label') ?? labels?.[0]?.textContent ?? one.textContent ?? '').trim();
  };
  const kind = role === 'checkbox' ? 'input[type=checkbox]' : 'button';
  const found = [...document.querySelectorAll<HTMLElement>(`${within ?? 'body'} ${kind}`)].find((one) => {
    const own = nameOf(one).replace(/\s+/g, ' ');
    return one.checkVisibility() && (name.endsWith('*') ? own.startsWith(name.slice(0, -1)) : own === name);
  });
  if (!found) return null;
  return found instanceof HTMLInputElement ? found.checked : found.getAttribute('aria-pressed') === 'true';
}

/** Chooses as one does by hand: the page hears that it changed. False while there is no such option. */
function optionChosen({ wanted, option }: { wanted: Wanted; option: string }): boolean {
  const select = [...document.querySelectorAll<HTMLSelectElement>(`${wanted.within ?? 'body'} select`)].find((one) =>
    (one.getAttribute('aria-label') ?? one.labels[0]?.textContent ?? '').trim().startsWith(wanted.name),
  );
  const found = [...(select?.options ?? [])].find(({ text }) => text.includes(option));
  if (!select || !found) return false;
  select.value = found.value;
  select.dispatchEvent(new Event('change', { bubbles: true }));
  return true;
}
