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
  ...accept('harmony/symbol-help.ts', 'Chords are read against the tonic; the mode is not asked.', ["'major'", '""']),
  ...accept('harmony/symbol-help.ts', 'What is no such text has no numeral either.', [
    '[]',
    '["Stryker was here"]',
    'const [, numeral',
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
  ...accept('notation/bars.ts', 'What stands first in a bar, or its bar line, gives it another place.', [
    '{ from: 0, to: 0 }',
    '{}',
  ]),
  ...accept('notation/bars.ts', 'The message only asks whether it is a rest.', ["'nothing'", '""']),
  ...accept('notation/bars.ts', 'Behind the last bar is none, which has no sign.', [
    'i < bars.length',
    'i <= bars.length',
    'let i = start',
  ]),
  ...accept('notation/evaluate.ts', 'Equal lengths are dealt with above.', [
    'compare(bar.length, wants) < 0',
    'compare(bar.length, wants) <= 0',
  ]),
  ...accept('notation/evaluate.ts', 'What is kept saves time.', ['overChord.set(midi, pitch);', ';']),
  ...accept('notation/expand.ts', 'In a group is no quotation: the scanner refuses it.', [
    "inner.kind !== 'quote'",
    'true',
  ]),
  ...accept('notation/harmonise.ts', 'Of two chords at one moment the later one is taken below.', [
    'compare(change.onset, first.onset) < 0',
    'compare(change.onset, first.onset) <= 0',
  ]),
  ...accept('notation/notes.ts', 'What is no item gives no note.', ['[]', '["Stryker was here"]', 'seen.has(found)']),
  ...accept('notation/notes.ts', 'There is always a bar.', ['bars.at(-1)?.push', 'bars.at(-1).push']),
  ...accept('notation/parse.ts', 'No other item has these fields.', ["item.kind === 'bar'", 'true']),
  ...accept('notation/parse.ts', 'What is behind the end of a line is its line break.', ['i < end', 'i <= end']),
  ...accept('notation/print/print.ts', 'A list has no item of that number.', ['place === undefined', 'false']),
  ...accept('notation/problems.ts', 'Of equal numbers nothing is reported.', ['bars < length', 'bars <= length']),
  ...accept(
    'notation/scan.ts',
    'Either object names the same place.',
    ['only?.span.from === from', 'only?.span.from !== from'],
    ['only?.span.from === from && only.span.to === end', 'false'],
    ['only?.span', 'only.span'],
  ),
  ...accept('notation/scan.ts', 'Every group of the pattern is there, if only empty.', [
    "''",
    '"Stryker was here!"',
    "bend = ''",
  ]),
  ...accept('notation/setting-values.ts', 'The pattern fits every text from its start.', [
    '/^(.*?)(?:\\s+bars?\\s+(\\d{1,3})(?:\\s*[-–]\\s*(\\d{1,3}))?)?$/s',
    '/(.*?)(?:\\s+bars?\\s+(\\d{1,3})(?:\\s*[-–]\\s*(\\d{1,3}))?)?$/s',
  ]),
  ...accept('notation/setting-values.ts', 'The pattern fits every text.', [
    '[]',
    '["Stryker was here"]',
    'match ?? []',
  ]),
  ...accept('notation/setting-values.ts', 'What no reader takes is not suggested.', [
    '[]',
    '["Stryker was here"]',
    'meaning[key]',
  ]),
  ...accept('notation/suggestions.ts', 'What no reader takes is not suggested.', [
    '[]',
    '["Stryker was here"]',
    'return []',
  ]),
  ...accept(
    'publish/engraving/record-store.ts',
    'The file is there, since it was opened.',
    ['{ force: true }', '{}', 'rmSync(part'],
    ['true', 'false', 'rmSync(part'],
  ),
  ...accept('publish/engraving/record-store.ts', 'What has no place is passed over where it is used.', [
    'text !== undefined',
    'true',
  ]),
  ...accept('publish/engraving/record-store.ts', 'A file that is not there is passed over.', [
    '[]',
    '["Stryker was here"]',
    'return []',
  ]),
  ...accept('curriculum/layers.ts', 'A row that has no room yet has all of it, and is not above 0 either way.', [
    'room[row] ?? bound',
    'room[row] && bound',
  ]),
  ...accept('score/dynamics.ts', 'What is not there lies in no direction.', ['next !== undefined', 'true']),
  ...accept('score/changes.ts', 'A coda is behind its jump, and so never the first bar.', ['coda >= 0', 'coda > 0']),
  ...accept('score/changes.ts', 'A tempo of its own at the first bar is written there, which is asked as well.', [
    'from === score.tempo',
    'true',
  ]),
  ...accept('score/harp/relocate.ts', 'Other pitches are fewer, or one alone.', [
    'a.every((midi, index) => midi === b[index])',
    'a.some((midi, index) => midi === b[index])',
  ]),
  ...accept('score/harp/relocate.ts', 'What holes were found for can be played.', ["'fault' in found", 'false']),
  ...accept('score/playing-order.ts', 'What is not there is not less.', ['next !== undefined', 'true']),
  ...accept(
    'score/tuplet.ts',
    'The ends of a tuplet can be reached without one, the points in it cannot.',
    ['itemAt(points, index) < region.to', 'itemAt(points, index) <= region.to'],
    ['first < middle', 'first <= middle'],
    ['point < end', 'point <= end', 'inner.filter'],
  ),
  ...accept('score/tuplet.ts', 'The first of the points cannot be reached without a tuplet.', [
    'plain < 0',
    'plain <= 0',
  ]),
  ...accept('score/tuplet.ts', 'One of the two is odd.', ['normal * 2 < actual', 'normal * 2 <= actual']),
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
  ...accept('publish/static-files.ts', 'Nothing is given back either way.', ['{ return undefined; }', '{}']),
  ...accept(
    'publish/static-files.ts',
    'What is not there is not found by what sends files either.',
    ['{ return false; }', '{}'],
    ['false', 'true', 'return false;'],
  ),
  ...accept(
    'publish/static-files.ts',
    'What is reported is an error with a status.',
    ["error instanceof Error && 'status' in error", 'true'],
    ["error instanceof Error && 'status' in error", "error instanceof Error || 'status' in error"],
  ),
  ...accept('publish/output/claim.ts', 'No folder of a course has either name.', ['[]', '["Stryker was here"]']),
  ...accept('publish/output/claim.ts', 'No error has no code for its name.', ['code !== undefined', 'true']),
  ...accept('publish/output/claim.ts', 'That nothing is there is caught.', ['true', 'false', 'rm(staging']),
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
