import fc from 'fast-check';
import {
  celsius,
  heatCaution,
  hydrationHeat,
  InputError,
  mm,
  ratio,
  seconds,
  supersaturation,
  temperatureBand,
  temperatureHistory,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import {
  type CastCase,
  castColumn,
  castHistory,
  plasterOf,
} from '../../packages/core/src/setting/cast-model.ts';
import {
  type CastNumbers,
  kineticsOf,
  neutral,
  ranges,
} from '../../packages/core/src/setting/cast-parameters.ts';
import { gridOf } from '../../packages/core/src/setting/column.ts';
import { march } from '../../packages/core/src/setting/march.ts';
import { settingRate } from '../../packages/core/src/setting/setting-rate.ts';
import { peakOf, sampled, timeAbove } from '../../packages/core/src/setting/trace.ts';
import { onAnArm as example } from '../casts.ts';
import { between, fewRuns } from '../generators.ts';

const c: CastNumbers = temperatureHistory.numbers;
const shipped = { cells: 16, tolerance: 0.05 };
const few = { numRuns: Math.ceil(fewRuns / 2) };

const body = fc.oneof(
  fc.record({
    kind: fc.constant('limb' as const),
    radius: between(0.02, 0.09),
    blood: fc.constantFrom('flows' as const, 'none' as const),
  }),
  fc.record({
    kind: fc.constant('tube' as const),
    radius: between(0.02, 0.09),
    wall: between(0.001, 0.006),
    of: fc.constantFrom('glass' as const, 'plastic' as const),
    inside: fc.constantFrom('air' as const, 'still water' as const, 'circulating water' as const),
    temperature: between(15, 38),
  }),
);
/** Cases within what the model is for. */
const cases: fc.Arbitrary<CastCase> = fc.record({
  material: fc.constantFrom('extra-fast plaster' as const, 'fast plaster' as const, 'slow plaster' as const),
  plies: fc.integer({ min: 4, max: 30 }),
  dip: between(10, 40),
  room: between(15, 30),
  humidity: between(0.2, 0.8),
  paddingLayers: fc.integer({ min: 1, max: 8 }),
  compression: between(0, 0.5),
  stockinette: fc.boolean(),
  body,
  cover: fc.constantFrom('bare' as const, 'elastic' as const, 'blanket' as const, 'pillow' as const),
});

const run = (given: CastCase, numbers = c, fineness = shipped) => castHistory(given, numbers, 3600, fineness);
const peak = (given: CastCase, numbers = c) => peakOf(run(given, numbers).interface).value;

describe('heat that is made is heat that is stored and lost', () => {
  test('a paste that loses none ends at the adiabatic rise of the chemistry', () => {
    fc.assert(
      fc.property(cases, between(0.6, 0.9), (given, waterRatio) => {
        const numbers = { ...c, waterRatio };
        const { thickness, powder, capacity } = plasterOf(given, numbers);
        const nothing = (_: number, out: { heat: number; slope: number }): void => {
          out.heat = 0;
          out.slope = 0;
        };
        const layer = { thickness, conductivity: c.castConductivity, capacity, cells: 6 };
        const layers = [{ ...layer, source: 0, blood: 0, arterial: 37, contact: 0 }];
        const grid = gridOf({ radius: 0.04, layers, inner: nothing, outer: nothing });
        const heat = grid.volumes.map((v) => v * powder * 1000 * c.heat);
        const reaction = { first: 0, end: 6, heat, rate: settingRate(kineticsOf(numbers, given.material)) };
        const start = {
          time: 0,
          temperature: new Float64Array(6).fill(given.dip),
          conversion: new Float64Array(6),
        };
        const end = march({ ...grid, reaction }, start, 20_000, 0.01);
        const { heatCapacity } = hydrationHeat.compute({ hemihydrate: 'alpha', water: ratio(waterRatio) });
        const rise = (c.heat / heatCapacity) * (end.conversion[0] as number);
        expect((end.temperature[0] as number) - given.dip).toBeCloseTo(rise, 6);
        expect(end.conversion[0]).toBeGreaterThan(0.99);
      }),
      few,
    );
  });

  test('on any body, in any room, to one part in 10⁹', () => {
    fc.assert(
      fc.property(cases, (given) => {
        const { grid, cells, start } = castColumn(given, c, shipped);
        const account = {
          held: new Float64Array(cells.capacity.length),
          brought: new Float64Array(cells.capacity.length),
        };
        const end = march(cells, start, 3600, shipped.tolerance, undefined, { account });
        const gained = account.brought.reduce((sum, heat) => sum + heat, 0);
        let [stored, given_] = [0, 0];
        for (let i = 0; i < end.temperature.length; i++) {
          stored +=
            (grid.capacity[i] as number) *
            ((end.temperature[i] as number) - (start.temperature[i] as number));
          given_ += (cells.reaction?.heat[i] ?? 0) * (end.conversion[i] as number);
        }
        expect(given_).toBeGreaterThan(0);
        expect(Math.abs(stored - gained - given_)).toBeLessThan(1e-9 * given_);
      }),
      few,
    );
  });
});

describe('what makes a cast hotter', () => {
  const plain: CastCase = {
    material: 'fast plaster',
    plies: 10,
    dip: 24,
    room: 22,
    humidity: 0.5,
    paddingLayers: 3,
    compression: 0,
    stockinette: true,
    body: { kind: 'limb', radius: 0.045, blood: 'flows' },
    cover: 'bare',
  };
  const hotter = (change: (given: CastCase) => CastCase) => {
    expect(peak(change(plain))).toBeGreaterThan(peak(plain) + 0.3);
    fc.assert(
      fc.property(cases, (given) => {
        const before = peakOf(run(given).interface);
        // Laid on colder than the room, a cast takes heat from it, and the more the thicker it is; one that only cools is
        // hottest as it is laid on.
        fc.pre(given.dip >= given.room && before.value > given.room + 2 && before.time > 60);
        expect(peak(change(given))).toBeGreaterThan(before.value - shipped.tolerance);
      }),
      few,
    );
  };

  test('more plies', () => hotter((given) => ({ ...given, plies: given.plies + 3 })));
  test('warmer dip water', () => hotter((given) => ({ ...given, dip: given.dip + 5 })));
  test('a pillow', () => hotter((given) => ({ ...given, cover: 'pillow' })));
  test('damper air', () => hotter((given) => ({ ...given, humidity: given.humidity + 0.2 })));
  test('faster plaster', () =>
    hotter(({ material, ...given }) => ({
      ...given,
      material: material === 'slow plaster' ? 'fast plaster' : 'extra-fast plaster',
    })));

  const rise = (given: CastCase, numbers = c): number => {
    const { skin } = run(given, numbers);
    return peakOf(skin).value - (skin.value[0] as number);
  };
  test('the skin’s rise falls with padding', () => {
    fc.assert(
      fc.property(cases, (given) => {
        const limb: CastCase = { ...given, body: { kind: 'limb', radius: 0.04, blood: 'flows' } };
        // A cast that stays colder than the core draws heat out, and padding keeps that in.
        fc.pre(peak(limb) > 38);
        expect(rise({ ...limb, paddingLayers: limb.paddingLayers + 2 })).toBeLessThan(rise(limb));
      }),
      few,
    );
  });

  test('the skin’s rise falls with the flow of blood', () => {
    fc.assert(
      fc.property(cases, (given) => {
        const limb: CastCase = { ...given, body: { kind: 'limb', radius: 0.04, blood: 'flows' } };
        fc.pre(peak(limb) > 38);
        expect(rise(limb, { ...c, skinPerfusion: 2 * c.skinPerfusion })).toBeLessThan(rise(limb));
      }),
      few,
    );
  });
});

describe('the numbers do not hang on cells and steps', () => {
  test('halving both moves the peaks by less than 0.05 K, and the band’s coarser ones by less than 0.2 K', () => {
    fc.assert(
      fc.property(cases, (given) => {
        const fine = run(given, c, { cells: 32, tolerance: 0.01 });
        for (const [fineness, within] of [
          [shipped, 0.05],
          [{ cells: 12, tolerance: 0.1 }, 0.2],
        ] as const) {
          const coarse = run(given, c, fineness);
          // Where the start is the hottest, it hangs on the cells that two unlike bodies meet in.
          for (const where of ['interface', 'skin'] as const)
            if (peakOf(fine[where]).time > 60)
              expect(Math.abs(peakOf(coarse[where]).value - peakOf(fine[where]).value), where).toBeLessThan(
                within,
              );
        }
      }),
      few,
    );
  });

  test('peak, time above and samples of a trace are those of its cubic', () => {
    // 20 t - t² from 0 to 16: highest at 10, above 75 from 5 to 15.
    const time = [0, 4, 7, 13, 16];
    const trace = { time, value: time.map((t) => 20 * t - t * t), slope: time.map((t) => 20 - 2 * t) };
    expect(peakOf(trace).value).toBeCloseTo(100, 9);
    expect(peakOf(trace).time).toBeCloseTo(10, 9);
    expect(timeAbove(trace, 75)).toBeCloseTo(10, 2);
    expect(timeAbove(trace, 100)).toBe(0);
    expect(sampled(trace, [0, 1, 5, 10, 16]).map((x) => x)).toEqual(
      [0, 19, 75, 100, 64].map((x) => expect.closeTo(x, 9)),
    );
  });
});

describe('the rate of setting', () => {
  const factor = (activation: number, order: number, temperature: number): number => {
    const out = { rate: 0, byTemperature: 0, byConversion: 0 };
    const rate = settingRate({ k25: 1, activation: activation * 1000, order, seed: 0.01 });
    rate(temperature, 0.3, out);
    const { rate: hot } = out;
    rate(25, 0.3, out);
    return hot / out.rate;
  };

  // Ridge 1959 found setting of plain plaster nearly the same from 0 to 40 °C.
  test('hardly moves between 5 and 40 °C at the lower activation energy', () => {
    for (const t of [5, 10, 20, 30, 40]) {
      expect(factor(30, 2, t)).toBeGreaterThan(0.88);
      expect(factor(30, 2, t)).toBeLessThan(1.02);
    }
  });

  test('read off its table is the law itself', () => {
    fc.assert(
      fc.property(between(0, 100), between(30, 40), between(1, 2), (t, activation, order) => {
        const drive = (x: number): number =>
          supersaturation.compute({ hemihydrate: 'beta', temperature: celsius(x) }).supersaturation - 1;
        const warmth = Math.exp(((-activation * 1000) / 8.314462618) * (1 / (t + 273.15) - 1 / 298.15));
        const law = warmth * (drive(t) / drive(25)) ** order;
        expect(factor(activation, order, t) / law).toBeCloseTo(1, 4);
      }),
    );
  });

  test('ends at full conversion and where hemihydrate no longer dissolves', () => {
    const out = { rate: 1, byTemperature: 0, byConversion: 0 };
    const rate = settingRate(kineticsOf(c, 'fast plaster'));
    rate(30, 1, out);
    expect(out.rate).toBe(0);
    rate(139, 0.5, out);
    expect(out.rate).toBe(0);
  });
});

describe('the band', () => {
  const band = temperatureBand({ ...example, seed: 7, samples: 64 }).value;

  test('is the same for the same seed and another for another', () => {
    const again = temperatureBand({ ...example, seed: 7, samples: 64 }).value;
    const other = temperatureBand({ ...example, seed: 8, samples: 64 }).value;
    expect(again).toEqual(band);
    expect(other.interface.peak.most).not.toBe(band.interface.peak.most);
    expect(Math.abs(other.interface.peak.most - band.interface.peak.most)).toBeLessThan(1.5);
  });

  test('holds the neutral course, and runs from least to most everywhere', () => {
    const { curve } = temperatureHistory(example).value;
    for (const where of ['interface', 'skin', 'basal'] as const) {
      for (const [n, { least, most }] of band.curve.time.map(
        (_, n) =>
          [
            n,
            { least: band.curve[where].least[n] as number, most: band.curve[where].most[n] as number },
          ] as const,
      )) {
        expect(least).toBeLessThanOrEqual(most);
        // The neutral driving force is at one end of its range, so the neutral course may hug the band’s edge.
        expect(curve[where][n]).toBeGreaterThan(least - 1);
        expect(curve[where][n]).toBeLessThan(most + 1);
      }
    }
  });

  test('ranks what drives it, strongest first, and finds the direction of each', () => {
    const strengths = band.drivers.map((d) => Math.abs(d.onInterface));
    expect(strengths).toEqual(strengths.toSorted((a, b) => b - a));
    const many = temperatureBand({ ...example, seed: 7, samples: 256 }).value.drivers;
    const on = (name: string): number => many.find((d) => d.constant === name)?.onInterface ?? 0;
    for (const hotter of ['heat', 'massPerPly', 'rateFast']) expect(on(hotter), hotter).toBeGreaterThan(0.1);
    for (const colder of ['waterRatio', 'wetness', 'convection'])
      expect(on(colder), colder).toBeLessThan(-0.1);
    expect(many.some((d) => d.constant === 'pillowResistance' || d.constant === 'rateSlow')).toBe(false);
  });

  test('draws from what the chemistry gives', () => {
    const [alpha, beta] = (['alpha', 'beta'] as const).map(
      (hemihydrate) => hydrationHeat({ hemihydrate, water: ratio(0.7) }).value,
    );
    expect(neutral.heat.printed).toBe(alpha?.perGram.toFixed(1));
    expect(ranges.heat.printed).toBe(`${alpha?.least.toFixed(1)}–${beta?.most.toFixed(1)}`);
    for (const [name, { printed }] of Object.entries(ranges)) {
      const [least, most] = printed.split('–').map(Number) as [number, number];
      const used = Number(neutral[name as keyof typeof neutral].printed);
      expect(used, name).toBeGreaterThanOrEqual(least);
      expect(used, name).toBeLessThanOrEqual(most);
    }
  });
});

test('water that no tap gives, no plies and a limb turned inside out are told at once', () => {
  const wrong = {
    ...example,
    plies: 0,
    dip: celsius(120),
    body: { kind: 'limb', radius: mm(-40), blood: 'flows' },
  } as const;
  expect.assertions(2);
  try {
    temperatureHistory(wrong);
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    expect((error as InputError).faults.map((f) => f.input).sort()).toEqual(['body.radius', 'dip', 'plies']);
  }
});

test('no caution calls anything harmless, or tells a time until harm', () => {
  fc.assert(
    fc.property(
      fc.record({
        material: fc.constantFrom(
          'extra-fast plaster' as const,
          'slow plaster' as const,
          'fibreglass' as const,
        ),
        plies: fc.integer({ min: 1, max: 40 }),
        folded: fc.boolean(),
        dip: between(0, 70).map(celsius),
        usedWater: fc.boolean(),
        cover: fc.constantFrom('bare' as const, 'elastic' as const, 'blanket' as const, 'pillow' as const),
        overwrap: fc.constantFrom('none' as const, 'before it has cooled' as const),
        age: fc.constantFrom('infant' as const, 'adult' as const, 'older adult' as const),
        reducedSensation: fc.boolean(),
        band: fc.option(
          fc.record({ skin: between(30, 60).map(celsius), above49: between(0, 3600).map(seconds) }),
          { nil: undefined },
        ),
      }),
      ({ band, ...inputs }) => {
        const { cautions, value } = heatCaution({ ...inputs, ...(band && { band }) });
        expect(JSON.stringify(cautions)).not.toMatch(/\b(safe|low risk|critical|harmless)\b/i);
        const leads = value.triggers.map((t) => t.leads);
        const strongest = leads.includes('high')
          ? 'high'
          : leads.includes('raised')
            ? 'raised'
            : 'no trigger met';
        expect(value.class).toBe(strongest);
        expect(cautions.map((x) => x.code)).toEqual(value.triggers.map((t) => t.code));
      },
    ),
  );
});
