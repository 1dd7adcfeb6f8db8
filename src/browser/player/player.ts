/** The player of one block, made when it is first asked to sound. */
import { type PlaySettings, writtenSettings } from '../../schedule/settings.ts';
import { barInWords, barNumber, rangeInWords } from '../../score/bar-words.ts';
import { type Playback, playbackOn } from '../../score/playback.ts';
import { itemAt } from '../../values/checked.ts';
import { audioOutputOf } from '../audio-output.ts';
import { startSounding, stopSounding } from '../exclusive-sound.ts';
import { HARP_EVENT, readChosen, studentsHarp } from '../harp/chosen.ts';
import { pitchesOf } from '../sound/pitches.ts';
import { playerText } from '../texts/player.ts';
import { createTransport, isRunning, type PlayState, type Showing, TICK } from '../transport.ts';
import { createAnnouncer } from './announcer.ts';
import { audibleTimeOf } from './audible-time.ts';
import { barHint } from './bar-hint.ts';
import { wakeSound } from './context.ts';
import { createControls } from './controls.ts';
import { createCursor } from './cursor.ts';
import { button, make } from './dom.ts';
import { MUSIC_EVENT, settingsAfterEdit } from './edited-music.ts';
import { followIn } from './following.ts';
import { tempoInWords } from './in-words.ts';
import { isLargeTypeOpen, offerLargeType } from './large-type/offer.ts';
import { pageMixOn } from './page-mix.ts';
import { PLAYED_EVENT, type Played } from './played.ts';
import { offerTiles } from './tiles.ts';
import { createWaking } from './waking.ts';

/** The longest wait for a note to end: a device that slept stopped its clock. */
const LONGEST_NOTE_WAIT = 1000;

/** How a player starts where it is not to play the block as it is written: with bars and a tempo that a link asks for, say. */
export type Opening = Partial<PlaySettings>;

/**
 * Opens the player of a block in `host`, which holds the block's playback as JSON, and starts it with the settings of `opening`. The function
 * it returns ends it, for a host that is removed.
 */
