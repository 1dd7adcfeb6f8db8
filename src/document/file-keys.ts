/**
 * Which keys belong to which file of a course: for messages about a key that is in the wrong file, or has another name. The
 * schemas decide what is read; a test compares.
 */

/** A file with keys of its own, as authors call it. */
export type AuthoredFile = 'course' | 'lesson' | 'glossary' | 'techniques';

const SETTINGS: readonly string[] = [
  ...['harp', 'tuning', 'position', 'key', 'meter', 'tempo', 'feel', 'slot', 'form', 'chords', 'mouth'],
];

/** The keys at the top of each file. */
export const FILE_KEYS: Readonly<Record<AuthoredFile, readonly string[]>> = {
  course: [
    ...['title', 'summary', 'teacher', 'language', 'url', 'licence', 'cautions', 'concert-a', 'temperament', 'stages'],
    ...['tunings', 'forms', 'severity', ...SETTINGS],
  ],
  lesson: [
    ...['title', 'summary', 'stage', 'requires', 'teaches', 'minutes', 'draft', 'order', 'formerly', 'allow', 'clips'],
    ...SETTINGS,
  ],
  glossary: ['terms'],
  techniques: ['catalogue', 'techniques'],
};

/** Keys that only the head of a block takes. */
export const BLOCK_ONLY_KEYS: readonly string[] = ['id', 'pickup'];

/** Every key of every file, at its top or in a list. */
export const ALL_KEYS: ReadonlySet<string> = new Set([
  ...Object.values(FILE_KEYS).flat(),
  ...BLOCK_ONLY_KEYS,
  ...['code', 'reason', 'src', 'captions', 'cues', 'at', 'until', 'block', 'bars', 'term', 'means', 'also'],
  ...['about', 'group', 'kind-of', 'assumed', 'find', 'blow', 'draw', 'slide', 'valves'],
]);

/** Where keys of a file are written, to end a sentence. */
const PLACES: Readonly<Record<AuthoredFile, string>> = {
  course: 'course.yaml',
  lesson: 'the front matter of a lesson',
  glossary: 'glossary.yaml',
  techniques: 'techniques.yaml',
};

/** Where a key belongs that this file does not take; undefined where nobody takes it. */
export function placeOfKey(key: string, file: AuthoredFile): string | undefined {
  if (FILE_KEYS[file].includes(key)) return undefined;
  const other = (['course', 'lesson', 'glossary', 'techniques'] as const).find((one) => FILE_KEYS[one].includes(key));
  if (other !== undefined) return PLACES[other];
  return BLOCK_ONLY_KEYS.includes(key) ? 'the head of a block' : undefined;
}

/** Keys by other names that authors bring with them, each with the key that is meant. */
const OTHER_NAMES: ReadonlyMap<string, string> = new Map([
  ...['description', 'abstract', 'subtitle', 'excerpt'].map((name) => [name, 'summary'] as const),
  ...['author', 'by', 'instructor'].map((name) => [name, 'teacher'] as const),
  ...['duration', 'time', 'length', 'mins', 'min'].map((name) => [name, 'minutes'] as const),
  ...['prerequisites', 'prereqs', 'needs', 'after', 'depends'].map((name) => [name, 'requires'] as const),
  ...['techniques', 'skills', 'goals', 'objectives'].map((name) => [name, 'teaches'] as const),
  ...['name', 'heading'].map((name) => [name, 'title'] as const),
  ...['lang', 'locale'].map((name) => [name, 'language'] as const),
  ...['license', 'copyright'].map((name) => [name, 'licence'] as const),
  ...['section', 'unit', 'module', 'part', 'chapter'].map((name) => [name, 'stage'] as const),
  ...['sections', 'units', 'modules', 'parts', 'chapters'].map((name) => [name, 'stages'] as const),
  ...['weight', 'number'].map((name) => [name, 'order'] as const),
  ...['bpm', 'speed'].map((name) => [name, 'tempo'] as const),
  ...['site', 'address', 'baseurl'].map((name) => [name, 'url'] as const),
  ['definition', 'means'],
  ['meaning', 'means'],
  ['word', 'term'],
  ['synonyms', 'also'],
  ['time-signature', 'meter'],
  ['file', 'src'],
  ['because', 'reason'],
  ['why', 'reason'],
  ['start', 'at'],
  ['from', 'at'],
  ['end', 'until'],
  ['to', 'until'],
  ['bar', 'bars'],
]);

/** The key that is meant by a name of the same meaning, where the file takes that key. */
export function keyCalled(name: string, known: readonly string[]): string | undefined {
  const meant = OTHER_NAMES.get(name.toLowerCase());
  if (meant !== undefined && known.includes(meant)) return meant;
  // In a cue a time is when it is.
  return name === 'time' && known.includes('at') ? 'at' : undefined;
}
