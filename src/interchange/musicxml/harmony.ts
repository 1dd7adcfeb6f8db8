/** Chord symbols in MusicXML: a kind from its list, and the degrees by which the chord differs from that kind. */
import { type Chord, NO_CHORD, type NoChord } from '../../harmony/chord.ts';
import { majorDegree } from '../../instrument/pitch.ts';
import type { XmlWriter } from './xml.ts';

/** How many half steps each tone is above or below its place in the major scale, by its number. */
type Alterations = ReadonlyMap<number, number>;

const kind = (name: string, tones: string): { readonly name: string; readonly tones: Alterations } => ({
  name,
  tones: new Map(
    tones.split(' ').map((tone) => {
      const number = Number(tone.replace(/^[b#]+/, ''));
      return [number, (tone.match(/#/g)?.length ?? 0) - (tone.match(/b/g)?.length ?? 0)];
    }),
  ),
});

/** MusicXML 4.0, “kind-value data type”: those of its kinds that name one chord. Earlier ones go before. */
const KINDS = [
  kind('major', '1 3 5'),
  kind('minor', '1 b3 5'),
  kind('dominant', '1 3 5 b7'),
  kind('minor-seventh', '1 b3 5 b7'),
  kind('major-seventh', '1 3 5 7'),
  kind('diminished', '1 b3 b5'),
  kind('augmented', '1 3 #5'),
  kind('diminished-seventh', '1 b3 b5 bb7'),
  kind('half-diminished', '1 b3 b5 b7'),
  kind('augmented-seventh', '1 3 #5 b7'),
  kind('major-minor', '1 b3 5 7'),
  kind('major-sixth', '1 3 5 6'),
  kind('minor-sixth', '1 b3 5 6'),
  kind('dominant-ninth', '1 3 5 b7 9'),
  kind('major-ninth', '1 3 5 7 9'),
  kind('minor-ninth', '1 b3 5 b7 9'),
  kind('dominant-11th', '1 3 5 b7 9 11'),
  kind('major-11th', '1 3 5 7 9 11'),
  kind('minor-11th', '1 b3 5 b7 9 11'),
  kind('dominant-13th', '1 3 5 b7 9 11 13'),
  kind('major-13th', '1 3 5 7 9 11 13'),
  kind('minor-13th', '1 b3 5 b7 9 11 13'),
  kind('suspended-second', '1 2 5'),
  kind('suspended-fourth', '1 4 5'),
  kind('power', '1 5'),
];

interface Degree {
  readonly value: number;
  readonly alter: number;
  readonly type: 'add' | 'alter' | 'subtract';
}

interface WrittenKind {
  readonly name: string;
  readonly degrees: readonly Degree[];
}

const alterationsOf = ({ tones }: Chord): Alterations =>
  new Map(tones.map(({ number, degree, semitones }) => [number, alterOf(degree, semitones)]));

/** A tone against the major scale's, as near as it can be: a seventh of 11 half steps is not altered. */
const alterOf = (degree: number, semitones: number): number => ((semitones - majorDegree(degree) + 18) % 12) - 6;

/** The degrees that make a chord of a kind. What is added counts from a dominant chord, whose seventh is the minor one. */
function degreesFrom(tones: Alterations, from: Alterations): Degree[] {
  const added = (value: number, alter: number): number => (value === 7 ? alter + 1 : alter);
  const changed = [...tones].flatMap(([value, alter]): Degree[] => {
    const before = from.get(value);
    if (before === undefined) return [{ value, alter: added(value, alter), type: 'add' }];
    return before === alter ? [] : [{ value, alter: alter - before, type: 'alter' }];
  });
  const left = [...from].filter(([value]) => !tones.has(value));
  return [
    ...changed,
    ...left.map(([value, alter]): Degree => ({ value, alter: added(value, alter), type: 'subtract' })),
  ];
}

/** The kind that takes the fewest degrees. */
function kindOf(chord: Chord): WrittenKind {
  const tones = alterationsOf(chord);
  const all = KINDS.map(({ name, tones: from }): WrittenKind => ({ name, degrees: degreesFrom(tones, from) }));
  return all.reduce((best, one) => (one.degrees.length < best.degrees.length ? one : best));
}

/** Few chords are used again and again. */
const kinds = new Map<string, WrittenKind>();

function knownKind(chord: Chord): WrittenKind {
  const known = kinds.get(chord.suffix) ?? kindOf(chord);
  kinds.set(chord.suffix, known);
  return known;
}

/** Writes a chord symbol or that no chord sounds, `offset` divisions after where the next note begins. */
export function writeHarmony(xml: XmlWriter, chord: Chord | NoChord, offset: number): void {
  xml.open('harmony');
  if (chord === 'none') writeNone(xml);
  else writeChord(xml, chord);
  if (offset > 0) xml.leaf('offset', offset);
  xml.close();
}

/** MusicXML 4.0, “kind-value data type”, none: a root is required, has no meaning, and is hidden by an empty text. */
function writeNone(xml: XmlWriter): void {
  xml.open('root');
  xml.leaf('root-step', 'C', { text: '' });
  xml.close();
  xml.leaf('kind', 'none', { text: NO_CHORD });
}

function writeChord(xml: XmlWriter, chord: Chord): void {
  const { name, degrees } = knownKind(chord);
  xml.open('root');
  xml.leaf('root-step', chord.root.letter);
  if (chord.root.alter !== 0) xml.leaf('root-alter', chord.root.alter);
  xml.close();
  xml.leaf('kind', name, { text: chord.suffix });
  if (chord.bass) {
    xml.open('bass');
    xml.leaf('bass-step', chord.bass.letter);
    if (chord.bass.alter !== 0) xml.leaf('bass-alter', chord.bass.alter);
    xml.close();
  }
  for (const { value, alter, type } of degrees) {
    xml.open('degree', { 'print-object': 'no' });
    xml.leaf('degree-value', value);
    xml.leaf('degree-alter', alter);
    xml.leaf('degree-type', type);
    xml.close();
  }
}
