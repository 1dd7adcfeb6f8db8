/** Whether a mouth and the block's harp can play what is written, note by note. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { bendsOfHole, deepestQuarterStep, sounding } from '../instrument/bend.ts';
import { type Breath, type Harp, type HoleNote, harpName, holeCount, namedOnHarp, reed } from '../instrument/harp.ts';
import { nearestPlayable } from '../instrument/nearest-playable.ts';
import { plainPitch } from '../instrument/pitch.ts';
import { tabOf, tabOfNotes } from '../instrument/playable.ts';
import { endsInQuarter } from '../instrument/quarter-step.ts';
import { WIDEST_SPLIT } from '../instrument/split.ts';
import { rowOf } from '../score/mark.ts';
import { itemAt, lastOf } from '../values/checked.ts';
import type { DraftSound } from './bars.ts';
import { report } from './problems.ts';
import type { TreeNote } from './tree.ts';

/**
 * Checks one sound of a block against a harp. Spans are the sound's own, unless it was quoted from elsewhere, or what is wrong is the
 * embouchure where it is quoted.
 */
export function checkPlayable(sound: DraftSound, harp: Harp, text: string, diagnostics: Diagnostic[]): void {
  const { note, source, mouth } = sound;
  const inOtherBlock = source.quote?.block !== undefined;
  const placeOf = (span: TextSpan): TextSpan => (inOtherBlock ? source.span : span);
  const { notes, breath } = note;
  for (const one of notes) checkHole(one, breath, harp, placeOf(one.span), diagnostics);
  if (notes.length === 1 && note.marks.length === 0) return;

  const holes = notes.map(({ hole }) => hole).sort((a, b) => a - b);
  const [low, high] = [itemAt(holes, 0), lastOf(holes)];
  const twice = holes.find((hole, index) => hole === holes[index + 1]);
  const whole = source.span;
  if (twice !== undefined) diagnostics.push(report('hole-twice', whole, { hole: twice }));
  else if (high - low >= WIDEST_SPLIT)
    diagnostics.push(report('holes-too-far', whole, { low, high, reach: WIDEST_SPLIT }));
  else if (mouth === 'lips' && high - low >= holes.length) {
    const silent = range(low, high).filter((hole) => !holes.includes(hole));
    const between = `${silent.length === 1 ? 'hole' : 'holes'} ${silent.join(' and ')}`;
    const tab = tabOfNotes(notes, breath);
    const quoted = withTongue(sound, text);
    diagnostics.push(
      report('split-with-lips', quoted ? sound.site : whole, {
        between,
        quoted: quoted && tab,
        nearest: quoted ?? `${tab}[tongue]`,
      }),
    );
  }

  for (const { mark, span } of note.marks) {
    const at = placeOf(span);
    if (rowOf(mark.name).needsTongue) {
      if (mouth === 'lips') {
        const quoted = withTongue(sound, text);
        const near = quoted ?? `${tabOfNotes(notes, breath)}[tongue ${mark.name}]`;
        const facts = { mark: mark.name, isQuoted: quoted !== undefined, nearest: near };
        diagnostics.push(report('tongue-mark-with-lips', quoted ? sound.site : at, facts));
      } else if (low === 1 && high - low < holes.length) {
        diagnostics.push(report('nothing-under-tongue', at, { mark: mark.name }));
      }
    }
    if ('note' in mark) checkHole(mark.note, mark.note.breath, harp, at, diagnostics);
    if ('hole' in mark) checkShake(notes, mark.hole, harp, at, diagnostics);
  }
}

const BRACKETS = /(?:\[[^\]\n]*\])*/y;

/** The quotation that brought a note, with the tongue; undefined where the note itself says that it is for the lips, or was not quoted. */
function withTongue({ note, source, site }: DraftSound, text: string): string | undefined {
  if (!source.quote) return undefined;
  const quotation = text.slice(site.from, site.to);
  BRACKETS.lastIndex = site.to;
  const marks = BRACKETS.exec(text)?.[0] ?? '';
  if (/\blips\b/.test(marks)) return quotation + marks.replace(/\blips\b/, 'tongue');
  return source.quote.phrase === undefined || note.mouth !== undefined ? undefined : `${quotation}[tongue]${marks}`;
}

const range = (low: number, high: number): number[] =>
  Array.from({ length: high - low + 1 }, (_, index) => low + index);

function checkShake(
  notes: readonly TreeNote[],
  other: number,
  harp: Harp,
  span: TextSpan,
  diagnostics: Diagnostic[],
): void {
  const hole = itemAt(notes, 0).hole;
  const why =
    notes.length > 1
      ? 'a shake is of one note'
      : other < 1 || other > holeCount(harp)
        ? `a harp of ${holeCount(harp)} holes has no hole ${other}`
        : other === hole
          ? 'it needs another hole'
          : Math.abs(other - hole) > 2
            ? 'they are further apart than the head moves in a shake'
            : undefined;
  if (why) diagnostics.push(report('shake-impossible', span, { hole, with: other, why }));
}

