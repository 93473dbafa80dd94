import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { celsius, mm, percent, supersaturation, temperatureBand, temperatureHistory } from 'swathe';
import { expect, test } from 'vitest';
import { type CastCase, castColumn } from '../../packages/core/src/setting/cast-model.ts';
import { kineticsOf } from '../../packages/core/src/setting/cast-parameters.ts';
import { march } from '../../packages/core/src/setting/march.ts';
import { sampled, type Trace } from '../../packages/core/src/setting/trace.ts';

const given = {
  material: 'fast plaster',
  plies: 12,
  folded: false,
  dip: celsius(24),
  room: celsius(22),
  humidity: percent(50),
  paddingLayers: 3,
  stockinette: true,
  compression: percent(0),
  body: { kind: 'limb', radius: mm(45), blood: 'flows' },
  cover: 'bare',
} as const;

test('the neutral course within 16 ms, the band of 64 draws within 250 ms, by medians', async ({ bench }) => {
  const course = await bench('temperatureHistory', () => temperatureHistory(given)).run();
  const band = await bench('temperatureBand, 64 draws', () =>
    temperatureBand({ ...given, seed: 1, samples: 64 }),
  ).run();
  console.log(`course ${course.latency.p50.toFixed(2)} ms, band ${band.latency.p50.toFixed(0)} ms, medians`);
  expect(course.latency.p50).toBeLessThan(16);
  expect(band.latency.p50).toBeLessThan(250);
});

const c = temperatureHistory.numbers;
const limb: CastCase = { ...given, body: { kind: 'limb', radius: 0.045, blood: 'flows' } };
const column = castColumn(limb, c, { cells: 16, tolerance: 0 });
const first = column.plaster[0];
const times = Array.from({ length: 61 }, (_, n) => n * 60);

/** Temperature of the plaster's first cell at each minute. */
function course(tolerance: number): number[] {
  const trace = { time: [] as number[], value: [] as number[], slope: [] as number[] } satisfies Trace;
  march(column.cells, column.start, 3600, tolerance, ({ time, temperature }, slope) => {
    trace.time.push(time);
    trace.value.push(temperature[first] as number);
    trace.slope.push(slope[first] as number);
  });
  return sampled(trace, times);
}

/** The semi-discrete system itself, for another integrator. */
function system(accuracy: number) {
  const { grid, column: built, cells } = column;
  const layers = Array.from(grid.layerOf, (n) => built.layers[n] as (typeof built.layers)[number]);
  const radius = built.radius ?? 0;
  const [innermost, outermost] = [layers[0], layers.at(-1)];
  const edge = grid.faces.at(-1) as number;
  const coefficients = (mineral: 'beta' | 'gypsum') =>
    (['A', 'B', 'C', 'D', 'E'] as const).map((letter) => supersaturation.numbers[`${mineral}${letter}`]);
  return {
    capacity: [...grid.capacity],
    conductance: [...grid.conductance],
    heat: [...(cells.reaction?.heat ?? [])],
    blood: layers.map((l, i) => l.blood * (grid.volumes[i] as number)),
    arterial: layers.map((l) => l.arterial),
    // What does not respond to warmth doubles over more kelvin than there are.
    doubling: layers.map((l) => l.doubling ?? 1e12),
    inner: {
      conductance: (innermost?.conductivity ?? 0) / Math.log((radius + (grid.centres[0] as number)) / radius),
      fixed: c.core,
    },
    outer: {
      conductance:
        (outermost?.conductivity ?? 0) /
        Math.log((radius + edge) / (radius + (grid.centres.at(-1) as number))),
      area: radius + edge,
      room: given.room,
      humidity: given.humidity,
      convection: c.convection,
      emissivity: c.emissivity,
      resistance: 0,
      evaporating: c.wetness * c.lewis * c.convection,
    },
    kinetics: kineticsOf(c, given.material),
    beta: coefficients('beta'),
    gypsum: coefficients('gypsum'),
    first,
    start: [...column.start.temperature],
    times,
    accuracy,
  };
}

const furthest = (a: readonly number[], b: readonly number[]): number =>
  Math.max(...a.map((x, n) => Math.abs(x - (b[n] as number))));

test('the march beside SciPy’s stiff integrators on the same system, at equal accuracy', async ({
  bench,
  skip,
}) => {
  if (spawnSync('python3', ['-c', 'import scipy']).status !== 0) {
    console.log('SciPy is not installed: the march was not timed beside it');
    return skip();
  }
  const exact = course(1e-6);
  for (const tolerance of [0.5, 0.05, 0.005]) {
    const accuracy = furthest(course(tolerance), exact);
    const { stdout, stderr } = spawnSync('python3', [join(import.meta.dirname, 'cast.py')], {
      encoding: 'utf8',
      input: JSON.stringify(system(accuracy)),
    });
    expect(stderr).toBe('');
    const { truth, peers } = JSON.parse(stdout) as {
      truth: number[];
      peers: Record<string, { seconds: number; error: number; tolerance: number }>;
    };
    // Two programs, one system: they must end at the same course.
    expect(furthest(truth, exact)).toBeLessThan(1e-5);
    const ours = await bench('the march', () => course(tolerance)).run();
    console.log(
      `error ${accuracy.toPrecision(2)} K; the two exact courses differ by ${furthest(truth, exact).toPrecision(2)} K`,
    );
    for (const [method, { seconds, error }] of Object.entries(peers)) {
      const ratio = (1000 * seconds) / ours.latency.p50;
      console.log(
        `SciPy ${method} takes ${ratio.toPrecision(3)} times as long as the march, at an error of ${error.toPrecision(2)} K`,
      );
      expect(ratio).toBeGreaterThan(0);
    }
    expect(Object.keys(peers)).toEqual(['LSODA', 'BDF', 'Radau']);
  }
}, 600_000);
