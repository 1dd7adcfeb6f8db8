/**
 * All that is measured, one subject after the other, and at the end what was aimed at. Nothing here fails for being slow.
 *
 *     npm run bench [-- SUBJECT…]
 */
import { spawn } from 'node:child_process';
import { cpus } from 'node:os';
import { building } from './building.ts';
import { checking } from './checking.ts';
import { engraving } from './engraving.ts';
import { growth } from './growth.ts';
import { interchange } from './interchange.ts';
import { load } from './load.ts';
import { busy, ROOT } from './measure.ts';
import { pageWeight } from './page.ts';
import { parsing } from './parsing.ts';
import { path } from './path.ts';
import { progress } from './progress.ts';
import { print, type Row, type Section } from './table.ts';

const SUBJECTS: Readonly<Record<string, () => Promise<Section>>> = {
  engraving,
  building: () => building(),
  checking: () => checking(),
  path,
  progress,
  page: pageWeight,
  parsing,
  growth,
  interchange,
  load,
};
/** These need a browser, and print for themselves. */
const IN_BROWSER = ['harp', 'sound'];

const asked = process.argv.slice(2);
const known = [...Object.keys(SUBJECTS), ...IN_BROWSER];
const unknown = asked.filter((name) => !known.includes(name));
if (unknown.length > 0) {
  console.error(`There is no subject ${unknown.join(', ')}. There are ${known.join(', ')}.`);
  process.exit(2);
}
const wanted = asked.length === 0 ? known : asked;

const [processor] = cpus();
console.log(`Node ${process.version}, ${cpus().length} × ${processor?.model}, load ${busy()}`);
const aims: Row[] = [];
for (const [name, measure] of Object.entries(SUBJECTS)) {
  if (!wanted.includes(name)) continue;
  await orTold(name, async () => {
    const section = await measure();
    print(section);
    aims.push(
      ...section.rows
        .filter(({ aim }) => aim !== undefined)
        .map((row) => ({ ...row, what: `${section.title}: ${row.what.trim()}` })),
    );
  });
}
for (const name of IN_BROWSER.filter((one) => wanted.includes(one))) await orTold(name, () => runApart(name));
if (aims.length > 0)
  print({
    title: 'What was aimed at',
    how: `Load ${busy()}. Figures by the clock mean little on a busy machine.`,
    rows: aims,
  });

/** A subject that cannot be measured here is said to be so, and the others are still measured. */
async function orTold(name: string, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    console.log(`\n${name} could not be measured: ${error instanceof Error ? error.message : error}`);
  }
}

function runApart(name: string): Promise<void> {
  const child = spawn(process.execPath, [`bench/${name}.ts`], { cwd: ROOT, stdio: 'inherit' });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => (code === 0 ? resolve() : reject(new Error(`bench/${name}.ts ended with ${code}`))));
  });
}
