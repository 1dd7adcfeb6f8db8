/** A note of the page that is held until it is let go, with its fifth if asked. */
import { chromaOf, lowestFrom, readPitchClass } from '../../instrument/pitch.ts';
import { frequencyOfMidi } from '../../instrument/temperament.ts';
import { readChosen } from '../harp/chosen.ts';
import { whenLeft } from '../leaving.ts';
import { setPressed } from '../player/dom.ts';
import { pageMixOn } from '../player/page-mix.ts';
import { loudness } from '../player/sheet/mixer.ts';
import { query } from '../query.ts';
import { playAlongText } from '../texts/play-along.ts';
import type { SoundSwitch } from './sound-switch.ts';

/** The lowest note of each octave, as MIDI numbers: from the G on the lowest line of the bass staff. */
const OCTAVES: Readonly<Record<string, number>> = { low: 43, middle: 55, high: 67 };

/** The drone of a page. */
export function createDroneOf(host: HTMLElement, context: AudioContext): SoundSwitch {
  const section = query(host, '.along-drone', HTMLElement);
  const button = query(section, 'button[name="drone"]', HTMLButtonElement);
  const mix = pageMixOn(context);
  let held = false;

  function hold(): void {
    const name = readPitchClass(query(section, 'select[name="note"]', HTMLSelectElement).value);
    const from = OCTAVES[query(section, 'select[name="octave"]', HTMLSelectElement).value] ?? 43;
    const fifth = query(section, 'input[name="fifth"]', HTMLInputElement).checked;
    if (!name) return;
    const midi = lowestFrom(from, chromaOf(name));
    const { concertA } = readChosen();
    mix.hold(
      [midi, ...(fifth ? [midi + 7] : [])].map((note) => frequencyOfMidi(note, concertA)),
      taken,
    );
  }
  function taken(): void {
    held = false;
    show();
  }
  function show(): void {
    button.textContent = playAlongText(held ? 'stop' : 'start');
    setPressed(button, held);
  }

  const volume = loudness('drone', mix);
  const label = document.createElement('label');
  label.append(playAlongText('level'), ' ', volume);
  section.append(label);
  section.addEventListener('change', () => {
    if (held) hold();
  });
  const letGo = (): void => {
    if (held) mix.hush();
  };
  whenLeft(letGo);
  return {
    toggle: () => {
      if (held) {
        mix.hush();
        return;
      }
      held = true;
      hold();
      show();
    },
  };
}
