/** Every word of a rule: the notes it finds in a block, as they are written; `whole` for the block itself. */
import { describe, expect, test } from 'vitest';
import { detect } from '../../src/technique/detect.ts';
import { repertoireOf } from '../../src/technique/repertoire.ts';
import { type TechniqueInput, techniqueOf, techniqueSchema } from '../../src/technique/technique.ts';
import { scoreOf, writtenAt } from './tab.ts';

type Find = TechniqueInput['find'];
type Case = readonly [what: string, find: Find, block: string, notes: readonly string[]];

function found(find: Find, text: string): string[] {
  const technique = techniqueOf(techniqueSchema.parse({ id: 'asked', title: 'T', about: 'A.', group: 'tone', find }));
  const score = scoreOf(text);
  return (detect(score, repertoireOf([technique]))[0]?.matches ?? []).map(({ events }) =>
    events.length === 0 ? 'whole' : events.map((event) => writtenAt(text, score, event)).join(' '),
  );
}

const NOTE: readonly Case[] = [
  ['the breath', { note: { breath: 'draw' } }, 'slot: 1/4\n4 -4 5 -5', ['-4', '-5']],
  ['the lips', { note: { mouth: 'lips' } }, 'slot: 1/2\n4[tongue] 4', ['4']],
  ['a range of holes', { note: { hole: '9-10' } }, 'slot: 1/4\n8 9 10 .', ['9', '10']],
  ['the slide pressed', { note: { slide: true } }, 'tuning: solo-chromatic\nslot: 1/2\n4* 4', ['4*']],
  ['the slide let go', { note: { slide: false } }, 'tuning: solo-chromatic\nslot: 1/2\n4* 4', ['4']],
  ['a note with an attack', { note: { attacked: true } }, "slot: 1/4\n-3> -3' -3 .", ['-3', '-3']],
  ['a note glided into', { note: { attacked: false } }, "slot: 1/4\n-3> -3' -3 .", ["-3'"]],
  ['how many holes', { note: { holes: 2 } }, 'slot: 1/4\n1 (1 2) (1 2 3) .', ['(1 2)']],
  [
    'the span of a split',
    { note: { span: 4 } },
    'slot: 1/4\n(1 4)[tongue] (1 3)[tongue] (1 2 3 4) .',
    ['(1 4)[tongue]', '(1 2 3 4)'],
  ],
  [
    'any of some marks',
    { note: { mark: ['dip', 'fall'] } },
    'slot: 1/4\n4[dip] 4[fall] 4[hand] 4',
    ['4[dip]', '4[fall]'],
  ],
  ['seconds', { note: { seconds: { least: 2 } } }, 'slot: 1/4\ntempo: 60\n4 = 5 .', ['4']],
  ['seconds of a quick tempo', { note: { seconds: { below: 0.5 } } }, 'slot: 1/4\ntempo: 120\n4 = 5 .', []],
  ['beats', { note: { beats: { least: 2 } } }, 'slot: 1/4\n4 = 5 .', ['4']],
  ['beats of three', { note: { beats: 1 } }, 'meter: 6/8\nslot: 1/8\n4 = = 5 6 7', ['4']],
  ['a part of a whole note', { note: { length: '1/8' } }, 'slot: 1/8\n4 5 = 6 . . . .', ['4', '6']],
  ['off the beat', { note: { 'off-beat': true } }, 'slot: 1/8\n4 5 6 . . 7 . .', ['5', '7']],
  ['on the beat', { note: { 'off-beat': false } }, 'slot: 1/8\n4 5 6 . . 7 . .', ['4', '6']],
  ['held over the beat', { note: { 'held-over': true } }, 'slot: 1/8\n4 5 = 6 . 7 . .', ['5']],
  ['not held over the beat', { note: { 'held-over': false } }, 'slot: 1/8\n4 5 = 6 . 7 . .', ['4', '6', '7']],
  ['no triplet', { note: { triplet: false } }, 'slot: 1/4\n{4 5 6} 7 . .', ['7']],
  ['a triplet', { note: { triplet: true } }, 'slot: 1/4\n{4 5 6} 7 . .', ['4', '5', '6']],
  ['a tone of the chord', { note: { 'chord-tone': true } }, 'slot: 1/4\n"C" 4 -4 5 .', ['4', '5']],
  ['no tone of the chord', { note: { 'chord-tone': false } }, 'slot: 1/4\n"C" 4 -4 5 .', ['-4']],
  ['the chord', { note: { chord: 'IV7' } }, 'slot: 1/2\n"I7" 4 5 | "IV7" 6 7', ['6', '7']],
  ['any of some chords', { note: { chord: ['V7', 'I7'] } }, 'slot: 1/2\n"I7" 4 5 | "IV7" 6 7', ['4', '5']],
  ['the kind of chord', { note: { 'chord-kind': 'minor' } }, 'slot: 1/2\n"Cm" 4 "C7" 5', ['4']],
  [
    'any of some kinds',
    { note: { 'chord-kind': ['minor', 'dominant'] } },
    'slot: 1/4\n"Cm" 4 "C7" 5 "C" 6 .',
    ['4', '5'],
  ],
  ['a flat role', { note: { role: 'b7' } }, 'slot: 1/2\n"C7" -3\' 4', ["-3'"]],
  ['a sharp role', { note: { role: '#5' } }, "slot: 1/2\n\"Caug\" -3''' 4", ["-3'''"]],
  ['a neutral role', { note: { role: 'n3' } }, 'slot: 1/2\n"G7" -3q -3', ['-3q']],
  ['a role a quarter step down', { note: { role: 'b7q' } }, 'slot: 1/2\n"G7" -5q -5', ['-5q']],
  ['a bend that ends in a quarter step', { note: { bend: 1.5 } }, "slot: 1/2\n-3' -3'q", ["-3'q"]],
  ['a role with no chord', { note: { role: 'R' } }, 'slot: 1/2\n4 5', []],
  ['a role and a hole of one and the same note', { note: { role: '3', hole: 4 } }, 'slot: 1/2\n"C" (4 5) 4', []],
];

