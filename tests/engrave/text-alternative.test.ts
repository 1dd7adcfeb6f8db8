import { describe, expect, it } from 'vitest';
import { barSentences, blockName, lengthInWords } from '../../src/engrave/text-alternative.ts';
import { fraction } from '../../src/time/fraction.ts';
import { scoreOf } from './pictures.ts';

const words = (text: string): string[] => barSentences(scoreOf(text));

describe('a block in words', () => {
  it('names itself by harp, position, key and length', () => {
    expect(blockName(scoreOf('harp: low F\nposition: 2\ntitle: Low water\nslot: 1/4\n\n-2 . . . | -3 . . .'))).toBe(
      'Low water, tab for a low F harp, second position, in C major: 2 bars',
    );
    expect(blockName(scoreOf('harp: Bb\nslot: 1/4\n\n4 . . .'))).toBe(
      'Tab for a B flat harp, first position, in B♭ major: 1 bar',
    );
    expect(blockName(scoreOf('harp: A\nslot: 1/4\n\n4 . . .'))).toContain('for an A harp');
  });

  it('says each note as it is played, what it is to the chord, and for how long', () => {
    expect(
      words("harp: A\nposition: 2\nform: twelve-bar bars 4-5\n\n-2 = = -3 -4 . . . | -3' = -3'' 4 {-2 -3' -4}2 . ."),
    ).toEqual([
      'Bar 1, over E7: draw 2, the root, one and a half beats; draw 3, the third, half a beat; draw 4, the fifth, half a beat; rest, one and a half beats.',
      'Bar 2, over A7: draw 3, half-step bend, the flat seventh, one beat; draw 3, whole-step bend, the sixth, half a beat; blow 4, the root, half a beat; draw 2, the fifth, a third of a beat; draw 3, half-step bend, the flat seventh, a third of a beat; draw 4, the second, a third of a beat; rest, one beat.',
    ]);
  });

  it('says how far a quarter step is bent, and its role', () => {
    expect(words('harp: A\nposition: 2\nslot: 1/4\n\n"I7" -3q -3\'q -(2 3q) .')).toEqual([
      'Bar 1, over E7: draw 3, quarter-step bend, the neutral third, one beat; draw 3, half-step bend and a quarter step, a quarter step below the flat third, one beat; draw 2 and 3 together, 3 with a quarter-step bend, the root and the neutral third, one beat; rest, one beat.',
    ]);
  });

  it('says the bass of a chord', () => {
    expect(words('slot: 1/4\n"Am7/G" 4 = "D/F#" 4 =')[0]).toContain('Bar 1, over A minor 7 over G: ');
    expect(words('slot: 1/4\n"Am7/G" 4 = "D/F#" 4 =')[0]).toContain('now over D over F sharp, ');
  });

  it('says where a repeated phrase begins', () => {
    const [first, second] = words('slot: 1/4\nphrase turn: 4 5\nphrase once: 6 6\n<turn> <once> | . <turn> 6');
    expect(first).toBe(
      'Bar 1: the phrase turn, blow 4, one beat; blow 5, one beat; blow 6, one beat; blow 6, one beat.',
    );
    expect(second).toBe(
      'Bar 2: rest, one beat; the phrase turn, blow 4, one beat; blow 5, one beat; blow 6, one beat.',
    );
  });

  it('says where no chord sounds', () => {
    const said = words('slot: 1/4\n"C7" 4 "N.C." 4 4 4 | 4 4 4 4');
    expect(said[0]).toContain('Bar 1, over C7: blow 4, the root, one beat; now no chord, blow 4, one beat;');
    expect(said[1]).toContain('Bar 2, no chord: blow 4, one beat;');
  });

  it('says several holes, overblows, marks, syllables, the mouth and where a chord turns', () => {
    expect(
      words(
        'harp: C\nposition: 2\nslot: 1/4\nmouth: tongue\n\n"I7" (1 4) -2[slap] "IV7" @lips 6o -4[shake 5] | = 4 . .\nwords: a on-ly three four',
      ),
    ).toEqual([
      'Bar 1, over G7: blow 1 and 4 together, the fourth, sung “a”, one beat; draw 2, the root, slapped, sung “on-”, one beat; now over C7, with the lips, overblow 6, the flat seventh, sung “ly”, one beat; draw 4, the second, shaken with hole 5, sung “three”, one beat.',
      'Bar 2, over C7: held on, one beat; blow 4, the root, sung “four”, one beat; rest, two beats.',
    ]);
  });

  it('says several verses and syllables after the notes of their bar', () => {
    const said = words(
      'harp: C\nslot: 1/2\n4 4 | 5 5 | 4 = |]\nwords: A-ma-zing grace\nwords: Now grace that *\nsyllables: ta _ ka',
    );
    expect(said).toEqual([
      'Bar 1: blow 4, two beats; blow 4, two beats. Syllables: ta. Verse 1: A-ma-; verse 2: Now grace.',
      'Bar 2: blow 5, two beats; blow 5, two beats. Syllables: ka. Verse 1: zing grace; verse 2: that.',
      'Bar 3: blow 4, four beats. The end.',
    ]);
  });

  it('says what is written over a bar', () => {
    const said = words('harp: C\nslot: 1/4\ntext: like a train\n4 = = = | 5 = = = |]');
    expect(said[0]).toMatch(/^Bar 1, marked “like a train”: blow 4/);
    expect(said[1]).toMatch(/^Bar 2: /);
  });

  it('says that a bar is the same again, but over other chords what each note is', () => {
    const said = words('slot: 1/4\nchords: I | I | IV\n4 = = = | % | %');
    expect(said[1]).toBe('Bar 2, over C: the same bar again.');
    expect(said[2]).toContain('Bar 3, over F: blow 4, the fifth, four beats.');
  });

  it('says for how many bars to rest', () => {
    const said = words('slot: 1/4\nchords: I | I | IV\n4 = = = | .x2 |]');
    expect(said.slice(1)).toEqual(['Bar 2, over C: rest for two bars.', 'Bar 3, over F: rest, four beats. The end.']);
  });

  it('says where jumps go, and where they arrive', () => {
    const ends = (text: string) => words(`slot: 1/4\n${text}`).map((line) => line.replace(/: (blow|draw)[^.]*/, ''));
    expect(ends('4 = = = |fine 5 = = = |D.C.')).toEqual([
      'Bar 1. Fine: the last time the music ends here.',
      'Bar 2. Then from the beginning to Fine, without repeats.',
    ]);
    expect(ends('|segno 4 = = = |to-coda 5 = = = |D.S.,coda 6 = = = |]')).toEqual([
      'Segno. Bar 1. The last time from here to the coda.',
      'Bar 2. Then from the segno and over to the coda, without repeats.',
      'Coda. Bar 3. The end.',
    ]);
    expect(ends('4 = = = |D.C.')).toEqual(['Bar 1. Then from the beginning, without repeats.']);
  });

  it('says pickups, parts, repeats, endings and the end', () => {
    const said = words('harp: C\nslot: 1/4\npickup: 1\n\n4 |\npart: Head\n|: 5 = = = |1 5 = = . :|2 4 = = . |]');
    expect(said.map((line) => line.replace(/: (blow|draw).*?(?=\.)/, ''))).toEqual([
      'Pickup.',
      'Head. Repeat from here. Bar 1.',
      'First ending. Bar 2. Back to the repeat.',
      'Second ending. Bar 2. The end.',
    ]);
  });

  it('says what a held note has become, and only if it has', () => {
    const said = words('harp: C\nposition: 2\nslot: 1/4\nchords: I7 | I7 | IV7\n\n-2 = = = | = = = = | = . . .');
    expect(said.slice(1)).toEqual([
      'Bar 2, over G7: held on, four beats.',
      'Bar 3, over C7: held on, now the fifth, one beat; rest, three beats.',
    ]);
  });

  it.each([
    [1, 4, '4/4', 'one beat'],
    [1, 8, '4/4', 'half a beat'],
    [1, 12, '4/4', 'a third of a beat'],
    [1, 6, '4/4', 'two thirds of a beat'],
    [3, 8, '4/4', 'one and a half beats'],
    [1, 32, '4/4', 'an eighth of a beat'],
    [3, 8, '12/8', 'one beat'],
    [1, 8, '12/8', 'a third of a beat'],
    [5, 8, '6/8', 'one and two thirds beats'],
    [1, 44, '4/4', 'an 11th of a beat'],
  ] as const)('counts %i/%i in %s as %s', (n, d, meter, expected) => {
    const [beats, unit] = meter.split('/').map(Number) as [number, 4 | 8];
    expect(lengthInWords(fraction(n, d), { beats, unit })).toBe(expected);
  });
});
