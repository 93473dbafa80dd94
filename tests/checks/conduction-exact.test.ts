import {
  celsius,
  conduction,
  InputError,
  joulesPerCubicMetreKelvin,
  mm,
  perSecond,
  seconds,
  squareMetreKelvinsPerWatt,
  wattsPerCubicMetre,
  wattsPerMetreKelvin,
  wattsPerSquareMetre,
  wattsPerSquareMetreKelvin,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import { gridOf, type Surface } from '../../packages/core/src/setting/column.ts';
import { march } from '../../packages/core/src/setting/march.ts';

type Inputs = Parameters<typeof conduction>[0];
type Layer = Inputs['layers'][number];
const layer = (
  thickness: number,
  conductivity: number,
  capacity: number,
  start: number,
  more: { source?: number; contact?: number; blood?: readonly [flow: number, temperature: number] } = {},
): Layer => ({
  thickness: mm(thickness),
  conductivity: wattsPerMetreKelvin(conductivity),
  capacity: joulesPerCubicMetreKelvin(capacity),
  start: celsius(start),
  source: wattsPerCubicMetre(more.source ?? 0),
  perfusion: more.blood
    ? {
        kind: 'blood',
        flow: perSecond(more.blood[0]),
        capacity: joulesPerCubicMetreKelvin(4e6),
        temperature: celsius(more.blood[1]),
      }
    : { kind: 'none' },
  contact: squareMetreKelvinsPerWatt(more.contact ?? 0),
});
const slab = { kind: 'slab' } as const;
const ring = (mm_: number) => ({ kind: 'cylinder', innerRadius: mm(mm_) }) as const;
const insulated = { kind: 'insulated' } as const;
const fixed = (t: number) => ({ kind: 'fixed', temperature: celsius(t) }) as const;
const flux = (q: number) => ({ kind: 'flux', flux: wattsPerSquareMetre(q) }) as const;
const convective = (h: number, t: number) =>
  ({ kind: 'convective', coefficient: wattsPerSquareMetreKelvin(h), ambient: celsius(t) }) as const;
const solved = (more: Partial<Inputs> & Pick<Inputs, 'layers'>) => {
  const { value, steps } = conduction({
    shape: slab,
    inner: insulated,
    outer: insulated,
    until: seconds(100),
    probes: [],
    cells: 4,
    ...more,
  });
  const step = (name: string): number => steps.find((s) => s.name === name)?.value as number;
  return { ...value, cells: step('cells'), instants: step('instants') };
};
type Solved = ReturnType<typeof solved>;
const close = (got: number | undefined, wanted: number, part = 1e-9): void =>
  expect(Math.abs((got as number) - wanted), `${got} and ${wanted}`).toBeLessThanOrEqual(
    part * Math.max(1, Math.abs(wanted)),
  );

describe('at rest, by resistances in a row', () => {
  // 34 °C within, a film of 10 to 22 °C without; 3 mm of 0.2, a contact of 0.01, 5 mm of 0.4.
  const layers = [layer(3, 0.2, 2e6, 30, { contact: 0.01 }), layer(5, 0.4, 3e6, 25)];
  const probes = [mm(0), mm(1), mm(3), mm(3.004), mm(6), mm(8)];
  const rest = {
    layers,
    inner: fixed(34),
    outer: convective(10, 22),
    until: seconds(1e6),
    probes,
  };

  test('a slab', () => {
    const { probes: got, inner, outer, energy } = solved(rest);
    const q = 12 / (0.015 + 0.01 + 0.0125 + 0.1);
    // Where two layers meet the inner one is read, just beyond it the outer one.
    const wanted = [34, 34 - q * 0.005, 34 - q * 0.015, 34 - q * 0.02501, 34 - q * 0.0325, 34 - q * 0.0375];
    for (const [n, t] of wanted.entries()) {
      close(got[n]?.temperature, t);
      expect(got[n]?.at).toBe(probes[n]);
      expect(got[n]?.uncertainty).toBeLessThan(1e-8);
    }
    close(inner.temperature, 34);
    close(inner.flux, q);
    close(outer.temperature, 22 + q * 0.1);
    close(outer.flux, -q);
    expect(energy.imbalance).toBeLessThan(1e-10);
    close(energy.made, 0);
  });

  test('a shell of radius 20 mm', () => {
    const { probes: got, inner, outer } = solved({ ...rest, shape: ring(20) });
    const way = (from: number, to: number, k: number): number => Math.log(to / from) / k;
    const parts = [way(20, 23, 0.2), 0.01 / 0.023, way(23, 28, 0.4), 1 / (0.028 * 10)] as const;
    const q = 12 / parts.reduce((sum, r) => sum + r);
    const beyond = 34 - q * (parts[0] + parts[1]);
    const wanted = [
      34,
      34 - q * way(20, 21, 0.2),
      34 - q * parts[0],
      beyond - q * way(23, 23.004, 0.4),
      beyond - q * way(23, 26, 0.4),
      beyond - q * parts[2],
    ];
    // Between a face and a centre it is read straight, so near the contact a little is left.
    for (const [n, t] of wanted.entries()) close(got[n]?.temperature, t, n === 3 ? 1e-4 : 1e-9);
    close(inner.flux, q / 0.02);
    close(outer.flux, -q / 0.028);
    close(outer.temperature, 22 + q * parts[3]);
  });

  test('heat that is made in a slab, and heat that is let in', () => {
    // The whole of 2·10⁴ W/m3 over 10 mm and of 50 W/m2 leaves through a film of 25.
    const { inner, outer, probes } = solved({
      layers: [layer(10, 0.5, 2e6, 20, { source: 2e4 })],
      inner: flux(50),
      outer: convective(25, 20),
      until: seconds(1e6),
      probes: [mm(5)],
      cells: 20,
    });
    close(outer.temperature, 20 + 250 / 25, 1e-8);
    close(outer.flux, -250, 1e-8);
    close(inner.flux, 50, 1e-8);
    // T(x) = T(d) + (q0 (d − x) + s (d² − x²) / 2) / k.
    close(inner.temperature, 30 + (50 * 0.01 + 2e4 * 5e-5) / 0.5, 1e-6);
    close(probes[0]?.temperature, 30 + (50 * 0.005 + 1e4 * 7.5e-5) / 0.5, 1e-6);
  });

  test('blood in a slab: a hyperbolic cosine', () => {
    const m = Math.sqrt((0.002 * 4e6) / 0.4);
    const { inner, outer, probes } = solved({
      layers: [layer(10, 0.4, 3e6, 30, { blood: [0.002, 37] })],
      outer: fixed(25),
      until: seconds(1e5),
      probes: [mm(7)],
      cells: 40,
    });
    close(inner.temperature, 37 - 12 / Math.cosh(m * 0.01), 1e-6);
    close(probes[0]?.temperature, 37 - (12 * Math.cosh(m * 0.007)) / Math.cosh(m * 0.01), 1e-6);
    close(outer.flux, -12 * 0.4 * m * Math.tanh(m * 0.01), 1e-5);
  });
});

describe('as one lump', () => {
  test('heat from the layers themselves, and through either surface', () => {
    for (const [shape, perOuter, innerShare] of [
      [slab, 0.01, 1],
      [ring(20), (0.03 ** 2 - 0.02 ** 2) / 2 / 0.03, 2 / 3],
    ] as const) {
      const made = solved({ shape, layers: [layer(10, 400, 2e6, 20, { source: 1e4 })] });
      close(made.inner.temperature, 20.5);
      close(made.energy.stored, 2e6 * 0.5 * perOuter, 1e-8);
      close(made.energy.made, 1e4 * 100 * perOuter, 1e-8);
      close(made.energy.entered, 0);
      const [inwards, outwards] = [
        solved({ shape, layers: [layer(10, 400, 2e6, 20)], inner: flux(300) }),
        solved({ shape, layers: [layer(10, 400, 2e6, 20)], outer: flux(-300) }),
      ];
      close(inwards.energy.entered, 300 * 100 * innerShare, 1e-8);
      close(inwards.energy.stored, 300 * 100 * innerShare, 1e-8);
      close(outwards.energy.entered, -300 * 100, 1e-8);
      close(outwards.energy.stored, -300 * 100, 1e-8);
      close(inwards.energy.made, 0);
    }
  });

  test('blood warms tissue by an exponential', () => {
    const { inner, energy } = solved({ layers: [layer(10, 0.5, 3e6, 30, { blood: [0.01, 38] })] });
    const now = 38 - 8 * Math.exp((-0.01 * 4e6 * 100) / 3e6);
    close(inner.temperature, now, 1e-7);
    close(energy.made, 3e6 * 0.01 * (now - 30), 1e-7);
    close(energy.stored, energy.made, 1e-8);
  });

  test('layers of unlike start, insulated, come to their mean by heat and keep it', () => {
    const { probes, energy } = solved({
      layers: [layer(4, 0.5, 2e6, 60), layer(8, 0.5, 1e6, 20, { contact: 0 })],
      until: seconds(1e5),
      probes: [mm(2), mm(10)],
    });
    for (const { temperature } of probes) close(temperature, 40);
    close(energy.stored, 0, 1e-7);
    expect(energy.imbalance).toBeLessThan(1e-10);
  });

  test('what is stored is what came, where all of it is at work', () => {
    for (const shape of [slab, ring(0), ring(15)]) {
      const { energy, inner } = solved({
        shape,
        layers: [
          layer(3, 0.2, 2e6, 30, { source: 5e3, contact: 0.01 }),
          layer(5, 0.4, 3e6, 45, { blood: [0.002, 37] }),
        ],
        inner: shape.kind === 'cylinder' && shape.innerRadius === 0 ? insulated : flux(120),
        outer: convective(15, 21),
      });
      close(inner.flux, 'innerRadius' in shape && shape.innerRadius === 0 ? 0 : 120);
      expect(Math.abs(energy.stored - energy.entered - energy.made)).toBeLessThan(1e-6);
      expect(energy.imbalance).toBeLessThan(1e-10);
      expect(Math.abs(energy.made)).toBeGreaterThan(1);
      expect(Math.abs(energy.entered)).toBeGreaterThan(1);
    }
  });
});

describe('two meshes', () => {
  const film =
    (h: number, ambient: number, q = 0): Surface =>
    (t, out) => {
      out.heat = q + h * (ambient - t);
      out.slope = -h;
    };
  test.each([undefined, 0.015])(
    'carried on to where they lead, with their difference: radius %s',
    (radius) => {
      // The same solved here on a mesh and on one twice as fine, each to its own end.
      const [rough, fine] = [1, 2].map((times) => {
        const one = { thickness: 0.01, conductivity: 0.5, capacity: 5e6, cells: 6 * times };
        const layers = [{ ...one, source: 3e4, blood: 8000, arterial: 37, contact: 0 }];
        const grid = gridOf({ radius, layers, inner: film(0, 0, 200), outer: film(50, 10) });
        const n = grid.capacity.length;
        const from = {
          time: 0,
          temperature: new Float64Array(n).fill(60),
          conversion: new Float64Array(n),
        };
        const { temperature: T } = march(grid, from, 150, 1e-9);
        const outside = radius === undefined ? 1 : radius + 0.01;
        const stored = T.reduce((sum, t, i) => sum + (t - 60) * (grid.capacity[i] as number), 0);
        return [
          grid.at(0.005, T),
          grid.surface('inner', T),
          grid.surface('outer', T),
          grid.inflow('outer', T) / outside,
          stored / outside,
        ];
      }) as [number[], number[]];
      const { probes, inner, outer, energy, cells } = solved({
        shape: radius === undefined ? slab : ring(15),
        layers: [layer(10, 0.5, 5e6, 60, { source: 3e4, blood: [0.002, 37] })],
        inner: flux(200),
        outer: convective(50, 10),
        until: seconds(150),
        probes: [mm(5)],
        cells: 6,
      });
      expect(cells).toBe(6);
      const led = fine.map((x, n) => x + (x - (rough[n] as number)) / 3) as [
        number,
        number,
        number,
        number,
        number,
      ];
      const apart = fine.map((x, n) => Math.abs(x - (rough[n] as number)));
      close(probes[0]?.temperature, led[0], 1e-7);
      close(inner.temperature, led[1], 1e-7);
      close(outer.temperature, led[2], 1e-7);
      close(outer.flux, led[3], 1e-6);
      close(energy.stored, led[4], 1e-6);
      expect(apart[0]).toBeGreaterThan(1e-3);
      close(probes[0]?.uncertainty, apart[0] as number, 1e-5);
      close(inner.uncertainty, apart[1] as number, 1e-5);
      close(outer.uncertainty, apart[2] as number, 1e-5);
      close(outer.fluxUncertainty, apart[3] as number, 1e-4);
      close(inner.fluxUncertainty, 0, 1e-6);
      close(inner.flux, 200);
    },
  );

  test('have a face at each probe, at least two cells between, and none for what lies on another face', () => {
    const one = layer(10, 0.5, 5e6, 60);
    const cellsWith = (...probes: number[]): number =>
      solved({ layers: [one], probes: probes.map((p) => mm(p)), cells: 4 }).cells;
    expect(cellsWith()).toBe(4);
    expect(cellsWith(5)).toBe(2 + 2);
    expect(cellsWith(2)).toBe(2 + 4);
    expect(cellsWith(7.6, 2.4)).toBe(2 + 3 + 2);
    expect(cellsWith(2.4, 2.4, 7.6)).toBe(2 + 3 + 2);
    expect(cellsWith(0)).toBe(4);
    expect(cellsWith(10)).toBe(4);
    expect(cellsWith(0.005)).toBe(4);
    expect(cellsWith(9.995)).toBe(4);
    expect(cellsWith(5, 5.005)).toBe(4);
    expect(cellsWith(0.02)).toBe(2 + 4);
    expect(cellsWith(9.98)).toBe(4 + 2);
    // Each layer has its own.
    const both = solved({ layers: [one, layer(2, 1, 1e6, 20)], probes: [mm(5), mm(11)], cells: 4 });
    expect(both.cells).toBe(2 + 2 + 2 + 2);
  });

  test('read a place between faces straight', () => {
    // At rest in a slab all lies on one line, on a face or off it.
    const places = [0, 0.004, 2.5, 2.504, 6.66, 9.996, 10];
    const { probes } = solved({
      layers: [layer(10, 0.5, 1e6, 0)],
      inner: fixed(0),
      outer: fixed(100),
      until: seconds(1e5),
      probes: places.map((p) => mm(p)),
    });
    for (const [n, place] of places.entries()) close(probes[n]?.temperature, 10 * place);
  });

  test('are as fine in time as the heat asks for, whatever it is called and however much it is', () => {
    const hot = (k: number): [string, Partial<Inputs> & Pick<Inputs, 'layers'>][] => [
      ['start', { layers: [layer(10, 0.5, 2e6, 300 * k)], outer: convective(20, 0) }],
      ['fixed', { layers: [layer(10, 0.5, 2e6, 0)], outer: fixed(300 * k) }],
      ['fixed within', { layers: [layer(10, 0.5, 2e6, 0)], inner: fixed(300 * k) }],
      ['around', { layers: [layer(10, 0.5, 2e6, 0)], outer: convective(20, 300 * k) }],
      ['let in', { layers: [layer(0.1, 100, 1e6, 0)], inner: flux(4e4 * k), until: seconds(1000) }],
      ['let out', { layers: [layer(0.1, 100, 1e6, 0)], outer: flux(-4e4 * k), until: seconds(1000) }],
      ['made', { layers: [layer(0.1, 100, 1e6, 0, { source: 4e6 * k })], until: seconds(1e4) }],
      ['from end to end', { layers: [layer(10, 0.5, 2e6, 300 * k)], inner: fixed(600 * k), outer: fixed(0) }],
      [
        'from side to side',
        { layers: [layer(10, 0.5, 2e6, 300 * k)], inner: convective(20, 600 * k), outer: convective(20, 0) },
      ],
      [
        'piled up behind a contact',
        {
          layers: [layer(1, 500, 1e7, 0, { contact: 9 }), layer(1, 500, 1e7, 0)],
          inner: flux(4e4 * k),
          outer: fixed(0),
          until: seconds(10),
        },
      ],
    ];
    const twice = hot(2);
    for (const [n, [name, once]] of hot(1).entries()) {
      const [a, b] = [once, twice[n]?.[1] ?? once].map(solved) as [Solved, Solved];
      expect(a.instants, name).toBeGreaterThan(5);
      expect(a.instants, name).toBe(b.instants);
      close(b.inner.temperature, 2 * a.inner.temperature, 1e-6);
    }
  });

  test('are as fine in time however the same heat comes', () => {
    const same = (one: Parameters<typeof solved>[0], other: Parameters<typeof solved>[0]): void => {
      const [a, b] = [solved(one), solved(other)];
      close(a.outer.temperature, b.outer.temperature, 1e-3);
      expect(a.instants / b.instants).toBeGreaterThan(0.95);
      expect(a.instants / b.instants).toBeLessThan(1.05);
    };
    const plate = [layer(10, 0.02, 2e6, 0)];
    same({ layers: plate, outer: fixed(1000) }, { layers: plate, outer: convective(1e5, 1000) });
    // Surroundings that no heat comes from change nothing, though they are as hot as the hottest.
    const around = convective(0, 1000);
    same({ layers: plate, outer: fixed(1000) }, { layers: plate, outer: fixed(1000), inner: around });
    const cooled = [layer(10, 500, 2e6, 1000, { blood: [0.05, 0] })];
    same({ layers: cooled }, { layers: cooled, inner: convective(0, 0) });
    // What is made and cooled in each place alike is as hot in a thin layer as in a thick one.
    const made = (thickness: number) => ({
      layers: [layer(thickness, 500, 2e6, 0, { source: 6e6, blood: [0.01, 0] })],
      until: seconds(300),
    });
    same(made(1), made(10));
  });

  test('are a millionth of a hundred degrees fine where nothing is hotter', () => {
    const one = { thickness: 0.01, conductivity: 0.5, capacity: 2e6, cells: 4 };
    const still: Surface = (_, out) => {
      out.heat = 0;
      out.slope = 0;
    };
    const grid = gridOf({
      radius: undefined,
      layers: [{ ...one, source: 0, blood: 0, arterial: 37, contact: 0 }],
      inner: still,
      outer: { fixed: 60 },
    });
    const from = { time: 0, temperature: new Float64Array(4).fill(10), conversion: new Float64Array(4) };
    const { steps } = march(grid, from, 100, 1e-6);
    expect(solved({ layers: [layer(10, 0.5, 2e6, 10)], outer: fixed(60) }).instants).toBe(steps);
    // Nor is 200 °C, told from the middle of it.
    const instants = (t: number): number =>
      solved({ layers: [layer(10, 0.5, 2e6, 0)], outer: fixed(t), until: seconds(1000) }).instants;
    expect(instants(200) / instants(100)).toBeGreaterThan(1.1);
    expect(instants(400)).toBe(instants(200));
  });

  test('read the inner side where two layers meet, whatever their sum rounds to', () => {
    for (const [first, second] of [
      [0.1, 0.2],
      [0.7, 0.1],
      [1.1, 2.2],
      [0.3, 0.6],
      [4.35, 0.1],
      [1.4, 2.7],
      [8.1, 0.3],
    ] as const) {
      const met = Number((first + second).toFixed(2));
      const { probes } = solved({
        layers: [
          layer(first, 0.5, 1e6, 0),
          layer(second, 0.5, 1e6, 0, { contact: 1 }),
          layer(1, 0.5, 1e6, 0),
        ],
        inner: fixed(0),
        outer: fixed(100),
        until: seconds(1e5),
        probes: [mm(met)],
      });
      // All but a little of the drop is in the contact.
      expect(probes[0]?.temperature).toBeLessThan(5);
    }
  });

  test('do not mind from where temperatures are told', () => {
    const at = (by: number) =>
      solved({
        layers: [layer(3, 0.2, 2e6, 30 + by), layer(5, 0.4, 3e6, 45 + by)],
        inner: fixed(36 + by),
        outer: convective(12, 22 + by),
        probes: [mm(1), mm(5)],
        cells: 8,
      });
    const [low, high] = [at(0), at(900)];
    expect(high.instants).toBe(low.instants);
    for (const [n, { temperature, uncertainty }] of low.probes.entries()) {
      close(high.probes[n]?.temperature, temperature + 900, 1e-12);
      close(high.probes[n]?.uncertainty, uncertainty, 1e-11);
    }
    close(high.outer.flux, low.outer.flux, 1e-10);
    close(high.energy.stored, low.energy.stored, 1e-10);
    // Nor with blood, which is never so hot.
    const bloody = (by: number) =>
      solved({
        layers: [layer(3, 0.2, 2e6, 20 + by, { blood: [0.003, 25 + by] })],
        inner: convective(12, 10 + by),
        outer: fixed(18 + by),
      });
    const [cool, warm] = [bloody(0), bloody(20)];
    expect(warm.instants).toBe(cool.instants);
    close(warm.inner.temperature, cool.inner.temperature + 20, 1e-12);
    close(warm.energy.made, cool.energy.made, 1e-9);
  });

  test('keep the error of their steps below a millionth of a hundred degrees', () => {
    // A lump: its cells make no error, so all that is left is that of the steps.
    const { inner } = solved({
      layers: [layer(10, 500, 2e6, 100)],
      outer: convective(0.5, 0),
      until: seconds(5e4),
    });
    const biot = (0.5 * 0.01) / 500;
    // The first root of its series, x tan x = Bi, to the fourth power.
    const squared = biot * (1 - biot / 3);
    close(inner.temperature / 100, Math.exp((-squared * 500 * 5e4) / (2e6 * 1e-4)), 1e-6);
  });
});

describe('what cannot be', () => {
  const faults = (more: Partial<Inputs>): string[] => {
    try {
      solved({
        layers: [layer(10, 0.5, 2e6, 20), layer(0.1, 0.5, 2e6, 20), layer(0.2, 0.5, 2e6, 20)],
        ...more,
      });
    } catch (error) {
      if (error instanceof InputError)
        return error.faults.map(({ input, fault, got }) => `${input} ${fault}: ${got}`);
      throw error;
    }
    return [];
  };
  test('is named, with what was got', () => {
    // Ten, a tenth and two tenths add up to a last bit more or less than what is written.
    expect(faults({ probes: [mm(10.3)] })).toEqual([]);
    expect(faults({ probes: [mm(0), mm(10.4), mm(11)] })).toEqual([
      expect.stringMatching(/^probes joint: 10\.4, 11 mm in layers of 10\.(3|29999)\d* mm together$/),
    ]);
    expect(faults({ layers: [layer(10, 0.5, 2e6, 20, { contact: 0.2 })] })).toEqual([
      'layers joint: 0.2 m2.K/W between the last layer and nothing',
    ]);
    expect(faults({ shape: ring(0), inner: fixed(30) })).toEqual(['inner joint: fixed, at a radius of 0 mm']);
    expect(faults({ shape: ring(0) })).toEqual([]);
    expect(faults({ shape: ring(1), inner: fixed(30) })).toEqual([]);
  });
});
