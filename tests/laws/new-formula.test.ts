import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { AnyFormula } from 'swathe';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { newFormula } from '../../.ci/new-formula.ts';
import { checkRow, type RowFile } from '../checks/rows.ts';

const repository = join(import.meta.dirname, '../..');
const root = mkdtempSync(join(tmpdir(), 'swathe-skeleton-'));
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const id = 'coverage.not-yet-made';
const places = [
  'packages/core/src/coverage/not-yet-made.ts',
  `references/checks/${id}.json`,
  `docs-site/src/content/formulas/${id}.mdx`,
];
let wrote: readonly string[] = [];

beforeAll(() => {
  for (const path of places) mkdirSync(join(root, dirname(path)), { recursive: true });
  cpSync(join(repository, 'packages/core/src'), join(root, 'packages/core/src'), { recursive: true });
  symlinkSync(join(repository, 'packages/core/node_modules'), join(root, 'packages/core/node_modules'));
  wrote = newFormula(root, id);
});
afterAll(() => rmSync(root, { recursive: true }));

test('a skeleton has its three places, each with something left to do, and stands in both lists', () => {
  const lists = ['packages/core/src/catalog.ts', 'packages/core/src/index.ts'];
  expect(wrote).toEqual([...places, ...lists]);
  for (const path of places) expect(read(path), path).toContain('TODO');
  for (const path of lists)
    expect(read(path)).toMatch(
      /layer-map\.ts';\n.* \{ notYetMade \} from '.*not-yet-made\.ts';\n.*overlap-for/,
    );
});

test('it loads as a formula, the last of its domain, and its row fails until both are written', async () => {
  const { catalog } = (await import(join(root, 'packages/core/src/catalog.ts'))) as {
    catalog: readonly AnyFormula[];
  };
  const domain = catalog.filter((formula) => formula.id.startsWith('coverage.'));
  const skeleton = domain.at(-1) as AnyFormula;
  expect(skeleton.id).toBe(id);
  expect(catalog.indexOf(skeleton)).toBe(catalog.indexOf(domain.at(-2) as AnyFormula) + 1);
  const { rows } = JSON.parse(read(places[1] as string)) as RowFile;
  expect(rows.map((row) => checkRow(row, skeleton))).toEqual([
    { pass: false, got: 'TODO compute', expected: 'an answer' },
  ]);
});

test.each([
  [id, "id: got 'coverage.not-yet-made'; possible: one that has no file yet"],
  ['Coverage.Slab', "id: got 'Coverage.Slab'; possible: <domain>.<name>"],
  [undefined, "id: got ''; possible: <domain>.<name>"],
  ['skin.slab', "domain: got 'skin'; possible: coverage, layers, pressure, roll, segment, setting"],
  ['plan.slab', "domain: got 'plan'; possible: coverage,"],
  ['segment.frustum', "id: got 'segment.frustum'; possible: one that has no file yet"],
  ['roll.helix', "name: got 'helix'; possible: one that the library does not export yet"],
  ['roll.mm', "name: got 'mm'; possible: one that the library does not export yet"],
  ['roll.recheck', "name: got 'recheck'; possible: one"],
])('%s is refused, and nothing written', (wrong, says) => {
  const before = read('packages/core/src/catalog.ts');
  expect(() => newFormula(root, wrong)).toThrow(says);
  expect(read('packages/core/src/catalog.ts')).toBe(before);
});