/** Checks one note of a sound against a harp. */
export function checkHole(note: HoleNote, breath: Breath, harp: Harp, span: TextSpan, diagnostics: Diagnostic[]): void {
  const { hole } = note;
  const sound = sounding(harp, breath, note);
  if (!('fault' in sound)) return;
  if (sound.fault === 'no-hole') {
    const holes = holeCount(harp);
    const near = { ...note, hole: hole < 1 ? 1 : holes };
    const bare = { ...near, bend: 0, over: false, slide: false };
    const has = !('fault' in sounding(harp, breath, near));
    const sign = breath === 'draw' ? '-' : '';
    diagnostics.push(
      report('no-hole', span, { hole, holes, sign, nearest: tabOf({ ...(has ? near : bare), breath }) }),
    );
    return;
  }
  if (sound.fault === 'no-slide') {
    diagnostics.push(report('no-slide', span, {}));
    return;
  }
  const name = (midi: number): string => plainPitch(namedOnHarp(harp, midi));
  const other = otherBreath(breath);
  const [own, facing] = [reed(harp, hole, breath), reed(harp, hole, other)];
  const canBend = bendsOfHole(harp, hole);
  switch (sound.fault) {
    case 'bend-too-deep':
      diagnostics.push(
        report('bend-too-deep', span, {
          hole,
          breath,
          most: halfSteps(canBend.deepest),
          harp: harpWithArticle(harp),
          reed: name(own),
          lowest: name(own - canBend.deepest),
          other: `${other} reed ${name(facing)}`,
          nearest: tabOf({ ...note, bend: canBend.deepest, breath }),
        }),
      );
      return;
    case 'quarter-too-deep':
      diagnostics.push(
        report('quarter-too-deep', span, {
          hole,
          breath,
          lowest: name(own - canBend.deepest),
          other: `${other} reed ${name(facing)}`,
          nearest: tabOf({ ...note, bend: deepestQuarterStep(canBend), breath }),
        }),
      );
      return;
    case 'no-bend': {
      const deepest = endsInQuarter(note.bend) ? deepestQuarterStep(canBend) : canBend.deepest;
      const why = harp.tuning.valves
        ? 'its reeds are valved, so no second reed gives a bend its half steps'
        : own > facing
          ? `its two reeds, ${name(own)} and ${name(facing)}, are too close together${note.bend > 1 && deepest > 0 ? ' for half steps' : ''}`
          : own === facing
            ? `its two reeds are both ${name(own)}`
            : `its ${breath} reed ${name(own)} is the lower one`;
      const shaded = harp.tuning.valves ? `${tabOf({ ...note, bend: 0, breath })}[dip]` : undefined;
      const near =
        canBend.bends && deepest > 0
          ? tabOf({ ...note, bend: Math.min(note.bend, deepest), breath: canBend.bends })
          : (shaded ?? tabOf(nearestPlayable(harp, own - note.bend)));
      diagnostics.push(report('no-bend', span, { hole, breath, why, nearest: near }));
      return;
    }
    case 'no-overbend': {
      const over = breath === 'blow' ? 'overblow' : 'overdraw';
      const { valves } = harp.tuning;
      const why = valves
        ? 'its reeds are valved'
        : own === facing
          ? 'its two reeds are the same'
          : `its ${breath} reed ${name(own)} is the higher one`;
      const near =
        valves || own === facing ? tabOf(nearestPlayable(harp, facing + 1)) : tabOf({ ...note, breath: other });
      diagnostics.push(report('no-overbend', span, { hole, name: over, why, nearest: near }));
    }
  }
}

const otherBreath = (breath: Breath): Breath => (breath === 'blow' ? 'draw' : 'blow');

/** From one on. */
const NUMBER_WORDS = ['one', 'two', 'three', 'four', 'five'];
const halfSteps = (count: number): string => `${NUMBER_WORDS[count - 1] ?? count} half step${count === 1 ? '' : 's'}`;

/** `a C harp`, `an A harp`, `a low F harp`. */
function harpWithArticle(harp: Harp): string {
  const name = harpName(harp);
  return `${/^[AEF]/.test(name) ? 'an' : 'a'} ${name} harp`;
}

/** Checks that every glide continues into a sound on the same breath. */
export function checkGlides(sounds: readonly (DraftSound | undefined)[], diagnostics: Diagnostic[]): void {
  sounds.forEach((sound, index) => {
    if (!sound?.glide) return;
    const next = sounds[index + 1];
    const stop = sound.note.marks.find(({ mark }) => rowOf(mark.name).stops);
    if (stop) diagnostics.push(report('glide-after-stop', sound.glide, { mark: stop.mark.name }));
    else if (!next) diagnostics.push(report('glide-nowhere', sound.glide, {}));
    else if (next.note.breath !== sound.note.breath) diagnostics.push(report('glide-turns', sound.glide, {}));
  });
}
