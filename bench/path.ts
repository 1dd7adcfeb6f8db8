/**
 * What the path costs: from lessons and scores that were read to the order, every check and the whole map, for courses of
 * 100 to 3,000 lessons. The growth from one size to the next is shown beside that of n log n.
 */
import { loadCourse } from '../src/course/load.ts';
import { checkPath } from '../src/curriculum/check.ts';
import { curriculumOf } from '../src/curriculum/curriculum.ts';
import { mapOf } from '../src/curriculum/map.ts';
import { sheetsOf } from '../src/curriculum/sheets.ts';
import { surveyor } from '../src/curriculum/survey.ts';
import { SHIPPED_REPERTOIRE } from '../src/technique/repertoire.ts';
import { present } from '../src/values/checked.ts';
import { writeCourse } from './course.ts';
import { inFolder } from './folder.ts';
import { leastOf, runNode } from './measure.ts';
import { atMost, count, type Row, ratio, row, type Section, seconds } from './table.ts';

const SIZES = [100, 300, 1000, 3000] as const;
const BLOCKS = 6;
const ROUNDS = 3;

/** Processor seconds of each stage. */
interface Costs {
  readonly survey: number;
  readonly graph: number;
  readonly checks: number;
  readonly map: number;
  readonly findings: number;
}

const whole = ({ survey, graph, checks, map }: Costs): number => survey + graph + checks + map;

export async function path(): Promise<Section> {
  const costs: [number, Costs][] = [];
  for (const size of SIZES) costs.push([size, await result(size)]);
  const rows = costs.flatMap(([size, cost], index): Row[] => {
    const total = whole(cost);
    const name = `${count(size)} lessons`;
    const shown = size === 1000 ? atMost(name, total, 2, seconds) : row(name, seconds(total));
    const before = costs[index - 1];
    if (!before) return [shown];
    const growth = total / whole(before[1]);
    const allowed = (size * Math.log(size)) / (before[0] * Math.log(before[0]));
    // A quarter more than the curve: what other programs do to the machine shows in the small sizes.
    return [shown, atMost(`  growth, where n log n grows ${ratio(allowed)}`, growth, 1.25 * allowed, ratio)];
  });
  const [, thousand] = present(
    costs.find(([size]) => size === 1000),
    'it',
  );
  return {
    title: 'The path',
    how: `Courses of ${BLOCKS} blocks a lesson, read beforehand; processor time, least of ${ROUNDS} rounds, each size in a process of its own.`,
    rows: [
      ...rows,
      row('of 1,000 lessons: techniques, breath, difficulty', seconds(thousand.survey)),
      row('of 1,000 lessons: graph, order, reduction, needs', seconds(thousand.graph)),
      row('of 1,000 lessons: checks', seconds(thousand.checks)),
      row('of 1,000 lessons: map', seconds(thousand.map)),
      row('findings in 1,000 lessons', count(thousand.findings)),
    ],
  };
}

const result = (lessons: number): Promise<Costs> =>
  inFolder(async (folder) => {
    writeCourse(folder, { lessons, blocks: BLOCKS, words: 10 });
    return JSON.parse((await runNode('bench/path.ts', folder)).out) as Costs;
  });

async function measured(folder: string): Promise<Costs> {
  const { path: read, file } = loadCourse(folder);
  const { lessons } = read.numbered;
  const stages = file.stages.map(({ id }) => id);
  const survey = () => lessons.map(surveyor(SHIPPED_REPERTOIRE));
  const surveys = survey();
  const graph = () => curriculumOf({ lessons, stages, repertoire: SHIPPED_REPERTOIRE, surveys });
  const curriculum = graph();
  const check = () => checkPath(curriculum, file.stages);
  const map = () => sheetsOf(curriculum).map((sheet) => mapOf(curriculum, sheet.lessons));
  map();
  const costs: number[] = [];
  for (const work of [survey, graph, check, map]) costs.push((await leastOf(ROUNDS, work)).cpu);
  const [a = 0, b = 0, c = 0, d = 0] = costs;
  return { survey: a, graph: b, checks: c, map: d, findings: check().length };
}

if (import.meta.main) {
  const [folder] = process.argv.slice(2);
  if (folder !== undefined) console.log(JSON.stringify(await measured(folder)));
  else (await import('./table.ts')).print(await path());
}
