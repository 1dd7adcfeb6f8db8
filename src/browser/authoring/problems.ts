/** The list of problems over the page: it stays open or closed from page to page, and what changed in it is read aloud. */
const STORED_AS = 'reedway-problems';

/** Starts the list. Call what is returned when the page may have another one. */
export function followProblems(): () => void {
  const list = foldOf();
  if (list && read() === 'open') list.open = true;
  // Events of a fold do not bubble.
  document.addEventListener('toggle', ({ target }) => target === foldOf() && keep(), { capture: true });
  document.addEventListener('keydown', ({ key, target }) => {
    const own = foldOf();
    if (key !== 'Escape' || !own?.open || !(target instanceof Element) || !own.contains(target)) return;
    own.open = false;
    own.querySelector('summary')?.focus();
  });
  let said = inSum();
  return () => {
    const now = inSum();
    const report = document.querySelector('.problems > [role="status"]');
    if (now !== said && report) report.textContent = now;
    said = now;
  };
}

const foldOf = (): HTMLDetailsElement | null => document.querySelector('.problems > details');
const inSum = (): string => foldOf()?.querySelector('summary')?.textContent.trim() ?? '';

function read(): string | null {
  try {
    return sessionStorage.getItem(STORED_AS);
  } catch {
    return null;
  }
}

function keep(): void {
  try {
    sessionStorage.setItem(STORED_AS, foldOf()?.open ? 'open' : 'closed');
  } catch {
    // A browser that keeps nothing shows each page with a closed list.
  }
}
