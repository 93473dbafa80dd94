import {
  type Answer,
  type AnyFormula,
  addedPlies,
  castMass,
  conduction,
  contactTime,
  heatCaution,
  hydrationHeat,
  inch,
  lengthLeft,
  mm,
  ratio,
  roundedEnds,
  temperatureHistory,
  turnsOnRoll,
} from 'swathe';
import { afterEach, describe, expect, test } from 'vitest';
import { accuracyFigure, given, used } from '../../docs-site/src/figures/accuracy.ts';
import { marksOf } from '../../docs-site/src/figures/axes.ts';
import { figureOf } from '../../docs-site/src/figures/index.ts';
import type { Figure } from '../../docs-site/src/figures/svg.ts';
import { prefer } from '../../docs-site/src/library/show.ts';
import { agrees, formulas, samplesOf } from '../generators.ts';

afterEach(() => prefer({}));

/** Words and labels of a figure as they are read. */
const read = ({ svg, words }: Figure): string => `${svg.replace(/<[^>]*>/g, '\n')}\n${words}`;

async function drawn(formula: AnyFormula, inputs: unknown): Promise<[Figure, Answer]> {
  const answer = (formula as unknown as (of: unknown) => Answer)(inputs);
  const figure = await figureOf(formula, answer, (id) => id);
  if (!figure) throw new Error(`${formula.id} has no figure`);
  return [figure, answer];
}

/** A figure's numbers, row by row, by the headings of its table. */
const rowsOf = ({ data }: Figure): readonly Record<string, number>[] =>
  data.rows.map((row) => Object.fromEntries(row.map((cell, n) => [data.columns[n], cell as number])));

/** Samples of a formula's inputs, each with its figure and its value. */
async function each<F extends AnyFormula>(
  formula: F,
  numRuns: number,
  check: (inputs: never, value: never, figure: Figure) => void,
): Promise<void> {
  for (const inputs of samplesOf(formula, numRuns)) {
    const [figure, { value }] = await drawn(formula, inputs);
    check(inputs as never, value as never, figure);
  }
}

describe.each(formulas)('$id', ({ formula }) => {
  test('its figure tells lengths in inches to a reader who asked for them', async () => {
    prefer({ length: 'in' });
    for (const inputs of samplesOf(formula, 3)) {
      const [figure] = await drawn(formula, inputs);
      expect(read(figure).match(/.*(?<!\S)(?:mm|cm|m)(?![\w²³⁴]).*/g) ?? []).toEqual([]);
    }
  });
});

test('marks along a scale are round in the unit that they are told in, and lie where they say', () => {
  const along = { span: [0, mm(254)] as const, unit: 'mm' as const };
  expect(marksOf(along).marks.map(({ says }) => says)).toEqual(['0', '100', '200']);
  prefer({ length: 'in', temperature: 'F' });
  expect(marksOf(along)).toEqual({
    word: 'in',
    marks: [0, 2, 4, 6, 8, 10].map((n) => ({ at: inch(n), says: String(n) })),
  });
  // Water boils at 212 °F and freezes at 32 °F: the marks between are at 50, 100, 150 and 200.
  const { word, marks } = marksOf({ span: [0, 100], unit: 'Cel' });
  expect([word, ...marks.map(({ says }) => says)]).toEqual(['°F', '50', '100', '150', '200']);
  expect(marks.map(({ at }) => at)).toEqual([10, 340 / 9, 590 / 9, 840 / 9]);
  const some = marksOf({ span: [0.003, 0.06], unit: '1', log: true });
  expect(some.marks.map(({ at }) => at)).toEqual([0.005, 0.01, 0.02, 0.05]);
  expect(marksOf({ span: [0.5, 2000], unit: '1', log: true }).marks.map(({ says }) => says)).toEqual([
    '1',
    '10',
    '100',
    '1000',
  ]);
});

test('more plies: each is drawn, and the table holds the answer', () =>
  each(addedPlies, 30, ({ before, after }: Parameters<typeof addedPlies>[0], value: never, figure) => {
    const count = (of: string): number => figure.svg.split(`class="${of}"`).length - 1;
    expect(count('layer')).toBe(before + Math.min(before, after));
    expect(count('used ply')).toBe(Math.max(0, after - before));
    expect(count('left')).toBe(Math.max(0, before - after));
    const row = rowsOf(figure).find(({ plies }) => plies === after);
    const { mass, strength, stiffness } = value as { mass: number; strength: number; stiffness: number };
    expect(row).toMatchObject({
      'times the mass': mass,
      'times the strength': strength,
      'times the stiffness': stiffness,
    });
    // The same plies once more are once as much.
    expect(addedPlies({ before, after: before as typeof after }).value.stiffness).toBe(1);
  }));

