import { describe, expect, it } from 'vitest';
import { readHarp } from '../../src/instrument/harp.ts';
import { notesOf } from '../../src/instrument/playable.ts';
import { TUNINGS } from '../../src/instrument/tuning.ts';
import { CATALOGUE, WRITTEN } from '../../src/technique/catalogue.ts';
import { detector } from '../../src/technique/detect.ts';
import { SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';
import { ID } from '../../src/technique/technique.ts';
import { present } from '../../src/values/checked.ts';
import { scoreOf, writtenAt } from './tab.ts';

const detect = detector(SHIPPED_REPERTOIRE);

/** What is found of one technique in a block: the notes to point at, as they are written, or `whole` for the block. */
function found(id: string, text: string): string[] {
  const score = scoreOf(text);
  const matches = detect(score).find(({ technique }) => technique.id === id)?.matches ?? [];
  return matches.map(({ at }) => (at === undefined ? 'whole' : writtenAt(text, score, at)));
}

/**
 * For every technique a block that takes it, what is to be pointed at in it, and a block much like it that does not.
 * Bars of four quarters unless the header says otherwise.
 */
const EXAMPLES: Readonly<Record<string, readonly [takes: string, at: readonly string[], doesNot: string]>> = {
  'single-notes': ['(1 2) 4 . .', ['4'], '(1 2) -(1 2) . .'],
  'long-notes': ['tempo: 60\n4 =2 -4', ['4'], 'tempo: 90\n4 =2 -4'],
  'lip-pursing': ['4[tongue] 4 . .', ['4'], '4[tongue] (4 5) . .'],
  'tongue-blocking': ['4 5[tongue] . .', ['5[tongue]'], '4 5 . .'],
  'embouchure-switches': ['4 4 5[tongue] 5[tongue]', ['5[tongue]'], 'mouth: tongue\n4 4 5 5'],
  'embouchure-switches-within-a-beat': ['slot: 1/8\n4 5[tongue] =6', ['5[tongue]'], 'slot: 1/8\n4 = 5[tongue] =5'],
  'tongue-blocked-bends': ["-4' -4'[tongue] . .", ["-4'[tongue]"], "-4' -4[tongue] . ."],
  chords: ['4 (4 5) . .', ['(4 5)'], '4 (1 4)[tongue] . .'],
  'double-stops': ['(4 5) (4 5 6) . .', ['(4 5)'], '(4 5 6) 4 . .'],
  'full-chords': ['(4 5) (4 5 6) . .', ['(4 5 6)'], '(4 5) 4 . .'],
  'chord-rhythm': ['(1 2) -(1 2) (1 2) -(1 2)', ['(1 2)'], '(1 2) -(1 2) 4 -(1 2)'],
  splits: ['(1 4)[tongue] (4 5) . .', ['(1 4)[tongue]'], '(4 5) 4 . .'],
  'octave-splits': ['(1 4)[tongue] -(2 5)[tongue] . .', ['(1 4)[tongue]'], '-(2 5)[tongue] (4 5) . .'],
  'octave-splits-four-holes': ['(1 4)[tongue] -(3 7)[tongue] . .', ['(1 4)[tongue]'], '-(3 7)[tongue] . . .'],
  'octave-splits-five-holes': ['(1 4)[tongue] -(3 7)[tongue] . .', ['-(3 7)[tongue]'], '(1 4)[tongue] . . .'],
  'other-splits': ['(1 4)[tongue] -(2 5)[tongue] . .', ['-(2 5)[tongue]'], '(1 4)[tongue] . . .'],
  'breath-turns': ['4 4 -4 -5', ['-4'], '4 5 6 7'],
  'quick-breath-turns': ['slot: 1/16\ntempo: 80\n4 -4 4 -4 =12', ['4'], 'slot: 1/16\ntempo: 40\n4 -4 4 -4 =12'],
  'low-holes': ['3 4 . .', ['3'], '4 5 . .'],
  'middle-holes': ['3 4 6 7', ['4', '6'], '3 7 . .'],
  'high-holes': ['6 7 10 .', ['7', '10'], '6 5 . .'],
  'hole-jumps': ['4 5 7 6', ['7'], '4 5 6 7'],
  'wide-jumps': ['4 7 3 .', ['3'], '4 7 4 .'],
  bends: ["-4 -4' 8' .", ["-4'", "8'"], '-4 6o . .'],
  'draw-bends': ["-4 -4' 8' .", ["-4'"], "8' -4 . ."],
  'half-step-bends': ["-3' -3'' 8' .", ["-3'"], "-3'' -3''' . ."],
  'whole-step-bends': ["-3' -3'' -3''' .", ["-3''"], "-3' -3''' . ."],
  'step-and-a-half-bends': ["-3' -3'' -3''' .", ["-3'''"], "-3' -3'' . ."],
  'quarter-step-bends': ["-3q -3'q -3' .", ['-3q', "-3'q"], "-3' -3 . ."],
  'draw-1-half-step': ["-1' -1 . .", ["-1'"], "-2' . . ."],
  'draw-2-half-step': ["-2' -2'' . .", ["-2'"], "-2'' -1' . ."],
  'draw-2-whole-step': ["-2' -2'' . .", ["-2''"], "-2' -3'' . ."],
  'draw-2-step-and-a-half': ["tuning: natural-minor\n-2'' -2''' . .", ["-2'''"], "tuning: natural-minor\n-2'' -2' . ."],
  'draw-3-half-step': ["-3' -3'' . .", ["-3'"], "-3'' -4' . ."],
  'draw-3-whole-step': ["-3'' -3''' . .", ["-3''"], "-3' -2'' . ."],
  'draw-3-step-and-a-half': ["-3'' -3''' . .", ["-3'''"], "-3'' -3' . ."],
  'draw-4-half-step': ["-4' -4 . .", ["-4'"], "-3' . . ."],
  'draw-5-half-step': ["tuning: raised-fifth-draw\n-5' -5 . .", ["-5'"], "tuning: raised-fifth-draw\n-4' . . ."],
  'draw-6-half-step': ["-6' -6 . .", ["-6'"], "-4' . . ."],
  'blow-bends': ["8' 8 . .", ["8'"], "-4' . . ."],
  'blow-7-half-step': ["tuning: natural-minor\n7' 7 . .", ["7'"], "tuning: natural-minor\n9' 7 . ."],
  'blow-8-half-step': ["8' 9' . .", ["8'"], "9' . . ."],
  'blow-9-half-step': ["8' 9' . .", ["9'"], "8' . . ."],
  'blow-10-half-step': ["10' 10'' . .", ["10'"], "10'' . . ."],
  'blow-10-whole-step': ["10' 10'' . .", ["10''"], "10' . . ."],
  'blow-10-step-and-a-half': [
    "tuning: harmonic-minor\n10'' 10''' . .",
    ["10'''"],
    "tuning: harmonic-minor\n10'' 10' . .",
  ],
  'bends-from-nothing': ["-4' -4> -4' .", ["-4'"], "-4> -4' . ."],
  'held-bends': ["tempo: 60\n-4' = -4 .", ["-4'"], "tempo: 60\n-4' -4 = ."],
  'bend-releases': ["-4'> -4 . .", ["-4'"], "-4' -4 . ."],
  'bend-drops': ["-4> -4' . .", ['-4'], "-4'> -4 . ."],
  'glides-between-bends': ["-3''> -3' . .", ["-3''"], "-3''> -3 . ."],
  'bent-double-stops': ["-(3' 4) -4' . .", ["-(3' 4)"], "-(3 4) -4' . ."],
  overblows: ['6o -9o . .', ['6o'], '-9o 6 . .'],
  'overblow-1': ['1o 4o . .', ['1o'], '4o . . .'],
  'overblow-2': ['2o 4o . .', ['2o'], '4o . . .'],
  'overblow-3': ['3o 4o . .', ['3o'], '4o . . .'],
  'overblow-4': ['1o 4o . .', ['4o'], '1o . . .'],
  'overblow-5': ['5o 4o . .', ['5o'], '4o . . .'],
  'overblow-6': ['6o 4o . .', ['6o'], '4o . . .'],
  overdraws: ['6o -9o . .', ['-9o'], '6o . . .'],
  'overdraw-7': ['-7o -9o . .', ['-7o'], '-9o . . .'],
  'overdraw-8': ['-8o -9o . .', ['-8o'], '-9o . . .'],
  'overdraw-9': ['-7o -9o . .', ['-9o'], '-7o . . .'],
  'overdraw-10': ['-10o -9o . .', ['-10o'], '-9o . . .'],
  slide: ['tuning: solo-chromatic\n4* 4 . .', ['4*'], 'tuning: solo-chromatic\n4 . . .'],
  slaps: ['mouth: tongue\n4[slap] 4 . .', ['4[slap]'], 'mouth: tongue\n4[pull] . . .'],
  pulls: ['mouth: tongue\n4[pull] 4 . .', ['4[pull]'], 'mouth: tongue\n4[slap] . . .'],
  flutters: ['mouth: tongue\n4[flutter] 4 . .', ['4[flutter]'], 'mouth: tongue\n4[slap] . . .'],
  shakes: ['-4[shake 5] -4 . .', ['-4[shake 5]'], '-4[vibrato] . . .'],
  'bent-shakes': ["-3'[shake 4] -4[shake 5] . .", ["-3'[shake 4]"], "-4[shake 5] -4' . ."],
  dips: ['-4[dip] -4 . .', ['-4[dip]'], '-4[fall] . . .'],
  falls: ['-4[fall] -4 . .', ['-4[fall]'], '-4[dip] . . .'],
  vibrato: ['-4[vibrato] -4 . .', ['-4[vibrato]'], '-4[hand] . . .'],
  tremolo: ['-4[tremolo] -4 . .', ['-4[tremolo]'], '-4[vibrato] . . .'],
  'hand-effects': ['-4[hand] -4 . .', ['-4[hand]'], '-4[vibrato] . . .'],
  'hand-wahs': ['-4[wah] -4 . .', ['-4[wah]'], '-4[hand] . . .'],
  accents: ['-4[accent] -4 . .', ['-4[accent]'], '-4[staccato] . . .'],
  staccato: ['-4[staccato] -4 . .', ['-4[staccato]'], '-4[accent] . . .'],
  'ghost-notes': ['-4[ghost] -4 . .', ['-4[ghost]'], '-4[accent] . . .'],
  'breath-marks': ['-4[breath] -4 . .', ['-4[breath]'], '-4[tenuto] . . .'],
  'grace-notes': ['-4[grace -3] -4 . .', ['-4[grace -3]'], '-4[tenuto] . . .'],
  fermatas: ['-4[fermata] -4 . .', ['-4[fermata]'], '-4[tenuto] . . .'],
  dynamics: ['-4[p] -4 . .', ['-4[p]'], '-4[accent] . . .'],
  tenuto: ['-4[tenuto] -4 . .', ['-4[tenuto]'], '-4[staccato] . . .'],
  shuffle: ['feel: 60:40\n4 . . .', ['whole'], 'feel: straight\n4 . . .'],
  triplets: ['{4 -4 5} 4 . .', ['4', '-4', '5'], 'meter: 12/8\nslot: 1/8\n4 -4 5 . . . . . . . . .'],
  sixteenths: ['slot: 1/16\n4 5 = =13', ['4'], 'slot: 1/8\n4 4 =6'],
  syncopation: ['slot: 1/8\n4 -4 = = 4 =3', ['-4'], 'slot: 1/8\n4 = -4 4 4 =3'],
  'quick-runs': ['slot: 1/16\ntempo: 80\n4 4 4 4 4 4 =10', ['4'], 'slot: 1/16\ntempo: 80\n4 4 4 4 4 = =10'],
  pickups: ['pickup: 1\n4 | 4 . . .', ['whole'], '4 . . .'],
  'three-four': ['meter: 3/4\n4 . .', ['whole'], '4 . . .'],
  'compound-time': ['meter: 12/8\nslot: 3/8\n4 . . .', ['whole'], 'meter: 3/4\n4 . .'],
  'first-position': ['4 . . .', ['whole'], 'position: 2\n4 . . .'],
  'second-position': ['position: 2\n4 . . .', ['whole'], '4 . . .'],
  'third-position': ['position: 3\n4 . . .', ['whole'], '4 . . .'],
  'fourth-position': ['position: 4\n4 . . .', ['whole'], '4 . . .'],
  'fifth-position': ['position: 5\n4 . . .', ['whole'], '4 . . .'],
  'sixth-position': ['position: 6\n4 . . .', ['whole'], '4 . . .'],
  'seventh-position': ['position: 7\n4 . . .', ['whole'], '4 . . .'],
  'eighth-position': ['position: 8\n4 . . .', ['whole'], '4 . . .'],
  'ninth-position': ['position: 9\n4 . . .', ['whole'], '4 . . .'],
  'tenth-position': ['position: 10\n4 . . .', ['whole'], '4 . . .'],
  'eleventh-position': ['position: 11\n4 . . .', ['whole'], '4 . . .'],
  'twelfth-position': ['position: 12\n4 . . .', ['whole'], '4 . . .'],
  'twelve-bar': [over('quick-change', 12), ['whole'], over('eight-bar', 8)],
  'quick-change': [over('quick-change', 12), ['whole'], over('twelve-bar', 12)],
  turnaround: [over('twelve-bar-turnaround', 12), ['whole'], over('twelve-bar', 12)],
  'minor-blues': [over('minor-twelve-bar', 12), ['whole'], over('twelve-bar', 12)],
  'eight-bar': [over('eight-bar', 8), ['whole'], over('twelve-bar', 12)],
  'sixteen-bar': [over('sixteen-bar', 16), ['whole'], over('twelve-bar', 12)],
  'blue-thirds': ['position: 2\n"I7" -3\' -3 . .', ["-3'"], 'position: 2\n"IV7" -3\' . . .'],
  'flat-fifths': ['position: 2\n"I7" -4\' -4 . .', ["-4'"], 'position: 2\n"IV7" -4\' . . .'],
};

function over(form: string, bars: number): string {
  return `form: ${form}\nslot: 1/1\n${Array(bars).fill('4').join(' | ')}`;
}

/**
 * More blocks, each written from what a technique says it is: first those that take it, then those that come near and do
 * not. The techniques of one hole and one depth, and the positions, are above.
 */
const FROM_DEFINITIONS: Readonly<Record<string, readonly [takes: readonly string[], doNot: readonly string[]]>> = {
  'single-notes': [["-4' . . .", '6o . . .'], ['-(1 2) (1 4)[tongue] . .']],
  'long-notes': [
    ['tempo: 80\n4 =3', 'tempo: 60\n4 = = = | = . . .'],
    ['tempo: 60\n4 = 4 =', 'tempo: 60\n4 4 4 4'],
  ],
  'lip-pursing': [["-4' . . ."], ['(4 5) . . .', 'mouth: tongue\n4 . . .']],
  'tongue-blocking': [['(1 4)[tongue] . . .', '@tongue 4 . . .'], ['@tongue 4[lips] . . .']],
  'embouchure-switches': [['4[tongue] 4 . .'], ['4[tongue] 5[tongue] . .', '(4 5) 4 . .']],
  'embouchure-switches-within-a-beat': [['slot: 1/16\n4 = 5[tongue] =13'], ['4 5[tongue] . .']],
  'tongue-blocked-bends': [["mouth: tongue\n8' . . ."], ['mouth: tongue\n6o -4 . .']],
  chords: [['-(1 2 3) . . .'], ['(1 4)[tongue] . . .', '4[tongue slap] . . .']],
  'double-stops': [['-(4 5) . . .'], ['(1 4)[tongue] . . .']],
  'full-chords': [['(1 2 3 4) . . .'], ['(1 2)[tongue] (1 2 5)[tongue] . .']],
  'chord-rhythm': [
    [
      '-(1 2) -(1 2) (1 2) (1 2)',
      'slot: 1/8\n-(1 2 3) (1 2 3) -(1 2 3) (1 2 3) =4',
      '-(1 2) -(1 2) (1 2) (1 2) | -(1 2) -(1 2) (1 2) (1 2)',
    ],
    ['-(1 2) -(1 2) -(1 2) -(1 2)', 'slot: 1/2\n-(1 2) (1 2) | -(1 2) (1 2)', '-1 1 -1 1', '-(1 2) (1 2) . .'],
  ],
  splits: [['-(3 7)[tongue] . . .', '(1 3)[tongue] . . .'], ['(1 2 3)[tongue] . . .']],
  'octave-splits': [['-(3 7)[tongue] . . .'], ['(1 3)[tongue] . . .']],
  'octave-splits-four-holes': [['-(1 4)[tongue] . . .'], ['-(2 5)[tongue] . . .']],
  'octave-splits-five-holes': [['-(4 8)[tongue] . . .'], ['(1 5)[tongue] . . .']],
  'other-splits': [['(1 3)[tongue] . . .'], ['-(3 7)[tongue] . . .', '(1 2) . . .']],
  'breath-turns': [['(1 2) -(1 2) . .'], ["-4 -4' . ."]],
  'quick-breath-turns': [
    ['tempo: 240\n4 -4 4 -4'],
    ['slot: 1/16\ntempo: 80\n4 4 4 -4 -4 =11', 'slot: 1/16\ntempo: 80\n4 -4 = 4 = -4 =10'],
  ],
  'low-holes': [['-(3 4) . . .'], ['-4 . . .']],
  'middle-holes': [['-(3 4) . . .'], ['-7 . . .']],
  'high-holes': [["10'' . . ."], ['-6 . . .']],
  'hole-jumps': [
    ['4 . 6 .', '(1 2) (4 5) . .'],
    ['4 -5 6 -5', '(1 2 3) (2 3 4) . .'],
  ],
  'wide-jumps': [['2 -6 . .'], ['4 7 . .', '(1 4)[tongue] -(1 2 3 4 5) . .']],
  bends: [["-(3' 4) . . ."], ['6o -7o . .']],
  'draw-bends': [["-6' . . ."], ["10'' . . ."]],
  'half-step-bends': [["-6' . . ."], ["10' . . ."]],
  'whole-step-bends': [["-2'' . . ."], ["10'' . . ."]],
  'step-and-a-half-bends': [["tuning: natural-minor\n-2''' . . ."], ["tuning: harmonic-minor\n10''' . . ."]],
  'quarter-step-bends': [
    ['-5q . . .', "-2'q . . ."],
    ["10'q . . .", "-6' 6o . ."],
  ],
  'blow-bends': [["tuning: natural-minor\n7' . . ."], ["-6' 6o . ."]],
  'bends-from-nothing': [["10' . . ."], ["10> 10' . ."]],
  'held-bends': [["tempo: 120\n-3' =3"], ["tempo: 120\n-3' -3' . ."]],
  'bend-releases': [["10''> 10 . ."], ["-3''> -3' . .", "-3'> -2 . ."]],
  'bend-drops': [["10> 10' . ."], ["-3'> -3'' . .", '-3 -3 . .']],
  'glides-between-bends': [
    ["-3'> -3''' . .", "10''> 10' . ."],
    ["-3'> -3' . .", "-3' -3'' . .", "-3'> -2' . ."],
  ],
  'bent-double-stops': [["-(2' 3') . . ."], ["-(3 4)> -3' . ."]],
  overblows: [['1o . . .'], ["8' -7o . ."]],
  overdraws: [['-10o . . .'], ["-6' 6o . ."]],
  slide: [['tuning: solo-chromatic\n-4* . . .'], ['tuning: solo-chromatic\n-4 . . .']],
  slaps: [['4[tongue slap accent] . . .'], ['mouth: tongue\n4[accent] . . .']],
  pulls: [['-4[tongue pull] . . .'], ['-4[tongue flutter] . . .']],
  flutters: [['(1 4)[tongue flutter] . . .'], ['-4[shake 5] . . .']],
  shakes: [['4[shake 3] . . .'], ['(4 5) . . .', '4 5 4 5']],
  'bent-shakes': [["-4'[shake 5] . . ."], ['-4[shake 5] . . .', "-4'[vibrato] . . ."]],
  dips: [["-3'[dip] . . ."], ["-3> -3' . ."]],
  falls: [["-3'[fall] . . ."], ["-3> -3' . ."]],
  vibrato: [['4[vibrato hand] = . .'], ['4 =3']],
  tremolo: [['(1 2)[tremolo] = . .'], ['4 =3', '4[tongue flutter] =3']],
  'hand-effects': [['4[vibrato hand] = . .'], ['4[dip] . . .']],
  'hand-wahs': [['4[wah tremolo] = . .'], ['4[dip] . . .']],
  accents: [['(1 2)[accent] . . .'], ['4 . . .']],
  staccato: [['(1 2)[staccato] . . .'], ['4 . 4 .']],
  'ghost-notes': [['(1 2)[ghost] . . .'], ['4 . . .']],
  'breath-marks': [['(1 2)[breath] . . .'], ['4 . . .']],
  'grace-notes': [["-3[grace -3'] =3"], ['-3 -4 . .']],
  fermatas: [['(1 2)[fermata breath] . . .'], ['4 =3']],
  dynamics: [['(1 2)[cresc] . (1 2)[ff] .'], ['4[accent] . . .']],
  tenuto: [['(1 2)[tenuto staccato] . . .'], ['4 =3', '4[accent] . . .']],
  shuffle: [['feel: shuffle\n4 . . .'], ['feel: 50:50\n4 . . .', 'feel: shuffle\nmeter: 12/8\nslot: 3/8\n4 . . .']],
  triplets: [
    ['slot: 1/2\n{4 5 6} 4', '{4 = 5} . . .', 'slot: 1/8\n{4 5 6 7 6 5}2 =6', 'meter: 3/4\n{4 5 6} . .'],
    ['chords: I7 IV7 V7\n4 =3', 'chords: I7 IV7 V7\nslot: 1/1\n4', '{4 5} 6 . .', 'meter: 6/8\nslot: 1/8\n4 5 6 4 5 6'],
  ],
  sixteenths: [
    ['slot: 1/16\n4 = = 5 6 =11', 'slot: 1/8\n{4 5} =7'],
    ['slot: 1/32\n4 5 =30', 'slot: 1/8\n{4 5 6} =7', 'slot: 1/16\n4 = 5 =13', 'slot: 1/16\n4 =15'],
  ],
  syncopation: [
    ['slot: 1/8\n4 5 = 6 = 5 = 4 | = . . . . . . .'],
    ['slot: 1/4\n4 = 5 = | = . . .', 'slot: 1/8\n4 5 4 5 4 5 4 5'],
  ],
  'quick-runs': [['tempo: 300\n4 5 6 7 | 6 5 4 .'], ['tempo: 300\n4 5 6 7 | 6 . . .', 'tempo: 200\n4 5 6 7 | 6 5 4 .']],
  pickups: [['pickup: 2\n4 5 | 6 . . .'], ['. . . 4 | 5 . . .']],
  'three-four': [['meter: 3/4\n4 5 6'], ['meter: 6/8\nslot: 1/8\n4 =5', 'meter: 6/4\n4 =5']],
  'compound-time': [
    ['meter: 6/8\nslot: 1/8\n4 =5', 'meter: 9/8\nslot: 3/8\n4 = ='],
    ['meter: 5/4\n4 =4', '{4 5 6} . . .'],
  ],
  'twelve-bar': [
    [over('minor-twelve-bar', 12), over('quick-change-turnaround', 12)],
    [over('sixteen-bar', 16), over('eight-bar-halves', 8)],
  ],
  'quick-change': [
    [
      over('quick-change-turnaround', 12),
      over('quick-change bars 1-4', 4),
      over('quick-change bars 2-3', 2),
      'form: twelve-bar bars 1-4\nslot: 1/1\n4 | "IV7" 4 | 4 | 4',
    ],
    [
      over('quick-change bars 5-8', 4),
      over('quick-change bars 9-12', 4),
      over('quick-change bars 1-1', 1),
      'form: quick-change bars 1-4\nslot: 1/1\n4 | "I7" 4 | 4 | 4',
    ],
  ],
  turnaround: [
    [
      over('quick-change-turnaround', 12),
      over('twelve-bar-turnaround bars 9-12', 4),
      over('eight-bar', 8),
      over('eight-bar-halves bars 7-8', 2),
      'form: twelve-bar bars 11-12\nslot: 1/2\n4 4 | 4 "V7" 4',
    ],
    [
      over('twelve-bar-turnaround bars 1-4', 4),
      over('eight-bar bars 1-4', 4),
      over('quick-change-turnaround bars 9-11', 3),
      'form: twelve-bar-turnaround bars 11-12\nslot: 1/1\n4 | "I7" 4',
      over('quick-change', 12),
    ],
  ],
  'minor-blues': [[over('minor-twelve-bar bars 9-12', 4)], [over('quick-change', 12)]],
  'eight-bar': [[over('eight-bar-halves', 8)], [over('sixteen-bar', 16)]],
  'sixteen-bar': [[over('sixteen-bar bars 9-16', 8)], [over('eight-bar', 8)]],
  'blue-thirds': [
    ['"C" 4o . . .', '"C9" 4o . . .', '"bVI7" -3 . . .', '"C7#9" 4o . . .'],
    ['"Cm7" 4o . . .', '"C7" 5 . . .', '4o . . .'],
  ],
  'flat-fifths': [
    ['"C" 5o . . .', '"Cm7" 5o . . .', '"C13" 5o . . .'],
    ['"Cm7b5" 5o . . .', '"Cdim7" 5o . . .', '"C7b5" 5o . . .', '"Cmaj7" 5o . . .', '5o . . .'],
  ],
};

const quarters = (text: string): string => {
  const lines = text.split('\n');
  return text.includes('slot:') ? text : [...lines.slice(0, -1), 'slot: 1/4', ...lines.slice(-1)].join('\n');
};

describe('the catalogue', () => {
  it('has an example for every technique that can be found, and none besides', () => {
    const findable = CATALOGUE.filter(({ find }) => find !== 'not-in-score').map(({ id }) => id);
    expect(Object.keys(EXAMPLES).sort()).toEqual(findable.sort());
  });

  it.each(Object.entries(EXAMPLES))('finds %s where it is, and nowhere else', (id, [takes, at, doesNot]) => {
    expect(found(id, quarters(takes))).toEqual(at);
    expect(found(id, quarters(doesNot))).toEqual([]);
  });

  const definitions = Object.entries(FROM_DEFINITIONS).flatMap(([id, [takes, doNot]]) => [
    ...takes.map((text) => [id, text, true] as const),
    ...doNot.map((text) => [id, text, false] as const),
  ]);
  it.each(definitions)('by the definition of %s, %j: %s', (id, text, takes) => {
    expect(found(id, quarters(text)).length > 0).toBe(takes);
  });

  it('has more blocks of either kind for every technique but those of one hole and of one position', () => {
    const one = /-(half-step|whole-step|step-and-a-half)$|^over(blow|draw)-\d|-position$/;
    const findable = CATALOGUE.filter(({ id, find }) => find !== 'not-in-score' && !one.test(id)).map(({ id }) => id);
    expect(Object.keys(FROM_DEFINITIONS).sort()).toEqual(findable.sort());
  });

  it('has a technique for every bend and overbend of every tuning without a slide', () => {
    const ids = new Set(WRITTEN.map(({ id }) => id));
    const DEPTHS = ['half-step', 'whole-step', 'step-and-a-half'];
    for (const tuning of TUNINGS.filter((each) => !('slide' in each))) {
      for (const { hole, breath, bend, over } of notesOf(present(readHarp('C', tuning), tuning.id))) {
        if (over) expect(ids, tuning.id).toContain(`over${breath}-${hole}`);
        if (bend > 0) expect(ids, tuning.id).toContain(`${breath}-${hole}-${DEPTHS[bend - 1]}`);
      }
    }
  });

  it('names every technique once, by an id', () => {
    const ids = WRITTEN.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(ID);
  });

  it('requires and widens only techniques it has, and never in a cycle', () => {
    for (const { id, requires, kindOf } of CATALOGUE) {
      for (const other of [...requires, ...kindOf])
        expect(SHIPPED_REPERTOIRE.byId.has(other), `${id} names ${other}`).toBe(true);
      expect(SHIPPED_REPERTOIRE.wider.get(id)).not.toContain(id);
      expect(canReach(id, id), `${id} requires itself`).toBe(false);
    }
  });

  it('finds a wider technique wherever it finds one that is a kind of it', () => {
    for (const [id, [takes]] of Object.entries(EXAMPLES)) {
      for (const wide of SHIPPED_REPERTOIRE.wider.get(id) ?? [])
        expect(found(wide, quarters(takes)), `${wide} for ${id}`).not.toEqual([]);
    }
  });

  it('says what a technique is in whole sentences', () => {
    for (const { title, about, cautions } of CATALOGUE) {
      expect(title).toMatch(/^\p{Lu}/u);
      for (const sentence of [about, ...cautions]) expect(sentence).toMatch(/^\p{Lu}.*\.$/u);
    }
  });
});

function canReach(from: string, to: string, seen = new Set<string>()): boolean {
  return (SHIPPED_REPERTOIRE.byId.get(from)?.requires ?? []).some((id) => {
    if (id === to) return true;
    if (seen.has(id)) return false;
    seen.add(id);
    return canReach(id, to, seen);
  });
}
