import fc from 'fast-check';
import { create, all as everything } from 'mathjs';
import { expectedSegment, girthAt, girthProfile, mm, sliceProfile, statureForAge, years } from 'swathe';
import { describe, expect, test } from 'vitest';
import { girthBetween } from '../../packages/core/src/segment/frustum.ts';
import { normalShare, quantile95 } from '../../packages/core/src/segment/normal.ts';
import { between, entriesOf, inputsOf, manyRuns } from '../generators.ts';

const numRuns = { numRuns: manyRuns };
const math = create(everything ?? {});

type Sliced = Parameters<typeof sliceProfile>[0];
const slices = inputsOf(sliceProfile) as unknown as fc.Arbitrary<Sliced>;
const near = (got: number, wanted: number, within = 1e-9): void =>
  expect(Math.abs(got - wanted), `${got} and ${wanted}`).toBeLessThanOrEqual(within * Math.abs(wanted));

describe('a part of a limb', () => {
  test('parts that meet add up to the whole, wherever the cuts are', () => {
    fc.assert(
      fc.property(slices, ({ stations, from, to }) => {
        const [first, last] = [stations[0]?.at, stations.at(-1)?.at] as [Sliced['from'], Sliced['to']];
        const whole = girthProfile({ stations }).value;
        const cuts = [first, from, to, last].filter((x, n, all) => n === 0 || x > (all[n - 1] as number));
        const parts = cuts.slice(1).map((end, n) => {
          const { value } = sliceProfile({ stations, from: cuts[n] as Sliced['from'], to: end });
          return value;
        });
        for (const key of ['length', 'slant', 'area', 'volume'] as const)
          near(
            parts.reduce((sum, part) => sum + part[key], 0),
            whole[key],
          );
      }),
      numRuns,
    );
  });

  test('has the girths that the whole has at its ends, and is a limb of its own', () => {
    fc.assert(
      fc.property(slices, ({ stations, from, to }) => {
        const { value } = sliceProfile({ stations, from, to });
        expect(value.stations[0]).toEqual({ at: from, girth: girthAt({ stations, at: from }).value });
        expect(value.stations.at(-1)).toEqual({ at: to, girth: girthAt({ stations, at: to }).value });
        const again = girthProfile({ stations: [...value.stations] }).value;
        for (const key of ['length', 'slant', 'area', 'volume'] as const) near(again[key], value[key]);
      }),
      numRuns,
    );
  });

  test('grows with scale: lengths once, areas twice, volumes three times', () => {
    fc.assert(
      fc.property(slices, between(0.2, 5), ({ stations, from, to }, by) => {
        const grown = <T extends number>(x: T): T => (x * by) as T;
        const one = sliceProfile.compute({ stations, from, to });
        const other = sliceProfile.compute({
          stations: stations.map(({ at, girth }) => ({ at: grown(at), girth: grown(girth) })),
          from: grown(from),
          to: grown(to),
        });
        near(other.slant, one.slant * by);
        near(other.area, one.area * by ** 2);
        near(other.volume, one.volume * by ** 3);
      }),
      numRuns,
    );
  });

  test('a girth never lies outside those of its two neighbours', () => {
    fc.assert(
      fc.property(slices, ({ stations, from: at }) => {
        const n = Math.max(
          1,
          stations.findIndex((s) => s.at >= at),
        );
        const [a, b] = [stations[n - 1]?.girth, stations[n]?.girth] as [number, number];
        const girth = girthAt({ stations, at }).value;
        expect(girth).toBeGreaterThanOrEqual(Math.min(a, b) * (1 - 1e-15));
        expect(girth).toBeLessThanOrEqual(Math.max(a, b) * (1 + 1e-15));
      }),
      numRuns,
    );
  });

  test('two shortcuts for a piece of cone are off by what their closed forms say', () => {
    fc.assert(
      fc.property(between(30, 1200), between(30, 1200), between(1, 600), (a, b, h) => {
        const volume = (c: number, d: number): number =>
          girthProfile.compute({
            stations: [
              { at: 0 as Sliced['from'], girth: c as Sliced['stations'][0]['girth'] },
              { at: h as Sliced['from'], girth: d as Sliced['stations'][0]['girth'] },
            ],
          }).volume;
        const frustum = volume(a, b);
        const unit = (h * (a - b) ** 2) / (48 * Math.PI);
        const mean = (a + b) / 2;
        expect(Math.abs(frustum - volume(mean, mean) - unit)).toBeLessThan(1e-12 * frustum);
        const ends = (volume(a, a) + volume(b, b)) / 2;
        expect(Math.abs(ends - frustum - 2 * unit)).toBeLessThan(1e-12 * frustum);
      }),
      numRuns,
    );
  });
});

