/** A clip in use: the bars it plays light up, its passages loop and slow down, its cues can be reached from the bars. */
import { leaveFloor, takeFloor } from '../floor.ts';
import { keepAwake } from '../player/awake.ts';
import { button, labelled, make, slider, toggle } from '../player/dom.ts';
import { type CueOnPage, passageAt, passageEnd } from './passage.ts';

export interface ClipOnPage {
  /** Plays from a cue on. */
  readonly jump: (cue: number) => void;
  /** Fetches a recording that stands elsewhere, which nobody does unasked. */
  readonly load: () => void;
}

const SPEED = { least: 40, most: 100, step: 5 };
/** Milliseconds between looks at where the recording is. */
const LOOK = 40;

export function openClip(host: HTMLElement): ClipOnPage {
  const cues = JSON.parse(host.querySelector('script')?.textContent ?? '[]') as readonly CueOnPage[];
  let media = host.querySelector<HTMLMediaElement>('video, audio') ?? undefined;
  let loops = false;
  /** The passage that is on, or is repeated. */
  let passage: number | undefined;
  let lit: Element[] = [];
  let shown: number | undefined;
  let timer: ReturnType<typeof setInterval> | undefined;

  function equip(media: HTMLMediaElement): void {
    media.preservesPitch = true;
    const percent = make('output', {}, '100 %');
    const speed = slider(SPEED, 100, (value) => {
      media.playbackRate = value / 100;
      percent.textContent = `${value} %`;
    });
    const loop = toggle('Loop the passage', false, (on) => {
      loops = on;
      passage = passageAt(cues, media.currentTime);
    });
    const controls = make('div', { class: 'clip-controls', role: 'group', 'aria-label': 'Clip' });
    if (cues.length > 0) controls.append(loop);
    controls.append(labelled('Speed', speed, percent));
    media.after(controls);
    showWords(media, controls);
    media.addEventListener('play', started);
    media.addEventListener('pause', stopped);
    media.addEventListener('seeked', look);
    addEventListener('pagehide', () => media.pause());
    if (!media.paused) started();
  }

  const pause = (): void => media?.pause();

  function started(): void {
    takeFloor(pause);
    keepAwake(true);
    clearInterval(timer);
    timer = setInterval(look, LOOK);
    look();
  }

  function stopped(): void {
    clearInterval(timer);
    leaveFloor(pause);
    keepAwake(false);
  }

  function look(): void {
    if (!media) return;
    const now = passageAt(cues, media.currentTime);
    const repeated = loops && passage !== undefined ? cues[passage] : undefined;
    if (
      repeated &&
      !media.paused &&
      media.currentTime >= passageEnd(cues, passage ?? 0, media.duration) - LOOK / 2000
    ) {
      media.currentTime = repeated.at;
      return;
    }
    // A passage that is repeated stays the one even where it was left by hand.
    if (!loops || now !== undefined) passage = now;
    light(now);
  }

  function light(index: number | undefined): void {
    // Tiles drawn anew for another harp have lost their light.
    if (index === shown && lit.every((element) => element.isConnected)) return;
    shown = index;
    for (const element of lit) element.classList.remove('heard');
    const cue = index === undefined ? undefined : cues[index];
    lit = cue ? tilesOf(cue) : [];
    const time = index === undefined ? null : host.querySelector(`[data-cue="${index}"]`);
    if (time) lit.push(time);
    for (const element of lit) element.classList.add('heard');
  }

  function jump(cue: number): void {
    const target = cues[cue];
    if (!target) return;
    load();
    if (!media) return;
    passage = cue;
    host.scrollIntoView({ block: 'nearest', behavior: calm.matches ? 'instant' : 'smooth' });
    media.currentTime = target.at;
    media.play().catch(() => {
      // Refused or broken off; the recording's own controls are there.
    });
  }

  /** Puts the recording, or the page it is on, where its link was. */
  function load(): void {
    const link = host.querySelector<HTMLAnchorElement>('a[data-away]');
    if (!link) return;
    const kind = link.dataset['away'];
    if (kind === 'page') {
      const frame = make('iframe', {
        src: link.href,
        title: link.dataset['title'],
        allowfullscreen: true,
        referrerpolicy: 'no-referrer',
      });
      link.replaceWith(frame);
      frame.focus();
      return;
    }
    media = make(kind === 'video' ? 'video' : 'audio', {
      controls: true,
      src: link.href,
      'aria-label': link.dataset['title'],
    });
    link.replaceWith(media);
    equip(media);
    media.play().catch(() => {
      // As above.
    });
  }

  offerBars(cues, jump);
  if (media) equip(media);
  return { jump, load };
}

const calm = matchMedia('(prefers-reduced-motion: reduce)');

const tilesOf = ({ block, first, last }: CueOnPage): Element[] =>
  [...document.querySelectorAll<SVGElement>(`[data-block="${CSS.escape(block)}"] [data-bar]`)].filter((tile) => {
    const bar = Number(tile.dataset['bar']);
    return bar >= first && bar <= last;
  });

/** An audio element shows no captions of its own. */
function showWords(media: HTMLMediaElement, before: Element): void {
  const track = media.textTracks[0];
  if (!track || media instanceof HTMLVideoElement) return;
  const words = make('p', { class: 'clip-words' });
  before.before(words);
  track.mode = 'hidden';
  track.addEventListener('cuechange', () => {
    words.textContent = [...(track.activeCues ?? [])]
      .map((cue) => (cue as VTTCue).text.replace(/<[^>]*>/g, ''))
      .join(' ');
  });
}

/** A button over the first bar of every cue, which plays the clip from there. */
function offerBars(cues: readonly CueOnPage[], jump: (cue: number) => void): void {
  for (const block of new Set(cues.map((cue) => cue.block))) {
    const figure = document.querySelector<HTMLElement>(`[data-block="${CSS.escape(block)}"]`);
    if (!figure) continue;
    const layer = make('div', { class: 'bar-cues', role: 'group', 'aria-label': 'From this bar in the clip' });
    const buttons = cues.flatMap((cue, index) => {
      if (cue.block !== block) return [];
      const name = `Play the clip from ${minutes(cue.at)}`;
      return [{ bar: cue.first, element: button(minutes(cue.at), () => jump(index), { 'aria-label': name }) }];
    });
    layer.append(...buttons.map(({ element }) => element));
    figure.classList.add('sounding');
    figure.prepend(layer);
    const place = (): void => {
      const origin = layer.getBoundingClientRect();
      for (const { bar, element } of buttons) {
        const tile = figure.querySelector(`[data-bar="${bar}"]`)?.getBoundingClientRect();
        element.hidden = tile === undefined;
        if (!tile) continue;
        element.style.left = `${tile.right - origin.left - element.offsetWidth}px`;
        element.style.top = `${tile.top - origin.top}px`;
      }
    };
    new ResizeObserver(place).observe(figure);
    new MutationObserver((changes) => {
      if (changes.some(({ target }) => !layer.contains(target))) place();
    }).observe(figure, { childList: true, subtree: true });
    place();
  }
}

const minutes = (seconds: number): string =>
  `${Math.floor(seconds / 60)}:${`${Math.floor(seconds % 60)}`.padStart(2, '0')}`;
