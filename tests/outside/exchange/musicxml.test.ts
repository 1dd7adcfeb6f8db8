/**
 * MusicXML files against the W3C's schema of MusicXML 4.0 (musicxml-4.0/, with its notice), as xmllint reads it without
 * a network; and against Verovio, a second engraver, which plays what it has read. What must be played comes from the oracle.
 */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { strFromU8, unzipSync } from 'fflate';
import { parseMidi } from 'midi-file';
import { beforeAll, describe, expect, test } from 'vitest';
import { plainChord } from '../../../src/harmony/chord.ts';
import { compressedMusicXmlOf } from '../../../src/interchange/musicxml/compressed.ts';
import { musicXmlOf } from '../../../src/interchange/musicxml/document.ts';
import { isSoundEvent } from '../../../src/score/queries.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { parsed, scoreOf } from '../../engrave/pictures.ts';
import { run } from '../../setup/debian.ts';
import { cases, LONG } from '../../setup/long.ts';
import { beamsNest, type Verovio, verovioReading } from '../verovio.ts';
import { type Attacks, attacksAt, differencesOf, playedBy } from './attacks.ts';
import { type Asked, demoBlocks, HARD_CREDITS, randomBlocks } from './samples.ts';

const SCHEMA = fileURLToPath(new URL('musicxml-4.0/musicxml.local.xsd', import.meta.url));
const CONTAINER = fileURLToPath(new URL('musicxml-4.0/container.xsd', import.meta.url));

let blocks: Asked[];
beforeAll(() => {
  blocks = randomBlocks(cases(90, 2000));
});

/** What xmllint has against documents. */
function faultsOf(schema: string, documents: readonly string[]): string[] {
  const dir = mkdtempSync(join(tmpdir(), 'reedway-musicxml-'));
  const files = documents.map((document, index) => {
    const file = join(dir, `${index}.xml`);
    writeFileSync(file, document);
    return file;
  });
  const faults = run('xmllint', ['--nonet', '--noout', '--schema', schema, ...files], { errors: true, fails: true });
  const lines = faults.split('\n').filter((line) => line !== '' && !/ validates$/.test(line));
  expect(faults.split('\n').filter((line) => / validates$/.test(line)).length + lines.length).toBeGreaterThan(0);
  return lines;
}

describe('the schema', () => {
  test('accepts random blocks and the demo course', () => {
    const documents = [
      ...blocks.map(({ score }) => musicXmlOf(score, HARD_CREDITS)),
      ...demoBlocks().map(({ score, credits }) => musicXmlOf(score, credits)),
    ];
    expect(documents.filter((document) => /<!DOCTYPE|<!ENTITY/.test(document))).toEqual([]);
    expect(faultsOf(SCHEMA, documents)).toEqual([]);
  });
  test('finds an element out of order', () => {
    const document = musicXmlOf(itemAt(blocks, 0).score, HARD_CREDITS);
    const wrong = document.replace(/(<step>.*<\/step>)([\s\S]*?)(<octave>.*<\/octave>)/, '$3$2$1');
    expect(wrong).not.toBe(document);
    expect(faultsOf(SCHEMA, [wrong]).join()).toMatch(/octave/);
  });
  test('accepts the container of a compressed file, which holds the same document', () => {
    const { score } = itemAt(blocks, 0);
    const files = unzipSync(compressedMusicXmlOf(score, HARD_CREDITS));
    expect(Object.keys(files)).toEqual(['mimetype', 'META-INF/container.xml', 'score.musicxml']);
    expect(strFromU8(present(files['score.musicxml'], 'the score'))).toBe(musicXmlOf(score, HARD_CREDITS));
    expect(faultsOf(CONTAINER, [strFromU8(present(files['META-INF/container.xml'], 'the container'))])).toEqual([]);
  });
});

