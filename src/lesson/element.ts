/**
 * Which elements of HTML a lesson may hold, and which attributes they take. The list is the default schema of
 * hast-util-sanitize, without what only forms have and without ids and names, which belong to the page; added are a few elements
 * of text and of media, which the schema leaves out because it was made for comments.
 */
import { defaultSchema } from 'hast-util-sanitize';
import { find, html } from 'property-information';

/** Elements of the schema that a lesson cannot use: a task list is written in Markdown, and `srcset` is not read. */
const ELEMENTS_LEFT_OUT: readonly string[] = ['input', 'picture', 'source'];

/** Attributes of the schema that belong to forms and image maps, or that give a student's keyboard other keys. */
const ATTRIBUTES_LEFT_OUT: readonly string[] = [
  ...[
    'accept',
    'acceptCharset',
    'action',
    'charSet',
    'checked',
    'cols',
    'coords',
    'encType',
    'htmlFor',
    'isMap',
    'label',
  ],
  ...[
    'longDesc',
    'maxLength',
    'media',
    'method',
    'multiple',
    'noHref',
    'prompt',
    'readOnly',
    'rows',
    'selected',
    'shape',
  ],
  ...['size', 'useMap', 'accessKey', 'tabIndex', 'itemProp', 'itemScope', 'itemType'],
];

const ADDED: Readonly<Record<string, readonly string[]>> = {
  a: ['target', 'rel', 'download'],
  abbr: [],
  audio: ['src', 'controls', 'loop', 'preload'],
  bdi: [],
  bdo: [],
  caption: [],
  cite: [],
  col: [],
  colgroup: [],
  dfn: [],
  figcaption: [],
  figure: [],
  mark: [],
  ol: ['reversed', 'type'],
  small: [],
  source: ['src', 'type'],
  time: [],
  track: ['src', 'kind', 'srclang', 'label', 'default'],
  u: [],
  video: ['src', 'controls', 'loop', 'preload', 'poster'],
  wbr: [],
};

const asWritten = (property: string): string => find(html, property).attribute;

/** The attributes that the schema allows for an element, or for all under `*`, as they are written in HTML. */
const inSchema = (element: string): readonly string[] =>
  // What the schema allows only with certain values, such as classes of a code block, is what compilers of Markdown write.
  (defaultSchema.attributes?.[element] ?? [])
    .filter((property) => typeof property === 'string')
    .filter((property) => !property.startsWith('data'))
    .filter((property) => !ATTRIBUTES_LEFT_OUT.includes(property) && !defaultSchema.clobber?.includes(property))
    .map(asWritten);

const OF_ALL = inSchema('*');
const allowedBySchema = (defaultSchema.tagNames ?? []).filter((name) => !ELEMENTS_LEFT_OUT.includes(name));

/** The attributes of every element a lesson may hold, by the name of the element. All names are in small letters. */
export const ELEMENTS: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  [...new Set([...allowedBySchema, ...Object.keys(ADDED)])]
    .sort()
    .map((name) => [
      name,
      new Set([
        ...(allowedBySchema.includes(name) ? inSchema(name) : []),
        ...(Object.hasOwn(ADDED, name) ? (ADDED[name] ?? []) : []),
        ...OF_ALL,
      ]),
    ]),
);
