/** What a sentence says of the music: as it is shown, as it is read aloud, and the same on another harp. */
import fc from 'fast-check';
import { Interval, Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import {
  CHORD_FACTS,
  HARP_FACTS,
  type Inline,
  KEY_FACTS,
  moveInline,
  NOTE_FACTS,
  POSITION_FACTS,
} from '../../../src/engrave/inline/inline.ts';
import { drawInline, inlineText, nameInSentence } from '../../../src/engrave/inline/words.ts';
import { keyInPosition, MODE_NAMES } from '../../../src/harmony/key.ts';
import { readChord } from '../../../src/harmony/symbol.ts';
import { HARP_KEYS, type Harp, REGISTERS, readHarp } from '../../../src/instrument/harp.ts';
import { plainName } from '../../../src/instrument/pitch.ts';
import { notesOf } from '../../../src/instrument/playable.ts';
import { RICHTER, TUNINGS } from '../../../src/instrument/tuning.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { cases } from '../../setup/long.ts';

const harpOf = (name: string, tuning = RICHTER): Harp => present(readHarp(name, tuning), 'the harp');

const PLAIN_SYMBOLS = [
  'I',
  'I7',
  'IV7',
  'V7',
  'ii7',
  'bVII',
  'bVI7',
  'i7',
  'iv',
  'v',
  'V7/V',
  'iiø7',
  'vii°7',
  'IV9',
  'Imaj7',
];

/** Everything that can be said, on harps of the usual tunings, and the same harp's other ones of that tuning. */
const someInline: fc.Arbitrary<{ inline: Inline; other: Harp }> = fc
  .record({
    tuning: fc.constantFrom(...TUNINGS),
    key: fc.constantFrom(...HARP_KEYS),
    register: fc.constantFrom(...REGISTERS),
    otherKey: fc.constantFrom(...HARP_KEYS),
    otherRegister: fc.constantFrom(...REGISTERS),
    position: fc.integer({ min: 1, max: 12 }),
    mode: fc.constantFrom(...MODE_NAMES),
    capital: fc.boolean(),
    article: fc.boolean(),
    symbol: fc.constantFrom(...PLAIN_SYMBOLS),
    kind: fc.constantFrom('note', 'chord', 'key', 'harp', 'position'),
    picks: fc.array(fc.nat(), { minLength: 1, maxLength: 4 }),
    noteFacts: fc.shuffledSubarray([...NOTE_FACTS], { minLength: 1 }),
    chordFacts: fc.shuffledSubarray([...CHORD_FACTS], { minLength: 1 }),
    fact: fc.nat(2),
  })
  .map((given) => {
    const harp: Harp = { key: given.key, register: given.register, tuning: given.tuning };
    const other: Harp = { key: given.otherKey, register: given.otherRegister, tuning: given.tuning };
    const { position, capital, article, kind } = given;
    const key = keyInPosition(harp.key, position, given.mode);
    const place = { harp, position, key, capital };
    const chord = present(readChord(given.symbol, key), 'the chord');
    const playable = notesOf(harp);
    const notes = given.picks.map((pick) => itemAt(playable, pick % playable.length));
    const inlines: Readonly<Record<string, Inline>> = {
      note: { kind: 'note', ...place, notes, facts: given.noteFacts, chord },
      chord: { kind: 'chord', ...place, chord, facts: given.chordFacts },
      key: { kind: 'key', ...place, fact: itemAt(KEY_FACTS, given.fact) },
      harp: { kind: 'harp', ...place, fact: itemAt(HARP_FACTS, given.fact), article },
      position: { kind: 'position', ...place, fact: itemAt(POSITION_FACTS, given.fact) },
    };
    return { inline: present(inlines[kind], 'the inline'), other };
  });

const RUNS = { numRuns: cases(300, 5000) };
const PITCH = /([A-G])([♭♯𝄫𝄪]*)(↓?)/u;

/** A name as it is shown, as the library writes it. */
const plain = (shown: string): string =>
  shown.replaceAll('𝄫', 'bb').replaceAll('𝄪', '##').replaceAll('♭', 'b').replaceAll('♯', '#');

describe('on another harp', () => {
  it('and back again it says the same words', () => {
    fc.assert(
      fc.property(someInline, ({ inline, other }) => {
        const back = moveInline(moveInline(inline, other), inline.harp);
        expect(drawInline(back)).toBe(drawInline(inline));
      }),
      RUNS,
    );
  });

  it('what is played, its tab, its role, the numeral and the position stay', () => {
    fc.assert(
      fc.property(someInline, ({ inline, other }) => {
        const stays =
          inline.kind === 'position' ||
          (inline.kind === 'note' && !inline.facts.includes('pitch')) ||
          (inline.kind === 'chord' && inline.facts.join() === 'numeral');
        if (stays) expect(drawInline(moveInline(inline, other))).toBe(drawInline(inline));
      }),
      RUNS,
    );
  });

  it('a pitch is the one that the library counts from the key of the other harp', () => {
    fc.assert(
      fc.property(someInline, ({ inline, other }) => {
        if (inline.kind !== 'note') return;
        const [note] = inline.notes;
        if (!note) throw new Error('no note');
        const shown = inlineText(moveInline({ ...inline, notes: [note], facts: ['pitch'], capital: false }, other));
        const playable = notesOf(inline.harp).find(
          ({ hole, breath, bend, over, slide }) =>
            hole === note.hole &&
            breath === note.breath &&
            bend === note.bend &&
            over === note.over &&
            slide === note.slide,
        );
        const { midi } = present(playable, 'the note');
        // As many half steps above the key note of its harp; a quarter step is named by the note above it.
        const first = present(Note.chroma(plainName(inline.harp.key)), 'the key');
        const steps = (((Math.ceil(midi) - first) % 12) + 12) % 12;
        const expected = Note.transpose(`${plainName(other.key)}4`, Interval.fromSemitones(steps));
        const [, letter = '', signs = '', quarter = ''] = present(PITCH.exec(shown), shown);
        expect(Note.chroma(plain(letter + signs))).toBe(Note.chroma(expected));
        expect(quarter).toBe(midi % 1 === 0 ? '' : '↓');
        expect(shown).toBe(letter + signs + quarter);
      }),
      RUNS,
    );
  });

  it('a key and a chord’s root are as many half steps away as the harps are, and the mode stays', () => {
    const chromaOf = (text: string): number => {
      const [, letter = '', signs = ''] = present(PITCH.exec(text), text);
      return present(Note.chroma(plain(letter + signs)), text);
    };
    fc.assert(
      fc.property(someInline, ({ inline, other }) => {
        const said: Inline | undefined =
          inline.kind === 'key'
            ? { ...inline, fact: 'full' }
            : inline.kind === 'chord'
              ? { ...inline, facts: ['name'] }
              : undefined;
        if (!said) return;
        const [before, behind] = [inlineText(said), inlineText(moveInline(said, other))];
        const apart =
          present(Note.chroma(plainName(other.key)), 'a') - present(Note.chroma(plainName(inline.harp.key)), 'b');
        expect((chromaOf(before) + apart + 12) % 12).toBe(chromaOf(behind));
        expect(behind.replace(PITCH, '')).toBe(before.replace(PITCH, ''));
      }),
      RUNS,
    );
  });
});

describe('what is shown and what is read aloud', () => {
  it('differ only where there are signs, and what is read aloud has none', () => {
    fc.assert(
      fc.property(someInline, ({ inline }) => {
        const html = drawInline(inline);
        const [, said] = /<span class="aloud">(.*)<\/span>$/.exec(html) ?? [];
        expect(said ?? html).not.toMatch(/[♭♯𝄫𝄪↓°ø<>]/u);
        expect(html.replace(/<span class="aloud">.*<\/span>$/, '').replace(/<[^>]*>/g, '')).toBe(
          inlineText(inline).replaceAll("'", '&#39;'),
        );
        expect(html).not.toMatch(/undefined|NaN|\[object| {2}|^\s|\s$|\( | \)|\(\)/);
      }),
      RUNS,
    );
  });

  const on = (name: string, position: number, mode: 'major' | 'minor' | 'dorian' = 'major') => {
    const harp = harpOf(name);
    return { harp, position, key: keyInPosition(harp.key, position, mode), capital: false };
  };
  const both = (shown: string, said: string): string =>
    `<span aria-hidden="true">${shown}</span><span class="aloud">${said}</span>`;
  const bend = { breath: 'draw', hole: 3, bend: 1, over: false, slide: false } as const;
  const place = on('C', 2);
  const chord = (symbol: string) => present(readChord(symbol, place.key), symbol);

  it.each<[Inline, string]>([
    [{ kind: 'note', ...place, notes: [bend], facts: ['name'] }, 'draw 3 bent a half step'],
    [{ kind: 'note', ...place, notes: [bend], facts: ['tab'] }, both('<code>-3&#39;</code>', 'draw 3, half-step bend')],
    [{ kind: 'note', ...place, notes: [bend], facts: ['pitch'] }, both('B♭', 'B flat')],
    [{ kind: 'note', ...place, notes: [bend], facts: ['role'], chord: chord('I7') }, 'flat third'],
    [
      { kind: 'note', ...place, notes: [{ ...bend, bend: 0.5 }], facts: ['pitch'] },
      both('B↓', 'a quarter step below B'),
    ],
    [
      { kind: 'note', ...place, notes: [{ ...bend, bend: 1.5 }, bend], facts: ['name', 'pitch'] },
      both(
        'draw 3 bent a half step and a quarter step (B♭↓) and draw 3 bent a half step (B♭)',
        'draw 3 bent a half step and a quarter step (a quarter step below B flat) and draw 3 bent a half step (B flat)',
      ),
    ],
    [{ kind: 'chord', ...place, chord: chord('V7'), facts: ['name'] }, 'D7'],
    [{ kind: 'chord', ...place, chord: chord('i7'), facts: ['name'] }, both('Gm7', 'G minor 7')],
    [
      { kind: 'chord', ...place, chord: chord('bVI'), facts: ['name', 'numeral'] },
      both('E♭ (♭VI)', 'E flat (flat VI)'),
    ],
    [{ kind: 'chord', ...place, chord: chord('V7'), facts: ['tones'] }, both('D, F♯, A and C', 'D, F sharp, A and C')],
    [{ kind: 'key', ...on('Bb', 1), fact: 'usual' }, both('B♭', 'B flat')],
    [{ kind: 'key', ...on('Bb', 3, 'minor'), fact: 'usual' }, 'C minor'],
    [{ kind: 'key', ...on('Ab', 2, 'dorian'), fact: 'full' }, both('E♭ dorian', 'E flat dorian')],
    [{ kind: 'key', ...on('D', 3, 'minor'), fact: 'tonic' }, 'E'],
    [{ kind: 'harp', ...on('F#', 2), fact: 'harp', article: true }, both('an F♯ harp', 'an F sharp harp')],
    [{ kind: 'harp', ...on('low Bb', 2), fact: 'label', article: false }, both('low B♭', 'low B flat')],
    [{ kind: 'position', ...on('C', 3), fact: 'number' }, 'third position'],
    [
      { kind: 'note', ...place, notes: [{ ...bend, bend: 0.5 }], facts: ['pitch'], article: true },
      both('a B↓', 'a quarter step below B'),
    ],
    [{ kind: 'key', ...on('Ab', 2), fact: 'usual', article: true }, both('an E♭', 'an E flat')],
    [
      { kind: 'chord', ...place, chord: chord('bVII'), facts: ['numeral'], article: true },
      both('a ♭VII', 'a flat VII'),
    ],
  ])('%j', (inline, html) => {
    expect(drawInline(inline)).toBe(html);
  });

  it('a numeral and a chord’s degree signs have words of their own', () => {
    const numeral = (symbol: string): string =>
      drawInline({ kind: 'chord', ...place, chord: chord(symbol), facts: ['numeral'] });
    expect(numeral('bVII')).toBe(both('♭VII', 'flat VII'));
    expect(numeral('iiø7')).toBe(both('iiø7', 'ii half-diminished 7'));
    expect(numeral('vii°7')).toBe(both('vii°7', 'vii diminished 7'));
    expect(numeral('V7/ii')).toBe(both('V7/ii', 'V7 of ii'));
    expect(numeral('IV7')).toBe('IV7');
  });
});

it('an article is before the same words, and begins them where a sentence does', () => {
  fc.assert(
    fc.property(someInline, ({ inline }) => {
      const words = inlineText({ ...inline, capital: false, article: false });
      const article = inlineText({ ...inline, capital: false, article: true }).slice(0, -words.length);
      expect(['a ', 'an ']).toContain(article);
      expect(inlineText({ ...inline, capital: true, article: true })).toBe(`A${article.slice(1)}${words}`);
    }),
    RUNS,
  );
});

describe('a capital', () => {
  it('is at the first letter alone, of what is shown and of what is read aloud', () => {
    fc.assert(
      fc.property(someInline, ({ inline }) => {
        const small = inlineText({ ...inline, capital: false });
        const capital = inlineText({ ...inline, capital: true });
        expect(capital.slice(1)).toBe(small.slice(1));
        // A capital would make another chord of a numeral.
        const isNumeral = inline.kind === 'chord' && inline.facts[0] === 'numeral';
        expect(capital.charAt(0)).toBe(isNumeral ? small.charAt(0) : small.charAt(0).toUpperCase());
      }),
      RUNS,
    );
  });

  it('is read aloud as well', () => {
    const harp = harpOf('low Bb');
    const key = keyInPosition(harp.key, 1, 'major');
    expect(drawInline({ kind: 'harp', harp, position: 1, key, capital: true, fact: 'label', article: false })).toBe(
      '<span aria-hidden="true">Low B♭</span><span class="aloud">Low B flat</span>',
    );
  });
});

describe('a tuning of one’s own', () => {
  const tuning = { ...RICHTER, id: 'mine', title: 'Éclair <b> & "mine"' };
  const harp = harpOf('C', tuning);
  const place = { harp, position: 2, key: keyInPosition(harp.key, 2, 'major'), capital: false } as const;

  it('has its name in the sentence, and no markup from it', () => {
    const inline: Inline = { kind: 'harp', ...place, fact: 'harp', article: true };
    expect(inlineText(inline)).toBe('an éclair <b> & "mine" harp in C');
    expect(drawInline(inline)).toBe('an éclair &lt;b&gt; &amp; &quot;mine&quot; harp in C');
    expect(drawInline({ ...inline, fact: 'label', article: false })).not.toContain('<b>');
  });
});

it('each note has a name without a comma, which no other note of its harp has', () => {
  for (const tuning of TUNINGS) {
    const names = notesOf(harpOf('C', tuning)).map(nameInSentence);
    for (const name of names) expect(name).not.toMatch(/,|undefined/);
    expect(new Set(names).size).toBe(names.length);
  }
});