const BETWEEN: readonly Case[] = [
  ['the breath held', { between: { breath: 'same' } }, 'slot: 1/4\n4 5 -5 -6', ['4 5', '-5 -6']],
  ['the mouth kept', { between: { mouth: 'same' } }, 'slot: 1/4\n4 5 6[tongue] .', ['4 5']],
  ['the mouth switched', { between: { mouth: 'changes' } }, 'slot: 1/4\n4 5 6[tongue] .', ['5 6[tongue]']],
  ['the hole kept', { between: { hole: 'same' } }, 'slot: 1/4\n4 -4 5 .', ['4 -4']],
  ['another hole', { between: { hole: 'changes' } }, 'slot: 1/4\n4 -4 5 .', ['-4 5']],
  ['the lowest hole kept', { between: { hole: 'same' } }, 'slot: 1/2\n(4 5) (4 5 6)', ['(4 5) (4 5 6)']],
  ['the chord kept', { between: { chord: 'same' } }, 'slot: 1/4\n"C" 4 5 "F" 6 .', ['4 5']],
  ['the chord changed', { between: { chord: 'changes' } }, 'slot: 1/4\n"C" 4 5 "F" 6 .', ['5 6']],
  [
    'another kind of the same chord',
    { between: { chord: 'changes' } },
    'slot: 1/4\n"C" 4 "C7" 5 "Cm" 6 .',
    ['4 5', '5 6'],
  ],
  ['another root', { between: { chord: 'changes' } }, 'slot: 1/4\n"Eb" 4 "E" 5 "E" 6 .', ['4 5']],
  ['the pitch up', { between: { pitch: 'up' } }, 'slot: 1/4\n4 5 4 4', ['4 5']],
  ['the pitch down', { between: { pitch: 'down' } }, 'slot: 1/4\n4 5 4 4', ['5 4']],
  ['the pitch kept', { between: { pitch: 'same' } }, 'slot: 1/4\n4 5 4 4', ['4 4']],
  ['the pitch kept on another hole', { between: { pitch: 'same' } }, 'slot: 1/2\n-2 3', ['-2 3']],
  ['no jump where only one edge moves', { between: { jump: 0 } }, 'slot: 1/2\n4 (4 5 6)', ['4 (4 5 6)']],
  ['a jump down', { between: { jump: 3 } }, 'slot: 1/4\n4 7 4 5', ['4 7', '7 4']],
  ['a glide', { between: { glide: true } }, "slot: 1/4\n-3> -3' -3 .", ["-3 -3'"]],
  ['no glide', { between: { glide: false } }, "slot: 1/4\n-3> -3' -3 .", ["-3' -3"]],
  ['beats between', { between: { beats: 2 } }, 'slot: 1/4\n4 = 5 6', ['4 5']],
  ['seconds between', { between: { seconds: 1 } }, 'slot: 1/4\ntempo: 120\n4 = 5 6', ['4 5']],
  ['notes in a second', { between: { 'notes-per-second': { least: 2 } } }, 'slot: 1/4\ntempo: 120\n4 = 5 6', ['5 6']],
  ['what the next note is', { note: { breath: 'blow' }, next: { breath: 'draw' } }, 'slot: 1/4\n4 -4 5 6', ['4 -4']],
];

