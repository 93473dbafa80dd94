import { Outcome, Solver } from 'odex';
import { describe, expect, test } from 'vitest';
import { type Cells, march, NotSettled, type State } from '../../packages/core/src/setting/march.ts';

/*
 * A small system that has all that a march can meet, its right-hand side written out twice: as cells for the march, and as
 * plain equations for odex. Five cells, of which the second to the fourth react.
 */
const capacity = [2, 3, 1.5, 4, 2.5];
const conductance = [0.8, 1.7, 0.4, 1.1];
const reacts = [0, 50, 70, 60, 0];
const [first, end] = [1, 4];
const start = [20, 30, 25, 40, 10];
const until = 4;

const toy: Cells = {
  capacity: Float64Array.from(capacity),
  conductance: Float64Array.from(conductance),
  local: (i, T, time, out) => {
    out.heat = 3 * i - 0.4 * T - 0.01 * T * T + 20 * Math.sin(2 * time + i);
    out.slope = -0.4 - 0.02 * T;
    out.drift = 40 * Math.cos(2 * time + i);
  },
  reaction: {
    first,
    end,
    heat: Float64Array.from(reacts),
    rate: (T, a, out) => {
      const warm = 0.5 * Math.exp(0.03 * T);
      out.rate = warm * (a + 0.05) * (1 - a);
      out.byTemperature = 0.03 * out.rate;
      out.byConversion = warm * (0.95 - 2 * a);
    },
  },
};
const at = (T: readonly number[], conversion: readonly number[] = T.map(() => 0)): State => ({
  time: 0,
  temperature: Float64Array.from(T),
  conversion: Float64Array.from(conversion),
});
const begin = at(start, [0, 0.01, 0.02, 0.03, 0]);

/** Temperatures, conversions, and the sums over time of temperature and of heat by itself. */
const equations = (time: number, y: readonly number[]): number[] => {
  const [T, a] = [y.slice(0, 5), y.slice(5, 10)] as [number[], number[]];
  const own = T.map((t, i) => 3 * i - 0.4 * t - 0.01 * t * t + 20 * Math.sin(2 * time + i));
  const speed = T.map((t, i) => {
    const x = a[i] ?? 0;
    return reacts[i] === 0 ? 0 : 0.5 * Math.exp(0.03 * t) * (x + 0.05) * (1 - x);
  });
  const through = conductance.map((g, i) => g * ((T[i] ?? 0) - (T[i + 1] ?? 0)));
  const warming = T.map(
    (_, i) =>
      ((own[i] ?? 0) +
        (through[i - 1] ?? 0) -
        (through[i] ?? 0) +
        (reacts[i] as number) * (speed[i] as number)) /
      (capacity[i] as number),
  );
  return [...warming, ...speed, ...T, ...own];
};
function byOdex(to: number): number[] {
  const solver = new Solver(20);
  solver.relativeTolerance = 1e-12;
  solver.absoluteTolerance = 1e-12;
  solver.maxSteps = 100_000;
  const y0 = [...begin.temperature, ...begin.conversion, ...new Array<number>(10).fill(0)];
  const { y, outcome } = solver.solve((x, y) => equations(x, y), 0, y0, to);
  expect(outcome).toBe(Outcome.Converged);
  return y;
}
const right = byOdex(until);
const even = (steps: number): number[] => Array.from({ length: steps }, (_, n) => (until * (n + 1)) / steps);
const newAccount = () => ({ held: new Float64Array(5), brought: new Float64Array(5) });
const furthest = (got: Iterable<number>, wanted: readonly number[]): number =>
  Math.max(...[...got].map((x, i) => Math.abs(x - (wanted[i] as number))));

