/**
 * The staff of a score drawn the usual way: VexFlow's own SVG output on jsdom, its music font registered with a real
 * canvas for measuring, its own formatter. This is what engraving is compared with; no code of Reedway draws here.
 */
import { createRequire } from 'node:module';
import { createCanvas, GlobalFonts } from '@napi-rs/canvas';
import { JSDOM } from 'jsdom';
import {
  Accidental, BarlineType, Beam, Dot, Element, Formatter, Renderer, Stave, StaveNote, StaveTie, Stem, Tuplet, VexFlow, Voice,
} from 'vexflow/core'; // biome-ignore format: a list
import { type Clef, clefOf } from '../src/engrave/clef.ts';
import { signatureOf } from '../src/harmony/key.ts';
import type { Pitch } from '../src/instrument/pitch.ts';
import type { Score } from '../src/score/score.ts';
import { type StaffNote, staffNotes } from '../src/score/spelling.ts';
import { type WrittenBar, type WrittenNote, writtenScore } from '../src/score/written.ts';
import { itemAt } from '../src/values/checked.ts';

/** What is drawn of a score, worked out beforehand: it is no part of the drawing. */
export interface Staff {
  readonly score: Score;
  readonly bars: readonly WrittenBar[];
  readonly notes: readonly (readonly StaffNote[])[];
  readonly clef: Clef;
}

export const staffOf = (score: Score): Staff => ({
  score,
  bars: writtenScore(score),
  notes: staffNotes(score),
  clef: clefOf(score),
});

/** The place on the staff as VexFlow takes it: `b/4` is the middle line. */
const vexflowKey = ({ letter, octave }: Pitch, clef: Clef): string =>
  `${letter.toLowerCase()}/${octave - clef.octaves}`;

const { window } = new JSDOM('<!doctype html><body></body>');

/** Registers the font, and makes sure that it is the one that measures: an unregistered one misplaces notes silently. */
export function prepare(): void {
  const file = createRequire(import.meta.url).resolve('@vexflow-fonts/bravura/bravura.otf');
  if (!GlobalFonts.registerFromPath(file, 'Bravura')) throw new Error(`${file} is no font.`);
  const canvas = createCanvas(10, 10);
  Element.setTextMeasurementCanvas(canvas as unknown as HTMLCanvasElement);
  Object.assign(globalThis, { document: window.document, window });
  VexFlow.setFonts('Bravura');
  const context = canvas.getContext('2d');
  context.font = '40px Bravura';
  const { width } = context.measureText('\ue0a4');
  // In a music font's em of four staff spaces a black notehead is 1.18 spaces wide.
  if (Math.abs(width - 11.8) > 0.05) throw new Error(`The music font does not measure: a notehead is ${width} wide.`);
}

const ROW = 4;
const WIDTH = 260;
const LEAD = 90;
const HEIGHT = 150;

/** The block's staff as SVG text. */
export function drawOnJsdom(staff: Staff): string {
  const holder = window.document.createElement('div') as unknown as HTMLDivElement;
  const renderer = new Renderer(holder, Renderer.Backends.SVG);
  renderer.resize(LEAD + ROW * WIDTH, HEIGHT * Math.ceil(staff.bars.length / ROW));
  const context = renderer.getContext();
  let before: StaveNote | undefined;
  staff.bars.forEach((bar, index) => {
    const head = index % ROW === 0;
    const stave = new Stave(
      head ? 0 : LEAD + (index % ROW) * WIDTH,
      HEIGHT * Math.floor(index / ROW),
      head ? LEAD + WIDTH : WIDTH,
    );
    if (head)
      stave
        .addClef('treble', undefined, staff.clef.octaves === 0 ? undefined : staff.clef.octaves > 0 ? '8va' : '8vb')
        .addKeySignature(keyName(signatureOf(staff.score.key)));
    if (index === 0) stave.addTimeSignature(`${staff.score.meter.beats}/${staff.score.meter.unit}`);
    if (index === staff.bars.length - 1) stave.setEndBarType(BarlineType.END);
    stave.setContext(context).draw();
    before = drawBar(bar, index, stave, before);
  });
  return holder.innerHTML;

  function drawBar(
    bar: WrittenBar,
    index: number,
    stave: Stave,
    previous: StaveNote | undefined,
  ): StaveNote | undefined {
    const notes = bar.notes.map((note) => noteOf(note, index));
    const beams = groupsOf(bar.notes, notes, ({ beam }) => beam)
      .filter((group) => group.length > 1)
      .map((group) => new Beam(group, true));
    const tuplets = groupsOf(bar.notes, notes, ({ tuplet }) => tuplet).map((group, number) => {
      const { actual, normal } = bar.tuplets[number] ?? { actual: 3, normal: 2 };
      return new Tuplet(group, { numNotes: actual, notesOccupied: normal });
    });
    const voice = new Voice().setMode(Voice.Mode.SOFT).addTickables(notes);
    new Formatter().joinVoices([voice]).formatToStave([voice], stave);
    voice.draw(context, stave);
    for (const beam of beams) beam.setContext(context).draw();
    for (const tuplet of tuplets) tuplet.setContext(context).draw();
    notes.forEach((note, at) => {
      const written = bar.notes[at];
      const from = at === 0 ? previous : notes[at - 1];
      if (written?.tiedFromPrevious && from && from.getKeys().length === note.getKeys().length) {
        const indexes = note.getKeys().map((_, key) => key);
        const ends = { firstIndexes: indexes, lastIndexes: indexes };
        // Over the end of a row a tie is drawn in two halves.
        const broken = at === 0 && index % ROW === 0;
        const ties = broken
          ? [
              { firstNote: from, ...ends },
              { lastNote: note, ...ends },
            ]
          : [{ firstNote: from, lastNote: note, ...ends }];
        for (const tie of ties) new StaveTie(tie).setContext(context).draw();
      }
    });
    return notes.at(-1);
  }

  function noteOf(written: WrittenNote, bar: number): StaveNote {
    const event = staff.score.bars[bar]?.events[written.event];
    const first = !written.tiedFromPrevious;
    const heads = [...(staff.notes[event?.index ?? -1] ?? [])].sort((a, b) => a.pitch.midi - b.pitch.midi);
    const duration = written.value === 0.5 ? '1/2' : `${Math.min(128, written.value)}`;
    const rest = written.rest || heads.length === 0;
    const note = new StaveNote({
      keys: rest ? ['b/4'] : heads.map((head) => vexflowKey(head.pitch, staff.clef)),
      duration: duration + (rest ? 'r' : ''),
      dots: written.dots,
      ...(rest ? { stemDirection: Stem.UP } : { autoStem: true }),
    });
    if (written.dots > 0) Dot.buildAndAttach([note], { all: true });
    if (!rest && first) {
      heads.forEach((head, at) => {
        if (head.accidental !== undefined) note.addModifier(new Accidental(SIGNS[head.accidental + 2] ?? 'n'), at);
      });
    }
    return note;
  }
}

const SIGNS = ['bb', 'b', 'n', '#', '##'];

function groupsOf(
  written: readonly WrittenNote[],
  notes: readonly StaveNote[],
  of: (note: WrittenNote) => number | undefined,
): StaveNote[][] {
  const groups = new Map<number, StaveNote[]>();
  written.forEach((note, index) => {
    const group = of(note);
    if (group !== undefined) groups.set(group, [...(groups.get(group) ?? []), itemAt(notes, index)]);
  });
  return [...groups.entries()].sort(([a], [b]) => a - b).map(([, members]) => members);
}

const keyName = (signature: number): string =>
  ['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'][signature + 7] ?? 'C';
