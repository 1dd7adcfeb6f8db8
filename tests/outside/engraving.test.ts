/**
 * The staff read back against an independent engraver given the same notes.
 * Source: Verovio 6.3 (the `verovio` package, its build that reads Humdrum). It is given absolute pitches, a signature and
 * durations, and decides by itself where heads are and which of them need a sign.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { clefOf } from '../../src/engrave/clef.ts';
import { signatureOf } from '../../src/harmony/key.ts';
import type { Pitch } from '../../src/instrument/pitch.ts';
import type { Score } from '../../src/score/score.ts';
import { staffNotes } from '../../src/score/spelling.ts';
import { writtenScore } from '../../src/score/written.ts';
import { glyphsIn, type Head, headsIn, parsed, pictureOf } from '../engrave/pictures.ts';

interface Toolkit {
  setOptions(options: Record<string, unknown>): void;
  loadData(data: string): number;
  renderToSVG(page: number): string;
}

let engraver: Toolkit;
beforeAll(async () => {
  const [{ default: load }, { VerovioToolkit }] = await Promise.all([
    import('verovio/wasm-hum'),
    import('verovio/esm'),
  ]);
  engraver = new VerovioToolkit(await load());
  engraver.setOptions({ inputFrom: 'humdrum', breaks: 'none', header: 'none', footer: 'none', adjustPageWidth: true });
});

/** `b-` for Bb4, `ccc#` for C#6, `f` for F natural: Humdrum's pitches are absolute, whatever the signature. */
function kernPitch({ letter, alter, octave }: Pitch): string {
  const name = octave >= 4 ? letter.toLowerCase().repeat(octave - 3) : letter.repeat(4 - octave);
  return name + (alter < 0 ? '-'.repeat(-alter) : '#'.repeat(alter));
}

/** The score in Humdrum: our note values, its notation. */
function humdrum(score: Score): string {
  const staff = staffNotes(score);
  const clef = { [-1]: '*clefGv2', 0: '*clefG2', 1: '*clefG^2', 2: '*clefG^^2' }[clefOf(score).octaves];
  const signs = signatureOf(score.key);
  const names = signs > 0 ? 'fcgdaeb' : 'beadgcf';
  const mark = signs > 0 ? '#' : '-';
  const signature = [...names.slice(0, Math.abs(signs))].map((name) => name + mark).join('');
  const lines = ['**kern', clef, `*k[${signature}]`, `*M${score.meter.beats}/${score.meter.unit}`];
  writtenScore(score).forEach(({ notes, tuplets }, index) => {
    const bar = score.bars[index];
    lines.push(`=${index + 1}`);
    for (const note of notes) {
      const event = bar?.events[note.event];
      const tuplet = note.tuplet === undefined ? undefined : tuplets[note.tuplet];
      const recip = (tuplet ? (note.value * tuplet.actual) / tuplet.normal : note.value) + '.'.repeat(note.dots);
      if (note.rest || !event) lines.push(`${note.wholeBar ? 1 : recip}r`);
      else {
        const open = note.tiedToNext && !note.tiedFromPrevious ? '[' : '';
        const close = note.tiedFromPrevious ? (note.tiedToNext ? '_' : ']') : '';
        const heads = (staff[event.index] ?? []).map((own) => `${open}${recip}${kernPitch(own.pitch)}${close}`);
        lines.push(heads.join(' ') || `${recip}r`);
      }
    }
  });
  return [...lines, '=', '*-', ''].join('\n');
}

