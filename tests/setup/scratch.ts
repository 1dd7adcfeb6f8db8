/** A folder for what the files of one test run share. It is removed when the run ends. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    scratch: string;
  }
}

export default function setup(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'reedway-tests-'));
  project.provide('scratch', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
