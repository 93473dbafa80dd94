import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { describe, expect, test } from 'vitest';
import { valueAt, zOf } from '../../packages/core/src/segment/stature-for-age.ts';
import { statures } from '../../packages/core/src/segment/stature-lms.ts';
import { adults, children } from '../../packages/core/src/segment/survey.ts';

const folder = join(import.meta.dirname, '../../references/tables');
const text = (name: string): string => readFileSync(join(folder, name), 'utf8');
const table = (name: string) => csvParse(text(name));
const numbers = (row: Record<string, string>, ...names: string[]): number[] =>
  names.map((n) => Number(row[n]));

const own = ['adult-measures', 'child-measures', 'stature-for-age'];

test.each(own)('%s says where it is from, by what right, and is the file that it speaks of', (name) => {
  const said = JSON.parse(text(`${name}.json`));
  expect(Object.keys(said)).toEqual(['table', 'source', 'says', 'licence', 'made', 'sha256']);
  expect(said.table).toBe(`${name}.csv`);
  expect(said.sha256).toBe(
    createHash('sha256')
      .update(text(`${name}.csv`))
      .digest('hex'),
  );
  expect(readdirSync(folder)).toContain(`${name}.csv`);
});

describe('what ships equals the tables', () => {
  const rows = table('adult-measures.csv');

  test.each(['male', 'female'] as const)('adults, %s', (sex) => {
    const of = rows.filter((row) => row['sex'] === sex);
    const named = of.filter((row) => row['measure'] !== '');
    expect(adults[sex].measures).toEqual(
      Object.fromEntries(
        named.map((row) => [
          row['measure'],
          numbers(
            row,
            'mean',
            'sd',
            'on_stature_intercept',
            'on_stature_slope',
            'on_stature_sd',
            'on_both_intercept',
            'on_both_stature',
            'on_both_kg',
            'on_both_sd',
          ),
        ]),
      ),
    );
    const span = (variable: string) =>
      numbers(of.find((row) => row['variable'] === variable) as Record<string, string>, 'min', 'max');
    expect(adults[sex].stature).toEqual(span('stature'));
    expect(adults[sex].weight).toEqual(span('weightkg'));
    expect(new Set(of.map((row) => row['n']))).toEqual(new Set([String(adults[sex].n)]));
  });

  test('children', () => {
    const fits = table('child-measures.csv').map((row) => [
      row['measure'],
      numbers(row, 'n', 'on_stature_intercept', 'on_stature_slope', 'on_stature_sd'),
    ]);
    expect(children).toEqual(Object.fromEntries(fits));
  });

  test('stature for age', () => {
    const rows = table('stature-for-age.csv');
    for (const sex of ['male', 'female'] as const) {
      const of = rows.filter((row) => row['sex'] === sex);
      expect(statures[sex]).toEqual(of.map((row) => numbers(row, 'L', 'M', 'S')));
      const months = of.map((row) => Number(row['months']));
      expect(months).toEqual([24, ...Array.from({ length: 216 }, (_, n) => n + 24.5), 240]);
    }
  });
});

describe('the tables agree with what is published', () => {
  const of = (variable: string, sex: string) =>
    table('adult-measures.csv').find((row) => row['variable'] === variable && row['sex'] === sex) as Record<
      string,
      string
    >;

  // NATICK/TR-15/007, pages 175, 193 and 83, as a course note quotes them: printed in whole mm, means to 0.1.
  test.each([
    ['poplitealheight', 'female', { p5: 350, p50: 387, p95: 428, mean: 388.2, sd: 23.6 }],
    ['poplitealheight', 'male', { p5: 390, p50: 430, p95: 471, mean: 429.8, sd: 24.8 }],
    ['stature', 'male', { p95: 1870 }],
    ['buttockpopliteallength', 'female', { p5: 441 }],
  ])('%s, %s', (variable, sex, printed) => {
    const row = of(variable, sex);
    for (const [name, value] of Object.entries(printed)) {
      const within = name.startsWith('p') ? 0.5 : 0.05;
      expect(Math.abs(Number(row[name]) - value), name).toBeLessThanOrEqual(within);
    }
  });

  // Means of men and women together, as another public file gives them.
  test.each([
    ['wristcircumference', 169.0],
    ['radialestylionlength', 259.2],
    ['acromionradialelength', 327.4],
  ])('%s, both sexes together', (variable, printed) => {
    const [m, f] = [of(variable, 'male'), of(variable, 'female')].map((row) => numbers(row, 'n', 'mean')) as [
      [number, number],
      [number, number],
    ];
    expect((m[0] * m[1] + f[0] * f[1]) / (m[0] + f[0])).toBeCloseTo(printed, 1);
  });

  test('a least-squares fit passes through the means', () => {
    const rows = table('adult-measures.csv');
    for (const row of rows.filter((row) => row['measure'] !== '')) {
      const at = (variable: string) => Number(of(variable, row['sex'] as string)['mean']);
      const [mean, a1, b1, a2, b2, c2] = numbers(
        row,
        'mean',
        'on_stature_intercept',
        'on_stature_slope',
        'on_both_intercept',
        'on_both_stature',
        'on_both_kg',
      ) as [number, number, number, number, number, number];
      // Means are told to 0.01 and slopes to 0.000001: at most 0.02 mm between them, and 0.1 on the steepest weight.
      expect(Math.abs(a1 + b1 * at('stature') - mean), row['variable']).toBeLessThan(0.02);
      expect(Math.abs(a2 + b2 * at('stature') + c2 * at('weightkg') - mean), row['variable']).toBeLessThan(
        0.05,
      );
    }
  });

  test('every 95th percentile that the growth charts print', () => {
    for (const row of table('stature-for-age.csv')) {
      const [l, m, s, printed] = numbers(row, 'L', 'M', 'S', 'P95') as [number, number, number, number];
      expect(Math.abs(valueAt(1.6448536269514722, [l, m, s]) - printed), row['months']).toBeLessThan(3e-7);
    }
  });

  // The example that goes with the growth charts, from memory: a boy of 9.5 months who weighs 9.7 kg. Its L, M and S
  // were seen in the data; they are of weight for age, which is not shipped.
  test('the worked example of the growth charts', () => {
    const boy = [-0.1600954, 9.476500305, 0.11218624] as const;
    expect(zOf(9.7, boy)).toBeCloseTo(0.207, 3);
    expect(valueAt(-1.645, boy)).toBeCloseTo(7.9, 2);
  });

  test('where L is nought, or nearly, the power is a logarithm', () => {
    const [m, s] = [130, 0.046];
    for (const l of [0, 1e-300, 1e-12, -1e-12, 1e-9]) {
      expect(Math.abs(zOf(140, [l, m, s]) - Math.log(140 / m) / s)).toBeLessThan(1e-8);
      expect(Math.abs(valueAt(zOf(140, [l, m, s]), [l, m, s]) - 140)).toBeLessThan(1e-10);
    }
  });
});
