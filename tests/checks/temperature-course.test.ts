import { createRequire } from 'node:module';
import {
  celsius,
  hydrationHeat,
  minutes,
  mm,
  ratio,
  supersaturation,
  temperatureBand,
  temperatureHistory,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import { type CastCase, type CastHistory, castHistory } from '../../packages/core/src/setting/cast-model.ts';
import { type CastNumbers, neutral, ranges } from '../../packages/core/src/setting/cast-parameters.ts';
import type { Trace } from '../../packages/core/src/setting/trace.ts';
import { onAnArm } from '../casts.ts';

type Inputs = Parameters<typeof temperatureHistory>[0];
const arm: Inputs = onAnArm;
/** The same in metres, as the model takes it. */
const armCase: CastCase = {
  material: 'fast plaster',
  plies: 12,
  dip: 24,
  room: 22,
  humidity: 0.5,
  paddingLayers: 3,
  stockinette: true,
  compression: 0,
  body: { kind: 'limb', radius: 0.045, blood: 'flows' },
  cover: 'bare',
};
// Each as it is told and as it is: one hot enough to stand above all levels, one on a tube, one under tape.
const scald: [Inputs, CastCase] = [
  {
    ...arm,
    plies: 15,
    folded: true,
    dip: celsius(50),
    paddingLayers: 1,
    compression: ratio(0.4),
    body: { kind: 'limb', radius: mm(40), fat: mm(3), blood: 'none' },
    cover: 'pillow',
    material: 'extra-fast plaster',
  },
  {
    ...armCase,
    plies: 30,
    dip: 50,
    paddingLayers: 1,
    compression: 0.4,
    body: { kind: 'limb', radius: 0.04, fat: 0.003, blood: 'none' },
    cover: 'pillow',
    material: 'extra-fast plaster',
  },
];
const tube: [Inputs, CastCase] = [
  {
    ...arm,
    material: 'slow plaster',
    paddingLayers: 0,
    body: {
      kind: 'tube',
      radius: mm(38),
      wall: mm(4),
      of: 'plastic',
      inside: 'still water',
      temperature: celsius(30),
    },
    cover: 'blanket',
  },
  {
    ...armCase,
    material: 'slow plaster',
    paddingLayers: 0,
    body: {
      kind: 'tube',
      radius: 0.038,
      wall: 0.004,
      of: 'plastic',
      inside: 'still water',
      temperature: 30,
    },
    cover: 'blanket',
  },
];
const taped: [Inputs, CastCase] = [
  { ...arm, dip: celsius(35), cover: 'elastic', overwrap: { after: minutes(12), layers: 3 } },
  { ...armCase, dip: 35, cover: 'elastic', overwrap: { after: 720, layers: 3 } },
];
const cases = [
  ['an arm', arm, armCase],
  ['a hot cast', ...scald],
  ['a tube', ...tube],
  ['under tape', ...taped],
] as const;

/** Value of a trace at a time: the cubic through values and slopes, in Hermite's own form. */
function valueAt({ time, value, slope }: Trace, t: number): number {
  const n =
    Math.max(
      1,
      time.findIndex((x) => x >= t),
    ) - 1;
  const [t0, t1] = [time[n] as number, time[n + 1] as number];
  const [h, s] = [t1 - t0, (t - t0) / (t1 - t0)];
  return (
    (value[n] as number) * (1 + 2 * s) * (1 - s) ** 2 +
    (slope[n] as number) * h * s * (1 - s) ** 2 +
    (value[n + 1] as number) * s * s * (3 - 2 * s) -
    (slope[n + 1] as number) * h * s * s * (1 - s)
  );
}
const places = ['interface', 'skin', 'basal'] as const;
const fine = Array.from({ length: 14_401 }, (_, n) => n / 4);
/** Peak, its time, and the times above four levels, by looking every quarter of a second. */
function looked(trace: Trace) {
  const values = fine.map((t) => valueAt(trace, t));
  const peak = Math.max(...values);
  const above = (level: number): number => values.filter((v) => v > level).length / 4;
  return {
    peak,
    at: fine[values.indexOf(peak)] as number,
    above40: above(40),
    above44: above(44),
    above47: above(47),
    above49: above(49),
  };
}
const near = (got: number, wanted: number, within: number, what = ''): void =>
  expect(Math.abs(got - wanted), `${what} ${got} and ${wanted}`).toBeLessThanOrEqual(within);

describe('one course', () => {
  test.each(cases)('%s: what is told is read off the model’s own', (_, inputs, given) => {
    const { value } = temperatureHistory(inputs);
    const history = castHistory(given, temperatureHistory.numbers, 3600, { cells: 16, tolerance: 0.05 });
    for (const where of places) {
      const wanted = looked(history[where]);
      near(value[where].peak, wanted.peak, 1e-5, where);
      near(value[where].at, wanted.at, 0.5, where);
      for (const level of ['above40', 'above44', 'above47', 'above49'] as const)
        near(value[where][level], wanted[level], 2, level);
    }
    const outside = looked(history.outside);
    near(value.outside.peak, outside.peak, 1e-5);
    near(value.outside.at, outside.at, 0.5);
    near(value.across, value.interface.peak - outside.peak, 1e-5);
    near(value.lead, value.interface.at - outside.at, 0.5);
    expect(value.converted).toBe(history.conversion.value.at(-1));
    expect(value.curve.time).toEqual(Array.from({ length: 61 }, (_, n) => 60 * n));
    for (const where of [...places, 'outside'] as const)
      for (const [n, t] of value.curve.time.entries())
        near(value.curve[where][n] as number, valueAt(history[where], t), 1e-9, where);
  });

  test('the hot one stands above every level, the tube above none', () => {
    const [hot, cool] = [temperatureHistory(scald[0]).value, temperatureHistory(tube[0]).value];
    expect(hot.interface.above49).toBeGreaterThan(60);
    expect(hot.interface.above44).toBeGreaterThan(hot.interface.above47 + 10);
    expect(cool.skin).toMatchObject({ above40: 0, above44: 0, above47: 0, above49: 0 });
  });

  test('the steps on the way, by hand', () => {
    const { steps } = temperatureHistory(arm);
    const step = (name: string): number => steps.find((s) => s.name === name)?.value as number;
    const holds = 4.18 * 0.7;
    const start = 22 + 0.8 * ((holds * 24 + 0.82 * 22) / (holds + 0.82) - 22);
    near(step('start'), start, 1e-12);
    near(
      step('supersaturation'),
      supersaturation({ hemihydrate: 'beta', temperature: celsius(start) }).value.supersaturation,
      1e-12,
    );
    near(step('thickness'), 12 * 0.42, 1e-12);
    const { heatCapacity } = hydrationHeat({ hemihydrate: 'alpha', water: ratio(0.7) }).value;
    near(step('capacity'), (350 / 0.42) * 1000 * heatCapacity, 1e-6);
  });
});

/** The generator that the library draws from; what is made of its numbers is written out here anew. */
const of = createRequire(new URL('../../packages/core/package.json', import.meta.url));
const { xoroshiro128plus } = of('pure-rand/generator/xoroshiro128plus') as {
  xoroshiro128plus: (seed: number) => unknown;
};
const { uniformInt } = of('pure-rand/distribution/uniformInt') as {
  uniformInt: (generator: unknown, from: number, to: number) => number;
};
const { uniformFloat64 } = of('pure-rand/distribution/uniformFloat64') as {
  uniformFloat64: (generator: unknown) => number;
};

type Name = keyof typeof ranges;
const always = [
  'dipReading',
  'roomReading',
  'heat',
  'massPerPly',
  'waterRatio',
  'thicknessPerPly',
  'castConductivity',
  'handlingLoss',
  'activation',
  'order',
  'paddingConductivity',
  'convection',
  'wetness',
] as const satisfies readonly Name[];
/** What each case feels beside what all do. */
const felt: Readonly<Record<(typeof cases)[number][0], readonly Name[]>> = {
  'an arm': ['rateFast', 'paddingThickness', 'core', 'fatThickness', 'skinPerfusion'],
  'a hot cast': ['rateExtraFast', 'paddingThickness', 'pillowResistance', 'core'],
  'a tube': ['rateSlow', 'blanketResistance'],
  'under tape': [
    'rateFast',
    'paddingThickness',
    'elasticResistance',
    'core',
    'fatThickness',
    'skinPerfusion',
    'resinHeat',
    'resinPerLayer',
  ],
};

/** Latin hypercube: each range in as many strata as samples, in an order shuffled by Fisher and Yates, a place drawn in each. */
function hypercube(names: readonly Name[], samples: number, seed: number): Map<Name, number[]> {
  const generator = xoroshiro128plus(seed);
  const drawn = new Map<Name, number[]>();
  for (const name of names) {
    const stratum = [...new Array<number>(samples).keys()];
    for (let last = samples - 1; last >= 1; last -= 1) {
      const other = uniformInt(generator, 0, last);
      const kept = stratum[last] as number;
      stratum[last] = stratum[other] as number;
      stratum[other] = kept;
    }
    const [least, most] = (/^(-?[\d.]+)–([\d.]+)$/.exec(ranges[name].printed) ?? []).slice(1).map(Number) as [
      number,
      number,
    ];
    drawn.set(
      name,
      stratum.map((n) => {
        const share = (n + uniformFloat64(generator)) / samples;
        // Rates and flows by factors.
        return /^rate|Perfusion$/.test(name)
          ? Math.exp((1 - share) * Math.log(least) + share * Math.log(most))
          : (1 - share) * least + share * most;
      }),
    );
  }
  return drawn;
}
/** 5th, 50th and 95th in a hundred, straight between the ordered values. */
function quantiles(values: readonly number[]): [number, number, number] {
  const ordered = values.toSorted((a, b) => a - b);
  return [0.05, 0.5, 0.95].map((q) => {
    const place = q * (values.length - 1);
    const [low, high] = [ordered[Math.floor(place)], ordered[Math.ceil(place)]] as [number, number];
    return low * (1 - (place % 1)) + high * (place % 1);
  }) as [number, number, number];
}
/** Spearman's ρ by the squares of the differences of ranks, as it is where no two are equal. */
function spearman(a: readonly number[], b: readonly number[]): number {
  const rank = (of: readonly number[], x: number): number => of.filter((y) => y < x).length;
  const n = a.length;
  const squares = a.reduce((sum, x, i) => sum + (rank(a, x) - rank(b, b[i] as number)) ** 2, 0);
  return 1 - (6 * squares) / (n * (n * n - 1));
}

describe('the band', () => {
  test.each(cases)('%s: plain quantiles and ranks of single courses, drawn here', (name, inputs, given) => {
    const [samples, seed] = [17, 11];
    const { value } = temperatureBand({ ...inputs, seed, samples });
    const names = (Object.keys(ranges) as Name[]).filter(
      (one) => always.some((x) => x === one) || felt[name].includes(one),
    );
    expect(value.drivers.map(({ constant }) => constant).toSorted()).toEqual(names.toSorted());
    const drawn = hypercube(names, samples, seed);
    const histories: CastHistory[] = Array.from({ length: samples }, (_, n) => {
      const own = Object.fromEntries([...drawn].map(([one, values]) => [one, values[n]]));
      const numbers = { ...temperatureHistory.numbers, ...own } as CastNumbers;
      return castHistory(given, numbers, 3600, { cells: 12, tolerance: 0.2 });
    });
    const seen = histories.map((history) => ({
      interface: looked(history.interface),
      skin: looked(history.skin),
      basal: looked(history.basal),
    }));
    for (const where of places) {
      for (const [what, within] of [
        ['peak', 1e-4],
        ['at', 0.5],
        ['above40', 2],
        ['above44', 2],
        ['above47', 2],
        ['above49', 2],
      ] as const) {
        const [least, middle, most] = quantiles(seen.map((one) => one[where][what]));
        near(value[where][what].least, least, within, `${where} ${what}`);
        near(value[where][what].middle, middle, within, `${where} ${what}`);
        near(value[where][what].most, most, within, `${where} ${what}`);
      }
      for (const [n, t] of value.curve.time.entries()) {
        expect(t).toBe(60 * n);
        const [least, middle, most] = quantiles(histories.map((one) => valueAt(one[where], t)));
        near(value.curve[where].least[n] as number, least, 1e-8);
        near(value.curve[where].middle[n] as number, middle, 1e-8);
        near(value.curve[where].most[n] as number, most, 1e-8);
      }
    }
    for (const { constant, onInterface, onSkin } of value.drivers) {
      const values = drawn.get(constant as Name) as number[];
      near(
        onInterface,
        spearman(
          values,
          seen.map((one) => one.interface.peak),
        ),
        1e-12,
        constant,
      );
      near(
        onSkin,
        spearman(
          values,
          seen.map((one) => one.skin.peak),
        ),
        1e-12,
        constant,
      );
    }
    const strength = value.drivers.map(({ onInterface }) => Math.abs(onInterface));
    expect(strength).toEqual(strength.toSorted((a, b) => b - a));
  });

  test('an even number of draws has its middle between two, and the ends have their own', () => {
    const { value } = temperatureBand({ ...arm, seed: 3, samples: 8 });
    for (const { least, middle, most } of [value.interface.peak, value.skin.peak, value.interface.at]) {
      expect(least).toBeLessThan(middle);
      expect(middle).toBeLessThan(most);
    }
    expect(Object.keys(neutral)).toEqual(expect.arrayContaining(Object.keys(ranges)));
  });
});
