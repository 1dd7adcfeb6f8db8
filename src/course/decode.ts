/** Bytes of a course’s text file as text. */
import { isUtf8 } from 'node:buffer';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import { COURSE_PROBLEMS } from './problems.ts';

const report = reporter(COURSE_PROBLEMS);

/** Text of a file's bytes. Bytes that are no UTF-8 become U+FFFD, and the first of them is reported. */
export function decode(bytes: Buffer): { readonly text: string; readonly diagnostics: readonly Diagnostic[] } {
  const decoded = bytes.toString('utf8');
  const text = decoded.startsWith('\ufeff') ? decoded.slice(1) : decoded;
  const diagnostics: Diagnostic[] = [];
  if (!isUtf8(bytes)) {
    const at = Math.max(0, firstBadByte(bytes, decoded) - (decoded.length - text.length));
    diagnostics.push(report('file-not-utf8', { from: at, to: at + 1 }, {}));
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
  const control = /[\0-\x08\x0b\x0e-\x1f\x7f]/.exec(text);
  if (control && diagnostics.length === 0) {
    const name =
      control[0] === '\0' ? 'NUL' : `U+${control[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
    diagnostics.push(report('file-control-character', { from: control.index, to: control.index + 1 }, { name }));
  }
  return { text, diagnostics };
}

/** The offset in the decoded text of the first replacement character that was not in the bytes. */
function firstBadByte(bytes: Buffer, decoded: string): number {
  let byte = 0;
  let at = 0;
  for (const character of decoded) {
    if (character === '\ufffd' && !(bytes[byte] === 0xef && bytes[byte + 1] === 0xbf && bytes[byte + 2] === 0xbd))
      return at;
    byte += Buffer.byteLength(character);
    at += character.length;
  }
  return 0;
}
