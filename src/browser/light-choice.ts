/** Day, night, or as the device has it: the choice lasts in this browser. The page's head applies it before the first paint. */
const KEY = 'reedway-light';

class LightChoice extends HTMLElement {
  connectedCallback(): void {
    const chosen = document.documentElement.dataset['light'] ?? 'device';
    for (const input of this.querySelectorAll('input')) input.checked = input.value === chosen;
    this.addEventListener('change', (event) => {
      if (event.target instanceof HTMLInputElement) choose(event.target.value);
    });
  }
}

function choose(light: string): void {
  const { dataset } = document.documentElement;
  if (light === 'device') delete dataset['light'];
  else dataset['light'] = light;
  try {
    if (light === 'device') localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, light);
  } catch {
    // A browser that keeps nothing still shows what was chosen, on this page.
  }
}

customElements.define('light-choice', LightChoice);
