/** The student's harp: its key and register, and how it is tuned. What follows a choice is loaded when there is one. */
import { keyInPosition, MODE_NAMES, printedKey } from '../../harmony/key.ts';
import { REGISTERS } from '../../instrument/harp.ts';
import { chromaOf, readPitchClass } from '../../instrument/pitch.ts';
import { positionInWords } from '../../instrument/position.ts';
import { CONCERT_A_RANGE, TEMPERAMENTS } from '../../instrument/temperament.ts';
import { query } from '../query.ts';
import { harpText } from '../texts/harp.ts';
import {
  type Chosen,
  choose,
  chosenName,
  differs,
  HARP_EVENT,
  nameInAddress,
  onChosenElsewhere,
  readChosen,
} from './chosen.ts';

class HarpChoice extends HTMLElement {
  /** Choices can come faster than code loads, and loads can finish out of order. */
  private latest = 0;

  connectedCallback(): void {
    this.show(readChosen());
    this.addEventListener('change', () => choose(this.read()));
    document.addEventListener(HARP_EVENT, ({ detail }: CustomEventInit<Chosen>) => {
      if (detail) void this.follow(detail);
    });
    onChosenElsewhere(() => {
      // A harp in the address was meant for this page, whatever another tab chooses.
      const chosen = readChosen();
      this.show(chosen);
      document.dispatchEvent(new CustomEvent<Chosen>(HARP_EVENT, { detail: chosen }));
    });
    const chosen = readChosen();
    if (!differs(chosen)) return;
    nameInAddress(chosen);
    void this.follow(chosen);
  }

  private show({ harp, concertA, temperament }: Chosen): void {
    this.select('key').value = harp ? String(chromaOf(harp.key)) : '';
    this.select('register').value = harp?.register ?? 'standard';
    this.select('register').disabled = !harp;
    this.select('temperament').value = temperament.id;
    this.field('concert-a').value = String(concertA);
  }

  private read(): Chosen {
    const before = readChosen();
    const { value, selectedOptions } = this.select('key');
    const key = value === '' ? undefined : readPitchClass(selectedOptions[0]?.dataset['key'] ?? '');
    const register = REGISTERS.find((one) => one === this.select('register').value) ?? 'standard';
    const typed = this.field('concert-a').valueAsNumber;
    const sane = typed >= CONCERT_A_RANGE.from && typed <= CONCERT_A_RANGE.to;
    const chosen: Chosen = {
      harp: key && { key, register },
      concertA: sane ? typed : before.concertA,
      temperament: TEMPERAMENTS.find(({ id }) => id === this.select('temperament').value) ?? before.temperament,
    };
    this.show(chosen);
    return chosen;
  }

  private async follow(chosen: Chosen): Promise<void> {
    const mine = ++this.latest;
    this.say(chosen.harp ? harpText('settingFor', { harp: inWords(chosen.harp) }) : harpText('settingAsWritten'));
    try {
      const { redraw } = await import('./redraw.ts');
      if (mine !== this.latest) return;
      const done = await redraw(chosen);
      if (done) this.say(this.outcome(chosen));
    } catch {
      if (mine !== this.latest) return;
      this.say(harpText('notSet'));
    }
  }

  private outcome({ harp }: Chosen): string {
    if (!harp) return harpText('asWritten');
    const { position, mode } = this.dataset;
    if (!position) return harpText('standsFor', { harp: inWords(harp) });
    const key = keyInPosition(harp.key, Number(position), MODE_NAMES.find((name) => name === mode) ?? 'major');
    return harpText('standsForInKey', {
      harp: inWords(harp),
      position: positionInWords(Number(position)),
      key: printedKey(key),
    });
  }

  private say(sentence: string): void {
    const status = this.querySelector('[role="status"]');
    if (status) status.textContent = sentence;
  }

  private select(name: string): HTMLSelectElement {
    return query(this, `select[name="${name}"]`, HTMLSelectElement);
  }

  private field(name: string): HTMLInputElement {
    return query(this, `input[name="${name}"]`, HTMLInputElement);
  }
}

function inWords(harp: NonNullable<Chosen['harp']>): string {
  const name = chosenName(harp).replace(/b$/, '♭').replace(/#$/, '♯');
  return harpText(/^[AEF]/.test(name) ? 'anHarp' : 'aHarp', { key: name });
}

customElements.define('harp-choice', HarpChoice);