function engraved(score: Score): Document {
  expect(engraver.loadData(humdrum(score))).toBe(1);
  const svg = engraver.renderToSVG(1);
  // `parsed` names the namespace itself.
  return parsed(svg.replace(/(<svg [^>]*?)xmlns="[^"]*"/, '$1').replace(/<style[\s\S]*?<\/style>/, ''));
}

type Seen = Omit<Head, 'x'>;

/** Heads with their signs, in the order of the music; places count half spaces down from the top line. */
function theirs(score: Score): Seen[] {
  const page = engraved(score);
  const staff = page.querySelector('.staff');
  const lines = [...(staff?.querySelectorAll(':scope > path') ?? [])].map((path) =>
    Number(/M\d+ (\d+)/.exec(path.getAttribute('d') ?? '')?.[1]),
  );
  const top = Math.min(...lines);
  const space = (Math.max(...lines) - top) / 4;
  return [...page.querySelectorAll('.note')].map((note) => {
    const head = placed(note.querySelector('.notehead use'));
    const sign = note.querySelector('.accid use');
    if (!head) throw new Error('a note without a head');
    const code = sign ? placed(sign)?.code : undefined;
    return {
      place: Math.round(((head.y - top) / space) * 2),
      sign: code === undefined ? undefined : { E260: -1, E261: 0, E262: 1, E263: 2, E264: -2 }[code],
      code: head.code.toLowerCase(),
    };
  });
}

function placed(use: Element | null): { code: string; y: number } | undefined {
  const code = /^#([0-9A-F]+)-/.exec(use?.getAttribute('xlink:href') ?? '')?.[1];
  const at = /translate\((-?\d+), (-?\d+)\)/.exec(use?.getAttribute('transform') ?? '');
  return code && at ? { code, y: Number(at[2]) } : undefined;
}

function ours(text: string): { score: Score; heads: Seen[]; clef: string[] } {
  const { score, tiles, page } = pictureOf(text);
  const heads = tiles.flatMap((tile) => headsIn(tile)).map(({ place, sign, code }) => ({ place, sign, code }));
  const rowHead = page.querySelector('#b-row-head');
  const clef = (rowHead ? glyphsIn(rowHead) : []).map(({ code }) => code).filter((code) => code.startsWith('e05'));
  return { score, heads, clef };
}

const shown = (heads: readonly Seen[]): string[] =>
  heads.map(({ place, sign, code }) => `${code} ${place} ${sign ?? ''}`);

const HARPS = ['C', 'G', 'A', 'Bb', 'Eb', 'F#', 'Db', 'low F', 'high G'];
const BENDS = `-1 -1' 1 2 -2 -2' -2'' -2 | -3 -3' -3'' -3''' 4 -4' -4 -3' | 5 -5 6 -6' -6 6 -5 5 | 7 -7 8' 8 9 9' 10'' 10' |`;

describe('the engraved staff, against an independent engraver', () => {
  it.each(HARPS.flatMap((harp) => [1, 2, 3, 12].map((position) => [harp, position] as const)))(
    'agrees on every reed and bend of a %s harp in position %i',
    (harp, position) => {
      for (const chords of ['', '\nform: twelve-bar bars 4-7']) {
        const { score, heads } = ours(`harp: ${harp}\nposition: ${position}${chords}\n\n${BENDS}]`);
        expect(heads.length).toBe(32);
        expect(shown(heads)).toEqual(shown(theirs(score)));
      }
    },
  );

  it.each([
    ['low G', -1, '1 -1 2 -2 3 -3 2 .'],
    ['high G', 1, '4 -4 5 -5 6 -6 7 -7'],
    ['high C', 2, "7 8 -8 9' -9 10 10'' 9"],
    ['high F#', 2, "7 -7 8 8' -9 10' 10'' -10"],
  ] as const)(
    'agrees on the clef that moves a %s harp by %i octaves, and on where its notes stand',
    (harp, octaves, music) => {
      const { score, heads, clef } = ours(`harp: ${harp}\n\n${music}`);
      expect(clefOf(score).octaves).toBe(octaves);
      expect(shown(heads)).toEqual(shown(theirs(score)));
      const sign = placed(engraved(score).querySelector('.clef use'))?.code.toLowerCase();
      expect(clef).toEqual([sign]);
    },
  );

  it('agrees on ties over bar lines, triplets, held bends and chords', () => {
    const { score, heads } = ours(
      "harp: A\nposition: 2\nchords: I7 | IV7 | V7 | I7\n\n-2 -3' = -3 {-4 -4' -4}2 4 -3' | = = -3' -3 -3'' = -5 = | = -5 {-4 -3' -2}2 -(2 3 4) = = -4' | = = = . -(1 2 3) = = = |]",
    );
    expect(heads.length).toBeGreaterThan(25);
    expect(shown(heads)).toEqual(shown(theirs(score)));
  });

  it.each(['C', 'G', 'A', 'E', 'B', 'F#', 'F', 'Bb', 'Ab', 'Gb', 'Db'])('agrees on the signature of %s', (harp) => {
    const { score, page } = pictureOf(`harp: ${harp}\nslot: 1/4\n\n4 . . .`);
    const drawn = engraved(score);
    const top = Number(/M\d+ (\d+)/.exec(drawn.querySelector('.staff > path')?.getAttribute('d') ?? '')?.[1]);
    const signs = [...drawn.querySelectorAll('.keyAccid use')].map((use) => placed(use));
    const rowHead = page.querySelector('#b-row-head');
    const own = rowHead ? glyphsIn(rowHead).filter(({ code }) => /^e26/.test(code)) : [];
    expect(own.map(({ code, y }) => [code, y / 5])).toEqual(
      signs.map((sign) => [sign?.code.toLowerCase(), Math.round(((sign?.y ?? 0) - top) / 90)]),
    );
  });
});
