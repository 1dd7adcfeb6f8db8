/** The last line of a test run, in one form whatever happened: `N passed, N failed`. */
import type { Reporter, TestModule } from 'vitest/node';

export default class Tally implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    let passed = 0;
    // A file that cannot be loaded has no tests to fail, and an error outside of all tests belongs to none.
    let failed = errors.length;
    for (const module of modules) {
      failed += module.errors().length;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed++;
        else if (state === 'failed') failed++;
      }
    }
    // After the summary of the reporter before this one.
    process.on('exit', () => process.stdout.write(`${passed} passed, ${failed} failed\n`));
  }
}