describe('Verovio', () => {
  let engraver: Verovio;
  beforeAll(async () => {
    engraver = await verovioReading('xml');
  });

  function attacksIn(document: string): Attacks {
    expect(engraver.loadData(document)).toBeTruthy();
    const { header, tracks } = parseMidi(Buffer.from(engraver.renderToMIDI(), 'base64'));
    const whole = 4 * present(header.ticksPerBeat, 'ticks of a quarter note');
    return attacksAt(
      tracks.flatMap((track) => {
        let tick = 0;
        return track.flatMap((event) => {
          tick += event.deltaTime;
          return event.type === 'noteOn' ? [{ at: tick / whole, keys: [event.noteNumber] }] : [];
        });
      }),
    );
  }

  test('plays what the oracle plays', () => {
    // It draws quarter steps and plays half steps for them: quarter-steps.test.ts.
    const straight = blocks.filter(
      ({ asked, score }) => score.feel.name === 'straight' && !asked.features.includes('quarter-step'),
    );
    const documents = straight.map((block) => ({ ...block, document: musicXmlOf(block.score, HARD_CREDITS) }));
    const nested = documents.filter(({ document }) => beamsNest(document));
    expect(nested.length).toBeGreaterThan(0.5 * documents.length);
    for (const { seed, asked, document } of nested) {
      // It draws the sign of a repeated bar, and plays nothing there.
      const plain = document.replace(/<attributes>\s*<measure-style>[\s\S]*?<\/attributes>/g, '');
      const found = differencesOf(playedBy(asked), attacksIn(plain), 2);
      if (found.length > 0) expect({ seed, block: asked.text, found }).toEqual({ seed, found: [] });
    }
  });

  test.runIf(LONG)('has the chords, the tab and the words of the demo course', () => {
    for (const { name, score, credits } of demoBlocks()) {
      expect(engraver.loadData(musicXmlOf(score, credits))).toBeTruthy();
      const mei = parsed(engraver.getMEI().replace(/<\?.*?\?>/g, ''));
      const texts = (selector: string): string[] =>
        [...mei.querySelectorAll(selector)].map((element) => element.textContent?.trim() ?? '');
      const events = score.bars.flatMap((bar) => bar.events);
      const sounds = events.filter(isSoundEvent);
      const syllables = sounds.flatMap(({ syllable }) => syllable?.text || []);
      const words = sounds.flatMap(({ lyrics = [] }) => lyrics.flatMap(({ text }) => text || []));
      // Below the tab are the syllables, and then the words. A line that holds a syllable is one without text.
      const under = texts('verse:not([n="1"]) syl').filter(Boolean);
      expect(under, name).toEqual([...syllables, ...words]);
      expect(texts('verse[n="1"] syl').length, name).toBe(
        events.filter((event) => event.kind === 'sound' && !event.tied).length,
      );
      const chords = score.bars.flatMap((bar) => bar.chords.map(({ chord }) => chord));
      const signs = texts('harm');
      expect(signs.length, name).toBe(chords.length);
      // Verovio shows the root of no chord, which the standard says has no meaning.
      const named = chords.map((chord, index) => (chord === 'none' ? signs[index] : plainChord(chord).charAt(0)));
      expect(
        signs.map((text, index) => (chords[index] === 'none' ? text : text[0])),
        name,
      ).toEqual(named);
    }
  });

  test('has each verse in a line of its own, and the syllables above them', () => {
    const block =
      'slot: 1/4\n|: 4 4 = 5 |1 6 =3 :|2 7 =3 |]\nsyllables: ta- ka doo dit *\nwords: A- men now one *\nwords: so _ be * two\nwords: la * * * *';
    const score = scoreOf(block);
    const document = musicXmlOf(score, HARD_CREDITS);
    expect(faultsOf(SCHEMA, [document])).toEqual([]);
    expect(engraver.loadData(document)).toBeTruthy();
    const mei = parsed(engraver.getMEI().replace(/<\?.*?\?>/g, ''));
    const line = (number: number): string[] =>
      [...mei.querySelectorAll(`verse[n="${number}"] syl`)].map((syllable) => syllable.textContent?.trim() ?? '');
    expect([2, 3, 4, 5].map((number) => line(number).filter(Boolean))).toEqual([
      ['ta', 'ka', 'doo', 'dit'],
      ['A', 'men', 'now', 'one'],
      ['so', 'be', 'two'],
      ['la'],
    ]);
  });

  test('puts the heads of ghost notes in parentheses', () => {
    const block = 'harp: C\nslot: 1/4\n\n4[ghost] -4 (4 5)[ghost] (4 5) | 6 = = = |]';
    expect(engraver.loadData(musicXmlOf(scoreOf(block), HARD_CREDITS))).toBeTruthy();
    const mei = parsed(engraver.getMEI().replace(/<\?.*?\?>/g, ''));
    expect([...mei.querySelectorAll('note')].map((note) => note.getAttribute('head.mod'))).toEqual([
      'paren',
      null,
      'paren',
      'paren',
      null,
      null,
      null,
    ]);
  });

  test('breathes where the breath marks are', () => {
    const block = 'harp: C\nslot: 1/4\n\n4[breath] -4 5 (4 5)[breath] | 6[breath] = = = | = 6 = = |]';
    expect(engraver.loadData(musicXmlOf(scoreOf(block), HARD_CREDITS))).toBeTruthy();
    const mei = parsed(engraver.getMEI().replace(/<\?.*?\?>/g, ''));
    // Verovio puts a breath a tenth of a beat before the end of its note; MEI 5.1, att.controlEvent: beats are counted from 1.
    const breaths = [...mei.querySelectorAll('measure')].map((measure) =>
      [...measure.querySelectorAll('breath')].map((breath) => Number(breath.getAttribute('tstamp'))),
    );
    expect(breaths).toEqual([[1.9, 4.9], [], [1.9]]);
  });

  test('has the dynamics where they are written', () => {
    const block = 'harp: C\nslot: 1/4\n\n4[pp] 4 5[mf] 5 | 6[ff] = = = |]';
    expect(engraver.loadData(musicXmlOf(scoreOf(block), HARD_CREDITS))).toBeTruthy();
    const mei = parsed(engraver.getMEI().replace(/<\?.*?\?>/g, ''));
    // MEI 5.1, dynam: the letters, at a beat counted from 1.
    const dynamics = [...mei.querySelectorAll('dynam')].map((one) => [
      one.textContent?.trim(),
      one.getAttribute('tstamp'),
    ]);
    expect(dynamics).toEqual([
      ['pp', '1'],
      ['mf', '3'],
      ['ff', '1'],
    ]);
  });

  test('finds the signs at noteheads where they are written', () => {
    const block = 'harp: C\nslot: 1/4\n\n4[staccato] -4[tenuto] 5[accent] (4 5)[tenuto accent] | 6 = = = |]';
    expect(engraver.loadData(musicXmlOf(scoreOf(block), HARD_CREDITS))).toBeTruthy();
    const mei = parsed(engraver.getMEI().replace(/<\?.*?\?>/g, ''));
    // MEI 5.1, data.ARTICULATION: of all notes and chords in order.
    const signs = [...mei.querySelectorAll('layer > *')].map((note) =>
      [...note.querySelectorAll(':scope > artic')].flatMap((sign) => sign.getAttribute('artic')?.split(' ') ?? []),
    );
    expect(signs).toEqual([['stacc'], ['ten'], ['acc'], ['ten', 'acc'], []]);
  });
});
