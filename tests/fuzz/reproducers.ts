/** The cases that once failed, one file for each: `reproducers/TARGET/NAME.json`. */
import { createHash } from 'node:crypto';
import { globSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const FOLDER = fileURLToPath(new URL('reproducers/', import.meta.url));

export interface Reproducer {
  readonly target: string;
  /** What went wrong, as the fuzzer found it. */
  readonly finding: string;
  readonly value: unknown;
}

/** Keeps a case; gives the file's name in the folder. */
export function keepReproducer({ target, finding, value }: Reproducer): string {
  const text = `${JSON.stringify({ finding, case: value }, null, 2)}\n`;
  const digest = createHash('sha256').update(text).digest('hex').slice(0, 8);
  const words = finding
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
    .slice(0, 60);
  const file = join(target, `${words}-${digest}.json`);
  mkdirSync(join(FOLDER, target), { recursive: true });
  writeFileSync(join(FOLDER, file), text);
  return file;
}

/** All that are kept, with their files. */
export function keptReproducers(): (Reproducer & { readonly file: string })[] {
  return globSync('*/*.json', { cwd: FOLDER })
    .sort()
    .map((file) => {
      const { finding, case: value } = JSON.parse(readFileSync(join(FOLDER, file), 'utf8'));
      return { target: file.split('/')[0] ?? '', file, finding, value };
    });
}
