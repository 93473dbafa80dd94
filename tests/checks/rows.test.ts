import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { catalog } from 'swathe/catalog';
import { describe, expect, test } from 'vitest';
import { checkRow, type Row, type RowFile } from './rows.ts';

const references = join(import.meta.dirname, '../../references');
const read = (path: string): unknown => JSON.parse(readFileSync(join(references, path), 'utf8'));
const sources = new Map(
  (read('sources.json') as { id: string; custom: { evidence: string } }[]).map((s) => [
    s.id,
    s.custom.evidence,
  ]),
);
const valid = new Ajv2020({ allErrors: true }).compile(read('checks.schema.json') as object);
const names = readdirSync(join(references, 'checks')).sort();
const fileOf = (id: string): RowFile => read(`checks/${id}.json`) as RowFile;

test('every formula has a file of rows, and there is no other file', () => {
  expect(names).toEqual(catalog.map(({ id }) => `${id}.json`).sort());
});

describe.each(names)('%s', (name) => {
  const file = read(`checks/${name}`) as RowFile;

  test('has the form of the schema', () => {
    expect(valid(file), JSON.stringify(valid.errors, null, 1)).toBe(true);
    expect(file.formula).toBe(basename(name, '.json'));
  });

  test('has ids that are used once', () => {
    expect(new Set(file.rows.map(({ id }) => id)).size).toBe(file.rows.length);
  });

  test('names a source for all but the facts of the trade, and says no more of it than was read', () => {
    for (const { id, kind, source, status } of file.rows) {
      expect(source === undefined, id).toBe(kind === 'common-practice');
      if (source === undefined) continue;
      const evidence = sources.get(source);
      expect(evidence, `${id}: ${source}`).toBeDefined();
      if (status === 'read') expect(evidence, id).toBe('read');
      if (status === 'abstract-only') expect(evidence, id).toBe('abstract-only');
    }
  });

  test('has at least one row from outside the project', () => {
    expect(file.rows.filter(({ source }) => source && !source.startsWith('derivation.'))).not.toEqual([]);
  });
});

/** The same rows with another expectation, which the formula must then fail. */
function otherwise(row: Row): Row[] {
  if (row.deviates !== undefined) return [];
  if (row.text !== undefined) return [{ ...row, text: `not ${row.text}` }];
  if (row.size !== undefined) return [{ ...row, size: String(Number(row.size) + 1) }];
  if (row.fires !== undefined) return [{ ...row, fires: !row.fires }];
  if (row.relation !== undefined) return [{ ...row, relation: row.relation === 'more' ? 'less' : 'more' }];
  const { printed = '', within } = row;
  const ends = printed.split('–');
  const decimals = ends[0]?.split('.')[1]?.length ?? 0;
  const wide = Number(ends.at(-1)) - Number(ends[0]);
  const by = typeof within === 'number' ? 2.1 * within : 2 * 10 ** -decimals + wide;
  const moved = (end: string, d: number): string =>
    typeof within === 'number' ? String(Number(end) + d) : (Number(end) + d).toFixed(decimals);
  return [by, -by].map((d) => ({ ...row, printed: ends.map((end) => moved(end, d)).join('–') }));
}

const failing: string[] = [];
let run = 0;

describe.each(catalog.map((formula) => ({ id: formula.id, formula })))('$id', ({ id, formula }) => {
  const { rows } = fileOf(id);

  test(`agrees with its ${rows.length} rows`, () => {
    const here: string[] = [];
    for (const row of rows) {
      run += 1;
      const { pass, got, expected } = checkRow(row, formula);
      if (!pass)
        here.push(`${id} ${row.id}: ${expected}, got ${got} (source ${row.source ?? 'common practice'})`);
    }
    failing.push(...here);
    expect(here).toEqual([]);
  });

  // A comparison that always agrees would pass everything above.
  test('would not agree with anything else', () => {
    expect(rows.flatMap(otherwise).filter((row) => checkRow(row, formula).pass)).toEqual([]);
  });
});

test('no row was left out', () => {
  if (failing.length > 0) console.error(failing.join('\n'));
  expect(run).toBe(names.reduce((sum, name) => sum + (read(`checks/${name}`) as RowFile).rows.length, 0));
});
