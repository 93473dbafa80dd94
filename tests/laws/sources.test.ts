import { existsSync, globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { answered, formulas, runsOf } from '../generators.ts';

const root = join(import.meta.dirname, '../..');
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const known = new Set((JSON.parse(read('references/sources.json')) as { id: string }[]).map(({ id }) => id));

const files = (folder: string, pattern: string): string[] =>
  existsSync(join(root, folder))
    ? globSync(pattern, { cwd: join(root, folder) })
        .map((file) => join(folder, file))
        .sort()
    : [];
const core = files('packages/core/src', '**/*.ts');
const records = [...files('references/checks', '*.json'), ...files('references/tables', '**/*.json')];

/** Ids that a text cites: `source: 'x'`, `sources: ['x', 'y']`, in code or in JSON. */
function citedIn(text: string): string[] {
  const one = [...text.matchAll(/\bsource"?: ?['"]([^'"]+)['"]/g)].map(([, id]) => id as string);
  const lists = [...text.matchAll(/\bsources"?: ?\[([^\]]*)\]/g)].map(([, list]) => list as string);
  return [
    ...one,
    ...lists.flatMap((list) => [...list.matchAll(/['"]([^'"]+)['"]/g)].map(([, id]) => id as string)),
  ];
}

test('every id in the list of sources stands there once', () => {
  expect(known.size).toBe((JSON.parse(read('references/sources.json')) as unknown[]).length);
});

test.each(formulas)('$id: its sources, and those of its constants, are in the list', ({ formula }) => {
  const constants = Object.values(formula.constants ?? {}) as { source?: string }[];
  const cited = [...formula.sources, ...constants.flatMap(({ source }) => source ?? [])];
  expect(cited.filter((id) => !known.has(id))).toEqual([]);
});

test.each(formulas)('$id: the sources of the cautions it gives are in the list', ({ formula }) => {
  fc.assert(
    fc.property(answered(formula), (inputs) => {
      const cited = formula(inputs).cautions.flatMap(({ sources }) => sources);
      expect(cited.filter((id) => !known.has(id))).toEqual([]);
    }),
    { numRuns: runsOf(formula) },
  );
});

test.each([...core, ...records])('%s cites only sources in the list', (file) => {
  expect(citedIn(read(file)).filter((id) => !known.has(id))).toEqual([]);
});

test('every source in the list is used: by a formula, a row, the catalogue or a table', () => {
  // A helper may take an id by its place among its arguments, so any quoted one counts.
  const quoted = [...core, ...records].flatMap((file) => read(file).match(/(["'])[\w.-]+\1/g) ?? []);
  const used = new Set(quoted.map((text) => text.slice(1, -1)));
  expect([...known].filter((id) => !used.has(id))).toEqual([]);
});
