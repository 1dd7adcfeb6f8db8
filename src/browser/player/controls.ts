/** The controls of a block's player: all of them buttons, sliders and fields with names. */

import { chromaOf, printedName } from '../../instrument/pitch.ts';
import type { Playback } from '../../score/playback.ts';
import { isCompound } from '../../time/meter.ts';
import type { BarRange, PlaySettings } from '../schedule/settings.ts';
import { PARTS, type Part } from '../sound/studio.ts';
import type { State } from '../transport.ts';
import type { Channel, Desk } from './desk.ts';
import { button, checkbox, choice, labelled, make, numberField, type Scale, slider, toggle } from './dom.ts';
import { barInWords, chordInFull, tempoInWords } from './words.ts';

export interface Wiring {
  readonly playback: () => Playback;
  readonly settings: () => PlaySettings;
  readonly change: (part: Partial<PlaySettings>) => void;
  readonly chooseBars: (range: BarRange | undefined) => void;
  readonly playOrPause: () => void;
  readonly stop: () => void;
  readonly stand: (open: boolean) => void;
  readonly desk: Desk;
  readonly ofMidi: (midi: number) => number;
  readonly wake: () => void;
}

export interface Controls {
  readonly element: HTMLElement;
  readonly showState: (state: State) => void;
  readonly showRange: (range: BarRange | undefined) => void;
  readonly showLoop: (loop: boolean) => void;
  readonly showRound: (round: number, tempo: number) => void;
  readonly showStand: (open: boolean) => void;
  readonly showHarp: () => void;
  readonly focusPlay: () => void;
  /** Where on the screen the main row begins, which stays at its foot; the foot itself while it is not to be seen. */
  readonly top: () => number;
}

const PERCENT = { least: 30, most: 150, step: 1 };
const SWING = { least: 50, most: 75, step: 1 };
const LEVEL = { least: 0, most: 100, step: 1 };
const NAMES: Readonly<Record<Part, string>> = {
  tune: 'Tune',
  bass: 'Bass',
  drums: 'Drums',
  chords: 'Chords',
  click: 'Metronome',
  drone: 'Drone',
};

export function createControls(wiring: Wiring): Controls {
  const main = mainRow(wiring);
  const bars = barsRow(wiring);
  const drone = droneRow(wiring);
  const more = make(
    'details',
    { class: 'player-more' },
    make('summary', {}, 'Practice and band'),
    practice(wiring, main.showLoop),
    mixer(wiring),
    drone.element,
  );
  const element = make(
    'div',
    { class: 'player', role: 'group', 'aria-label': 'Player' },
    main.element,
    main.speed,
    bars.element,
    more,
  );
  return {
    element,
    showState: main.showState,
    showRange: bars.showRange,
    showLoop: main.showLoop,
    showRound: main.showRound,
    showStand: main.showStand,
    showHarp: drone.showHarp,
    focusPlay: () => main.play.focus({ preventScroll: true }),
    top: () => {
      const { top } = main.element.getBoundingClientRect();
      return top > 0 ? top : innerHeight;
    },
  };
}

/** Beats a minute, as far as the slider goes. */
const tempos = (written: number): Scale => ({
  least: Math.round((written * PERCENT.least) / 100),
  most: Math.round((written * PERCENT.most) / 100),
  step: 1,
});

const press = (toggle: HTMLElement, on: boolean): void => toggle.setAttribute('aria-pressed', String(on));

