/** Keys, meters, feels and tempos in MusicXML, at the start and where they change. */
import { wordsBesideTempo } from '../../engrave/change-words.ts';
import { type SongKey, signatureOf } from '../../harmony/key.ts';
import type { BarChanges } from '../../score/changes.ts';
import type { Bar, Score } from '../../score/score.ts';
import type { BarTempo } from '../../score/tempo.ts';
import { type Feel, feelName } from '../../time/feel.ts';
import { type Meter, tempoNote } from '../../time/meter.ts';
import { swungBeat } from '../../time/swing.ts';
import type { XmlWriter } from './xml.ts';

export function writeKey(xml: XmlWriter, key: SongKey): void {
  xml.open('key');
  xml.leaf('fifths', signatureOf(key));
  xml.leaf('mode', key.mode);
  xml.close();
}

export function writeMeter(xml: XmlWriter, { beats, unit }: Meter): void {
  xml.open('time');
  xml.leaf('beats', beats);
  xml.leaf('beat-type', unit);
  xml.close();
}

/** The tempo and the feel at the start. */
export function writeTempo(xml: XmlWriter, { meter, tempo, feel }: Score): void {
  if (feel.name !== 'straight' && swungBeat(meter))
    writeDirection(xml, (direction) => direction.leaf('words', feelName(feel)));
  writeMetronome(xml, meter, tempo, feel.name === 'straight' ? undefined : feel);
}

/** What changes before a bar. A gradual change is in words, with the tempo of each of its bars for players. */
export function writeChange(xml: XmlWriter, bar: Bar, changes: BarChanges, tempo: BarTempo): void {
  const { meter, key, signature, feel } = changes;
  if (meter || signature) {
    xml.open('attributes');
    if (signature && key) writeKey(xml, key);
    if (meter) writeMeter(xml, meter);
    xml.close();
  }
  for (const text of wordsBesideTempo(changes, bar.meter))
    writeDirection(xml, (direction) => direction.leaf('words', text));
  if (changes.tempo?.from !== undefined || feel) writeMetronome(xml, bar.meter, tempo.from, feel);
  else if (tempo.from !== tempo.to) writeSound(xml, bar.meter, tempo.from, undefined);
}

function writeMetronome(xml: XmlWriter, meter: Meter, tempo: number, feel: Feel | undefined): void {
  xml.open('direction', { placement: 'above' });
  xml.open('direction-type');
  xml.open('metronome');
  xml.leaf('beat-unit', 'quarter');
  if (tempoNote(meter).n === 3) xml.leaf('beat-unit-dot');
  xml.leaf('per-minute', tempo);
  xml.close();
  xml.close();
  writeSound(xml, meter, tempo, feel);
  xml.close();
}

/** Of a sound element, the tempo counts quarter notes. */
function writeSound(xml: XmlWriter, meter: Meter, tempo: number, feel: Feel | undefined): void {
  const sound = { tempo: tempoNote(meter).n === 3 ? tempo * 1.5 : tempo };
  const swung = feel && swungBeat(meter);
  if (!feel || !swung) {
    xml.leaf('sound', undefined, sound);
    return;
  }
  xml.open('sound', sound);
  // Without this element, which is new in 4.0, notes are played evenly: programs that know 3.1 read every straight score.
  xml.open('swing');
  if (feel.name === 'straight') xml.leaf('straight');
  else {
    xml.leaf('first', feel.long);
    xml.leaf('second', feel.short);
    xml.leaf('swing-type', swung.d / swung.n === 4 ? 'eighth' : '16th');
  }
  xml.close();
  xml.close();
}

export function writeDirection(xml: XmlWriter, write: (xml: XmlWriter) => void): void {
  xml.open('direction', { placement: 'above' });
  xml.open('direction-type');
  write(xml);
  xml.close();
  xml.close();
}
