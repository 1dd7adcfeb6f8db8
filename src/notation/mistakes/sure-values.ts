/** Which values of settings can mean nothing else than the one that is suggested for them. */
import type { SUGGESTIONS } from '../suggestions.ts';

const NUMERAL = /^(?:x|i|ii|iii|iv|v|vi|vii|viii|ix|xi|xii)$/i;
const ORDINAL =
  /^(?:\d{1,2}(?:st|nd|rd|th)|first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|straight|cross|slant)$/i;
const LENGTH =
  /^(?:1[:\\-]\d{1,2}|1\/\d{1,2}(?:st|nd|th)|\d{1,2}(?:st|nd|th)s?|(?:whole|half|quarter|eighth|sixteenth|thirty-?second)s?)$/i;

/** What may be beside a value, for each setting. */
const BESIDE: Readonly<Partial<Record<string, RegExp>>> = {
  harp: /\b(?:harp|harmonica|in the key of|key of|in|key|major|maj)\b/gi,
  position: /\b(?:position|pos|harp)\b\.?/gi,
  tempo: /\s*\b(?:bpm|beats? *(?:a|per|\/) *min(?:ute)?)\b\.?|(?<=\d)bpm\b/gi,
  meter: /\btime\b/gi,
  slot: /\bnotes?\b/gi,
  feel: /\b(?:feel|time)\b/gi,
  key: /\b(?:key|mode)\b/gi,
};

/** The values that are another way to write one, for each setting: common practice, no source. */
const SURE: Readonly<Record<keyof typeof SUGGESTIONS, RegExp>> = {
  harp: /^(?:low |high )?[A-G](?:[b#♭♯]|[ -]?flat|[ -]?sharp)?(?: low| high)?$|^(?:low|high)[A-G][b#]?$/i,
  position: new RegExp(`${ORDINAL.source}|${NUMERAL.source}`, 'i'),
  key: /^(?:[A-Ga-g][b#♭♯]?(?:m| ?(?:min|minor|maj|major|dor|dorian|phrygian|lydian|mixolydian|locrian|aeolian|ionian)))$|^(?:min|maj|aeolian|ionian)$/,
  meter: /^\d{1,2}\s*[-:\\|⁄∕ ]\s*\d{1,2}$|^(?:common|cut|alla breve|six-eight)$/i,
  tempo: /^\d{2,3}(?:[.,]\d)?$/,
  feel: /^(?:shuffle[ds]?|swung|\d{2}[-/]\d{2}|even)$/i,
  slot: LENGTH,
  mouth: /^(?:lips?|lip pursing|pucker(?:ed|ing)?|purse[ds]?|tongue[ -]?block(?:ed|ing)?|TB)$/i,
};

/** A value without what may be around and beside it. */
const plainValue = (key: string, text: string): string =>
  text
    .replace(/^["'“”‘’]+|["'“”‘’,;.]+$/g, '')
    .replace(BESIDE[key] ?? /(?!)/, '')
    .replace(/\s+/g, ' ')
    .trim();

/** The value without quotation marks around it, and without a comma or a period behind it. */
export const unquotedValue = (text: string): string =>
  text
    .replace(/^(["'])(.*)\1$/, '$2')
    .replace(/[,;.]$/, '')
    .trim();

/** Whether a text for a setting can mean nothing else than the value. */
export function isSureValue(key: string, text: string, value: string): boolean {
  const plain = plainValue(key, text);
  const pattern: RegExp | undefined = Object.entries(SURE).find(([name]) => name === key)?.[1];
  return letters(plain) === letters(value) || pattern?.test(plain) === true;
}

/** Capital letters and what is between words make no difference. */
const letters = (text: string): string => text.toLowerCase().replace(/[\s_-]+/g, '-');
