import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { csvParse } from 'd3-dsv';
import { Outcome, Solver } from 'odex';
import {
  celsius,
  conduction,
  InputError,
  joulesPerCubicMetreKelvin,
  metres,
  mm,
  perSecond,
  roomLoss,
  seconds,
  squareMetreKelvinsPerWatt,
  wattsPerCubicMetre,
  wattsPerMetreKelvin,
  wattsPerSquareMetre,
  wattsPerSquareMetreKelvin,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import { type ColumnLayer, type Grid, gridOf, type Surface } from '../../packages/core/src/setting/column.ts';
import { march } from '../../packages/core/src/setting/march.ts';
import { nusseltOf } from '../../packages/core/src/setting/room-loss.ts';
import type { RowFile } from './rows.ts';

const references = join(import.meta.dirname, '../../references');
const text = (path: string): string => readFileSync(join(references, path), 'utf8');
const rowsOf = (id: string) => (JSON.parse(text(`checks/${id}.json`)) as RowFile).rows;

type Inputs = Parameters<typeof conduction>[0];
const layer = (
  thickness: number,
  conductivity: number,
  capacity: number,
  start: number,
  more: { source?: number; contact?: number } = {},
): Inputs['layers'][number] => ({
  thickness: mm(thickness),
  conductivity: wattsPerMetreKelvin(conductivity),
  capacity: joulesPerCubicMetreKelvin(capacity),
  start: celsius(start),
  source: wattsPerCubicMetre(more.source ?? 0),
  perfusion: { kind: 'none' },
  contact: squareMetreKelvinsPerWatt(more.contact ?? 0),
});
const insulated = { kind: 'insulated' } as const;
const fixed = (t: number) => ({ kind: 'fixed', temperature: celsius(t) }) as const;
const convective = (h: number, t: number) =>
  ({ kind: 'convective', coefficient: wattsPerSquareMetreKelvin(h), ambient: celsius(t) }) as const;

const bare = (thickness: number, cells: number, more: Partial<ColumnLayer> = {}): ColumnLayer => ({
  thickness,
  conductivity: 0.5,
  capacity: 5e6,
  cells,
  source: 0,
  blood: 0,
  arterial: 37,
  contact: 0,
  ...more,
});
const still: Surface = (_, out) => {
  out.heat = 0;
  out.slope = 0;
};
const film =
  (h: number, ambient: number, flux = 0): Surface =>
  (temperature, out) => {
    out.heat = flux + h * (ambient - temperature);
    out.slope = -h;
  };

/** A march over a grid from temperatures of its cells. */
const marched = (grid: Grid, start: Float64Array, until: number, tolerance: number, times?: number[]) =>
  march(
    grid,
    { time: 0, temperature: start, conversion: new Float64Array(start.length) },
    until,
    tolerance,
    undefined,
    times ? { times } : {},
  ).temperature;
const even = (until: number, steps: number): number[] =>
  Array.from({ length: steps }, (_, n) => (until * (n + 1)) / steps);
/** Orders at which errors fall as something is halved again and again. */
const orders = (errors: number[]): number[] =>
  errors.slice(1).map((error, n) => Math.log2((errors[n] as number) / error));

/** A plate of Biot number 1 by its series of cosines: the middle is at 0, the surface at 1. */
function plate(biot: number, fourier: number, place: number): number {
  let sum = 0;
  for (let n = 0; n < 40; n++) {
    let [low, high] = [n * Math.PI, n * Math.PI + Math.PI / 2];
    for (let k = 0; k < 80; k++) {
      const middle = (low + high) / 2;
      if (middle * Math.tan(middle) > biot) high = middle;
      else low = middle;
    }
    const weight = (4 * Math.sin(low)) / (2 * low + Math.sin(2 * low));
    sum += weight * Math.cos(low * place) * Math.exp(-low * low * fourier);
  }
  return sum;
}

describe('order of convergence', () => {
  test('is two in space: a plate against its series', () => {
    const errors = [8, 16, 32, 64].map((cells) => {
      const grid = gridOf({
        radius: undefined,
        layers: [bare(0.01, cells)],
        inner: still,
        outer: film(50, 0),
      });
      const T = marched(grid, new Float64Array(cells).fill(100), 200, 1e-7);
      return ([0, 0.01] as const).map((x) => Math.abs(grid.at(x, T) - 100 * plate(1, 0.2, 100 * x)));
    });
    for (const k of [0, 1])
      for (const order of orders(errors.map((e) => e[k] as number))) expect(order).toBeCloseTo(2, 1);
  });

  test('is four in time: equal steps against many', () => {
    const grid = gridOf({ radius: undefined, layers: [bare(0.01, 16)], inner: still, outer: film(50, 0) });
    const smooth = grid.centres.map((x) => 100 * Math.cos(100 * x));
    const best = marched(grid, smooth, 300, 0, even(300, 1024));
    const errors = [8, 16, 32, 64].map((steps) =>
      Math.max(
        ...marched(grid, smooth, 300, 0, even(300, steps)).map((t, i) => Math.abs(t - (best[i] ?? 0))),
      ),
    );
    for (const order of orders(errors)) expect(order).toBeCloseTo(4, 1);
  });

  test('a step that follows a jump does not ring', () => {
    const grid = gridOf({ radius: undefined, layers: [bare(0.01, 50)], inner: { fixed: 60 }, outer: still });
    for (const steps of [1, 3, 10]) {
      const T = marched(grid, new Float64Array(50).fill(20), 100, 0, even(100, steps));
      expect(Math.min(...T)).toBeGreaterThan(20 - 3);
      expect(Math.max(...T)).toBeLessThan(60 + 3);
    }
    const T = marched(grid, new Float64Array(50).fill(20), 100, 1e-3);
    expect(Math.min(...T)).toBeGreaterThan(20 - 1e-2);
    expect(Math.max(...T)).toBeLessThan(60);
  });
});

describe('exact answers beyond the rows', () => {
  // Roots and coefficients of the first term of a plate's series, as standard tables have them (from memory) and as computed.
  test.each([
    [0.1, 3, 6, 0.3110528, 1.0160942],
    [1, 1.5, 3, 0.8603336, 1.119132],
    [10, 1.5, 2.2, 1.42887, 1.2619626],
  ])('plate of Biot number %d: root and coefficient of the first term', (biot, f1, f2, root, coefficient) => {
    const middle = (fourier: number): number =>
      conduction({
        shape: { kind: 'slab' },
        layers: [layer(10, 0.5, 5e6, 1000)],
        inner: insulated,
        outer: convective(50 * biot, 0),
        until: seconds(1000 * fourier),
        probes: [],
        cells: 100,
      }).value.inner.temperature / 1000;
    const [a, b] = [middle(f1), middle(f2)];
    const squared = Math.log(a / b) / (f2 - f1);
    // The root to half its last digit; the coefficient, which carries its error forward in time, to one.
    expect(Math.abs(Math.sqrt(squared) - root)).toBeLessThan(5e-8);
    expect(Math.abs(a * Math.exp(squared * f1) - coefficient)).toBeLessThan(1e-7);
  });

  test('two bodies brought together take one temperature at once and keep it', () => {
    for (const until of [2, 3, 5]) {
      const { probes } = conduction({
        shape: { kind: 'slab' },
        layers: [layer(24, 1.14, 2230 * 830, 90), layer(10, 0.37, 1100 * 3400, 33)],
        inner: insulated,
        outer: insulated,
        until: seconds(until),
        probes: [mm(24)],
        cells: 80,
      }).value;
      expect(probes[0]?.temperature).toBeCloseTo(64.494706508, 6);
    }
  });

  test('resistance of two shells and a film is 0.6084842 m·K/W', () => {
    const { inner, outer } = conduction({
      shape: { kind: 'cylinder', innerRadius: mm(40) },
      layers: [layer(2, 0.045, 1e5, 37), layer(5, 0.3, 1e6, 37)],
      inner: fixed(37),
      outer: convective(9, 22),
      until: seconds(1e5),
      probes: [],
      cells: 4,
    }).value;
    expect(15 / (inner.flux * 2 * Math.PI * 0.04)).toBeCloseTo(0.60848415, 8);
    expect(15 / (-outer.flux * 2 * Math.PI * 0.047)).toBeCloseTo(0.60848415, 8);
  });

  // Churchill and Chu 1975, as an open-source library of heat transfer works its own documented case.
  test('natural convection: Pr 0.69 and Gr 2.63e9 give Nu 139.1349', () => {
    expect(nusseltOf(0.69 * 2.63e9, 0.69, roomLoss.numbers)).toBeCloseTo(139.1349397, 7);
  });

  test('a wide cylinder comes to the slab, nearer as it widens', () => {
    const at = (shape: Inputs['shape']): number =>
      conduction({
        shape,
        layers: [layer(3, 0.2, 2e6, 30, { contact: 0.001 }), layer(5, 0.4, 3e6, 50, { source: 2e4 })],
        inner: fixed(34),
        outer: convective(10, 22),
        until: seconds(300),
        probes: [mm(4)],
        cells: 12,
      }).value.probes[0]?.temperature ?? Number.NaN;
    const slab = at({ kind: 'slab' });
    const [five, ten] = [5, 10].map((r) => at({ kind: 'cylinder', innerRadius: metres(r) })) as [
      number,
      number,
    ];
    expect(Math.abs(ten - slab)).toBeLessThan(3e-3);
    expect((five - slab) / (ten - slab)).toBeCloseTo(2, 2);
    expect(2 * ten - five).toBeCloseTo(slab, 5);
  });

  test('without a source, equal temperatures stay', () => {
    for (const shape of [{ kind: 'slab' }, { kind: 'cylinder', innerRadius: mm(30) }] as const) {
      const { probes, inner, outer, energy } = conduction({
        shape,
        layers: [
          { ...layer(3, 0.2, 2e6, 37), contact: squareMetreKelvinsPerWatt(0.01) },
          {
            ...layer(5, 0.4, 3e6, 37),
            perfusion: {
              kind: 'blood',
              flow: perSecond(0.002),
              capacity: joulesPerCubicMetreKelvin(3.8e6),
              temperature: celsius(37),
            },
          },
        ],
        inner: fixed(37),
        outer: convective(12, 37),
        until: seconds(1e5),
        probes: [mm(1), mm(3), mm(7)],
        cells: 10,
      }).value;
      for (const t of [...probes, inner, outer].map((p) => p.temperature))
        expect(Math.abs(t - 37)).toBeLessThan(1e-9);
      expect(energy.imbalance).toBeLessThan(1e-9);
    }
  });

  test('every row: what is stored is what came, to a part in 10⁹, and the error is less than is told', () => {
    const seen = new Set<string>();
    for (const { given, pointer = '', printed } of rowsOf('setting.conduction')) {
      const answer = conduction.fromJson(given);
      if (!seen.has(JSON.stringify(given))) expect(answer.value.energy.imbalance).toBeLessThan(1e-9);
      seen.add(JSON.stringify(given));
      const place = pointer.split('/').slice(2, -1);
      const what = pointer.endsWith('flux') ? 'fluxUncertainty' : 'uncertainty';
      const told = [...place, what].reduce<unknown>(
        (part, key) => (part as Record<string, unknown>)[key],
        answer.value,
      );
      expect(told, `${pointer} ${printed}`).toBeLessThan(0.02);
    }
  });
});

// thickness mm, conductivity, capacity, start, source, blood W/(m3.K), its temperature, contact to the next
type Line = readonly [number, number, number, number, number, number, number, number];
const limb: readonly Line[] = [
  [12, 0.495, 3.73e6, 36, 1000, 2500, 37, 0],
  [5, 0.209, 2.14e6, 35, 0, 750, 37, 0],
  [1.5, 0.372, 3.76e6, 33, 1800, 6700, 37, 0.002],
  [2, 0.045, 8e4, 28, 0, 0, 0, 0],
  [6, 0.45, 2.6e6, 45, 20000, 0, 0, 0],
];
const pipe: readonly Line[] = [
  [3, 0.17, 1.25e6, 22, 0, 0, 0, 0.01],
  [5, 0.4, 2.5e6, 50, 0, 0, 0, 0],
];
const columnOf = (lines: readonly Line[], cells: number): ColumnLayer[] =>
  lines.map(([d, conductivity, capacity, , source, blood, arterial, contact]) => ({
    thickness: d / 1000,
    conductivity,
    capacity,
    cells,
    source,
    blood,
    arterial,
    contact,
  }));
const startOf = (lines: readonly Line[], cells: number): Float64Array =>
  Float64Array.from(lines.flatMap((line) => new Array<number>(cells).fill(line[3])));

describe('SciPy’s Radau on the same cells', () => {
  const rows = csvParse(text('tables/conduction-scipy.csv'));
  const cases = [
    {
      name: 'slab',
      radius: undefined,
      lines: limb,
      inner: { fixed: 36.5 },
      outer: film(10, 22),
      until: 600,
      cells: 8,
    },
    {
      name: 'limb',
      radius: 0.02,
      lines: limb,
      inner: { fixed: 36.5 },
      outer: film(10, 22),
      until: 600,
      cells: 8,
    },
    {
      name: 'pipe',
      radius: 0.04,
      lines: pipe,
      inner: film(5, 22),
      outer: film(0, 0, -150),
      until: 900,
      cells: 10,
    },
    { name: 'rod', radius: 0, lines: pipe, inner: still, outer: { fixed: 60 }, until: 60, cells: 10 },
  ] as const;

  test.each(cases)('$name', ({ name, radius, lines, inner, outer, until, cells }) => {
    const grid = gridOf({ radius, layers: columnOf(lines, cells), inner, outer });
    const T = marched(grid, startOf(lines, cells), until, 1e-8);
    const table = rows.filter((row) => row['case'] === name);
    expect(table.length).toBe(T.length);
    for (const [i, row] of table.entries()) {
      expect(grid.centres[i]).toBeCloseTo(Number(row['place_mm']) / 1000, 8);
      expect(Math.abs((T[i] as number) - Number(row['temperature_Cel']))).toBeLessThan(2e-6);
    }
  });

  test.each(['conduction-scipy', 'contact-time-scipy'])(
    '%s is the file that its record speaks of',
    (name) => {
      const said = JSON.parse(text(`tables/${name}.json`));
      expect(Object.keys(said)).toEqual(['table', 'source', 'says', 'licence', 'made', 'sha256']);
      expect(said.sha256).toBe(
        createHash('sha256')
          .update(text(said.table ? `tables/${said.table}` : ''))
          .digest('hex'),
      );
    },
  );

  test('the rows of the contact time are those of its table', () => {
    const table = csvParse(text('tables/contact-time-scipy.csv')).map((row) => row['time_s']);
    const rows = rowsOf('setting.contact-time').filter(
      (r) => r.source === 'scipy' && r.pointer === '/value/time',
    );
    expect(rows.map(({ printed }) => printed)).toEqual(table);
  });
});

describe('odex on a few cells', () => {
  test.each([undefined, 0.015])('inner radius %s', (radius) => {
    const cells = 3;
    const lines = limb.slice(1, 4);
    const grid = gridOf({
      radius,
      layers: columnOf(lines, cells),
      inner: { fixed: 36.5 },
      outer: film(25, 22),
    });
    const T = marched(grid, startOf(lines, cells), 40, 1e-9);

    // The same system written out anew: balances of heat of shells between neighbours' centres.
    const bounds = lines.flatMap(([d], n) => {
      const before = lines.slice(0, n).reduce((sum, [x]) => sum + x, 0);
      return Array.from({ length: cells }, (_, k) => ({
        from: (before + (d * k) / cells) / 1000,
        to: (before + (d * (k + 1)) / cells) / 1000,
        line: lines[n] as Line,
        last: k === cells - 1,
      }));
    });
    const r = radius ?? 0;
    const area = (x: number): number => (radius === undefined ? 1 : r + x);
    const path = (a: number, b: number, k: number): number =>
      radius === undefined ? (b - a) / k : Math.log((r + b) / (r + a)) / k;
    const slopes = (_: number, temperatures: number[]): number[] =>
      bounds.map(({ from, to, line, last }, i) => {
        const [, k, c, , source, blood, arterial, contact] = line;
        const here = temperatures[i] as number;
        const centre = (from + to) / 2;
        const volume = radius === undefined ? to - from : ((r + to) ** 2 - (r + from) ** 2) / 2;
        let heat = volume * (source + blood * (arterial - here));
        const before = bounds[i - 1];
        const after = bounds[i + 1];
        if (before) {
          const between = before.last ? before.line[7] / area(from) : 0;
          const way =
            path((before.from + before.to) / 2, from, before.line[1]) + between + path(from, centre, k);
          heat += ((temperatures[i - 1] as number) - here) / way;
        } else heat += (36.5 - here) / path(from, centre, k);
        if (after) {
          const between = last ? contact / area(to) : 0;
          const way = path(centre, to, k) + between + path(to, (after.from + after.to) / 2, after.line[1]);
          heat += ((temperatures[i + 1] as number) - here) / way;
        } else heat += (22 - here) / (path(centre, to, k) + 1 / (25 * area(to)));
        return heat / (volume * c);
      });
    const solver = new Solver(bounds.length);
    solver.relativeTolerance = 1e-11;
    solver.absoluteTolerance = 1e-11;
    solver.maxSteps = 100_000;
    const { y, outcome } = solver.solve(slopes, 0, [...startOf(lines, cells)], 40);
    expect(outcome).toBe(Outcome.Converged);
    for (const [i, t] of y.entries()) expect(Math.abs(t - (T[i] as number))).toBeLessThan(1e-6);
  });
});

describe('what cannot be', () => {
  const good: Inputs = {
    shape: { kind: 'cylinder', innerRadius: mm(30) },
    layers: [layer(5, 0.4, 3e6, 30)],
    inner: fixed(34),
    outer: convective(10, 22),
    until: seconds(60),
    probes: [mm(2)],
    cells: 6,
  };
  const faults = (inputs: Inputs): string[] => {
    try {
      conduction(inputs);
    } catch (error) {
      if (error instanceof InputError) return error.faults.map(({ input, fault }) => `${input} ${fault}`);
    }
    return [];
  };

  test('is named all at once: no cells, a negative radius, temperatures of no tap and no fire', () => {
    expect(faults(good)).toEqual([]);
    const bad: Inputs = {
      ...good,
      shape: { kind: 'cylinder', innerRadius: mm(-1) },
      layers: [layer(5, 0.4, 3e6, 5000), layer(-5, 0, 3e6, 30)],
      inner: fixed(-300),
      outer: { kind: 'flux', flux: wattsPerSquareMetre(1e9) },
      cells: 0,
    };
    expect(faults(bad).toSorted()).toEqual([
      'cells below',
      'inner.temperature below',
      'layers.0.start above',
      'layers.1.conductivity below',
      'layers.1.thickness below',
      'outer.flux above',
      'shape.innerRadius below',
    ]);
  });

  test('so are places outside, a contact with nothing, and an axis that is to pass heat', () => {
    const bad: Inputs = {
      ...good,
      shape: { kind: 'cylinder', innerRadius: mm(0) },
      layers: [layer(5, 0.4, 3e6, 30, { contact: 0.1 })],
      probes: [mm(2), mm(5.1)],
    };
    expect(faults(bad).toSorted()).toEqual(['inner joint', 'layers joint', 'probes joint']);
  });
});
