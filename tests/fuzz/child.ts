/**
 * The process that checks cases. Before each it writes the case to a journal, so that the process that watches it knows
 * the case that hangs or ends it.
 */
import { openSync, writeSync } from 'node:fs';
import fc from 'fast-check';
import { checkWithin, findingOf } from './target.ts';
import { targetOf } from './targets.ts';

/** What the child is asked: the cases of a seed, from a place among them and so shrunk on, or one case alone. */
export type Asked =
  | { readonly seed: number; readonly count: number; readonly known: readonly string[] }
  | { readonly one: unknown };

/** What it answers. */
export type Answer =
  | { readonly kind: 'ready' }
  | {
      readonly kind: 'done';
      readonly cases: number;
      /** Processor seconds. */
      readonly cpu: number;
      readonly repeats: Readonly<Record<string, number>>;
    }
  | { readonly kind: 'found'; readonly finding: string; readonly message: string; readonly value: unknown };

const [name = '', journal = ''] = process.argv.slice(2);
const target = targetOf(name);
const file = openSync(journal, 'r+');
let written = 0;

/** The number of cases so far, the place of this one in its seed, the length of the text, the text. */
function record(place: number, value: unknown): void {
  const text = Buffer.from(JSON.stringify(value));
  const head = `${[written++, place, text.length].map((number) => `${number}`.padStart(15)).join('')}\n`;
  writeSync(file, Buffer.concat([Buffer.from(head), text]), 0, undefined, 0);
}

async function checkSeed({ seed, count, known }: Extract<Asked, { seed: number }>): Promise<Answer[]> {
  const skip = new Set(known);
  const repeats: Record<string, number> = {};
  const found: Answer[] = [];
  let cpu = process.cpuUsage();
  let cases = 0;
  for (;;) {
    cases = 0;
    cpu = process.cpuUsage();
    let shrinking: string | undefined;
    let message = '';
    const property = fc.asyncProperty(target.cases, async (value) => {
      record(cases, value);
      if (shrinking === undefined) cases++;
      try {
        await checkWithin(target, value);
      } catch (error) {
        const finding = findingOf(error);
        if (skip.has(finding)) {
          if (known.includes(finding)) repeats[finding] = (repeats[finding] ?? 0) + 1;
          return;
        }
        // A smaller case counts only where it shows the same.
        if (shrinking !== undefined && finding !== shrinking) return;
        shrinking = finding;
        message = error instanceof Error ? (error.stack ?? error.message) : String(error);
        throw error;
      }
    });
    const result = await fc.check(property, { seed, numRuns: count });
    if (!result.failed || shrinking === undefined) break;
    found.push({ kind: 'found', finding: shrinking, message, value: result.counterexample?.[0] });
    // The same seed again without this finding: there may be others behind it.
    skip.add(shrinking);
  }
  const { user, system } = process.cpuUsage(cpu);
  return [...found, { kind: 'done', cases, cpu: (user + system) / 1e6, repeats }];
}

async function checkOne(value: unknown): Promise<Answer[]> {
  record(0, value);
  try {
    await checkWithin(target, value);
    return [{ kind: 'done', cases: 1, cpu: 0, repeats: {} }];
  } catch (error) {
    return [{ kind: 'found', finding: findingOf(error), message: String(error), value }];
  }
}

const send = (answer: Answer): boolean | undefined => process.send?.(answer);
process.on('message', async (asked: Asked) => {
  const answers = 'seed' in asked ? await checkSeed(asked) : await checkOne(asked.one);
  for (const answer of answers) send(answer);
});
process.on('disconnect', async () => {
  await target.stop?.();
  process.exit();
});
await target.start?.();
send({ kind: 'ready' });
