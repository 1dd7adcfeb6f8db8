/** The script of a page that makes recordings for the command line. */
import type { Recording } from '../../interchange/recording.ts';
import { recordingOf } from './recording.ts';

/** The bytes of a WAV file in base64: what leaves a page has to be text. */
async function record(recording: Recording): Promise<string> {
  const bytes = await recordingOf(recording);
  let text = '';
  // More arguments than this would overflow the stack.
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}

Object.assign(globalThis, { record });
