import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import benchmarks from '../../references/benchmarks.json';

const folder = join(import.meta.dirname, '../bench');
const files = globSync('*.bench.ts', { cwd: folder }).map((name) => ({
  name,
  text: readFileSync(join(folder, name), 'utf8'),
}));

// Whether a ratio holds is for a quiet machine to say: here only whether the table is one, and of these benchmarks.
test('the table of benchmarks is dated, and each row has its two sides and their ratio', () => {
  expect(benchmarks.date).toMatch(/^\d{4}-\d\d-\d\d$/);
  expect(new Date(benchmarks.date).toJSON().slice(0, 10)).toBe(benchmarks.date);
  expect(benchmarks.node).toMatch(/^\d+\.\d+\.\d+$/);
  expect(benchmarks.cpu).not.toBe('');
  expect(benchmarks.cores).toBeGreaterThan(0);
  expect(benchmarks.load).toBeGreaterThanOrEqual(0);
  for (const row of benchmarks.rows) {
    expect(['ms', 'bytes']).toContain(row.unit);
    for (const n of [row.ratio, row.ours, row.theirs]) expect(n).toBeGreaterThan(0);
    expect(`${row.what}${row.note}`).not.toContain('undefined');
  }
  const named = benchmarks.rows.map(({ what, peer }) => `${what} beside ${peer}`);
  expect(new Set(named).size).toBe(named.length);
});

test('every peer in the table is in a benchmark, and every benchmark in the table', () => {
  const has = (text: string): boolean => benchmarks.rows.some(({ peer }) => text.includes(`'${peer}'`));
  for (const { peer } of benchmarks.rows)
    expect(
      files.some(({ text }) => text.includes(`'${peer}'`)),
      peer,
    ).toBe(true);
  for (const { name, text } of files) expect(has(text), name).toBe(true);
});
