// What the tests import as `vitest` under mutation: the same `expect`, and tests that are kept here to be run again and again.
import { format } from 'node:util';
import { expect } from 'vitest-itself';

/** Every test, by its file and name. */
export const tests = new Map();
const after = new Map();
let file = '';
const names = [];

/** Loads a file of tests. */
export async function load(path, url) {
  file = path;
  await import(url);
}

const fill = (name, row, n) => {
  const places = name.match(/%[sdijo]/g)?.length ?? 0;
  const told = format(name.replaceAll('%#', n), ...(Array.isArray(row) ? row : [row]).slice(0, places));
  return told.replace(/\$(\w+)/g, (all, key) => row?.[key] ?? all);
};
const each = (define) => (rows) => (name, run, options) => {
  for (const [n, row] of rows.entries())
    define(fill(name, row, n), Array.isArray(row) ? () => run(...row) : () => run(row), options);
};

export function describe(name, run) {
  names.push(name);
  run();
  names.pop();
}
describe.each = each(describe);

export function test(name, run) {
  const full = [file, ...names, name].join(' > ');
  let id = full;
  for (let n = 2; tests.has(id); n++) id = `${full} (${n})`;
  const from = file;
  tests.set(id, async () => {
    try {
      await run();
    } finally {
      for (const done of after.get(from) ?? []) done();
    }
  });
}
test.each = each(test);

export const afterEach = (done) => after.set(file, [...(after.get(file) ?? []), done]);
export const afterAll = () => {};
export const vi = { setConfig: () => {} };
export { expect };
