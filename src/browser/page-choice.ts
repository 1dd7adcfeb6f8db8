/**
 * What a visitor chooses for all pages: light or dark, and how music is shown. A choice lasts in this browser; the page's head applies
 * it before the first paint (site/policy.ts). The first of its values is what a page is without a choice.
 */
class PageChoice extends HTMLElement {
  connectedCallback(): void {
    const { setting } = this.dataset;
    if (setting === undefined) return;
    const inputs = [...this.querySelectorAll('input')];
    const usual = inputs[0]?.value;
    const chosen = document.documentElement.dataset[setting] ?? usual;
    for (const input of inputs) input.checked = input.value === chosen;
    this.addEventListener('change', (event) => {
      if (event.target instanceof HTMLInputElement)
        choose(setting, event.target.value === usual ? undefined : event.target.value);
    });
  }
}

function choose(setting: string, value: string | undefined): void {
  const { dataset } = document.documentElement;
  if (value === undefined) delete dataset[setting];
  else dataset[setting] = value;
  try {
    const key = `reedway-${setting}`;
    if (value === undefined) localStorage.removeItem(key);
    else localStorage.setItem(key, value);
  } catch {
    // A browser that keeps nothing still shows what was chosen, on this page.
  }
}

customElements.define('page-choice', PageChoice);
