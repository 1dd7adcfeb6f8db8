/**
 * What the sentences of the demo course say of the music, on several harps, against the oracle (oracle/: it imports none of our code).
 * It gets only what an author wrote: hole, breath and bend as tab, the chord's name or numeral, the harp and the position. Its layouts:
 * the encyclopaedia article "Richter-tuned harmonica"; that the natural minor tuning has three blow reeds and two draw reeds a half step
 * lower, positions as fifths, chord tones and what a note is to a chord: common practice, no source, unless the oracle's files name one.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { DEMO } from '../../src/command/package.ts';
import { loadCourse } from '../../src/course/load.ts';
import { playedOn } from '../../src/engrave/figure/figure.ts';
import { type Inline, moveInline, type NoteInline } from '../../src/engrave/inline/inline.ts';
import { inlineText } from '../../src/engrave/inline/words.ts';
import { explain } from '../../src/harmony/explain.ts';
import { roleInWords } from '../../src/harmony/role.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { type Harp, harpName, readHarp } from '../../src/instrument/harp.ts';
import { printedName } from '../../src/instrument/pitch.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { type Chord, type ChordSymbol, plainNumeral, QUALITIES, resolve } from './oracle/chords.ts';
import { firstHole, playables, type Tuning, tonicFifth, tonicOf } from './oracle/instrument.ts';
import { fifths, type Key, keyOf, nameOnFifths, pcOf } from './oracle/pitch.ts';
import { roleOf, spell } from './oracle/roles.ts';

/** A component as it is written: its name, its attributes, what is between its tags. */
interface Written {
  readonly lesson: string;
  readonly text: string;
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly content: string;
  readonly inline: Inline;
}

const course = loadCourse(DEMO);

/** Found in the files by a reader of its own. */
const WRITTEN: readonly Written[] = course.lessons.flatMap(({ id, file, inlines }) => {
  const source = readFileSync(join(DEMO, file), 'utf8');
  const tags = [...source.matchAll(/<(Note|Chord|Key|Harp|Position)\b([^>]*?)(?:\/>|>([^<]*)<\/\1>)/g)];
  expect(tags.length, id).toBe(inlines.length);
  return tags.map(([text, name = '', attributes = '', content = ''], index): Written => {
    const { inline } = itemAt(inlines, index);
    return {
      lesson: id,
      text,
      name,
      attributes: Object.fromEntries(
        [...attributes.matchAll(/(\w+)="([^"]*)"/g)].map(([, key, value]) => [key, value]),
      ),
      content,
      inline: present(inline, text),
    };
  });
});

const HARPS = ['C', 'A', 'low F'].map((name) => present(readHarp(name, RICHTER), name));

/** `low F` as the oracle takes it. */
function oracleHarp(harp: Harp): { key: string; first: number } {
  const words = harpName(harp).split(' ');
  const key = present(words.at(-1), 'the key');
  const register = words.length > 1 ? (words[0] as 'low' | 'high') : '';
  return { key, first: firstHole(key, register) };
}

function oracleKey({ harp, position, key }: Inline): Key {
  const { key: name } = oracleHarp(harp);
  return keyOf(tonicOf(name, position), key.mode === 'major' ? 'major' : 'minor', tonicFifth(name, position));
}

