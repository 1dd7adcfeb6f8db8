/** In characters: a terminal of the usual width, less a margin. */
const WIDTH = 92;

/** A text in lines that fit a terminal of this width, each set in by so many characters. */
export function wrap(text: string, indent: number, width = WIDTH): string[] {
  const lines: string[] = [];
  for (const paragraph of text.split('\n')) {
    let line = '';
    for (const word of paragraph.split(' ')) {
      if (line !== '' && indent + line.length + 1 + word.length > width) {
        lines.push(line);
        line = word;
      } else line = line === '' ? word : `${line} ${word}`;
    }
    lines.push(line);
  }
  return lines.map((line) => (line === '' ? '' : ' '.repeat(indent) + line));
}