test('rounded ends: the outline drawn encloses as much of the piece as the answer says', () =>
  each(
    roundedEnds,
    30,
    ({ width, length }: { width: number; length: number }, { ply }: { ply: number }, figure) => {
      const [, w, h] = (/width="([\d.]+)" height="([\d.]+)" class="left"/.exec(figure.svg) ?? []).map(Number);
      const outline = / d="(M[^"]+Z)"/.exec(figure.svg)?.[1] ?? '';
      let [x, y, area] = [0, 0, 0];
      for (const [, command = '', of = ''] of outline.matchAll(/([MHVA])([^MHVAZ]+)/g)) {
        const numbers = of.split(' ').map(Number);
        const [endX = x] = command === 'V' ? [] : numbers.slice(command === 'A' ? 5 : 0);
        const endY = command === 'H' ? y : (numbers.at(-1) as number);
        if (command !== 'M') area += (x * endY - endX * y) / 2;
        // What a quarter circle bulges beyond its chord.
        if (command === 'A') area += (Math.PI / 4 - 0.5) * (numbers[0] as number) ** 2;
        [x, y] = [endX, endY];
      }
      const drawn = (ply / (width * length)) * (w as number) * (h as number);
      // Everything is drawn to a hundredth.
      expect(Math.abs(area - drawn)).toBeLessThan(0.03 * ((w as number) + (h as number)));
      const [whole, left, away] = rowsOf(figure).map((row) => row['area of one ply [mm2]'] as number);
      expect(agrees((left as number) + (away as number), whole as number)).toBe(true);
    },
  ));

test('mass: what a bar is made of adds up to what it weighs', () =>
  each(castMass, 30, (_: never, value: { fabric: number; wet: number; dry: number }, figure) => {
    const wholes = [value.fabric, value.wet, value.dry];
    for (const [n, row] of rowsOf(figure).entries()) {
      const parts = ['dry fabric', 'water that stays', 'water that dries off'].map(
        (name) => row[`${name} [g]`] as number,
      );
      expect(Math.min(...parts)).toBeGreaterThanOrEqual(-1e-9 * value.wet);
      expect(
        agrees(
          parts.reduce((a, b) => a + b),
          wholes[n] as number,
        ),
      ).toBe(true);
      expect(agrees(row['in all [g]'] as number, wholes[n] as number)).toBe(true);
    }
  }));

test('turns on a roll: unrolled they are as long as the bandage, the outer ones longer', () =>
  each(turnsOnRoll, 30, ({ length }: { length: number }, _: never, figure) => {
    const ends = rowsOf(figure).map((row) => row['length from the core [mm]'] as number);
    expect(ends[0]).toBe(0);
    expect(agrees(ends.at(-1) as number, length, length / 1000)).toBe(true);
    const whole = ends.slice(0, -1);
    const each = whole.slice(1).map((end, n) => end - (whole[n] as number));
    expect(each).toEqual([...each].sort((a, b) => a - b));
  }));

test('what is left: the table goes through the answer, from nothing to the whole roll', () =>
  each(
    lengthLeft,
    30,
    (
      { now, lengthNew }: { now: { diameter?: number; girth?: number }; lengthNew: number },
      value: { length: number },
      figure,
    ) => {
      const rows = rowsOf(figure);
      const across = now.diameter ?? (now.girth as number) / Math.PI;
      const here = rows.find((row) => agrees(row['outer diameter [mm]'] as number, across));
      expect(agrees(here?.['length left [mm]'] as number, value.length, lengthNew / 1000)).toBe(true);
      expect(Math.abs(rows[0]?.['share left'] as number)).toBeLessThan(1e-12);
      expect(agrees(rows.at(-1)?.['share left'] as number, 1)).toBe(true);
    },
  ));

test('heat of setting: the dot lies on its line, and the line between the sets', () =>
  each(hydrationHeat, 10, (_: never, value: { least: number; most: number; perGram: number }, figure) => {
    for (const row of rowsOf(figure)) {
      const [low, mid, high] = ['rise by the least [K]', 'rise [K]', 'rise by the most [K]'].map(
        (name) => row[name] as number,
      ) as [number, number, number];
      expect(low).toBeLessThanOrEqual(mid * (1 + 1e-12));
      expect(high).toBeGreaterThanOrEqual(mid * (1 - 1e-12));
      const water = ratio(row['water to hemihydrate'] as number);
      const { value: there } = hydrationHeat({ hemihydrate: 'alpha', water });
      expect(agrees(mid * there.heatCapacity, value.perGram)).toBe(true);
    }
  }));

