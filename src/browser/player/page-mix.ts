/** How loud each part of the page is, and the drone: one for all its blocks. */
import { keepAwake } from '../screen-awake.ts';
import { createDrone } from '../sound/drone.ts';
import { createMixingDesk, type MixingDesk, SOUND_PARTS, type SoundPart } from '../sound/mixing-desk.ts';
import { type Channel, DEFAULT_VOLUMES, type Mix } from './volumes.ts';

/** Volumes, drone and mixing desk that all players of a page share. */
export interface PageMix {
  readonly mixingDesk: MixingDesk;
  /** Holds a drone of these frequencies; none stops it. `taken` is called when it stops or another block takes the drone. */
  readonly hold: (hertz: readonly number[], taken: () => void) => void;
  readonly hush: () => void;
  readonly mix: Readonly<Mix>;
  /** Sets a part's loudness or mutes it; kept for the next page. */
  readonly set: (part: SoundPart, change: Partial<Channel>) => void;
  /** Shows how a part is set, now and whenever it is, by whichever block of the page. */
  readonly watch: (part: SoundPart, show: (channel: Channel) => void) => void;
}

const STORED_AS = 'reedway-mix';

let pageMix: PageMix | undefined;

/** The mix of this page on an audio context; created on the first call. */
export function pageMixOn(context: AudioContext): PageMix {
  if (pageMix?.mixingDesk.context === context) return pageMix;
  const mixingDesk = createMixingDesk(context);
  const mix = readMix();
  const apply = (part: SoundPart): void => mixingDesk.level(part, mix[part].muted ? 0 : mix[part].level);
  for (const part of SOUND_PARTS) apply(part);
  const shown: { readonly part: SoundPart; readonly show: (channel: Channel) => void }[] = [];
  const drone = createDrone(mixingDesk);
  let holder: (() => void) | undefined;
  const hold = (hertz: readonly number[], taken: () => void): void => {
    if (holder !== taken) holder?.();
    holder = taken;
    drone.hold(hertz);
    keepAwake('drone', hertz.length > 0);
  };
  pageMix = {
    mixingDesk,
    hold,
    hush: () => hold([], () => {}),
    mix,
    set: (part, change) => {
      mix[part] = { ...mix[part], ...change };
      apply(part);
      keepMix(mix);
      for (const one of shown) if (one.part === part) one.show(mix[part]);
    },
    watch: (part, show) => {
      shown.push({ part, show });
      show(mix[part]);
    },
  };
  return pageMix;
}

/** A channel as some version of the page kept it. */
type Kept = Readonly<Partial<Record<keyof Channel, unknown>>> | null | undefined;

/** What is stored is read as untrusted: another version or another program may have written it. */
function readMix(): Mix {
  const mix = { ...DEFAULT_VOLUMES };
  try {
    const kept = JSON.parse(localStorage.getItem(STORED_AS) ?? '{}') as { readonly [part: string]: Kept } | null;
    for (const part of SOUND_PARTS) {
      const channel = kept?.[part];
      const level = channel?.level;
      if (typeof level === 'number' && level >= 0 && level <= 1) mix[part] = { level, muted: channel?.muted === true };
    }
  } catch {
    // Nothing kept, or nothing readable: the usual mix.
  }
  return mix;
}

function keepMix(mix: Mix): void {
  try {
    localStorage.setItem(STORED_AS, JSON.stringify(mix));
  } catch {
    // A browser that keeps nothing still plays what was set, on this page.
  }
}
