import type { Reporter, SerializedError, TestModule } from 'vitest/node';

/** Closes a run with one plain line of counts, after any notes. */
export class SummaryReporter implements Reporter {
  readonly #notes: readonly string[];

  constructor(notes: readonly string[]) {
    this.#notes = notes;
  }

  onTestRunEnd(modules: readonly TestModule[], unhandled: readonly SerializedError[]): void {
    const count = { passed: 0, failed: unhandled.length, skipped: 0, pending: 0 };
    for (const module of modules) {
      // A file that does not load has no tests to fail, so it counts as one itself.
      count.failed += module.errors().length;
      for (const suite of module.children.allSuites()) count.failed += suite.errors().length;
      for (const test of module.children.allTests()) count[test.result().state] += 1;
    }
    for (const note of this.#notes) console.log(note);
    const unrun = count.skipped + count.pending;
    console.log(`${count.passed} passed, ${count.failed} failed${unrun > 0 ? `, ${unrun} skipped` : ''}`);
  }
}
