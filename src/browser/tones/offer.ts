/** Makes every note of the page's figures a button that sounds it. The sound itself loads with the first press. */
import { wakeSound } from '../player/context.ts';
import { elementAt } from '../query.ts';
import { drawingHolder } from '../scroll-box.ts';
import { toneText } from '../texts/tones.ts';

const TONE = 'tone';

/** Wraps what is in an element that names a note into a button; what is read aloud stays and says that it sounds. */
function offer(figure: Element): void {
  for (const place of figure.querySelectorAll<HTMLElement>('[data-frequency]')) {
    if (place.querySelector(`:scope > .${TONE}`)) continue;
    const button = document.createElement('button');
    button.type = 'button';
    button.className = TONE;
    const aloud = document.createElement('span');
    aloud.className = 'aloud';
    aloud.textContent = soundItAt(place);
    button.append(...place.childNodes, aloud);
    place.append(button);
  }
}

/** In a map one name is in several places, and a reader who reaches a button by the keyboard hears neither row nor column. */
function soundItAt(place: HTMLElement): string {
  const row = place.closest('tr')?.querySelector('th .aloud')?.textContent;
  const hole = /\d+/.exec(place.dataset['tab'] ?? '')?.[0];
  return row && hole && place.matches('td') ? toneText('soundItIn', { hole, row }) : toneText('soundIt');
}

let letGo: Promise<() => void> | undefined;

function press(event: Event): void {
  const place = elementAt(event)?.closest<HTMLElement>('[data-frequency]');
  if (!place) return;
  const context = wakeSound();
  reportSound(place.closest('.figure'), context !== undefined);
  if (!context) return;
  const { frequency, tab = '' } = place.dataset;
  letGo = import('./tone.ts').then((tones) => tones.startTone(context, { tab, hertz: Number(frequency) }));
}

/** Says below a figure that its notes cannot sound, and no longer says so once they can. */
function reportSound(figure: Element | null, sounds: boolean): void {
  let report = figure?.querySelector(':scope > .no-sound');
  if (sounds) report?.remove();
  if (sounds || report || !figure) return;
  report = document.createElement('p');
  report.className = 'no-sound';
  report.setAttribute('role', 'alert');
  report.textContent = toneText('noSound');
  figure.append(report);
}

function release(): void {
  void letGo?.then((go) => go());
  letGo = undefined;
}

const offered = new WeakSet<Element>();

/** Offers the notes of all figures of the page. */
export function offerTones(): void {
  for (const figure of document.querySelectorAll<HTMLElement>('.figure')) {
    if (!offered.has(figure)) follow(figure);
    offered.add(figure);
  }
}

function follow(figure: HTMLElement): void {
  offer(figure);
  // Drawn again for another harp.
  new MutationObserver(() => offer(figure)).observe(drawingHolder(figure), { childList: true });
  figure.addEventListener('pointerdown', (event) => {
    // Another mouse button opens a menu, and its release is never reported.
    if (event.button === 0) press(event);
  });
  // A key gives a click and no pointer; so does a screen reader.
  figure.addEventListener('click', (event) => {
    if (event.detail !== 0) return;
    press(event);
    release();
  });
}
offerTones();
for (const kind of ['pointerup', 'pointercancel', 'pagehide', 'blur']) addEventListener(kind, release);
