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
  LoadingTooSlow,
  nameInAddress,
  onChosenElsewhere,
  readChosen,
  readTuned,
} from './chosen.ts';

class HarpChoice extends HTMLElement {
  /** Choices can come faster than code loads, and loads can finish out of order. */
  private latest = 0;
  private again: HTMLButtonElement | undefined;
  private readonly gone = new AbortController();

  connectedCallback(): void {
    this.show(readChosen());
    this.addEventListener('change', () => choose(this.read()));
    const follow = ({ detail }: CustomEventInit<Chosen>): void => {
      if (!detail) return;
      this.show(detail);
      void this.follow(detail);
    };
    document.addEventListener(HARP_EVENT, follow, { signal: this.gone.signal });
    onChosenElsewhere(() => {
      if (!this.isConnected) return;
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

  disconnectedCallback(): void {
    this.gone.abort();
  }

  private show(chosen: Chosen): void {
    const { harp, tuned, concertA, temperament } = chosen;
    // On a phone the choices are folded, and what was chosen is on the fold.
    const short = this.closest('details')?.querySelector('summary > span');
    if (short) short.textContent = inWords(chosen) ?? '';
    this.select('key').value = harp ? String(chromaOf(harp.key)) : '';
    this.select('register').value = harp?.register ?? 'standard';
    this.select('register').disabled = !harp;
    const tuning = this.querySelector<HTMLSelectElement>('select[name="tuning"]');
    if (tuning) tuning.value = tuned?.tuning.id ?? '';
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
      tuned: readTuned(this.querySelector<HTMLSelectElement>('select[name="tuning"]')?.value),
      concertA: sane ? typed : before.concertA,
      temperament: TEMPERAMENTS.find(({ id }) => id === this.select('temperament').value) ?? before.temperament,
    };
    this.show(chosen);
    return chosen;
  }

  private async follow(chosen: Chosen): Promise<void> {
    const mine = ++this.latest;
    const harp = inWords(chosen);
    this.say(harp === undefined ? harpText('settingAsWritten') : harpText('settingFor', { harp }));
    this.again?.remove();
    try {
      const { redraw } = await import('./redraw.ts');
      if (mine !== this.latest) return;
      const done = await redraw(chosen);
      if (done) this.say(this.outcome(chosen));
    } catch (error) {
      if (mine !== this.latest) return;
      const late = error instanceof LoadingTooSlow;
      const why = navigator.onLine ? (late ? 'tooSlow' : 'notLoaded') : 'offline';
      this.say(`${harpText(why)} ${harpText('notSet')}`);
      this.offerAgain(chosen);
    }
  }

  /** A harp that could not be shown can be tried again where it was chosen, also where that is in a closed fold. */
  private offerAgain(chosen: Chosen): void {
    this.again = document.createElement('button');
    this.again.type = 'button';
    this.again.textContent = harpText('tryAgain');
    this.again.addEventListener('click', () => void this.follow(chosen));
    this.append(this.again);
    const fold = this.closest('details');
    if (fold) fold.open = true;
  }

  private outcome(chosen: Chosen): string {
    const harp = inWords(chosen);
    if (harp === undefined) return harpText('asWritten');
    const { position, mode } = this.dataset;
    const stays = chosen.tuned ? ` ${harpText('textStays', { tuning: this.dataset['tuning'] ?? '' })}` : '';
    if (!position || !chosen.harp) return harpText('standsFor', { harp }) + stays;
    const key = keyInPosition(chosen.harp.key, Number(position), MODE_NAMES.find((name) => name === mode) ?? 'major');
    const said = harpText('standsForInKey', {
      harp,
      position: positionInWords(Number(position)),
      key: printedKey(key),
    });
    return said + stays;
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

/** Undefined where the student plays on what the page is written for. */
function inWords({ harp, tuned }: Chosen): string | undefined {
  const key = harp && chosenName(harp).replace(/b$/, '♭').replace(/#$/, '♯');
  const tuning = tuned?.tuning.title.toLowerCase();
  if (key === undefined) return tuning && harpText('tunedHarp', { tuning });
  if (tuning !== undefined) return harpText('tunedHarpInKey', { tuning, key });
  return harpText(/^[AEF]/.test(key) ? 'anHarp' : 'aHarp', { key });
}

customElements.define('harp-choice', HarpChoice);
