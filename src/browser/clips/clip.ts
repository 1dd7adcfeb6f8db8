/** A clip in use: the bars it plays light up, its passages loop and slow down, its cues can be reached from the bars. */
import { itemAt } from '../../values/checked.ts';
import { startSounding, stopSounding } from '../exclusive-sound.ts';
import { labelled, make, slider, toggle } from '../player/dom.ts';
import { clipText } from '../texts/clips.ts';
import { offerBar, tilesOf } from './bars.ts';
import { type CueOnPage, passageEnd, passagesAt } from './passage.ts';

/** One clip of the page, ready to be played. */
export interface ClipOnPage {
  /** Plays from a cue on. */
  readonly jump: (cue: number) => void;
  /** Fetches a recording from another site. Only a click does this. */
  readonly load: () => void;
  /** Ends what it plays and takes its buttons away, when its element is gone. */
  readonly close: () => void;
}

const SPEED = { least: 40, most: 100, step: 5 };
/** Milliseconds between looks at where the recording is. */
const LOOK = 40;
/** Seconds. */
const HAIR = 0.001;

/** Makes a clip of the page playable from its cues. */
export function openClip(host: HTMLElement): ClipOnPage {
  const cues = JSON.parse(host.querySelector('script')?.textContent ?? '[]') as readonly CueOnPage[];
  const title = host.dataset['title'] ?? '';
  const message = make('p', { class: 'clip-message', role: 'status' });
  let media = host.querySelector<HTMLMediaElement>('video, audio') ?? undefined;
  let loops = false;
  /** The passage that is on, or is repeated. */
  let passage: number | undefined;
  /** The cue that was pressed last. */
  let sought: number | undefined;
  /** The cue to play from once the recording can be sought. */
  let awaited: number | undefined;
  /** Whether something else has started to sound since it last played. */
  let yielded = false;
  let lit: Element[] = [];
  let shown = '';
  let timer: ReturnType<typeof setInterval> | undefined;

  function equip(media: HTMLMediaElement): void {
    media.preservesPitch = true;
    const percent = make('output', {}, clipText('speedPercent', { percent: 100 }));
    const speed = slider(SPEED, 100, (value) => {
      media.playbackRate = value / 100;
    });
    media.addEventListener('ratechange', () => {
      speed.value = `${media.playbackRate * 100}`;
      percent.textContent = clipText('speedPercent', { percent: Math.round(media.playbackRate * 100) });
    });
    const loop = toggle(clipText('loopPassage'), false, (on) => {
      loops = on;
      choosePassage();
    });
    const controls = make('div', { class: 'clip-controls', role: 'group', 'aria-label': clipText('clip') });
    if (cues.length > 0) controls.append(loop);
    controls.append(labelled(clipText('speed'), speed, percent));
    media.after(controls, message);
    showWords(media, controls);
    media.addEventListener('play', started);
    media.addEventListener('pause', stopped);
    media.addEventListener('seeking', choosePassage);
    media.addEventListener('seeked', look);
    media.addEventListener('ended', again);
    media.addEventListener('durationchange', checkReach);
    media.addEventListener('loadedmetadata', seekAwaited);
    media.addEventListener('error', complain);
    addEventListener('pagehide', () => media.pause());
    if (media.error) complain();
    if (!media.paused) started();
  }

  /** Something else sounds now, and lights bars of its own. */
  function yieldFloor(): void {
    yielded = true;
    media?.pause();
    light([]);
  }

  function started(): void {
    if (awaited === undefined) message.replaceChildren();
    yielded = false;
    startSounding(yieldFloor);
    clearInterval(timer);
    timer = setInterval(look, LOOK);
    look();
  }

  function stopped(): void {
    clearInterval(timer);
    stopSounding(yieldFloor);
  }

  function complain(): void {
    if (!media) return;
    awaited = undefined;
    const alone = make('a', { href: media.src, rel: 'noopener noreferrer' }, clipText('openAlone'));
    message.replaceChildren(clipText('cannotBePlayed'), alone);
  }

  /** While it is on it stays the same; else it becomes the one of those on that began last. Where none is on, it stays. */
  function choosePassage(): void {
    if (!media || awaited !== undefined) return;
    const now = passagesAt(cues, media.currentTime);
    if (passage === undefined || !now.includes(passage)) passage = now.at(-1) ?? passage;
  }

  const toRepeat = (): CueOnPage | undefined => (loops && passage !== undefined ? cues[passage] : undefined);

  function look(): void {
    // A seek is complete only when the recording has arrived there.
    if (!media || media.seeking || awaited !== undefined) return;
    const repeated = toRepeat();
    if (repeated && !media.paused && media.currentTime >= passageEnd(cues, passage ?? 0) - LOOK / 2000) {
      seek(media, repeated.at);
      return;
    }
    choosePassage();
    // A seek may arrive when something else sounds already.
    if (!yielded) light(passagesAt(cues, media.currentTime));
  }

  /** A passage that ends with the recording is repeated from there. */
  function again(): void {
    const repeated = toRepeat();
    if (media && repeated && repeated.at < media.duration) play(media, repeated.at);
  }

  function light(indices: readonly number[]): void {
    // Tiles drawn again for another harp have lost their light.
    if (`${indices}` === shown && lit.every((element) => element.isConnected)) return;
    shown = `${indices}`;
    for (const element of lit) element.classList.remove('clip-playing');
    lit = indices.flatMap((index) => [
      ...host.querySelectorAll(`[data-cue="${index}"]`),
      ...tilesOf(itemAt(cues, index)),
    ]);
    for (const element of lit) element.classList.add('clip-playing');
  }

  function jump(cue: number): void {
    const target = cues[cue];
    if (!target) return;
    load();
    if (!media) return;
    passage = cue;
    host.scrollIntoView({ block: 'nearest', behavior: calm.matches ? 'instant' : 'smooth' });
    sought = cue;
    if (media.readyState >= HTMLMediaElement.HAVE_METADATA) {
      play(media, target.at);
      checkReach();
      return;
    }
    awaited = cue;
    message.replaceChildren(clipText('loading', { time: timeOf(cue) }));
    // A browser lets it play only because a button is pressed now, so it starts now and is sought as soon as it can be.
    play(media);
  }

  function seekAwaited(): void {
    const target = awaited === undefined ? undefined : cues[awaited];
    if (!media || !target) return;
    awaited = undefined;
    message.replaceChildren();
    passage = sought;
    seek(media, target.at);
    checkReach();
  }

  /** The length of a recording is known only when it is fetched, and of a live recording only at its end. */
  function checkReach(): void {
    const target = sought === undefined ? undefined : cues[sought];
    if (!media || !target || sought === undefined || !(target.at >= media.duration)) return;
    media.pause();
    message.replaceChildren(clipText('endsBefore', { time: timeOf(sought) }));
  }

  /** Puts the recording, or the page it is on, where its link was. */
  function load(): void {
    const link = host.querySelector<HTMLAnchorElement>('a[data-external-kind]');
    if (!link) return;
    const kind = link.dataset['externalKind'];
    if (kind === 'page') {
      const frame = make('iframe', { src: link.href, title, allowfullscreen: true, referrerpolicy: 'no-referrer' });
      link.replaceWith(frame);
      frame.focus();
      return;
    }
    const { captions, language } = link.dataset;
    const track = {
      kind: 'captions',
      src: captions,
      srclang: language,
      label: clipText('captions'),
      default: kind === 'video',
    };
    media = make(
      kind === 'video' ? 'video' : 'audio',
      { controls: true, src: link.href, 'aria-label': title },
      ...(captions === undefined ? [] : [make('track', track)]),
    );
    link.replaceWith(media);
    equip(media);
    media.focus();
    play(media);
  }

  /** What can be read of a cue's time is what its list shows. */
  const timeOf = (cue: number): string => host.querySelector(`[data-cue="${cue}"] .clip-time`)?.textContent ?? '';

  const framed = host.querySelector('[data-external-kind="page"]') !== null;
  const buttons = [...(framed ? [] : cues.entries())].flatMap(([index, cue]) => {
    const text = timeOf(index);
    return offerBar(cue, { text, name: clipText('playFrom', { title, time: text }), press: () => jump(index) }) ?? [];
  });
  if (media) equip(media);

  function close(): void {
    media?.pause();
    stopped();
    light([]);
    for (const one of buttons) one.remove();
  }
  return { jump, load, close };
}

const calm = matchMedia('(prefers-reduced-motion: reduce)');

// A little after the time: at the very time Chromium still shows the caption that ends there.
function seek(media: HTMLMediaElement, to: number): void {
  media.currentTime = to + HAIR;
}

function play(media: HTMLMediaElement, from?: number): void {
  if (from !== undefined) seek(media, from);
  media.play().catch(() => {
    // Refused or interrupted; the recording's own controls still work.
  });
}

/** An audio element shows no captions of its own. */
function showWords(media: HTMLMediaElement, before: Element): void {
  const track = media.textTracks[0];
  if (!track || media instanceof HTMLVideoElement) return;
  const words = make('p', { class: 'clip-words' });
  before.before(words);
  track.mode = 'hidden';
  track.addEventListener('cuechange', () => {
    words.textContent = [...(track.activeCues ?? [])]
      .map((cue) => (cue instanceof VTTCue ? cue.getCueAsHTML().textContent : ''))
      .join(' ');
  });
}