export function openPlayer(host: HTMLElement, context: AudioContext | undefined, opening: Opening = {}): () => void {
  const message = make('p', { class: 'player-message', role: 'alert', tabindex: -1 });
  if (!context) {
    message.textContent = playerText('noSound');
    host.replaceChildren(message);
    message.focus();
    return () => {};
  }
  const playHere = itemAt([...host.querySelectorAll<HTMLButtonElement>('.player-head button')], 0);
  const gone = new AbortController();
  const { signal } = gone;
  const data = host.querySelector('script');
  let written = JSON.parse(data?.textContent ?? '') as Playback;
  const block = host.closest<HTMLElement>('[data-block]') ?? host;
  const pageMix = pageMixOn(context);

  /** Choices come faster than music is fetched: only the last one counts. */
  let choices = 0;
  let playback = onChosenHarp(written);
  let pitches = pitchesOf(playback, readChosen());
  let settings: PlaySettings = { ...writtenSettings(written), countIn: true, ...opening };

  const now = (): number => context.currentTime;
  const heardNow = (): number => audibleTimeOf(context);
  const transport = createTransport(
    audioOutputOf(pageMix.mixingDesk, () => pitches),
    { playback, settings },
    stateChanged,
  );

  const waking = createWaking(
    context,
    {
      play: transport.play,
      interrupted: () => {
        if (!isRunning(transport.state())) return;
        pause();
        complain(true);
      },
      complain,
    },
    signal,
  );
  const news = createAnnouncer();
  const largeType = offerLargeType(
    () => playback,
    () => {
      controls.showLargeType();
      block.classList.toggle('in-large-type', largeType.isOpen());
    },
  );
  const cursor = createCursor(
    block,
    () => playback,
    followIn(block, () => Math.min(innerHeight - largeType.covered(), controls.top()), signal),
  );
  const tiles = offerTiles(
    block,
    () => playback,
    setRange,
    () => cursor.refresh(),
  );
  const hint = barHint();
  const controls = createControls(
    {
      block,
      playback: () => playback,
      settings: () => settings,
      change: (part) => change({ ...settings, ...part }),
      chooseBars: (range) => {
        tiles.show(range);
        setRange(range);
      },
      playOrPause: () => (waking.waits() || isRunning(transport.state()) ? pause() : start()),
      stop,
      keepInSight: () => void cursor.reveal(),
      // The press itself ends the pause of following.
      seeMusic: () =>
        setTimeout(() => {
          if (!cursor.reveal()) block.scrollIntoView();
        }),
      openLargeType: largeType.open,
      isLargeTypeOpen: largeType.isOpen,
      pageMix,
      ofMidi: (midi) => pitches.ofMidi(midi),
      wake: () => void wakeSound(),
    },
    playHere,
    message,
    signal,
  );

  /** Choosing bars is asking to practise them: they loop until something else is chosen. */
  function setRange(range: PlaySettings['range']): void {
    change({ ...settings, range, loop: range !== undefined });
    if (range) hint?.seen();
    news.say(range ? playerText('loopOf', { bars: rangeInWords(playback.bars, range) }) : playerText('wholeBlockSaid'));
  }

  function change(next: PlaySettings): void {
    settings = next;
    transport.change({ playback, settings });
    controls.show();
    draw();
  }

  function start(): void {
    const awake = wakeSound();
    message.replaceChildren();
    if (!awake) {
      message.textContent = playerText('noSound');
      return;
    }
    startSounding(pause);
    controls.appear();
    if (isLargeTypeOpen()) largeType.open(true);
    // Until the device is awake, as while it counts.
    controls.showState('counting');
    waking.start();
    // The press itself ends the pause of following.
    setTimeout(cursor.reveal);
  }

  function pause(): void {
    endWith(transport.pause);
  }

  function stop(): void {
    endWith(transport.stop);
  }

  /** Ends what plays, and what waits for the device to play. */
  function endWith(end: () => void): void {
    waking.cancel();
    end();
    if (isRunning(transport.state())) return;
    controls.showState(transport.state());
    stopSounding(pause);
  }

  function complain(on: boolean): void {
    const hadFocus = message.contains(document.activeElement);
    message.replaceChildren();
    if (hadFocus) controls.focusPlay();
    if (!on) return;
    controls.showState(transport.state());
    const again = button(playerText('letItSound'), () => {
      controls.focusPlay();
      start();
    });
    message.replaceChildren(playerText('notNow'), ' ', again);
  }

  function stateChanged(state: PlayState): void {
    controls.showState(state);
    if (!isRunning(state)) stopSounding(pause);
    draw();
    news.say(stateInWords(state));
  }

  function stateInWords(state: PlayState): string {
    const showing = transport.showing(now());
    if (state === 'stopped' || !showing) return playerText('stopped');
    if (state === 'paused')
      return playerText('pausedIn', { bar: barInWords(barNumber(playback.bars, showing.moment.bar)) });
    if (state === 'counting') return playerText('countIn');
    return playerText('playingAt', { tempo: tempoInWords(showing.tempo) });
  }

  let round = 0;
  let tempo = settings.tempo;
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Draws what sounds, or where it will continue, and as long as something sounds looks again when the next thing begins. */
  function draw(): void {
    clearTimeout(timer);
    const heard = heardNow();
    const showing = transport.showing(heard);
    const running = isRunning(transport.state());
    cursor.show(showing?.counting ? undefined : showing?.moment, running);
    if (showing?.counting) cursor.prepare(showing.moment);
    largeType.show(showing);
    showRound(showing);
    document.dispatchEvent(
      new CustomEvent<Played>(PLAYED_EVENT, { detail: { host, settings, running, round, tempo } }),
    );
    if (running) timer = setTimeout(draw, waitFor(showing, heard));
  }

  function showRound(showing: Showing | undefined): void {
    const { round: newRound, tempo: newTempo } = showing ?? { round: 0, tempo: settings.tempo };
    if (newRound === round && newTempo === tempo) return;
    [round, tempo] = [newRound, newTempo];
    controls.showRound(round, tempo);
    if (settings.climb && round > 0) {
      news.say(playerText('roundSaid', { number: round + 1, tempo: tempoInWords(tempo) }));
    }
  }

  function showHarp(next: Playback): void {
    playback = next;
    pitches = pitchesOf(playback, readChosen());
    change(settings);
    controls.showHarp();
  }

  /** The author has changed the block. What the student set stays, as far as the block still has it. */
  function showEdited(next: Playback): void {
    choices++;
    settings = settingsAfterEdit(settings, written, next);
    written = next;
    playback = onChosenHarp(written);
    pitches = pitchesOf(playback, readChosen());
    transport.changeAtBar({ playback, settings });
    controls.showMusic();
    tiles.show(settings.range);
    draw();
    findHoles();
  }

  /** Another tuning has other holes for the same notes, which are found with the block's music. */
  function findHoles(): void {
    const chosen = readChosen();
    if (studentsHarp(chosen, written.harp).tuning.id === written.harp.tuning.id) return;
    const asked = choices;
    const { lesson = '', block: id = '' } = block.dataset;
    import('./on-tuning.ts')
      .then(({ playbackOnTuning }) => playbackOnTuning(lesson, id, chosen))
      .then(
        (found) => {
          if (asked === choices) showHarp(found);
        },
        // The page itself says that it could not be changed.
        () => {},
      );
  }

  host.addEventListener(MUSIC_EVENT, ({ detail }: CustomEventInit<string>) => {
    if (detail) showEdited(JSON.parse(detail) as Playback);
  });
  host.addEventListener('asked', ({ detail }) => {
    change({ ...settings, ...detail(written) });
    tiles.show(settings.range);
  });
  const followHarp = (): void => {
    choices++;
    showHarp(onChosenHarp(written));
    findHoles();
  };
  document.addEventListener(HARP_EVENT, followHarp, { signal });
  findHoles();
  // A student who leaves the page, or looks at another, has stopped practising this block.
  const leave = (): void => {
    stop();
    pageMix.hush();
  };
  addEventListener('pagehide', leave, { signal });
  const look = (): void => {
    if (!document.hidden) return;
    pause();
    pageMix.hush();
  };
  document.addEventListener('visibilitychange', look, { signal });

  block.classList.add('sounding');
  data?.remove();
  if (hint) host.append(hint.element);
  host.append(tiles.element, ...cursor.elements, controls.element, news.element);
  playHere.disabled = false;
  if (settings.range) tiles.show(settings.range);
  start();
  controls.focusPlay();
  return () => {
    stop();
    gone.abort();
    largeType.open(false);
  };
}

/** Milliseconds until there is something else to show. Only the last stroke, ringing on, has nothing to show. */
const waitFor = (showing: Showing | undefined, heard: number): number =>
  showing ? Math.max(4, Math.min(LONGEST_NOTE_WAIT, (showing.until - heard) * 1000)) : TICK;

/** On a harp of another tuning the same is heard at once; which holes play it is found out by `findHoles`. */
function onChosenHarp(playback: Playback): Playback {
  return playbackOn(playback, { ...studentsHarp(readChosen(), playback.harp), tuning: playback.harp.tuning });
}
