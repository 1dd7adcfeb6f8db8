/** What keeps browsers from showing a file of captions, after W3C’s “WebVTT: The Web Video Text Tracks Format”, section 4. */

export interface CaptionsFault {
  /** A sentence that continues from the name of the file. */
  readonly what: string;
  readonly fix: string;
}

const TIME = /^(?:\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3}$/;

/** What is wrong with the text of a WebVTT file; undefined if nothing is. */
export function captionsFault(text: string): CaptionsFault | undefined {
  if (!/^WEBVTT(?:[ \t\r\n]|$)/.test(text)) {
    return {
      what: 'does not begin with the word WEBVTT, so no browser shows it',
      fix: 'Write WEBVTT into its first line, and leave the second one empty.',
    };
  }
  const lines = text.split(/\r\n|\r|\n/);
  const timed = [...lines.entries()].filter(([, line]) => line.includes('-->'));
  const fix = 'Write times as in 00:01.500 --> 00:04.000, and below each pair what is said.';
  if (timed.length === 0) return { what: 'has no captions in it', fix };
  for (const [index, line] of timed) {
    const [from = '', remaining = ''] = line.split('-->');
    const times = [from.trim(), remaining.trim().split(/\s/)[0] ?? ''];
    const odd = times.find((time) => !TIME.test(time));
    if (odd !== undefined) return { what: `has “${odd}” for a time in its line ${index + 1}`, fix };
  }
  return undefined;
}
