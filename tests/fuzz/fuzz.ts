/**
 * Random cases for the targets, for some minutes or some number of cases. Ends with 1 where something was found.
 *
 *     npm run fuzz -- [--minutes N] [--cases N] [--seed S] [--only NAME]…
 */
import { parseArgs } from 'node:util';
import { type RunResult, run } from './run.ts';
import { TARGETS } from './targets.ts';

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '10' },
    cases: { type: 'string' },
    seed: { type: 'string' },
    only: { type: 'string', multiple: true, default: [] },
  },
});

const numberOf = (name: 'minutes' | 'cases' | 'seed'): number | undefined => {
  const text = values[name];
  if (text === undefined) return undefined;
  const number = Number(text);
  if (text.trim() === '' || !Number.isFinite(number) || number < 0) refuse(`--${name} takes a number.`);
  return number;
};

function refuse(message: string): never {
  console.error(message);
  process.exit(2);
}

const unknown = values.only.filter((name) => !TARGETS.some((target) => target.name === name));
const names = TARGETS.map(({ name }) => name).join(', ');
if (unknown.length > 0) refuse(`There is no target ${unknown.join(', ')}. There are ${names}.`);
const wanted = TARGETS.filter(({ name }) => values.only.length === 0 || values.only.includes(name));

for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => process.exit(1));

const seed = Math.trunc(numberOf('seed') ?? Date.now() % 1e9);
const seconds = (60 * (numberOf('minutes') ?? 10)) / wanted.length;
const cases = numberOf('cases') ?? Number.POSITIVE_INFINITY;
console.log(`seed ${seed}: ${wanted.map(({ name }) => name).join(', ')}, ${(seconds / 60).toFixed(1)} minutes each`);

const results: RunResult[] = [];
for (const target of wanted) results.push(await run(target, { seconds, cases, seed, say: console.log }));

for (const { target, cases: tried, seconds: took, cpu, found } of results) {
  const speed = `${(tried / took).toFixed(1)} a second`;
  const own = `${(tried / cpu).toFixed(1)} a processor second`;
  console.log(
    `${target.padEnd(10)} ${`${tried}`.padStart(9)} cases ${speed.padStart(16)} ${own.padStart(26)}   ${found.length} found`,
  );
}
if (results.some(({ found }) => found.length > 0)) process.exitCode = 1;
