/**
 * What engraving costs: processor time of whole blocks (staff, lanes, roles, words, text alternative) as they go to the page, as a
 * ratio to drawing the staff of the same bars through VexFlow’s own SVG output on jsdom, and through Verovio from its own format.
 * Each way runs in a process of its own, warm, and the least of some rounds counts; the ways take turns, and the ratio is the
 * median of those of each turn.
 */
import { loadCourse } from '../src/course/load.ts';
import type { Score } from '../src/score/score.ts';
import { itemAt } from '../src/values/checked.ts';
import { writeCourse } from './course.ts';
import { inFolder } from './folder.ts';
import { leastOf, runNode } from './measure.ts';
import { atMost, count, megabytes, ratio, row, type Section, seconds } from './table.ts';

const LESSONS = 24;
const ROUNDS = 6;
const TURNS = 3;

interface Result {
  readonly cpu: number;
  readonly blocks: number;
  readonly bars: number;
  readonly bytes: number;
  readonly memory: number;
}

export async function engraving(): Promise<Section> {
  return inFolder(async (folder) => {
    writeCourse(folder, { lessons: LESSONS, blocks: 6, words: 20 });
    const turns: Record<Way, Result>[] = [];
    for (let turn = 0; turn < TURNS; turn++) {
      const [jsdom, verovio] = [await result('jsdom', folder), await result('verovio', folder)];
      turns.push({ jsdom, verovio, block: await result('block', folder) });
    }
    const least = (way: Way): number => Math.min(...turns.map((turn) => turn[way].cpu / turn[way].bars));
    const to = (way: Way): number =>
      itemAt(
        turns.map((turn) => turn.block.cpu / turn[way].cpu).sort((a, b) => a - b),
        TURNS >> 1,
      );
    const { block, jsdom, verovio } = itemAt(turns, 0);
    return {
      title: 'Engraving',
      how: `${count(block.blocks)} blocks, ${count(block.bars)} bars of made-up music, nothing kept from before; processor time with garbage collection, least of ${ROUNDS} rounds, ${TURNS} turns.`,
      rows: [
        row('a bar’s staff, by VexFlow’s own SVG output on jsdom', seconds(least('jsdom'))),
        row('a bar’s staff, by Verovio from its own format', seconds(least('verovio'))),
        row('a bar whole, ours: staff, lanes, roles, words', seconds(least('block'))),
        atMost('our whole bar to jsdom’s staff', to('jsdom'), 0.16, ratio),
        atMost('our whole bar to Verovio’s staff', to('verovio'), 0.2, ratio),
        row('memory of the process, jsdom', megabytes(jsdom.memory)),
        row('memory of the process, Verovio', megabytes(verovio.memory)),
        row('memory of the process, ours', megabytes(block.memory)),
      ],
    };
  });
}

async function result(way: Way, folder: string): Promise<Result> {
  return JSON.parse((await runNode('bench/engraving.ts', way, folder)).out) as Result;
}

async function measured(way: string, folder: string): Promise<Result> {
  const scores = loadCourse(folder)
    .lessons.slice(12)
    .flatMap(({ blocks }) => blocks.flatMap(({ score }) => score ?? []));
  const draw = await WAYS[way as Way](scores);
  let bytes = 0;
  const all = (): void => {
    bytes = 0;
    for (let index = 0; index < scores.length; index++) bytes += draw(index).length;
  };
  all();
  const { cpu } = await leastOf(ROUNDS, all);
  const bars = scores.reduce((sum, score) => sum + score.bars.length, 0);
  return { cpu, blocks: scores.length, bars, bytes, memory: process.memoryUsage().rss };
}

type Drawing = (index: number) => { readonly length: number };
type Way = keyof typeof WAYS;

/** Each draws the score of a number; what it returns only shows that it did. */
const WAYS = {
  async jsdom(scores: readonly Score[]): Promise<Drawing> {
    const { drawOnJsdom, prepare, staffOf } = await import('./jsdom-staff.ts');
    prepare();
    const staves = scores.map(staffOf);
    return (index) => drawOnJsdom(itemAt(staves, index));
  },
  async verovio(scores: readonly Score[]): Promise<Drawing> {
    const [{ humdrum }, { VerovioToolkit }] = await Promise.all([
      import('../tests/outside/humdrum.ts'),
      import('verovio/esm'),
    ]);
    const started = async (module: Promise<{ default: () => Promise<unknown> }>, inputFrom: string) => {
      const toolkit = new VerovioToolkit(await (await module).default());
      toolkit.setOptions({ inputFrom, breaks: 'none', header: 'none', footer: 'none', adjustPageWidth: true });
      return toolkit;
    };
    const reader = await started(import('verovio/wasm-hum'), 'humdrum');
    const files = scores.map((score) => {
      if (!reader.loadData(humdrum(score))) throw new Error('Verovio does not read the score.');
      return reader.getMEI({ removeIds: true });
    });
    const engraver = await started(import('verovio/wasm'), 'mei');
    return (index) => {
      if (!engraver.loadData(itemAt(files, index))) throw new Error('Verovio does not read its own file.');
      return engraver.renderToSVG(1);
    };
  },
  async block(scores: readonly Score[]): Promise<Drawing> {
    const { engraveBlock } = await import('../src/engrave/block.ts');
    return (index) => engraveBlock(itemAt(scores, index), { id: `b${index}` }).html;
  },
};

if (import.meta.main) {
  const [way, folder] = process.argv.slice(2);
  if (way !== undefined && folder !== undefined) console.log(JSON.stringify(await measured(way, folder)));
  else (await import('./table.ts')).print(await engraving());
}
