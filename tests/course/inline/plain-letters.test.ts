/** Which letters of a text are taken for a pitch, a key, a chord or a harp, and which are not. */
import { describe, expect, test } from 'vitest';
import { plainLettersIn } from '../../../src/course/inline/plain-letters.ts';

/** `from-to kind text` of each. */
const found = (text: string): string[] =>
  plainLettersIn(text).map(({ span: { from, to }, kind, text: letters }) => `${from}-${to} ${kind} ${letters}`);

describe('letters that name something of the music', () => {
  test.each([
    ['Hole 3 has B on the draw.', ['11-12 pitch B']],
    ['It is D flat.', ['6-12 pitch D flat']],
    ['It is D♭, then C♯, F# and Bb.', ['6-8 pitch D♭', '15-28 pitch C♯, F# and Bb']],
    ['Play G, B and D.', ['5-15 pitch G, B and D']],
    ['C to E; F–G, then F/G.', ['0-6 pitch C to E', '8-11 pitch F–G', '18-21 pitch F/G']],
    ['The blues is in G minor.', ['16-23 key G minor']],
    ['The key of E suits it.', ['11-12 key E']],
    ['It plays in F.', ['12-13 key F']],
    ['C dorian is next.', ['0-8 key C dorian']],
    ['From G7 to C.', ['5-7 chord G7', '11-12 pitch C']],
    ['Cmaj7, Dm and F#m7 sound.', ['0-18 chord Cmaj7, Dm and F#m7']],
    ['That is the chord of G here.', ['21-22 chord G']],
    ['Play the G riff.', ['9-10 pitch G']],
    ['A C chord is soft.', ['2-3 chord C']],
    ['On a C harp it is soft.', ['5-11 harp C harp']],
    ['Take an A harp.', ['8-14 harp A harp']],
    ['Two B flat harps.', ['4-16 harp B flat harps']],
    ['A harp in D will do.', ['10-11 harp D']],
    ['On a low F it is far down.', ['9-10 harp F']],
    // A capital A where it can be no article.
    ['Hole 3 goes down to A, then up.', ['20-21 pitch A']],
    ['Two reeds, A and G, are close.', ['11-18 pitch A and G']],
    ['A is the root.', ['0-1 pitch A']],
    ['A is draw 6.', ['0-1 pitch A']],
    ['A, C and E are blown.', ['0-10 pitch A, C and E']],
    ['It is A flat.', ['6-12 pitch A flat']],
    ['A♭ is lower.', ['0-2 pitch A♭']],
    ['It ends on **A**.', ['13-14 pitch A']],
    ['Draw 6 (A) is high.', ['8-9 pitch A']],
    ['A minor is the key.', ['0-7 key A minor']],
    ['The chord is Am here.', ['13-15 chord Am']],
    // Lines that are wrapped, with the signs of a block quote.
    ['On a C\nharp it is soft.', ['5-11 harp C harp']],
    ['It is in D\r\n> minor.', ['9-19 key D minor']],
    ['It goes from\nA to G.', ['13-19 pitch A to G']],
  ])('%j', (text, wanted) => {
    expect(found(text)).toEqual(wanted);
  });
});

describe('letters that name nothing of the music', () => {
  test.each([
    '',
    // Articles.
    'A riff begins. A harp is small. A bend is a skill.',
    'A flat tyre stopped us.',
    'A minor point. A major change. A natural way. A sharp sound.',
    'A low sound. "A song," she said. (A bend is hard.)',
    'A bend is on the draw.',
    'Remember: A bend takes air. Slow – A long one.',
    '*A* riff. **A riff** is short. “A riff” is short.',
    'How to Play A Riff',
    'Once You Have Heard A Train, Stop',
    'In full (A note that ends)',
    'One.\nA bend.',
    '> One.\n> A bend.',
    'Am I too loud? Am Anfang.',
    'I Am A Fool',
    // Initials, abbreviations, signs of other things.
    'By B. B. King and J. S. Bach.',
    'D. Carter wrote it. C. elegans is a worm.',
    'D.C. al Fine, D.S. al Coda, D. C., A.D. 500, B.C.',
    'E.g. this one.',
    'R&B, R & B, A&R, Q & A.',
    'A. First. ',
    'B) Second. ',
    'A4 paper, E-mail, T-shirt, B-side, F1, B12, C6H12O6.',
    'The G clef and the F clef.',
    'DEED, ACE, BAG, AABA, ABACAB.',
    'The file abc.D and the path A/x.y.',
    // Names of parts and of choices.
    'Part A, part B and part C. Parts A and B. Sections A, B and C.',
    'The A part, the B section, the A and B parts',
    'Play side B, then strain A. Tune A to tune B.',
    'Plan B. Vitamin C, vitamins C and D. Hepatitis B. Appendix A.',
    'Exercise C; options A or B; point A to point B; type A; grade B; class C.',
    // Other languages.
    "C'est tout, d'abord. C’est la vie. D’accord. L'A.",
    'À la mode, Él, È vero, Äpfel, Öl, Ça va, Dès.',
    'Ein Bär. Cé. Eé. Aé.',
  ])('%j', (text) => {
    expect(found(text)).toEqual([]);
  });
});

describe('what is known to be missed or to be wrong', () => {
  test('an author who means another thing by a letter gets a hint, which is no error', () => {
    expect(found('Press F and then D.')).toEqual(['6-7 pitch F', '17-18 pitch D']);
    expect(found('E la nave va.')).toEqual(['0-1 pitch E']);
  });
  test('an A at the beginning of a sentence is no note where a noun may be behind it', () => {
    expect(found('A sounds best.')).toEqual([]);
  });
});
