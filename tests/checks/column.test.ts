import { describe, expect, test } from 'vitest';
import {
  type Column,
  type ColumnLayer,
  type Grid,
  gridOf,
  type Surface,
} from '../../packages/core/src/setting/column.ts';

const layer = (more: Partial<ColumnLayer>): ColumnLayer => ({
  thickness: 0.01,
  conductivity: 0.5,
  capacity: 2e6,
  cells: 2,
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
  (h: number, ambient: number): Surface =>
  (temperature, out) => {
    out.heat = h * (ambient - temperature);
    out.slope = -h;
  };
/** Radiation to a cold sky and nothing else: bent, so that Newton has something to do. */
const radiating: Surface = (temperature, out) => {
  out.heat = 5e-8 * (250 ** 4 - (temperature + 273.15) ** 4);
  out.slope = -2e-7 * (temperature + 273.15) ** 3;
};
const close = (got: number | undefined, wanted: number, digits = 12): void =>
  expect(Math.abs((got as number) - wanted), `${got} and ${wanted}`).toBeLessThanOrEqual(
    10 ** -digits * Math.max(1e-3, Math.abs(wanted)),
  );
const all = (got: Iterable<number>, wanted: readonly number[]): void => {
  expect([...got].length).toBe(wanted.length);
  for (const [i, x] of [...got].entries()) close(x, wanted[i] as number);
};

/** Two layers of two and three cells, with a contact between them. */
const two = [
  layer({ thickness: 0.004, conductivity: 0.2, capacity: 1e6, contact: 0.01 }),
  layer({ thickness: 0.009, conductivity: 0.6, capacity: 3e6, cells: 3, contact: 0.5 }),
];
const column = (more: Partial<Column> = {}): Column => ({
  radius: undefined,
  layers: two,
  inner: still,
  outer: still,
  ...more,
});
const own = (grid: Grid, cell: number, T: number): { heat: number; slope: number; drift: number } => {
  const out = { heat: 99, slope: 99, drift: 99 };
  grid.local(cell, T, 0, out);
  return out;
};

describe('cells, by hand', () => {
  test('a slab of two layers', () => {
    const grid = gridOf(column());
    all(grid.faces, [0, 0.002, 0.004, 0.007, 0.01, 0.013]);
    all(grid.centres, [0.001, 0.003, 0.0055, 0.0085, 0.0115]);
    all(grid.volumes, [0.002, 0.002, 0.003, 0.003, 0.003]);
    all(grid.capacity, [2000, 2000, 9000, 9000, 9000]);
    all(grid.layerOf, [0, 0, 1, 1, 1]);
    // Half a cell on either side, and the contact where the layers meet.
    all(grid.conductance, [0.2 / 0.002, 1 / (0.001 / 0.2 + 0.01 + 0.0015 / 0.6), 200, 200]);
  });

  test('a shell of radius 20 mm: rings for volumes, logarithms for resistances', () => {
    const grid = gridOf(column({ radius: 0.02 }));
    const ring = (a: number, b: number): number => (b * b - a * a) / 2;
    all(grid.volumes, [
      ring(0.02, 0.022),
      ring(0.022, 0.024),
      ring(0.024, 0.027),
      ring(0.027, 0.03),
      ring(0.03, 0.033),
    ]);
    close(grid.capacity[4], 3e6 * ring(0.03, 0.033));
    close(grid.conductance[0], 0.2 / Math.log(23 / 21));
    close(grid.conductance[1], 1 / (Math.log(24 / 23) / 0.2 + 0.01 / 0.024 + Math.log(25.5 / 24) / 0.6));
    close(grid.conductance[3], 0.6 / Math.log(31.5 / 28.5));
  });
});

describe('blood', () => {
  const warm = gridOf(
    column({ layers: [layer({ source: 700, blood: 4000, arterial: 36, cells: 1 }), layer({ cells: 1 })] }),
  );
  test('brings heat by what its tissue is below it, beside what is made there', () => {
    const { heat, slope, drift } = own(warm, 0, 33.5);
    close(heat, 0.01 * (700 + 4000 * 2.5));
    close(slope, -0.01 * 4000);
    expect(drift).toBe(0);
    expect(own(warm, 1, 33.5)).toEqual({ heat: 0, slope: 0, drift: 0 });
  });

  test('doubles its flow with each so many kelvin from 33 °C, and is tenfold at most', () => {
    const grid = gridOf(column({ layers: [layer({ blood: 4000, arterial: 36, doubling: 6, cells: 1 })] }));
    for (const [T, flow] of [
      [33, 1],
      [39, 2],
      [45, 4],
      [27, 0.5],
      [36, Math.SQRT2],
      [33 + 6 * Math.log2(9.9), 9.9],
      [60, 10],
    ] as const) {
      const { heat, slope } = own(grid, 0, T);
      close(heat, 0.01 * 4000 * flow * (36 - T), 10);
      const growth = flow === 10 ? 0 : (flow * Math.LN2) / 6;
      close(slope, 0.01 * 4000 * (growth * (36 - T) - flow), 10);
    }
  });
});

describe.each([undefined, 0.02])('surfaces, radius %s', (radius) => {
  const areas = radius === undefined ? { inner: 1, outer: 1 } : { inner: 0.02, outer: 0.033 };
  const half =
    radius === undefined
      ? { inner: 0.2 / 0.001, outer: 0.6 / 0.0015 }
      : { inner: 0.2 / Math.log(21 / 20), outer: 0.6 / Math.log(33 / 31.5) };
  const T = Float64Array.of(31, 33, 38, 41, 44);
  const slopes = Float64Array.of(0.3, 0, 0, 0, -0.2);
  const ends = [
    ['inner', 0],
    ['outer', 4],
  ] as const;

  test('behind a film: two resistances in a row', () => {
    // Weaker than the half cell beside it and stronger, by so much that one way to reckon its heat would lose most digits.
    for (const h of [1e-8, 10, 1e5, 1e11]) {
      const grid = gridOf(column({ radius, inner: film(h, 20), outer: film(h, 20) }));
      for (const [end, cell] of ends) {
        const inRow = 1 / (1 / half[end] + 1 / (areas[end] * h));
        const here = T[cell] as number;
        const surface = here + (inRow / half[end]) * (20 - here);
        close(grid.surface(end, T), surface, 11);
        expect(Math.abs(grid.inflow(end, T) / (inRow * (20 - here)) - 1)).toBeLessThan(1e-9);
        close(grid.surfaceSlope(end, T, slopes), (1 - inRow / half[end]) * (slopes[cell] as number), 11);
        const { heat, slope } = own(grid, cell, here);
        close(heat, inRow * (20 - here), 9);
        close(slope, -inRow, 11);
      }
      for (const cell of [1, 2, 3]) expect(own(grid, cell, 35)).toEqual({ heat: 0, slope: 0, drift: 0 });
    }
  });

  test('held at a temperature', () => {
    const grid = gridOf(column({ radius, inner: { fixed: 25 }, outer: { fixed: 25 } }));
    for (const [end, cell] of ends) {
      const here = T[cell] as number;
      expect(grid.surface(end, T)).toBe(25);
      expect(grid.surfaceSlope(end, T, slopes)).toBe(0);
      close(grid.inflow(end, T), half[end] * (25 - here));
      const { heat, slope } = own(grid, cell, here);
      close(heat, half[end] * (25 - here));
      close(slope, -half[end]);
    }
  });

  test('that radiates: what comes through the half cell goes out, and the slopes are those of differences', () => {
    const grid = gridOf(column({ radius, inner: radiating, outer: radiating }));
    for (const [end, cell] of ends) {
      const here = T[cell] as number;
      // By halving, where the two heats cross.
      let [low, high] = [-100, 100];
      for (let k = 0; k < 200; k++) {
        const middle = (low + high) / 2;
        const out = { heat: 0, slope: 0 };
        radiating(middle, out);
        if (half[end] * (here - middle) + areas[end] * out.heat > 0) low = middle;
        else high = middle;
      }
      close(grid.surface(end, T), low, 11);
      close(grid.inflow(end, T), half[end] * (low - here), 8);
      const step = 1e-3;
      const moved = (by: number): Float64Array => T.map((t, i) => t + by * (slopes[i] as number));
      close(
        grid.surfaceSlope(end, T, slopes),
        (grid.surface(end, moved(step)) - grid.surface(end, moved(-step))) / (2 * step),
        6,
      );
      close(
        own(grid, cell, here).slope,
        (own(grid, cell, here + step).heat - own(grid, cell, here - step).heat) / (2 * step),
        6,
      );
      close(own(grid, cell, here).heat, grid.inflow(end, T));
    }
  });

  test('insulated: as warm as the cell beside it', () => {
    const grid = gridOf(column({ radius }));
    for (const [end, cell] of ends) {
      close(grid.surface(end, T), T[cell] as number);
      close(grid.inflow(end, T), 0);
      close(grid.surfaceSlope(end, T, slopes), slopes[cell] as number);
    }
  });

  test('temperatures between: straight in a cell, the same flux on both sides of a face, a jump at a contact', () => {
    const grid = gridOf(column({ radius, inner: film(10, 20), outer: { fixed: 50 } }));
    for (const [i, t] of T.entries()) expect(grid.at(grid.centres[i] as number, T)).toBe(t);
    close(grid.at(0, T), grid.surface('inner', T));
    close(grid.at(0.013, T), 50);
    // The sum of the layers may end a last bit short of the place that is asked for.
    close(grid.at(0.013 + 1e-16, T), 50);
    close(grid.at(0.0005, T), (31 + grid.surface('inner', T)) / 2);
    close(grid.at(0.01225, T), 47);
    // Between cells of one layer: a drop by the resistance up to the face.
    const way = (from: number, to: number): number =>
      radius === undefined ? to - from : Math.log((radius + to) / (radius + from));
    const face = 31 + (2 * way(0.001, 0.002)) / way(0.001, 0.003);
    close(grid.at(0.002, T), face);
    close(grid.at(0.0015, T), (31 + face) / 2);
    close(grid.at(0.0025, T), (face + 33) / 2);
    // At the contact the inner side, and just beyond it the outer one.
    const flow = (grid.conductance[1] as number) * (38 - 33);
    const within = 33 + (flow * way(0.003, 0.004)) / 0.2;
    const beyond = 38 - (flow * way(0.004, 0.0055)) / 0.6;
    close(grid.at(0.004, T), within);
    close(grid.at(0.004 + 1e-12, T), beyond, 8);
    close(grid.at(0.00475, T), (beyond + 38) / 2);
    close(beyond - within, (flow * 0.01) / (radius === undefined ? 1 : radius + 0.004), 9);
  });
});

test.each([[{ fixed: 90 }], [film(10, 90)]])(
  'a solid cylinder has no inner face: as warm as its innermost cell, and nothing passes',
  (inner) => {
    const grid = gridOf(column({ radius: 0, inner, outer: film(10, 20) }));
    const T = Float64Array.of(31, 33, 38, 41, 44);
    expect(grid.surface('inner', T)).toBe(31);
    expect(grid.inflow('inner', T)).toBe(0);
    expect(grid.surfaceSlope('inner', T, Float64Array.of(0.3, 0, 0, 0, 0))).toBe(0.3);
    expect(own(grid, 0, 31)).toEqual({ heat: 0, slope: 0, drift: 0 });
    expect(grid.at(0, T)).toBe(31);
    all(grid.volumes.slice(0, 2), [0.002 ** 2 / 2, (0.004 ** 2 - 0.002 ** 2) / 2]);
  },
);
