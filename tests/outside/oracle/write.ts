// The text of a block: settings in any order, then the music in lines.
import type { Word } from './music.ts';
import type { Plan } from './plan.ts';
import type { Random } from './random.ts';
import type { Words } from './words.ts';

export interface Setting {
  key: string;
  value: string;
}

export interface Writing {
  settings: Setting[];
  phrases: { name: string; words: Word[] }[];
  plan: Plan;
  bars: Word[][];
  words: Words;
  features: Set<string>;
}

/** The signs a word processor makes of ' and - and ". */
function processed(text: string, isChord: boolean): string {
  if (isChord) return `“${text.slice(1, -1)}”`;
  return text.replaceAll("''", '″').replaceAll("'", '’').replaceAll('-', '–');
}

export function writeBlock(r: Random, w: Writing): string {
  const typed = r.chance(0.04);
  if (typed) w.features.add('word-processor-signs');
  const shown = (word: Word): string =>
    typed && !word.text.startsWith('<') && !word.text.startsWith('@') && !word.text.includes('[')
      ? processed(word.text, word.symbol !== undefined)
      : word.text;
  const head = r.shuffle(w.settings.map((s) => `${s.key}: ${s.value}`));
  for (const phrase of w.phrases) head.push(`phrase ${phrase.name}: ${phrase.words.map(shown).join(' ')}`);
  const lines: string[] = [...head];
  if (head.length > 0 && r.chance(0.7)) lines.push('');
  const perLine = r.int(1, 5);
  let line: string[] = [];
  let notes: number[] = []; // the bar of each note of the line
  const flush = (): void => {
    if (line.length === 0) return;
    let text = line.join(' ');
    if (r.chance(0.02)) {
      text += ` # ${r.pick(['up', 'softly', 'and down again', 'breathe', 'watch hole 3'])}`;
      w.features.add('comment');
    }
    lines.push(text, ...w.words.under(notes));
    line = [];
    notes = [];
  };
  const odd = r.chance(0.1); // breaks inside bars as well
  w.bars.forEach((words, i) => {
    const bar = w.plan.bars[i]!;
    if (bar.part !== undefined) {
      if (bar.before !== '' && bar.before !== '|:') line.push(bar.before);
      flush();
      lines.push(`part: ${bar.part}`);
      w.features.add('part');
      if (bar.before === '|:') line.push(bar.before);
    } else if (bar.before === '|:' || bar.before.endsWith('1') || bar.before.endsWith('2')) {
      if (i > 0 && i % perLine === 0) flush();
      line.push(bar.before);
    } else if (bar.before !== '') {
      line.push(bar.before);
      if (i % perLine === 0) flush();
    }
    if (bar.again) {
      line.push('%');
      return;
    }
    for (const word of words) {
      line.push(shown(word));
      for (const item of word.items) if (item.kind === 'note') notes.push(i);
      if (odd && r.chance(0.08)) {
        flush();
        w.features.add('break-inside-bar');
      }
    }
  });
  if (w.plan.end !== '') line.push(w.plan.end);
  flush();
  return lines.join('\n');
}