/** A chord as written, on the harp it is written for or, where that is another, as far away as the songs' keys are. */
function oracleChord(text: string, before: Key, key: Key): Chord {
  const [, root = '', ending = '', bass] = /^([A-G][b#]?)(m?7?)(?:\/([A-G][b#]?))?$/.exec(text) ?? [];
  if (root === '') return resolve(plainNumeral(text), key, new Set());
  const quality = present(
    QUALITIES.find(({ names }) => names.includes(ending)),
    text,
  );
  const moved = (name: string): string => nameOnFifths(fifths(name) + fifths(key.name) - fifths(before.name));
  const symbol: ChordSymbol = { text, quality, name: moved(root), ...(bass ? { bass: moved(bass) } : {}) };
  return resolve(symbol, key, new Set());
}

const shown = (name: string): string => name.replaceAll('b', '♭').replaceAll('#', '♯').replace(/q$/, '↓');
const list = (items: readonly string[]): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;

/** The notes of a component in half steps above blow 1. */
const halfSteps = (content: string, tuning: Tuning): readonly (number | undefined)[] => {
  const known = playables(tuning);
  return content
    .trim()
    .split(/\s+/)
    .map((tab) => known.find(({ text }) => text === tab)?.half);
};

test('the demo course says many things within its sentences', () => {
  expect(WRITTEN.length).toBeGreaterThan(50);
  expect(new Set(WRITTEN.map(({ name }) => name))).toEqual(new Set(['Note', 'Chord', 'Key', 'Harp']));
});

describe.each(HARPS.map((harp) => [harpName(harp), harp] as const))('on a harp in %s', (_, harp) => {
  const cases = WRITTEN.map((written) => [`${written.lesson}: ${written.text}`, written] as const);

  test.each(cases.filter(([, { name }]) => name === 'Note'))('%s', (_name, { inline, content, attributes }) => {
    const moved = moveInline(inline as NoteInline, { ...harp, tuning: inline.harp.tuning });
    checkPitches(moved, content, attributes['over'], oracleKey(inline), 'richter');
  });

  test.each(cases.filter(([, { name }]) => name === 'Note'))('%s, tuned natural minor', (_name, written) => {
    const { inline, content, attributes } = written;
    if (halfSteps(content, 'natural-minor').includes(undefined)) return;
    const tuning = present(
      TUNINGS.find(({ id }) => id === 'natural-minor'),
      'the tuning',
    );
    const moved = moveInline({ ...(inline as NoteInline), harp: { ...inline.harp, tuning } }, { ...harp, tuning });
    checkPitches(moved, content, attributes['over'], oracleKey(inline), 'natural-minor');
  });

  test.each(cases.filter(([, { name }]) => name === 'Chord'))('%s', (_name, { inline, content }) => {
    const moved = moveInline(inline, harp);
    if (moved.kind !== 'chord') throw new Error('no chord');
    const key = oracleKey(moved);
    const { root, quality, tones, ...rest } = oracleChord(content, oracleKey(inline), key);
    const ending = present(quality.names[0], 'the ending');
    const bass = rest.bass === undefined ? '' : `/${shown(rest.bass)}`;
    expect(inlineText({ ...moved, facts: ['name'] })).toBe(shown(root) + ending + bass);
    const names = tones.map((half) => shown(spell(60 + pcOf(root) + half, { root, quality, tones, ...rest }, key)));
    expect(inlineText({ ...moved, facts: ['tones'] })).toBe(list(names));
  });

  test.each(cases.filter(([, { name }]) => name === 'Key'))('%s', (_name, { inline }) => {
    const moved = moveInline(inline, harp);
    if (moved.kind !== 'key') throw new Error('no key');
    const { name, mode } = oracleKey(moved);
    expect(inlineText({ ...moved, fact: 'tonic' })).toBe(shown(name));
    expect(inlineText({ ...moved, fact: 'full', capital: false })).toBe(
      `${shown(name)} ${moved.key.mode === 'dorian' ? 'dorian' : mode}`,
    );
  });

  /** Pitches over the chord of the component, and besides over the chords of a blues. */
  function checkPitches(
    inline: NoteInline,
    content: string,
    over: string | undefined,
    before: Key,
    tuning: Tuning,
  ): void {
    const key = oracleKey(inline);
    const { first } = oracleHarp(inline.harp);
    const midis = halfSteps(content, tuning).map((half) => first + present(half, content));
    const chord = over === undefined ? undefined : oracleChord(over, before, key);
    expect(inlineText({ ...inline, facts: ['pitch'] })).toBe(list(midis.map((midi) => shown(spell(midi, chord, key)))));
    for (const symbol of [...(over === undefined ? [] : [over]), 'I7', 'IV7', 'V7', 'i7', 'bVI7']) {
      const ours = symbol === over ? present(inline.chord, symbol) : present(readChord(symbol, inline.key), symbol);
      const theirs = oracleChord(symbol, before, key);
      inline.notes.forEach((note, index) => {
        const midi = itemAt(midis, index);
        const played = playedOn(inline.harp, note);
        expect(played.midi).toBe(midi);
        const explained = itemAt(explain(inline.harp, played, inline.key, [ours]).roles, 0);
        expect(explained.role.label).toBe(roleOf(midi, theirs, key));
        const one = { ...inline, notes: [note], chord: ours, capital: false };
        expect(inlineText({ ...one, facts: ['role'] })).toBe(roleInWords(explained.role).replace(/^the /, ''));
        expect(inlineText({ ...one, facts: ['pitch'] })).toBe(printedName(explained.pitch));
        expect(inlineText({ ...one, facts: ['pitch'] })).toBe(shown(spell(midi, theirs, key)));
      });
    }
  }
});

test('an author’s own harp and position are those that are said', () => {
  for (const { lesson, text, attributes, inline } of WRITTEN) {
    const source = readFileSync(join(DEMO, present(course.byId.get(lesson), lesson).file), 'utf8');
    const frontMatter = present(/^---\n([\s\S]*?)\n---\n/.exec(source)?.[1], lesson);
    const inHead = (key: string): string | undefined => new RegExp(`^${key}: (.*)$`, 'm').exec(frontMatter)?.[1];
    expect(harpName(inline.harp), text).toBe(attributes['harp'] ?? inHead('harp') ?? 'C');
    expect(`${inline.position}`, text).toBe(attributes['position'] ?? inHead('position') ?? '1');
  }
});
