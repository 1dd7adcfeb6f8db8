/** Mutants that no test is to notice, each with the reason. */
export interface Accepted {
  /** From `src`. */
  readonly file: string;
  readonly original: string;
  readonly replacement: string;
  /** What the line of the place contains, where the same change can be made elsewhere in the file. */
  readonly line?: string;
  readonly why: string;
}

/** Rows as they are written here: a file, a reason, and the changes it is the reason of. */
const accept = (
  file: string,
  why: string,
  ...changes: readonly (readonly [original: string, replacement: string, line?: string])[]
): Accepted[] =>
  changes.map(([original, replacement, line]) => ({
    file,
    original,
    replacement,
    ...(line === undefined ? {} : { line }),
    why,
  }));

export const ACCEPTED: readonly Accepted[] = [
  ...accept('time/fraction.ts', 'Zero is refused above.', ['d < 0', 'd <= 0', 'gcd(n, d)']),
  ...accept(
    'time/fraction.ts',
    'Which values are kept saves time and memory: each has a place of its own all the same.',
    ['[]', '["Stryker was here"]', 'const small'],
    ['n < 0 || n >= SMALL', 'false'],
    ['n < 0 || n >= SMALL', 'n < 0 && n >= SMALL'],
    ['n < 0', 'false', 'n >= SMALL'],
    ['n < 0', 'n <= 0', 'n >= SMALL'],
    ['n >= SMALL', 'false'],
    ['n >= SMALL', 'n > SMALL'],
    ['d >= SMALL', 'd > SMALL'],
    ['n * SMALL + d', 'n * SMALL - d'],
    ['n * SMALL', 'n / SMALL'],
  ),
  ...accept('time/fraction.ts', 'A sum over one denominator saves time, and is reduced to the same.', [
    'a.d === b.d',
    'false',
    'a.n + b.n',
  ]),
  ...accept('time/fraction.ts', 'Equal fractions have equal fields.', [
    'compare(a, b) <= 0',
    'compare(a, b) < 0',
    'minimum',
  ]),
  ...accept('time/swing.ts', 'Both halves of a beat are moved to the same place where they meet.', [
    'within < from',
    'within <= from',
  ]),
  ...accept(
    'instrument/bend.ts',
    'Reeds of one pitch are dealt with above.',
    ['draw > blow', 'draw >= blow', 'bends:'],
    ['draw > blow', 'draw >= blow', 'overbends:'],
  ),
  ...accept('instrument/pitch.ts', 'No sign is repeated no times, whichever it is.', ['alter < 0', 'alter <= 0']),
  ...accept('instrument/read-tuning.ts', 'What is not written is no note either.', [
    'written.key === undefined',
    'false',
    'readPitchClass',
  ]),
  ...accept('instrument/scale.ts', 'From C, which is 0, no scale has a double sign.', ['fifths > 0', 'fifths >= 0']),
  ...accept('instrument/temperament.ts', 'Without a fifth the ratio is 1/1 either way.', ['fifths >= 0', 'fifths > 0']),
  ...accept(
    'harmony/role.ts',
    'Every chord has a tone for its root, so that this row is not asked.',
    ["[1, 'R']", '[]'],
    ["'R'", '""', "[1, 'R']"],
  ),
  ...accept('harmony/role.ts', 'No sign is repeated no times, whichever it is.', ['alter < 0', 'alter <= 0']),
  ...accept('harmony/role.ts', 'Over the fourth, role and key give every other note of the scale one name.', [
    'role.semitones === 6',
    'true',
  ]),
  ...accept(
    'harmony/symbol.ts',
    'What is kept, and how long a text may be for it, saves time and memory.',
    ['text.length > LONGEST', 'text.length >= LONGEST'],
    ['text.length > LONGEST', 'false'],
    ['known.set(fifths, inKey);', ';'],
    ['!inKey.has(text)', 'true'],
  ),
  ...accept('harmony/symbol.ts', 'Chords are read against the tonic; the mode is not asked.', [
    "'major'",
    '""',
    'C_MAJOR',
  ]),
  ...accept('harmony/song-key.ts', 'Chords are read against the tonic; the mode is not asked.', [
    "'major'",
    '""',
    'readChord',
  ]),
  ...accept(
    'curriculum/check-dependencies.ts',
    'No stage has either name, and one that has a number is there.',
    ["''", '"Stryker was here!"', 'frontMatter.stage'],
    ["''", '"Stryker was here!"', '?.title'],
  ),
  ...accept('curriculum/layers.ts', 'A row that has no room yet has all of it, and is not above 0 either way.', [
    'room[row] ?? bound',
    'room[row] && bound',
  ]),
  ...accept('technique/detect.ts', 'Of a single rule without repeats no match comes twice: it saves time.', [
    'finders.length === 1',
    'false',
  ]),
  ...accept(
    'technique/traits.ts',
    'Traits rule out early what the rule itself would refuse: they save time.',
    ['(hole: number): number => (hole <= LAST_HOLE ? 2 ** (5 + hole) : 0)', '() => undefined'],
    ['5 + LAST_HOLE', '5 - LAST_HOLE'],
  ),
  ...accept('technique/match.ts', 'Every numeral begins with a step.', ["''", '"Stryker was here!"', "sign = ''"]),
  ...accept('lesson/destination.ts', 'Behind the last character is none.', [
    'at < written.length',
    'at <= written.length',
  ]),
  ...accept('lesson/value.ts', 'What is thrown is caught, and its words are not used.', ["'computed'", '""']),
  ...accept('publish/output/manifest.ts', 'JSON is parsed from bytes as from their text.', ["'utf8'", '""']),
  ...accept('publish/output/manifest.ts', 'Nothing is given back either way.', ['{ return undefined; }', '{}']),
  ...accept('publish/output/lock.ts', 'JSON is parsed from bytes as from their text.', ["'utf8'", '""']),
  ...accept('publish/output/lock.ts', 'Nothing is given back either way.', ['{ return undefined; }', '{}']),
  ...accept(
    'publish/output/lock.ts',
    'How often it tries in all matters only where others take and leave the lock all the time.',
    ['attempt < 20', 'attempt <= 20'],
    ['attempt++', 'attempt--'],
  ),
  ...accept('publish/output/lock.ts', 'A millisecond more or less.', [
    '(await ageOf(lock)) < 2000',
    '(await ageOf(lock)) <= 2000',
  ]),
];
