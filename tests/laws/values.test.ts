import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { catalog } from 'swathe/catalog';
import { describe, expect, test } from 'vitest';
import { report, settled } from '../runtimes/numbers.ts';
import { cases, kept, marks, marksIn, read, reportFile } from '../runtimes/report.ts';
import { linesOf, movesOf, untold } from './moved.ts';

const changelog = readFileSync(join(import.meta.dirname, '../../CHANGELOG.md'), 'utf8');
const isUpdate = Boolean(process.env['UPDATE']);
const before = kept();

test('no number has moved unseen: every formula on the inputs of its rows and a grid, and every plan of the demo', async () => {
  const marked = isUpdate ? await marks(marksIn(before)) : marksIn(before);
  const now = report(cases(), settled(marked));
  const moves = movesOf(before, now);
  const lines = linesOf(moves);
  if (isUpdate) {
    console.log(lines.join('\n') || 'no number moved; what is new stands in the difference');
    expect(untold(moves, changelog), 'raise the revision and tell it in CHANGELOG.md').toEqual([]);
    writeFileSync(reportFile, now);
    return;
  }
  expect(lines, 'raise the revision, add such lines to CHANGELOG.md, then run with UPDATE=1').toEqual([]);
  expect(now === before, 'other points than before, and no number moved: run with UPDATE=1').toBe(true);
}, 900_000);

test('the report holds every formula and every plan, plain numbers, and few that a last bit may carry', () => {
  const now = kept();
  const points = read(now);
  const names = new Set([...points.keys()].map((key) => key.split(' ')[0]));
  expect([...names].sort()).toEqual([...catalog.map(({ id }) => id), 'plan'].sort());
  const numbers = [...points.values()].flatMap(({ values }) =>
    [...values.values()].filter((told) => !told.startsWith('"') && !['true', 'false', 'null'].includes(told)),
  );
  expect(numbers.filter((told) => !/^-?\d[\d.]*(e[+-]\d+)?(±[\de.-]+)?$/.test(told))).toEqual([]);
  expect(Object.keys(marksIn(now)).length).toBeLessThan(0.1 * numbers.length);
});

describe('a number that moves', () => {
  const told = (by: string, value: string): string =>
    `${by} c1 {"turns":6}\n  . value=${value} kind="plain"\n`;
  const moves = movesOf(told('coverage.helix@1', '1016.05'), told('coverage.helix@2', '1016.06'));
  const line = `- **numbers**: \`coverage.helix@2\` of \`{"turns":6}\`: value was 1016.05, is 1016.06. Reason: `;
  const log = (unreleased: string): string =>
    `# Changes\n\n## Unreleased\n\n${unreleased}\n\n## 1.0.0\n\n- **other**: it.\n`;

  test('is found, and told as a line for the changelog', () => {
    expect(moves).toEqual([
      {
        by: 'coverage.helix@2',
        point: 'c1',
        inputs: '{"turns":6}',
        path: 'value',
        was: '1016.05',
        is: '1016.06',
      },
    ]);
    expect(linesOf(moves)).toEqual([line]);
  });

  test('is no move within the width that it is told with, nor for other inputs', () => {
    expect(movesOf(told('a.b@1', '2.5±1e-9'), told('a.b@1', '2.5000000001'))).toEqual([]);
    expect(movesOf(told('a.b@1', '295.7706732965±1e-10'), told('a.b@1', '295.770673296'))).toEqual([]);
    expect(movesOf(told('a.b@1', '2.5±1e-9'), told('a.b@1', '2.50000001'))).toHaveLength(1);
    expect(movesOf(told('a.b@1', '2.5'), told('a.b@1', '2.50000000001'))).toHaveLength(1);
    expect(movesOf(told('a.b@1', '2.5'), told('a.b@1', '3').replace('6', '7'))).toEqual([]);
  });

  test('counts as told only by a line of its kind, of its revision, with the new number, since the last release', () => {
    expect(untold(moves, log(line))).toEqual([]);
    expect(untold(moves, log(''))).toEqual(['coverage.helix@2']);
    expect(untold(moves, log(line.replace('numbers', 'other')))).toEqual(['coverage.helix@2']);
    expect(untold(moves, log(line.replace('helix@2', 'helix@3')))).toEqual(['coverage.helix@2']);
    expect(untold(moves, log(line.replace('1016.06', '1016.07')))).toEqual(['coverage.helix@2']);
    expect(untold(moves, `${log('')}${line}\n`)).toEqual(['coverage.helix@2']);
    const first = movesOf(told('coverage.helix@1', '1'), told('coverage.helix@1', '2'));
    expect(untold(first, log(linesOf(first).join('\n')))).toEqual(['coverage.helix@1']);
    expect(untold(first, '# Changes\n\n## Unreleased\n')).toEqual([]);
  });
});

test('a revision after the first says what changed, in the definition and in the changelog', () => {
  const silent = catalog.flatMap(({ id, revision, changes }) =>
    Array.from({ length: revision - 1 }, (_, n) => n + 2)
      .filter((r) => !changes?.[r] || !changelog.includes(`\`${id}@${r}\``))
      .map((r) => `${id}@${r}`),
  );
  expect(silent).toEqual([]);
});