const BLOCK: readonly Case[] = [
  ['the position', { block: { position: 2 } }, 'position: 2\nslot: 1/1\n4', ['whole']],
  ['another position', { block: { position: 3 } }, 'position: 2\nslot: 1/1\n4', []],
  ['the meter', { block: { meter: ['3/4', '6/8'] } }, 'meter: 3/4\nslot: 1/4\n4 5 6', ['whole']],
  ['another meter', { block: { meter: '3/4' } }, 'slot: 1/1\n4', []],
  ['straight', { block: { feel: 'straight' } }, 'slot: 1/1\n4', ['whole']],
  ['a feel of its own', { block: { feel: 'ratio' } }, 'feel: 60:40\nslot: 1/1\n4', ['whole']],
  ['another feel', { block: { feel: ['straight', 'ratio'] } }, 'feel: shuffle\nslot: 1/1\n4', []],
  ['the tempo', { block: { tempo: { least: 100 } } }, 'tempo: 100\nslot: 1/1\n4', ['whole']],
  ['another tempo', { block: { tempo: { least: 100 } } }, 'tempo: 99\nslot: 1/1\n4', []],
  ['the tuning', { block: { tuning: ['natural-minor', 'richter'] } }, 'slot: 1/1\n4', ['whole']],
  ['another tuning', { block: { tuning: 'natural-minor' } }, 'slot: 1/1\n4', []],
  ['a pickup', { block: { pickup: true } }, 'pickup: 1\nslot: 1/4\n4 | 5 . . .', ['whole']],
  ['no pickup', { block: { pickup: false } }, 'pickup: 1\nslot: 1/4\n4 | 5 . . .', []],
  ['beats in three', { block: { compound: true } }, 'meter: 6/8\nslot: 3/8\n4 5', ['whole']],
  ['beats in two', { block: { compound: false } }, 'meter: 6/8\nslot: 3/8\n4 5', []],
  ['repeats', { block: { repeats: true } }, 'slot: 1/1\n4', []],
  ['no repeats', { block: { repeats: false } }, 'slot: 1/1\n|: 4 | 5 :|', []],
  ['the form', { block: { form: 'eight-bar' } }, 'form: eight-bar bars 1-2\nslot: 1/1\n4 | 5', ['whole']],
  ['another form', { block: { form: 'twelve-bar' } }, 'form: eight-bar bars 1-2\nslot: 1/1\n4 | 5', []],
  ['no form', { block: { form: 'twelve-bar' } }, 'chords: I7 | IV7\nslot: 1/1\n4 | 5', []],
  ['a bar of the form', { block: { 'form-bar': 5 } }, 'form: twelve-bar bars 5-6\nslot: 1/1\n4 | 5', ['whole']],
  ['another bar', { block: { 'form-bar': 4 } }, 'form: twelve-bar bars 5-6\nslot: 1/1\n4 | 5', []],
  ['a bar of no form', { block: { 'form-bar': 1 } }, 'chords: I7 | IV7\nslot: 1/1\n4 | 5', []],
  [
    'a step in the bar',
    { block: { 'form-bar': 5, 'form-bar-step': ['I', 'IV'] } },
    'form: twelve-bar bars 5-6\nslot: 1/1\n4 | 5',
    ['whole'],
  ],
  [
    'another step in the bar',
    { block: { 'form-bar': 5, 'form-bar-step': 'V' } },
    'form: twelve-bar bars 5-6\nslot: 1/1\n4 | 5',
    [],
  ],
  [
    'a minor step in the bar',
    { block: { 'form-bar': 5, 'form-bar-step': 'IV' } },
    'form: minor-twelve-bar bars 5-6\nslot: 1/1\n4 | 5',
    ['whole'],
  ],
  [
    'a flat step in the bar',
    { block: { 'form-bar': 1, 'form-bar-step': 'bVI' } },
    'form: twelve-bar bars 1-2\nslot: 1/1\n"bVI7" 4 | 5',
    ['whole'],
  ],
];

const RUN: readonly Case[] = [
  ['enough in a row', { note: { hole: 4 }, run: 3 }, 'slot: 1/8\n4 4 4 5 4 4 5 .', ['4 4 4']],
  ['each run', { note: { hole: 4 }, run: 2 }, 'slot: 1/8\n4 4 5 4 4 4 5 4', ['4 4', '4 4 4']],
  ['to the end of the block', { note: { hole: 4 }, run: 2 }, 'slot: 1/4\n5 5 4 4', ['4 4']],
  ['none too short', { note: { hole: 4 }, run: 4 }, 'slot: 1/4\n4 4 4 5', []],
  ['that go on', { between: { breath: 'changes' }, run: 3 }, 'slot: 1/4\n4 -4 4 4', ['4 -4 4']],
  [
    'of fitting notes that go on',
    { note: { hole: 4 }, between: { breath: 'changes' }, run: 2 },
    'slot: 1/4\n4 -4 -5 5',
    ['4 -4'],
  ],
  ['with enough turns', { note: { hole: 4 }, run: 3, turns: 2 }, 'slot: 1/4\n4 -4 4 4', ['4 -4 4 4']],
  ['with too few turns', { note: { hole: 4 }, run: 3, turns: 2 }, 'slot: 1/4\n4 -4 -4 -4', []],
];

describe.each([
  ['a rule for one note', NOTE],
  ['a rule for two notes in a row', BETWEEN],
  ['a rule for the block', BLOCK],
  ['a rule for a run', RUN],
])('%s', (_, cases) => {
  test.each(cases)('asks for %s', (_what, find, block, notes) => expect(found(find, block)).toEqual(notes));
});
