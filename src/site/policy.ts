/**
 * What a page of the site may load: its own files, and nothing inline but the few lines that apply a visitor's choices before
 * anything is painted, named by their digest. Nothing is asked of another site before a
 * click: a recording there is fetched when it is played, and a page of another site is framed when it is opened (the page says before
 * where it leads).
 */
import { createHash } from 'node:crypto';

/** Before the first paint: what the visitor chose last, if they did: light or dark, and how music is shown. */
export const CHOICE_SCRIPT =
  "try{var c={light:['day','night'],music:['lanes','staff']};for(var k in c){var v=localStorage.getItem('reedway-'+k);if(c[k].includes(v))document.documentElement.dataset[k]=v}}catch(e){}";

const digest = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/** On a page at an old address: what was behind it, such as #block-walk, goes along to the new one. */
export const MOVED_SCRIPT = 'location.replace(document.documentElement.dataset.movedTo+location.search+location.hash)';

const policyWith = (script: string): string =>
  [
    "default-src 'none'",
    `script-src 'self' ${digest(script)}`,
    "worker-src 'self'",
    "style-src 'self'",
    "img-src 'self' data:",
    "media-src 'self' blob: https:",
    "font-src 'self'",
    "connect-src 'self'",
    'frame-src https:',
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');

/** The content security policy of every page. */
export const POLICY = policyWith(CHOICE_SCRIPT);
/** The same of a page at an old address. */
export const MOVED_POLICY = policyWith(MOVED_SCRIPT);
