/** Builds elements: a name, what is set on it, and what it holds. */
type Given = Readonly<Record<string, string | number | boolean | undefined>>;

/** An HTML element with attributes and children. */
export function make<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  given: Given = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(given)) {
    if (value !== undefined && value !== false) element.setAttribute(key, value === true ? '' : String(value));
  }
  element.append(...children);
  return element;
}

const SVG = 'http://www.w3.org/2000/svg';

/** An SVG element with attributes and children. */
export function makeSvg(name: string, given: Given, ...children: readonly Node[]): SVGElement {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(given)) if (value !== undefined) element.setAttribute(key, String(value));
  element.append(...children);
  return element;
}

let made = 0;
/** An id that no other element of the page has. */
export const freshId = (): string => `sound-${++made}`;

/** A button that calls `press` when it is pressed. */
export function button(label: string, press: () => void, given: Given = {}): HTMLButtonElement {
  const element = make('button', { type: 'button', ...given }, label);
  element.addEventListener('click', press);
  return element;
}

/** A toggle button: its state is read from `aria-pressed`. */
export function toggle(label: string, pressed: boolean, change: (pressed: boolean) => void): HTMLButtonElement {
  const element = button(
    label,
    () => {
      const now = element.getAttribute('aria-pressed') !== 'true';
      element.setAttribute('aria-pressed', String(now));
      change(now);
    },
    { 'aria-pressed': String(pressed) },
  );
  return element;
}

/** Shows a toggle as on or off. */
export const setPressed = (toggle: HTMLElement, down: boolean): void =>
  toggle.setAttribute('aria-pressed', String(down));

/** A control with its label on the same line: behind a box to be ticked, else before it. */
export function labelled(text: string, control: HTMLElement, ...after: readonly (Node | string)[]): HTMLElement {
  control.id ||= freshId();
  const label = make('label', { for: control.id }, text);
  const ticked = control instanceof HTMLInputElement && control.type === 'checkbox';
  return make('span', { class: 'field' }, ...(ticked ? [control, label] : [label, control]), ...after);
}

/** Limits and step of a slider, in its own unit. */
export interface SliderRange {
  readonly least: number;
  readonly most: number;
  readonly step: number;
}

/** A slider. `moved` hears every move, `settled` where it was let go. */
export function slider(
  { least, most, step }: SliderRange,
  value: number,
  moved: (value: number) => void,
  settled: (value: number) => void = () => {},
): HTMLInputElement {
  const element = make('input', { type: 'range', min: least, max: most, step });
  element.value = String(value);
  element.addEventListener('input', () => moved(element.valueAsNumber));
  element.addEventListener('change', () => settled(element.valueAsNumber));
  return element;
}

/** A field for a number. A number outside the range is corrected when the field is left; what is not a number is undone. */
export function numberField(
  { least, most, step }: SliderRange,
  value: number,
  settled: (value: number) => void,
): HTMLInputElement {
  const element = make('input', { type: 'number', min: least, max: most, step, inputmode: 'numeric' });
  element.value = String(value);
  let before = element.value;
  element.addEventListener('focus', () => {
    before = element.value;
  });
  element.addEventListener('change', () => {
    const typed = element.valueAsNumber;
    if (!Number.isFinite(typed)) {
      element.value = before;
      return;
    }
    const sane = Math.min(most, Math.max(least, Math.round(typed)));
    element.value = String(sane);
    before = element.value;
    settled(sane);
  });
  return element;
}

/** A checkbox that calls `change` with its new state. */
export function checkbox(checked: boolean, change: (checked: boolean) => void): HTMLInputElement {
  const element = make('input', { type: 'checkbox' });
  element.checked = checked;
  element.addEventListener('change', () => change(element.checked));
  return element;
}

/** A select element that calls `change` with the chosen value. */
export function choice(
  options: readonly { readonly value: string; readonly text: string }[],
  value: string,
  change: (value: string) => void,
): HTMLSelectElement {
  const element = make('select', {}, ...options.map((option) => make('option', { value: option.value }, option.text)));
  element.value = value;
  element.addEventListener('change', () => change(element.value));
  return element;
}
