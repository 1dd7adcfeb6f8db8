/** The components an author may write in a lesson, with their attributes. Elements of HTML are in element.ts. */

const PLACE = { harp: 'optional', tuning: 'optional', position: 'optional', title: 'optional' } as const;
const PROGRESSION = { form: 'optional', chords: 'optional' } as const;

/** The figures by the name of their component, with the attributes each takes. */
export const FIGURES = {
  /** `notes` down, the chords of a form across. */
  RoleTable: { ...PLACE, ...PROGRESSION, notes: 'required' },
  /** One of `scale`, `chord`, `notes`, `phrase`, `block` and `lesson` is lit; `over` is the chord roles count from. */
  HarpMap: {
    ...PLACE,
    scale: 'optional',
    chord: 'optional',
    notes: 'optional',
    phrase: 'optional',
    block: 'optional',
    lesson: 'optional',
    over: 'optional',
    show: 'optional',
    bends: 'optional',
    overbends: 'optional',
  },
  /** `targets` are notes divided by bar lines, one or none a bar. */
  FormChart: { ...PLACE, ...PROGRESSION, targets: 'optional' },
  /** `holes` is the range that is looked at: `1-6`. */
  TargetNotes: { ...PLACE, ...PROGRESSION, holes: 'optional', bends: 'optional', overbends: 'optional' },
  /** `rhythm` is written as the music of a block, with x for each stroke; `syllables` are as below a line of music. */
  RhythmLine: {
    title: 'optional',
    rhythm: 'required',
    syllables: 'optional',
    meter: 'optional',
    tempo: 'optional',
    feel: 'optional',
    slot: 'optional',
  },
  /** Either `harps` or `positions`, two of them. */
  SideBySide: { title: 'optional', block: 'required', harps: 'optional', positions: 'optional' },
  NoteLengths: { title: 'optional', slot: 'optional' },
  /** `overbends`, `cents` and `hertz` are shown where they are asked for. */
  BendLadder: {
    harp: 'optional',
    tuning: 'optional',
    title: 'optional',
    hole: 'required',
    overbends: 'optional',
    cents: 'optional',
    hertz: 'optional',
  },
} as const;

/** What is said of the music follows the student's harp unless `follow` is no; it begins with a capital where a sentence does. */
const SAID = {
  harp: 'optional',
  tuning: 'optional',
  position: 'optional',
  mode: 'optional',
  follow: 'optional',
  capital: 'optional',
  article: 'optional',
} as const;

/** The components within a sentence that say something of the music, with the attributes each takes. */
export const INLINES = {
  /** Its content are notes. `over` is the chord that roles count from. */
  Note: { ...SAID, show: 'optional', over: 'optional' },
  /** Its content is a chord, as a numeral or by name. */
  Chord: { ...SAID, show: 'optional' },
  Key: { ...SAID, show: 'optional' },
  Harp: { ...SAID, show: 'optional' },
  Position: { ...SAID, show: 'optional' },
} as const;

/** The components that link to what a word means, with the attributes each takes. Their content is the word, which `of` may name otherwise. */
export const LINKED_WORDS = {
  Technique: { of: 'optional' },
  Term: { of: 'optional' },
} as const;

/** A clip either names one of the front matter, or says itself what it plays. */
const CLIP = { name: 'optional', src: 'optional', title: 'optional', captions: 'optional', cues: 'optional' } as const;

/** The names of the components that draw. */
export type FigureName = keyof typeof FIGURES;
/** The names of the components that say something of the music. */
export type InlineName = keyof typeof INLINES;
/** The names of the components that link to what a word means. */
export type WordName = keyof typeof LINKED_WORDS;

type Attributes = Readonly<Record<string, 'required' | 'optional'>>;

/** The attributes of every component a lesson may hold, by the component’s name. */
export const COMPONENTS: ReadonlyMap<string, Attributes> = new Map<string, Attributes>([
  ...Object.entries(FIGURES),
  ...Object.entries(INLINES),
  ...Object.entries(LINKED_WORDS),
  ['Clip', CLIP],
]);

/** The components that hold what they are about; the others hold nothing. */
export const WITH_CONTENT: ReadonlySet<string> = new Set(['Note', 'Chord', ...Object.keys(LINKED_WORDS)]);

interface Named {
  readonly name: string;
}

/** Whether a component is a figure. */
export const isFigure = <C extends Named>(component: C): component is C & { readonly name: FigureName } =>
  Object.hasOwn(FIGURES, component.name);

/** Whether a component says something of the music within a sentence. */
export const isInline = <C extends Named>(component: C): component is C & { readonly name: InlineName } =>
  Object.hasOwn(INLINES, component.name);

/** Whether a component links to what a word means. */
export const isWord = <C extends Named>(component: C): component is C & { readonly name: WordName } =>
  Object.hasOwn(LINKED_WORDS, component.name);

/** Whether a component is a clip. */
export const isClip = ({ name }: Named): boolean => name === 'Clip';

/** Attributes of components and elements that name a file or an address. */
export const ADDRESS_ATTRIBUTES: ReadonlySet<string> = new Set(['src', 'href', 'poster', 'cite', 'captions']);
