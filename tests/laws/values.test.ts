import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { applicationPlan, digits12 } from 'swathe';
import { catalog } from 'swathe/catalog';
import { expect, test } from 'vitest';
import type { RowFile } from '../checks/rows.ts';
import { answersIn, casesFolder, orderOf } from '../plan/cases.ts';

const root = join(import.meta.dirname, '../..');
const report = join(root, 'references/values.txt');

/** Numbers at the 12 digits that every runtime agrees on, so that the report is the same on all of them. */
const settled = (value: unknown): string =>
  JSON.stringify(value, (_, x) => (typeof x === 'number' ? digits12(x) : x));

/** A short value as it is, a long one by its digest. */
const told = (value: unknown): string => {
  const text = settled(value);
  return text.length <= 80 ? text : `sha256 ${createHash('sha256').update(text).digest('hex').slice(0, 16)}`;
};

function lines(): string[] {
  const rows = catalog.flatMap((formula) => {
    const file = join(root, 'references/checks', `${formula.id}.json`);
    const { rows } = JSON.parse(readFileSync(file, 'utf8')) as RowFile;
    const seen = new Set<string>();
    return rows.flatMap(({ id, given }) => {
      if (seen.has(JSON.stringify(given))) return [];
      seen.add(JSON.stringify(given));
      const { by, value } = formula.fromJson(given);
      return [`${by} ${id} ${told(value)}`];
    });
  });
  const plans = readdirSync(casesFolder).flatMap((file) => {
    const name = file.replace('.json', '');
    return answersIn(applicationPlan.fromJson(orderOf(name))).map(
      ({ by, value }, n) => `${by} ${name} ${n} ${told(value)}`,
    );
  });
  return [...rows, ...plans];
}

// UPDATE=1 writes it anew, once each moved number has its revision and its line in the changelog.
test('no number has moved unseen: every formula on the inputs of its rows, and every plan of the demo', () => {
  const now = lines();
  if (process.env['UPDATE']) writeFileSync(report, `${now.join('\n')}\n`);
  expect(existsSync(report), report).toBe(true);
  const before = readFileSync(report, 'utf8').trimEnd().split('\n');
  const moved = now.filter((line, n) => line !== before[n]);
  expect(
    moved.slice(0, 20),
    'raise the revision, tell it in CHANGELOG.md as *numbers*, then run with UPDATE=1',
  ).toEqual([]);
  expect(now).toHaveLength(before.length);
}, 120_000);

test('a revision after the first says what changed, in the definition and in the changelog', () => {
  const changelog = readFileSync(join(root, 'CHANGELOG.md'), 'utf8');
  const silent = catalog.flatMap(({ id, revision, changes }) =>
    Array.from({ length: revision - 1 }, (_, n) => n + 2)
      .filter((r) => !changes?.[r] || !changelog.includes(`\`${id}@${r}\``))
      .map((r) => `${id}@${r}`),
  );
  expect(silent).toEqual([]);
});