describe('the share of a normal distribution', () => {
  test('is what mathjs makes of its error function', () => {
    fc.assert(
      fc.property(between(-8, 8), (z) => {
        const wanted = (1 + math.erf(z / Math.SQRT2)) / 2;
        expect(Math.abs(normalShare(z) - wanted)).toBeLessThan(1e-15);
      }),
      numRuns,
    );
  });

  // erfc as @stdlib/math-base-special-erfc 0.2.5 gives it, and erfcx as its erfcx 0.3.1 does.
  test.each([
    [-0.5 * Math.SQRT2, 0.4795001221869535 / 2],
    [-5 * Math.SQRT2, 1.5374597944280351e-12 / 2],
    [-10 * Math.SQRT2, (0.05614099274382259 * Math.exp(-100)) / 2],
  ])('keeps its digits in the tail, at %d', (z, share) => near(normalShare(z), share, 1e-13));

  test('is symmetric, rises, and meets itself where the series hands over to the fraction', () => {
    fc.assert(
      fc.property(between(-40, 40), between(1e-6, 1), (z, more) => {
        expect(Math.abs(normalShare(z) + normalShare(-z) - 1)).toBeLessThan(1e-15);
        expect(normalShare(z + more)).toBeGreaterThanOrEqual(normalShare(z));
      }),
      numRuns,
    );
    for (const z of [3, -3]) near(normalShare(z * (1 - 1e-15)), normalShare(z), 1e-12);
    expect(normalShare(quantile95)).toBeCloseTo(0.95, 15);
    expect([normalShare(0), normalShare(200), normalShare(-200)]).toEqual([0.5, 1, 0]);
  });
});

type Expected = Parameters<typeof expectedSegment>[0];
const people = inputsOf(expectedSegment) as unknown as fc.Arbitrary<Expected>;
type Surveyed = Extract<ReturnType<typeof expectedSegment>['value'], { kind: 'surveyed' }>;
const surveyed = (inputs: Expected): Surveyed | undefined => {
  const { value } = expectedSegment(inputs);
  return value.kind === 'surveyed' ? value : undefined;
};

/** The z below which a share lies, by halving. */
function quantile(share: number): number {
  let [low, high] = [-9, 9];
  for (let n = 0; n < 100; n++) {
    const z = (low + high) / 2;
    if (normalShare(z) < share) low = z;
    else high = z;
  }
  return (low + high) / 2;
}

describe('the size to expect', () => {
  test('from a percentile to a value and back', () => {
    fc.assert(
      fc.property(people, between(0.001, 0.999), (inputs, share) => {
        const { measured: _, ...unplaced } = inputs;
        for (const { who, expected, spread } of surveyed(unplaced)?.among ?? []) {
          const measured = (expected + quantile(share) * spread) as NonNullable<Expected['measured']>;
          if (measured < 10 || measured > 1500) continue;
          const found = surveyed({ ...unplaced, measured })?.among.find((a) => a.who === who);
          expect(Math.abs((found?.percentile ?? -1) - share)).toBeLessThan(1e-12);
        }
      }),
      numRuns,
    );
  });

  test('rises with stature and weight where its slopes say so, as a straight line', () => {
    fc.assert(
      fc.property(people, between(0, 100), between(0, 20), (inputs, taller, heavier) => {
        const { stature, weight } = inputs;
        if (stature === undefined) return;
        const more = {
          ...inputs,
          stature: (stature + taller) as typeof stature,
          ...(weight !== undefined && { weight: (weight + 1000 * heavier) as typeof weight }),
        };
        if (more.stature > 2500 || (more.weight ?? 0) > 400_000) return;
        const [one, other] = [surveyed(inputs), surveyed(more)];
        for (const a of one?.among ?? []) {
          const b = other?.among.find(({ who }) => who === a.who);
          if (!b) continue;
          const rise = a.perStature * taller + (weight === undefined ? 0 : a.perKilogram * heavier);
          expect(Math.abs(b.expected - a.expected - rise)).toBeLessThan(1e-9);
        }
        if (weight === undefined) for (const a of one?.among ?? []) expect(a.perStature).toBeGreaterThan(0);
      }),
      numRuns,
    );
  });

  test('is a size that a limb can have, with limits round it that hold nine in ten', () => {
    fc.assert(
      fc.property(people, (inputs) => {
        const value = surveyed(inputs);
        if (!value) return;
        for (const a of value.among) {
          expect(a.expected).toBeGreaterThan(20);
          near(
            normalShare((a.most - a.expected) / a.spread) - normalShare((a.least - a.expected) / a.spread),
            0.9,
          );
          expect(value.least).toBeLessThanOrEqual(a.least);
          expect(value.most).toBeGreaterThanOrEqual(a.most);
        }
      }),
      numRuns,
    );
  });

  test('every measure is known of adults or of children', () => {
    const person = { sex: 'female', age: 30 * 31_557_600, stature: 1650 } as unknown as Omit<
      Expected,
      'measure'
    >;
    const child = { ...person, age: 8 * 31_557_600, stature: 1300 } as typeof person;
    const measures = entriesOf(expectedSegment.inputs.measure as never) as readonly Expected['measure'][];
    expect(
      measures.filter((measure) => !surveyed({ ...person, measure }) && !surveyed({ ...child, measure })),
    ).toEqual([]);
  });
});

