// Verses under the lines of a block, and what is sung of them in the order of playing. The nth verse is sung the nth time through a
// repeat, as song books have it (common practice, no source). Two conventions of the notation, from its guide: what only has words for
// its first time is sung each time, and in an ending a verse that it is not for counts as that of its first time.
import type { Plan } from './plan.ts';
import type { Random } from './random.ts';

export class Words {
  readonly features = new Set<string>();
  #r: Random;
  #plan: Plan;
  #used: boolean;
  #count = 0;
  // By bar: for each verse what is sung, in the order of the notes.
  #texts: Map<number, { note: number; text: string }[]>[];

  constructor(r: Random, plan: Plan) {
    this.#r = r;
    this.#plan = plan;
    this.#used = r.chance(0.4);
    this.#texts = plan.bars.map(() => new Map());
  }

  /** The lines under a written line, whose notes are in these bars. */
  under(bars: number[]): string[] {
    const r = this.#r;
    if (!this.#used || bars.length === 0 || r.chance(0.2)) return [];
    const verses = r.pick([[1], [1], [1, 2], [1, 2, 3], [2], [1, 3]]);
    return verses.map((verse, index) => {
      const words = bars.map((bar, note) => this.#word(verse, verses, bar, this.#count + note));
      if (index === verses.length - 1) this.#count += bars.length;
      const before = verses[index - 1] ?? 0;
      const plain = verse === before + 1 && r.chance(0.7);
      if (!plain) this.features.add('verse-number');
      if (verses.length > 1) this.features.add('verses');
      return `words${plain ? '' : ` ${verse}`}: ${words.join(' ')}`;
    });
  }

  #word(verse: number, verses: number[], bar: number, note: number): string {
    const endings = this.#plan.bars[bar]!.endings;
    let sung = verse;
    if (endings !== undefined && !endings.includes(verse)) {
      // A line of its own has the words of that time.
      if (verse !== verses[0] || verses.includes(endings[0]!)) return '*';
      sung = endings[0]!;
      this.features.add('verse-of-ending');
    }
    if (this.#r.chance(0.15)) return '*';
    const text = `v${sung}n${note}`;
    const list = this.#texts[bar]!.get(sung) ?? [];
    this.#texts[bar]!.set(sung, [...list, { note, text }]);
    return text;
  }

  /** What is sung, in the order of playing. */
  sung(): string[] {
    const times = new Map<number, number>();
    const { order, bars, jumped = order.length } = this.#plan;
    return order.flatMap((bar, place) => {
      const before = times.get(bar) ?? 0;
      // Behind a jump it is the last time through a repeat, and the second time elsewhere.
      const time = place < jumped || before === 0 ? before + 1 : Math.max(before, 2);
      if (place < jumped) times.set(bar, time);
      const { endings } = bars[bar]!;
      const last = place < jumped ? undefined : endings?.at(-1);
      const pass = last ?? (endings === undefined ? time : endings[time - 1]!);
      const texts = this.#texts[bar]!;
      const first = endings === undefined ? 1 : endings[0]!;
      const verse = texts.size === 1 && texts.has(first) ? first : pass;
      if (verse > 1 && texts.has(verse)) this.features.add('later-verse-sung');
      return (texts.get(verse) ?? []).map(({ text }) => text);
    });
  }
}
