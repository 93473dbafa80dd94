import { fileURLToPath } from 'node:url';

// What is mutated: a folder or a file of the core, such as `MUTATE=roll` or `MUTATE=quantity.ts`, or lines of one,
// `MUTATE=quantity.ts:10-40`; all of it without.
const part = process.env.MUTATE ?? '';
const core = 'packages/core/src';
const name = part === '' ? 'all' : part.replaceAll('/', '-').replaceAll(',', '+');
const files = part
  .split(',')
  .map((one) => (/\.ts(:|$)/.test(one) ? `${core}/${one}` : `${core}/${one}/**/*.ts`));

/** Stryker is run at the top of the workspace, since the tests read the references and the cases as well. */
export default {
  plugins: [fileURLToPath(new URL('./mutation.runner.mjs', import.meta.url))],
  testRunner: 'one-process',
  mutate: part === '' ? [`${core}/**/*.ts`] : files,
  // Words and citations are read by people: no test can say that another would be wrong.
  ignorers: ['citations'],
  mutator: { excludedMutations: ['StringLiteral'] },
  // What runs once on loading is the definitions: their limits, constants and rows have laws of their own.
  ignoreStatic: true,
  coverageAnalysis: 'perTest',
  incremental: true,
  incrementalFile: `tests/output/mutation/${name}.incremental.json`,
  reporters: ['json', 'progress-append-only'],
  jsonReporter: { fileName: `tests/output/mutation/${name}.json` },
  ignorePatterns: ['docs-site', 'dist', 'tests/output', 'tests/site', 'tests/package'],
  tempDirName: 'tests/output/stryker',
  concurrency: Number(process.env.WORKERS ?? 1),
  timeoutMS: Number(process.env.TIMEOUT ?? 10_000),
  timeoutFactor: 2,
  dryRunTimeoutMinutes: 20,
  thresholds: { high: 95, low: 90, break: null },
};
