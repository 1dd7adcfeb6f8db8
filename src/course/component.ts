/** What an author may write in a lesson between < and >. */
import { CLIP_ATTRIBUTES } from './clips.ts';
import { FIGURES } from './figure.ts';

export interface Component {
  /** The attributes it takes; undefined for a component whose attributes are its own affair. */
  readonly attributes?: Readonly<Record<string, 'required' | 'optional'>>;
}

/** The components of a lesson, by name. */
export const COMPONENTS: Readonly<Record<string, Component>> = {
  RoleTable: { attributes: FIGURES.RoleTable },
  HarpMap: { attributes: FIGURES.HarpMap },
  FormChart: { attributes: FIGURES.FormChart },
  BendLadder: { attributes: FIGURES.BendLadder },
  Clip: { attributes: CLIP_ATTRIBUTES },
};

/** Elements that would run or fetch something of their own. */
export const REFUSED_ELEMENTS: ReadonlySet<string> = new Set([
  'script',
  'iframe',
  'object',
  'embed',
  'style',
  'base',
  'link',
  'meta',
]);

/** Attributes that name a file or an address. */
export const ADDRESS_ATTRIBUTES: ReadonlySet<string> = new Set(['src', 'href', 'poster', 'captions']);