describe('heat and a reaction, against odex', () => {
  test('equal steps: errors of temperatures, conversions and both sums fall sixteenfold where steps are halved', () => {
    const errors = [32, 64, 128].map((steps) => {
      const account = newAccount();
      const { temperature, conversion } = march(toy, begin, until, 0, undefined, {
        times: even(steps),
        account,
      });
      return [
        furthest(temperature, right.slice(0, 5)),
        furthest(conversion, right.slice(5, 10)),
        furthest(account.held, right.slice(10, 15)),
        furthest(account.brought, right.slice(15)),
      ];
    });
    const [coarse = [], middle = [], fine = []] = errors;
    for (const k of [0, 1, 2, 3]) {
      expect((coarse[k] as number) / (middle[k] as number), `${k}`).toBeGreaterThan(11);
      expect((middle[k] as number) / (fine[k] as number), `${k}`).toBeGreaterThan(13);
      expect((middle[k] as number) / (fine[k] as number), `${k}`).toBeLessThan(20);
      expect(fine[k]).toBeLessThan(1e-5);
    }
  });

  test('steps of its own: what is asked for is kept, and a fourth root of it is the work', () => {
    const [loose, tight] = [1e-5, 1e-9].map((tolerance) => {
      const run = march(toy, begin, until, tolerance);
      expect(furthest(run.temperature, right.slice(0, 5))).toBeLessThan(5 * tolerance);
      expect(furthest(run.conversion, right.slice(5, 10))).toBeLessThan(0.05 * tolerance);
      expect(run.time).toBe(until);
      return run;
    }) as [ReturnType<typeof march>, ReturnType<typeof march>];
    expect(tight.steps / loose.steps).toBeGreaterThan(9);
    expect(tight.steps / loose.steps).toBeLessThan(10.5);
    expect(loose.refused).toBeLessThan(loose.steps / 5);
    expect(tight.refused).toBeLessThan(tight.steps / 20);
  });

  test('what is stored is what came, to the last digits and whatever the steps; asking for sums moves nothing', () => {
    for (const course of [{}, { times: [0.5, 0.8, 2, until] }]) {
      const account = newAccount();
      const { temperature, conversion } = march(toy, begin, until, 1e-2, undefined, { ...course, account });
      const plain = march(toy, begin, until, 1e-2, undefined, course);
      expect(temperature).toEqual(plain.temperature);
      expect(conversion).toEqual(plain.conversion);
      for (const [i, c] of capacity.entries()) {
        const beside = (j: number): number => (account.held[j] as number) - (account.held[i] as number);
        const came =
          (account.brought[i] as number) +
          (i > 0 ? (conductance[i - 1] as number) * beside(i - 1) : 0) +
          (i < 4 ? (conductance[i] as number) * beside(i + 1) : 0) +
          (reacts[i] as number) * ((conversion[i] as number) - (begin.conversion[i] as number));
        const stored = c * ((temperature[i] as number) - (begin.temperature[i] as number));
        expect(Math.abs(stored - came)).toBeLessThan(1e-11);
      }
    }
  });

  test('each step tells its time, state and slope', () => {
    const told: number[] = [];
    let before = Number.NaN;
    const run = march(toy, begin, until, 1e-7, ({ time, temperature, conversion }, slope) => {
      told.push(time);
      const rates = equations(time, [...temperature, ...conversion]);
      expect(furthest(slope, rates.slice(0, 5))).toBeLessThan(1e-6);
      before = temperature[0] as number;
    });
    expect(told.length).toBe(run.steps + 1);
    expect(told[0]).toBe(0);
    expect(told.at(-1)).toBe(until);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    expect(before).toBe(run.temperature[0]);
  });
});

/** One cell of capacity 2 whose temperature goes by the rate and its changes with temperature and time. */
const single = (
  rate: (T: number, time: number) => readonly [rate: number, byTemperature: number, byTime: number],
): Cells => ({
  capacity: Float64Array.of(2),
  conductance: new Float64Array(0),
  local: (_, T, time, out) => {
    const [heat, slope, drift] = rate(T, time);
    out.heat = 2 * heat;
    out.slope = 2 * slope;
    out.drift = 2 * drift;
  },
});
const timesOf = (cells: Cells, from: State, to: number, tolerance: number): number[] => {
  const times: number[] = [];
  march(cells, from, to, tolerance, ({ time }) => times.push(time));
  return times;
};
const lengths = (times: readonly number[]): number[] =>
  times.slice(1).map((t, n) => t - (times[n] as number));