test('a taller child stands higher on the charts, and the limits are where they say', () => {
  const children = fc.tuple(fc.constantFrom('male' as const, 'female' as const), between(24, 240));
  const month = 2_629_800;
  const placed = (sex: 'male' | 'female', age: number, stature: number) => {
    const { value } = statureForAge({ sex, age: (age * month) as never, stature: stature as never });
    if (value.kind !== 'placed') throw new Error('not on the charts');
    return value;
  };
  fc.assert(
    fc.property(children, between(600, 2200), between(1, 300), ([sex, age], stature, more) => {
      const one = placed(sex, age, stature);
      expect(placed(sex, age, stature + more).z).toBeGreaterThan(one.z);
      expect(Math.abs(placed(sex, age, one.least).percentile - 0.05)).toBeLessThan(1e-12);
      expect(Math.abs(placed(sex, age, one.most).percentile - 0.95)).toBeLessThan(1e-12);
      expect(Math.abs(placed(sex, age, one.median).z)).toBeLessThan(1e-12);
    }),
    numRuns,
  );
});

describe('who was surveyed', () => {
  const calf = { measure: 'calf girth', sex: 'unstated', stature: mm(1700) } as const;

  test('children from their second birthday to their eighteenth, soldiers from then on', () => {
    const survey = (age: number, stature = 1700) => {
      const { value } = expectedSegment({ ...calf, age: years(age), stature: mm(stature) });
      return value.kind === 'surveyed' ? value.survey : value.kind;
    };
    expect([1.99, 2, 17.99, 18, 40].map((age) => survey(age))).toEqual([
      'unsurveyed',
      'children aged 2 to 18',
      'children aged 2 to 18',
      'soldiers aged 17 to 58',
      'soldiers aged 17 to 58',
    ]);
  });

  test('on the eighteenth birthday by the fits of men and women', () => {
    const { value } = expectedSegment({ ...calf, age: years(18) });
    expect(value.kind === 'surveyed' && value.among.map(({ who }) => who)).toEqual(['women', 'men']);
  });

  test('men of 1491 to 1993 mm, women of 1409 to 1829 mm, both ends included', () => {
    const who = (sex: 'male' | 'female', stature: number) => {
      const { value } = expectedSegment({ ...calf, sex, age: years(30), stature: mm(stature) });
      return value.kind === 'surveyed' ? value.among.map((a) => a.who).join() : value.because;
    };
    for (const stature of [1491, 1700, 1993]) expect(who('male', stature)).toBe('men');
    for (const stature of [1409, 1700, 1829]) expect(who('female', stature)).toBe('women');
    for (const stature of [1490, 1994])
      expect(who('male', stature)).toBe('none of the men surveyed had such a stature');
    for (const stature of [1408, 1830])
      expect(who('female', stature)).toBe('none of the women surveyed had such a stature');
  });

  test('a girth as expected is told nothing about, one far off is, by the survey that it is set against', () => {
    for (const [age, source] of [
      [10, 'snyder-1977-children'],
      [30, 'gordon-2014-ansur2'],
    ] as const) {
      const given = { ...calf, age: years(age) };
      const { value } = expectedSegment(given);
      if (value.kind !== 'surveyed') throw new Error('no survey');
      expect(value.among.every((a) => !('percentile' in a))).toBe(true);
      const told = (measured: number) =>
        expectedSegment({ ...given, measured: mm(measured) }).cautions.map((c) => [c.code, ...c.sources]);
      expect(told((value.least + value.most) / 2)).toEqual([]);
      expect(told(value.most + 200)).toEqual([['measure-again', source]]);
      expect(told(value.least - 150)).toEqual([['measure-again', source]]);
    }
  });
});

test('past either end the end girth goes on', () => {
  const ends = [
    { at: mm(0), girth: mm(170) },
    { at: mm(200), girth: mm(260) },
  ];
  expect([-10, 0, 100, 200, 210].map((at) => girthBetween(ends, at))).toEqual([170, 170, 215, 260, 260]);
});