test('conduction: a slab at rest is drawn straight from one surface to the other', async () => {
  const [figure] = await drawn(conduction as AnyFormula, {
    shape: { kind: 'slab' },
    layers: [1, 3].map((k) => ({
      thickness: 10,
      conductivity: k,
      capacity: 1e6,
      start: 20,
      source: 0,
      perfusion: { kind: 'none' },
      contact: 0,
    })),
    inner: { kind: 'fixed', temperature: 40 },
    outer: { kind: 'fixed', temperature: 20 },
    until: 36_000,
    probes: [],
    cells: 4,
  });
  // In series, heat falls by 15 K in the layer that conducts a third as well as the other, and by 5 K in that.
  for (const row of rowsOf(figure)) {
    const at = row['from the inner surface [mm]'] as number;
    const exact = at < 10 ? 40 - 1.5 * at : 25 - 0.5 * (at - 10);
    expect(Math.abs((row['temperature at the end [Cel]'] as number) - exact)).toBeLessThan(0.001);
  }
});

test('contact times: hotter is sooner by every law, and the printed times are drawn', async () => {
  const [figure] = await drawn(contactTime as AnyFormula, {
    law: 'henriques',
    degree: 'second',
    surface: 50,
    start: 34,
    epidermis: 0.08,
  });
  for (const law of figure.data.columns.slice(1)) {
    const times = rowsOf(figure).flatMap((row) => (Number.isFinite(row[law]) ? [row[law] as number] : []));
    expect(times.length).toBeGreaterThan(4);
    expect(times).toEqual([...times].sort((a, b) => b - a));
  }
  // The table as moritz-1947-burns is quoted: six hours at 44 °C, one second at 68.3 °C.
  for (const told of [
    '6 h at 44',
    '5 min at 48.9',
    '2 min at 51.7',
    '10 s at 57.2',
    '5 s at 60',
    '1 s at 68.3',
  ])
    expect(figure.words.replaceAll('\u00a0', ' ')).toContain(told);
  expect(figure.words).toContain('no time for a person');
});

test('cautions about heat: every trigger is a rung, said in words, and none is a verdict', () => {
  const met = new Set<string>();
  return each(
    heatCaution,
    200,
    (_: never, { triggers }: { triggers: { code: string; leads: string }[] }, figure) => {
      const rungs = rowsOf(figure) as unknown as Record<string, string>[];
      const state = (code: string) => rungs.filter(({ trigger }) => trigger === code).map((r) => r['state']);
      for (const { code, leads } of triggers) {
        met.add(code);
        expect(state(code)).toEqual(['met']);
        expect(rungs.find(({ trigger }) => trigger === code)?.['leads to']).toBe(leads);
      }
      expect(rungs.filter((rung) => rung['state'] === 'met')).toHaveLength(triggers.length);
      const labels = [...figure.svg.matchAll(/>(met|not met|not worked)</g)].map(([, says]) => says);
      expect(labels.sort()).toEqual(rungs.map((rung) => rung['state']).sort());
      expect(read(figure)).not.toMatch(/\bsafe|low risk|danger|harmless/i);
    },
  ).then(() => expect(met.size).toBe(12));
});

test('accuracy against cost: the ring is what the formula uses, and the finest errs least', () => {
  const { value } = temperatureHistory({
    ...given,
    folded: false,
    body: { kind: 'limb', radius: mm(45), blood: 'flows' },
  } as never);
  const figure = accuracyFigure();
  expect(figure.course).toEqual(value.curve.interface.slice(1));
  const rows = rowsOf(figure);
  const errorOf = (cells: number, tolerance: number): number =>
    rows.find((row) => row['cells in the plaster'] === cells && row['tolerance [K]'] === tolerance)?.[
      'error [K]'
    ] as number;
  const all = rows.map((row) => row['error [K]'] as number);
  expect(Math.min(...all)).toBe(errorOf(64, 0.002));
  expect(errorOf(used.cells, used.tolerance)).toBeLessThan(0.05);
  for (const row of rows)
    expect(row['cells × steps']).toBe((row['cells in all'] as number) * (row['steps'] as number));
});