function mainRow(wiring: Wiring) {
  const { settings, change } = wiring;
  const base = wiring.playback().tempo;
  const beat = isCompound(wiring.playback().meter) ? 'dotted quarters' : 'quarters';
  const play = button('Play', wiring.playOrPause, { class: 'player-play' });
  const stop = button('Stop', wiring.stop);
  const loop = toggle('Loop', settings().loop, (on) => change({ loop: on }));
  const stand = toggle('Large type', false, wiring.stand);

  // No `output`: it would be read aloud besides the slider it belongs to.
  const said = make('span', { class: 'player-said' });
  const show = (tempo: number): void => {
    const percent = Math.round((100 * tempo) / base);
    percentage.value = String(percent);
    percentage.setAttribute('aria-valuetext', `${percent} percent, ${tempoInWords(tempo)}`);
    minute.value = String(Math.round(tempo));
    said.textContent = `${percent} %`;
  };
  const ofPercent = (percent: number): number => (base * percent) / 100;
  const percentage = slider(
    PERCENT,
    100,
    (percent) => show(ofPercent(percent)),
    (percent) => change({ tempo: ofPercent(percent) }),
  );
  const minute = numberField(tempos(base), Math.round(base), (tempo) => {
    show(tempo);
    change({ tempo });
  });
  show(base);
  const round = make('span', { class: 'player-round' });

  return {
    element: make('div', { class: 'player-row player-main' }, play, stop, loop, stand, round),
    speed: make(
      'div',
      { class: 'player-row' },
      labelled('Tempo', percentage, said),
      labelled(`${beat} a minute`, minute),
    ),
    play,
    showState: (state: State): void => {
      play.textContent = state === 'playing' || state === 'counting' ? 'Pause' : 'Play';
      play.dataset['state'] = state;
    },
    showStand: (open: boolean) => press(stand, open),
    showLoop: (on: boolean) => press(loop, on),
    showRound: (number: number, tempo: number): void => {
      round.textContent = number > 0 ? `Round ${number + 1}, ${tempoInWords(tempo)}` : '';
    },
  };
}

/** Which bars: a part by its name, or from one bar to another. The tiles of the block offer the same. */
function barsRow({ playback, chooseBars }: Wiring) {
  const { bars } = playback();
  const named = bars.map((bar, index) => ({ value: String(index), text: barInWords(bar) }));
  const read = (): BarRange => {
    const [a, b] = [Number(from.value), Number(to.value)];
    return { first: Math.min(a, b), last: Math.max(a, b) };
  };
  const choose = (range: BarRange | undefined): void => {
    showRange(range);
    chooseBars(range);
  };
  const from = choice(named, '0', () => choose(read()));
  const to = choice(named, String(bars.length - 1), () => choose(read()));
  const all = button('All bars', () => choose(undefined));
  const parts = partsOf(playback());
  const part = choice(
    [{ value: '', text: 'whole block' }, ...parts.map(({ name }, index) => ({ value: String(index), text: name }))],
    '',
    (value) => choose(value === '' ? undefined : parts[Number(value)]),
  );

  function showRange(range: BarRange | undefined): void {
    from.value = String(range?.first ?? 0);
    to.value = String(range?.last ?? bars.length - 1);
    const named = parts.findIndex(({ first, last }) => first === range?.first && last === range.last);
    part.value = named < 0 ? '' : String(named);
  }

  return {
    element: make(
      'div',
      { class: 'player-row', role: 'group', 'aria-label': 'Bars to play' },
      ...(parts.length > 1 ? [labelled('Part', part)] : []),
      labelled('From', from),
      labelled('to', to),
      all,
    ),
    showRange,
  };
}

/** The labelled parts of a block, each to the bar before the next. */
function partsOf({ bars }: Playback): (BarRange & { readonly name: string })[] {
  const starts = bars.flatMap((bar, index) => (bar.part === undefined ? [] : [{ name: bar.part, first: index }]));
  return starts.map((start, index) => ({ ...start, last: (starts[index + 1]?.first ?? bars.length) - 1 }));
}

