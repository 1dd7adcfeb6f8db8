/** The band on a form, and the metronome: plays what is chosen on the page, chorus after chorus. */
import { HARP_KEYS, tonicInPosition } from '../../instrument/harp.ts';
import { chromaOf, printedName, readPitchClass } from '../../instrument/pitch.ts';
import { positionFor, positionInWords } from '../../instrument/position.ts';
import { frequencyOfMidi } from '../../instrument/temperament.ts';
import type { Cue, HitCue } from '../../schedule/cue.ts';
import { type PlaySettings, writtenSettings } from '../../schedule/settings.ts';
import { type Playback, playbackOn } from '../../score/playback.ts';
import { listInWords } from '../../texts/list.ts';
import { isCompound } from '../../time/meter.ts';
import { audioOutputOf } from '../audio-output.ts';
import { startSounding, stopSounding } from '../exclusive-sound.ts';
import { readChosen } from '../harp/chosen.ts';
import { whenLeft } from '../leaving.ts';
import { make } from '../player/dom.ts';
import { pageMixOn } from '../player/page-mix.ts';
import { channel, loudness } from '../player/sheet/mixer.ts';
import { createWaking } from '../player/waking.ts';
import { query } from '../query.ts';
import { showPlaying } from '../show-playing.ts';
import { playAlongText } from '../texts/play-along.ts';
import { type AudioOutput, createTransport, isRunning } from '../transport.ts';
import { createChart } from './chart.ts';
import type { SoundSwitch } from './sound-switch.ts';

/** The forms of the page by their ids, then by meter. */
type Forms = Readonly<Record<string, Readonly<Record<string, Playback>>>>;

/** The harps that are looked at for a key: the positions players use most (common practice, no source). */
const USUAL_POSITIONS = [2, 1, 3];

/** The band of a page. It follows what is chosen, also while it plays. */
export function createBand(host: HTMLElement, context: AudioContext): SoundSwitch {
  const field = (name: string): HTMLSelectElement | HTMLInputElement => {
    const found = host.querySelector(`[name="${name}"]`);
    if (found instanceof HTMLSelectElement || found instanceof HTMLInputElement) return found;
    throw new Error(`the page has no field ${name}`);
  };
  const forms = JSON.parse(host.querySelector('script')?.textContent ?? '{}') as Forms;
  const button = query(host, 'button[name="band"]', HTMLButtonElement);
  const mix = pageMixOn(context);
  const isMetronome = (): boolean => field('form').value === '';

  function chosen(): { readonly playback: Playback; readonly settings: PlaySettings } {
    const written = forms[field('form').value]?.[field('meter').value];
    if (!written) throw new Error('the page has no such form');
    const key = readPitchClass(field('key').value) ?? written.harp.key;
    const playback = playbackOn(written, { ...written.harp, key });
    const beats = Number(field('tempo').value);
    const countIn = query(host, 'input[name="count-in"]', HTMLInputElement).checked;
    // Twice as long in the first half of a beat: a shuffle. In compound time the beat has three parts already.
    const swing = isCompound(playback.meter) ? 1 / 2 : Number(field('feel').value);
    return { playback, settings: { ...writtenSettings(playback), tempo: beats, swing, loop: true, countIn } };
  }

  let music = chosen();
  const pitches = {
    ofMidi: (midi: number) => frequencyOfMidi(midi, readChosen().concertA),
    ofNote: () => frequencyOfMidi(69),
  };
  const output = audioOutputOf(mix.mixingDesk, () => pitches);
  const transport = createTransport({ ...output, sound: (cue, at) => soundOf(cue, at) }, music, (state) => {
    const plays = isRunning(state);
    button.textContent = playAlongText(plays ? 'stop' : 'start');
    if (!plays) stopSounding(stop);
    draw();
  });

  /** The metronome alone clicks though the band's is switched off, at the level of its own fader. */
  function soundOf(cue: Cue, at: number): ReturnType<AudioOutput['sound']> {
    if (!isMetronome()) return output.sound(cue, at);
    const click = cue.kind === 'hit' && (cue.piece === 'click' || cue.piece === 'accent');
    if (!click) return { until: at, stop: () => {} };
    const alone: HitCue = { ...cue, level: cue.level * 2 * mix.mix.click.level, counts: true };
    return output.sound(alone, at);
  }

  const chart = createChart(() => music.playback);
  const harps = make('p', { class: 'along-harps' });
  const click = loudness('click', mix);
  click.setAttribute('aria-label', playAlongText('metronomeVolume'));
  const on = make('input', { type: 'checkbox' });
  on.addEventListener('change', () => mix.set('click', { muted: !on.checked }));
  mix.watch('click', ({ muted }) => {
    on.checked = !muted;
  });
  const levels = make(
    'fieldset',
    { class: 'along-levels' },
    make('legend', {}, playAlongText('levels')),
    make('span', { class: 'field' }, make('label', {}, on, ' ', playAlongText('metronome')), click),
    ...(['drums', 'bass', 'chords'] as const).map((part) => channel(part, mix)),
  );

  const draw = showPlaying(context, transport, (showing) =>
    chart.show(transport.state() === 'stopped' ? undefined : showing),
  );

  /** Which harps play in the key, and what the student's own harp makes of it. */
  function showHarps(): void {
    const { key } = music.playback;
    const found = USUAL_POSITIONS.flatMap((position) =>
      HARP_KEYS.filter((harp) => chromaOf(tonicInPosition(harp, position)) === chromaOf(key.tonic)).map((harp) =>
        playAlongText('harpIn', { harp: printedName(harp), position: positionInWords(position) }),
      ),
    );
    const own = readChosen().harp;
    const mine = own && positionFor({ ...own, tuning: music.playback.harp.tuning }, key.tonic);
    harps.textContent = [
      playAlongText('harps', { key: printedName(key.tonic), harps: listInWords(found) }),
      ...(own && mine
        ? [playAlongText('yourHarp', { harp: printedName(own.key), position: positionInWords(mine) })]
        : []),
    ].join(' ');
    harps.hidden = isMetronome();
  }

  function follow(): void {
    const before = music;
    music = chosen();
    const sameForm = before.playback.form === music.playback.form && before.playback.meter === music.playback.meter;
    transport.change(music);
    if (!sameForm || before.playback.key.tonic !== music.playback.key.tonic) chart.draw();
    showHarps();
    draw();
  }

  const waking = createWaking(
    context,
    {
      play: transport.play,
      interrupted: stop,
      complain: (on) => {
        query(host, '[role="alert"]', HTMLElement).textContent = on ? playAlongText('noSound') : '';
      },
    },
    new AbortController().signal,
  );
  function stop(): void {
    waking.cancel();
    transport.stop();
    button.textContent = playAlongText('start');
    stopSounding(stop);
  }

  query(host, '.along-band', HTMLElement).append(chart.element, harps, levels);
  host.addEventListener('change', ({ target }) => {
    if (target instanceof Element && target.closest('.along-band')) follow();
  });
  whenLeft(stop);
  follow();
  return {
    toggle: () => {
      if (waking.waits() || transport.state() !== 'stopped') {
        stop();
        return;
      }
      startSounding(stop);
      button.textContent = playAlongText('stop');
      // On a music stand the chart is read, and no longer what is chosen.
      if (chart.element.getBoundingClientRect().bottom > innerHeight) button.scrollIntoView();
      waking.start();
    },
  };
}