const decay = single((T) => [-T, -1, 0]);

describe('the steps', () => {
  test('a tolerance in kelvin is one in hundredths of conversion', () => {
    // The same logistic growth, once as a temperature of up to 100 °C and once as a conversion.
    const k = 0.7;
    const warm = single((T) => [k * T * (1 - T / 100), k * (1 - T / 50), 0]);
    const cold: Cells = {
      capacity: Float64Array.of(1),
      conductance: new Float64Array(0),
      local: (_, __, ___, out) => {
        out.heat = 0;
        out.slope = 0;
        out.drift = 0;
      },
      reaction: {
        first: 0,
        end: 1,
        heat: Float64Array.of(0),
        rate: (_, a, out) => {
          out.rate = k * a * (1 - a);
          out.byTemperature = 0;
          out.byConversion = k * (1 - 2 * a);
        },
      },
    };
    const [asHeat, asConversion] = [
      march(warm, at([1]), 20, 1e-4),
      march(cold, at([0], [0.01]), 20, 1e-4),
    ] as const;
    const exact = 1 / (1 + 99 * Math.exp(-k * 20));
    expect(Math.abs((asHeat.temperature[0] as number) / 100 - exact)).toBeLessThan(1e-6);
    expect(Math.abs((asConversion.conversion[0] as number) - exact)).toBeLessThan(1e-6);
    expect(asConversion.steps).toBe(asHeat.steps);
    expect(timesOf(cold, at([0], [0.01]), 20, 1e-4)).toEqual(timesOf(warm, at([1]), 20, 1e-4));
  });

  test('come off a ladder of quarter octaves, rise by three octaves at most, and end in two equal ones', () => {
    const h = lengths(timesOf(decay, at([100]), 3, 1e-3));
    const rungs = h.map((x) => 4 * Math.log2(x));
    for (const rung of rungs.slice(0, -2)) expect(Math.abs(rung - Math.round(rung))).toBeLessThan(1e-6);
    for (const [n, rung] of rungs.slice(1, -1).entries())
      expect(rung - (rungs[n] as number)).toBeLessThan(12 + 1e-6);
    expect(h[0]).toBeLessThanOrEqual(3e-6);
    expect(h[0]).toBeGreaterThan(3e-6 / 2 ** 0.25);
    expect(h.at(-1)).toBeCloseTo(h.at(-2) as number, 12);
  });

  test('where nothing moves each is eight times the one before, from a millionth of the way', () => {
    const h = lengths(
      timesOf(
        single(() => [0, 0, 0]),
        at([7]),
        1,
        1e-3,
      ),
    );
    expect(h.length).toBe(8);
    for (const [n, x] of h.slice(1, 6).entries()) expect(x / (h[n] as number)).toBeCloseTo(8, 6);
    // From a short way no less than a thousand-millionth of a second.
    const short = lengths(
      timesOf(
        single(() => [0, 0, 0]),
        at([7]),
        1e-5,
        1e-3,
      ),
    );
    expect(short[0]).toBeLessThanOrEqual(1e-9);
    expect(short[0]).toBeGreaterThan(1e-9 / 2 ** 0.25);
  });

  test('keep the error of each level: fourth power of the length times what decays stays within one rung', () => {
    const times = timesOf(decay, at([1000]), 20, 1e-6);
    const level = lengths(times)
      .map((h, n) => h ** 4 * 1000 * Math.exp(-(times[n] as number)))
      .slice(30, -2);
    expect(level.length).toBeGreaterThan(100);
    // A rung is a factor of two in the fourth power; what is left is the higher terms.
    expect(Math.max(...level) / Math.min(...level)).toBeLessThan(2.4);
  });

  test('are given back and taken shorter where something comes up at once', () => {
    // T = 50 tanh((t - 500) / 2), which a long step runs into.
    const front = single((_, time) => {
      const x = Math.tanh((time - 500) / 2);
      return [25 * (1 - x * x), 0, -25 * x * (1 - x * x)];
    });
    const run = march(front, at([-50]), 700, 1e-4);
    expect(run.temperature[0]).toBeCloseTo(50, 3);
    expect(run.refused).toBeGreaterThan(0);
    expect(run.refused).toBeLessThan(run.steps / 3);
    expect(run.steps).toBeLessThan(150);
  });

  test('that lead to no number are tried at a quarter', () => {
    // Nothing more than 0.3 s after the last step is known.
    const tries: number[][] = [];
    let [done, asked] = [0, [] as number[]];
    const cells = single((_, time) => {
      asked.push(time - done);
      return [time - done > 0.3 ? Number.NaN : 1, 0, 0];
    });
    const run = march(cells, at([0]), 10, 1, ({ time }) => {
      // Each try asks at the ends of its five later stages; then what was reached is asked for.
      const all = asked.slice(0, -1);
      tries.push(Array.from({ length: all.length / 5 }, (_, n) => Math.max(...all.slice(5 * n, 5 * n + 5))));
      [done, asked] = [time, []];
    });
    expect(run.temperature[0]).toBeCloseTo(10, 9);
    expect(tries.flat().length).toBe(run.steps + run.refused);
    expect(run.refused).toBeGreaterThan(2);
    // From a step off the ladder it is the rung below a quarter.
    for (const step of tries)
      for (const [n, h] of step.slice(1).entries()) {
        expect((step[n] as number) / h).toBeGreaterThan(4 - 1e-6);
        expect((step[n] as number) / h).toBeLessThan(4 * 2 ** 0.25);
      }
  });

  test('end at the very time, and begin as short however late', () => {
    for (const to of [0.1, 0.3, 0.7, 1.1, 1.9, 2.3, 3.3, 4.7, 5.9, 7.1, 8.3, 9.7]) {
      const times = timesOf(decay, at([100]), to, 1e-3);
      expect(times.at(-1)).toBe(to);
      const late = timesOf(decay, { ...at([100]), time: 4096 }, 4096 + to, 1e-3);
      expect(late.at(-1)).toBe(4096 + to);
      expect((late[1] as number) - 4096).toBeLessThan(1.0001e-6 * to);
      expect(late.length).toBe(times.length);
      // Where nothing moves the last step is most of the way, and its sum with what came before may round.
      const long = timesOf(
        single(() => [0, 0, 0]),
        at([7]),
        to / 3,
        1e-3,
      );
      expect(long.at(-1)).toBe(to / 3);
      expect(long.length).toBe(9);
    }
  });

  test('are not taken where there is no way to go', () => {
    const seen: number[] = [];
    const run = march(decay, at([5]), 0, 1e-3, (_, slope) => seen.push(slope[0] as number));
    expect(run).toMatchObject({ time: 0, steps: 0, refused: 0 });
    expect([...run.temperature]).toEqual([5]);
    expect(seen).toEqual([-5]);
  });

  test('that can not be made short enough are told, as is a given one that leads to no number', () => {
    const broken = single((_, time) => [time > 0 ? Number.NaN : 1, 0, 0]);
    expect(() => march(broken, at([0]), 10, 1)).toThrow(NotSettled);
    expect(() => march(broken, at([0]), 10, 1)).toThrow('no step is short enough at 0 s');
    expect(() => march(broken, at([0]), 10, 1, undefined, { times: [10] })).toThrow(
      'the step to 10 s is too long',
    );
    // So late a step that could move the clock no more is none.
    const late = single((_, time) => [time > 1e4 ? Number.NaN : 1, 0, 0]);
    expect(() => march(late, { ...at([0]), time: 1e4 }, 2e4, 1)).toThrow(
      'no step is short enough at 10000 s',
    );
    // A given step is kept however large its error.
    expect(march(decay, at([5]), 3, 1e-9, undefined, { times: [3] })).toMatchObject({ steps: 1, refused: 0 });
  });

  test('what was given is not written to', () => {
    const from = at([5]);
    march(decay, from, 1, 1e-3);
    expect([...from.temperature]).toEqual([5]);
  });
});
