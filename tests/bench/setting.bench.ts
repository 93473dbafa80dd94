import { execFileSync, spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { Outcome, Solver } from 'odex';
import { supersaturation, temperatureBand, temperatureHistory } from 'swathe';
import { type CastCase, castColumn } from '../../packages/core/src/setting/cast-model.ts';
import { kineticsOf } from '../../packages/core/src/setting/cast-parameters.ts';
import { march } from '../../packages/core/src/setting/march.ts';
import { sampled, type Trace } from '../../packages/core/src/setting/trace.ts';
import { onAnArm as given } from '../casts.ts';
import { beside, row, timed } from './beside.ts';

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
function system(accuracies: readonly number[]) {
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
    accuracies,
  };
}

const furthest = (a: readonly number[], b: readonly number[]): number =>
  Math.max(...a.map((x, n) => Math.abs(x - (b[n] as number))));

/** The same by odex, on the very functions that the march calls. */
function byOdex(tolerance: number): number[] {
  const { capacity, conductance, local, reaction } = column.cells;
  if (!reaction) throw new Error('no plaster sets');
  const n = capacity.length;
  const reacting = reaction.end - reaction.first;
  const slopes = new Array<number>(n + reacting).fill(0);
  const own = { heat: 0, slope: 0, drift: 0 };
  const rate = { rate: 0, byTemperature: 0, byConversion: 0 };
  const solver = new Solver(n + reacting);
  solver.absoluteTolerance = slopes.map((_, i) => (i < n ? tolerance : tolerance / 100));
  solver.relativeTolerance = 0;
  solver.maxSteps = 10_000_000;
  solver.denseOutput = true;
  solver.denseComponents = [first];
  const at = [column.start.temperature[first] as number];
  const { outcome } = solver.solve(
    (time, y) => {
      let flow = 0;
      for (let i = 0; i < n; i++) {
        const T = y[i] as number;
        local(i, T, time, own);
        let heat = own.heat + flow;
        flow = i < n - 1 ? (conductance[i] as number) * (T - (y[i + 1] as number)) : 0;
        heat -= flow;
        const k = i - reaction.first;
        if (k >= 0 && k < reacting) {
          reaction.rate(T, y[n + k] as number, rate);
          heat += (reaction.heat[i] as number) * rate.rate;
          slopes[n + k] = rate.rate;
        }
        slopes[i] = heat / (capacity[i] as number);
      }
      return slopes;
    },
    0,
    [...column.start.temperature, ...new Array<number>(reacting).fill(0)],
    3600,
    (step, _, x, __, dense) => {
      if (step > 1 && dense)
        for (let t = times[at.length]; t !== undefined && t <= x; t = times[at.length])
          at.push(dense(first, t));
      return undefined;
    },
  );
  if (outcome !== Outcome.Converged) throw new Error('odex did not come to the end');
  return at;
}

const exact = course(1e-6);
const accuracies = [0.5, 0.05, 0.005].map((tolerance) => ({
  tolerance,
  accuracy: furthest(course(tolerance), exact),
}));
const whatAt = (accuracy: number): string => `heat of a cast for an hour, to ${accuracy.toPrecision(1)} K`;
const noteOf = (error: number): string => `the peer’s error ${error.toPrecision(1)} K`;

const besideOdex = (() => {
  const tolerances = [10, 3, 1, 0.3, 0.1, 0.03, 0.01, 3e-3, 1e-3, 3e-4, 1e-4, 1e-5, 1e-6].values();
  let [rough, error] = [0, Number.POSITIVE_INFINITY];
  // From rough to fine: the loosest tolerance that serves.
  return accuracies.map(({ tolerance, accuracy }) => {
    while (!(error <= accuracy)) {
      const { value, done } = tolerances.next();
      if (done) throw new Error(`odex does not come within ${accuracy} K`);
      rough = value;
      error = furthest(byOdex(rough), exact);
    }
    const pairs = beside(
      () => course(tolerance),
      () => byOdex(rough),
    );
    return row(whatAt(accuracy), 'odex', pairs, noteOf(error));
  });
})();

const peers = { LSODA: 'SciPy LSODA', BDF: 'SciPy BDF', Radau: 'SciPy Radau' } as const;
interface Found {
  readonly method: keyof typeof peers;
  readonly accuracy: number;
  readonly milliseconds: number;
  readonly error: number;
}

function besideSciPy() {
  const input = JSON.stringify(system(accuracies.map(({ accuracy }) => accuracy)));
  const said = execFileSync('python3', [join(import.meta.dirname, 'cast.py')], {
    encoding: 'utf8',
    input,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const { truth, peers: found } = JSON.parse(said) as { truth: number[]; peers: Found[] };
  // Two programs, one system: they must end at the same course.
  if (!(furthest(truth, exact) < 1e-5)) throw new Error('SciPy was given another system');
  return accuracies.flatMap(({ tolerance, accuracy }) => {
    const ours = timed(() => course(tolerance), 41);
    return found
      .filter((peer) => peer.accuracy === accuracy)
      .map(({ method, milliseconds, error }) =>
        row(whatAt(accuracy), peers[method], [[ours, milliseconds]], `${noteOf(error)}; its slopes in NumPy`),
      );
  });
}

// How long somebody waits who moves a slider.
console.error(
  `neutral course ${timed(() => temperatureHistory(given), 21).toPrecision(2)} ms, 16 meant; ` +
    `band of 64 draws ${timed(() => temperatureBand({ ...given, seed: 1, samples: 64 }), 5).toPrecision(2)} ms, 250 meant`,
);

const installed = spawnSync('python3', ['-c', 'import scipy']).status === 0;
export const rows = [...besideOdex, ...(installed ? besideSciPy() : [])];
export const missing = installed ? [] : ['SciPy'];
