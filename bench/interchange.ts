/** How many blocks a second become files, on one core: of made-up music, several rounds, the least of them. */
import { loadCourse } from '../src/course/load.ts';
import { abcOf } from '../src/interchange/abc/document.ts';
import type { Credits } from '../src/interchange/credits.ts';
import { midiOf } from '../src/interchange/midi/file.ts';
import { musicXmlOf } from '../src/interchange/musicxml/document.ts';
import { tabTextOf } from '../src/interchange/tab-text.ts';
import type { Score } from '../src/score/score.ts';
import { writeCourse } from './course.ts';
import { inFolder } from './folder.ts';
import { leastOf } from './measure.ts';
import { atLeast, count, row, type Section } from './table.ts';

const ROUNDS = 6;
const CREDITS: Credits = { title: 'A block', lesson: 'A lesson', course: 'A course' };
const GOAL = 1000;

export async function interchange(): Promise<Section> {
  return inFolder(async (folder) => {
    writeCourse(folder, { lessons: 24, blocks: 6, words: 20 });
    const scores = loadCourse(folder).lessons.flatMap(({ blocks }) => blocks.flatMap(({ score }) => score ?? []));
    const rate = async (write: (score: Score) => unknown): Promise<number> => {
      const { cpu } = await leastOf(ROUNDS, () => {
        for (const score of scores) write(score);
      });
      return scores.length / cpu;
    };
    const shown = (blocks: number): string => `${count(Math.round(blocks))} a second`;
    return {
      title: 'Files for other programs',
      how: `${count(scores.length)} blocks of made-up music; processor time with garbage collection, least of ${ROUNDS} rounds.`,
      rows: [
        atLeast('MusicXML', await rate((score) => musicXmlOf(score, CREDITS)), GOAL, shown),
        atLeast('MIDI', await rate((score) => midiOf(score, CREDITS)), GOAL, shown),
        row('MIDI with the band', shown(await rate((score) => midiOf(score, CREDITS, 'both')))),
        row('ABC', shown(await rate((score) => abcOf(score, CREDITS)))),
        row('text', shown(await rate((score) => tabTextOf(score, CREDITS)))),
      ],
    };
  });
}