function practice({ playback, settings, change, desk }: Wiring, showLoop: (on: boolean) => void): HTMLElement {
  const { tempo, meter } = playback();
  const said = make('span', { class: 'player-said' });
  const showSwing = (percent: number): void => {
    said.textContent = percent === 50 ? 'straight' : `${percent} : ${100 - percent}`;
    swing.setAttribute('aria-valuetext', percent === 50 ? 'straight' : `${percent} to ${100 - percent}`);
  };
  // Two thirds is no whole percentage, and is what a shuffle means.
  const exact = (percent: number): number => (percent === 67 ? 2 / 3 : percent / 100);
  const share = Math.round(settings().swing * 100);
  const swing = slider(SWING, share, showSwing, (percent) => change({ swing: exact(percent) }));
  showSwing(share);

  const step = numberField({ least: 1, most: 40, step: 1 }, 4, () => climb(climbing.checked));
  const goal = numberField(tempos(tempo), Math.round(tempo * 1.2), () => climb(climbing.checked));
  const climbing = checkbox(false, (on) => climb(on));
  /** What speeds up each round goes round. */
  function climb(on: boolean): void {
    change(on ? { loop: true, climb: { step: step.valueAsNumber, goal: goal.valueAsNumber } } : { climb: undefined });
    showLoop(settings().loop);
  }
  const metronome = checkbox(false, (on) => desk.set('click', { muted: !on }));
  whenSet(desk, 'click', ({ muted }) => {
    metronome.checked = !muted;
  });

  return make(
    'fieldset',
    {},
    make('legend', {}, 'Practice'),
    labelled(
      'Count-in',
      checkbox(settings().countIn, (countIn) => change({ countIn })),
    ),
    labelled('Metronome', metronome),
    labelled(
      'One bar at a time: the band goes on, the next bar is yours',
      checkbox(false, (trade) => change({ trade })),
    ),
    make(
      'span',
      { class: 'field', role: 'group', 'aria-label': 'A loop that speeds up' },
      labelled('Speed up each round', climbing),
      labelled('by', step),
      labelled('to', goal, 'a minute'),
    ),
    ...(isCompound(meter) ? [] : [labelled('Swing', swing, said)]),
  );
}

function mixer({ desk }: Wiring): HTMLElement {
  const rows = PARTS.filter((part) => part !== 'click').map((part) => channel(part, desk));
  return make('fieldset', { class: 'player-mix' }, make('legend', {}, 'Band'), ...rows);
}

function channel(part: Part, desk: Desk): HTMLElement {
  const loudness = slider(LEVEL, 0, (percent) => desk.set(part, { level: percent / 100 }));
  const mute = toggle('Mute', false, (muted) => desk.set(part, { muted }));
  mute.setAttribute('aria-label', `Mute ${NAMES[part].toLowerCase()}`);
  whenSet(desk, part, ({ level, muted }) => {
    const percent = Math.round(level * 100);
    loudness.value = String(percent);
    loudness.setAttribute('aria-valuetext', `${percent} percent`);
    press(mute, muted);
  });
  return labelled(NAMES[part], loudness, mute);
}

/** Shows how a part is set now and whenever it is set, here or by another block. */
function whenSet({ mix, onSet }: Desk, part: Part, show: (channel: Channel) => void): void {
  show(mix[part]);
  onSet((set) => {
    if (set === part) show(mix[part]);
  });
}

/** A chord or the key note held under whatever is practised. */
function droneRow({ playback, desk, ofMidi, wake }: Wiring) {
  let held = '';
  const select = choice([], '', (value) => {
    held = value;
    wake();
    hold();
  });

  /** The key note with its fifth, or a chord of the block from its root up, low enough to stay out of the tune's way. */
  function hold(): void {
    const found = options().find(({ value }) => value === held);
    desk.hold((found?.midis ?? []).map(ofMidi), taken);
  }

  function taken(): void {
    held = '';
    select.value = '';
  }

  function options(): { value: string; text: string; midis: readonly number[] }[] {
    const { key, bars } = playback();
    const low = (chroma: number): number => 43 + ((((chroma - 43) % 12) + 12) % 12);
    const tonic = low(chromaOf(key.tonic));
    const chords = new Map<string, readonly number[]>();
    for (const chord of bars.flatMap((bar) => bar.chords)) {
      const root = low(chromaOf(chord.root));
      chords.set(chordInFull(chord), [root, ...chord.tones.filter((tone) => tone > 0).map((tone) => root + 12 + tone)]);
    }
    return [
      { value: '', text: 'none', midis: [] },
      { value: 'key', text: `${printedName(key.tonic)}, the key note`, midis: [tonic, tonic + 12] },
      { value: 'fifth', text: `${printedName(key.tonic)} and its fifth`, midis: [tonic, tonic + 7, tonic + 12] },
      ...[...chords].map(([name, midis]) => ({ value: `chord ${name}`, text: name, midis })),
    ];
  }

  function showHarp(): void {
    select.replaceChildren(...options().map(({ value, text }) => make('option', { value }, text)));
    select.value = held;
    if (held !== '') hold();
  }
  showHarp();
  return { element: make('fieldset', {}, make('legend', {}, 'To bend against'), labelled('Drone', select)), showHarp };
}
