/** What is fuzzed: how cases are made, and what has to hold for each of them. */
import type fc from 'fast-check';

export interface Target<Case> {
  readonly name: string;
  /** A case is kept as a file, so it goes through JSON unchanged. */
  readonly cases: fc.Arbitrary<Case>;
  /** Throws where a case breaks a rule. */
  readonly check: (value: Case) => void | Promise<void>;
  /** Processor seconds within which a case has to be done. */
  readonly limit: number;
  /** Cases made of one seed: a run goes from seed to seed. */
  readonly batch: number;
  /** Whether `npm test` can check its reproducers: quickly, and without a folder or a process of its own. */
  readonly pure: boolean;
  /** Starts what all cases need, such as a server. */
  readonly start?: () => Promise<void>;
  readonly stop?: () => Promise<void>;
}

/** A target without the type of its cases, which only it knows. */
export interface AnyTarget extends Omit<Target<unknown>, 'check'> {
  readonly check: (value: never) => void | Promise<void>;
}

/** A rule that a case breaks. Failures of one rule are one finding. */
export class BrokenRule extends Error {
  override readonly name = 'BrokenRule';
  readonly rule: string;

  constructor(rule: string, detail: string) {
    super(`${rule}\n${detail}`);
    this.rule = rule;
  }
}

/** Throws where a rule does not hold. The detail is worked out only then. */
export function must(holds: boolean, rule: string, detail: () => unknown = () => ''): void {
  if (holds) return;
  const shown = detail();
  throw new BrokenRule(rule, typeof shown === 'string' ? shown : JSON.stringify(shown));
}

/** Throws where a rule does not hold. What is before a colon is the rule, and what is behind it the case's own. */
export function demand(holds: boolean, what: string): asserts holds {
  if (!holds) throw new BrokenRule((what.split(':')[0] ?? '').replace(/\d+/g, '…'), what);
}

/** Which finding an error belongs to: the rule that is broken, or where in the program something was thrown. */
export function findingOf(error: unknown): string {
  if (error instanceof BrokenRule) return error.rule;
  if (!(error instanceof Error)) return `thrown: ${String(error).slice(0, 80)}`;
  const place = /\/((?:src|tests|node_modules)\/[^\s:)]+):\d+/.exec(error.stack ?? '')?.[1] ?? 'no place';
  // Names and numbers of the case would make every case a finding of its own.
  const words = (error.message.split('\n')[0] ?? '').replace(/["'“‘`].*?["'”’`]|\d+/g, '…').slice(0, 80);
  return `thrown: ${error.name} ${words} (${place})`;
}

/** Checks a case, its processor time included. */
export async function checkWithin(target: AnyTarget, value: unknown): Promise<void> {
  const before = process.threadCpuUsage();
  await target.check(value as never);
  const { user, system } = process.threadCpuUsage(before);
  const seconds = (user + system) / 1e6;
  must(seconds <= target.limit, `a case is done within ${target.limit} s`, () => `It took ${seconds.toFixed(1)} s.`);
}
