import { Outcome, Solver } from 'odex';
import { hydrationHeat, ratio, temperatureHistory } from 'swathe';
import { describe, expect, test } from 'vitest';
import {
  type CastCase,
  castColumn,
  castHistory,
  plasterOf,
  startOf,
} from '../../packages/core/src/setting/cast-model.ts';
import { type CastNumbers, coverOf, kineticsOf } from '../../packages/core/src/setting/cast-parameters.ts';
import type { Surface } from '../../packages/core/src/setting/column.ts';
import { settingRate } from '../../packages/core/src/setting/setting-rate.ts';

/** Thermometers that read wrong, so that it is felt where their error goes. */
const c: CastNumbers = { ...temperatureHistory.numbers, dipReading: 0.7, roomReading: -0.9 };
const coarse = { cells: 4, tolerance: 1e-6 };

const limb: CastCase = {
  material: 'fast plaster',
  plies: 10,
  dip: 27,
  room: 21,
  humidity: 0.5,
  paddingLayers: 3,
  compression: 0.2,
  stockinette: true,
  body: { kind: 'limb', radius: 0.045, blood: 'flows' },
  cover: 'bare',
};
const tube = (more: Partial<CastCase['body'] & { kind: 'tube' }> = {}): CastCase['body'] => ({
  kind: 'tube',
  radius: 0.04,
  wall: 0.003,
  of: 'plastic',
  inside: 'air',
  temperature: 30,
  ...more,
});
const close = (got: number | undefined, wanted: number, part = 1e-12): void =>
  expect(Math.abs((got as number) - wanted), `${got} and ${wanted}`).toBeLessThanOrEqual(
    part * Math.max(1e-3, Math.abs(wanted)),
  );

// What each layer is, by hand: thickness in mm, conductivity, heat capacity, cells, blood in W/(m3.K).
type Line = readonly [mm: number, conductivity: number, capacity: number, cells: number, blood: number];
const water = 0.7;
const paste = 4.18 * water + 0.82;
/** Half a millimetre of stockinette and three layers of padding, a fifth of it pressed out. */
const padding: Line = [0.8 * (0.5 + 3 * 0.6), 0.045, 8e4, 4, 0];
/** The heat capacity of gypsum and the water left, as hydration-heat has it. */
const pasteHolds = hydrationHeat({ hemihydrate: 'alpha', water: ratio(water) }).value.heatCapacity;
const plaster: Line = [4.2, 0.45, (350 / 0.42) * 1000 * pasteHolds, 16, 0];
const skin: readonly Line[] = [
  [1.5, 0.372, 3.76e6, 4, 3.8e6 * 0.00125],
  [0.08, 0.24, 4.31e6, 1, 0],
];
const muscle = (mm: number): Line => [mm, 0.495, 3.73e6, 6, 3.8e6 * 0.00067];
const fat = (mm: number): Line => [mm, 0.209, 2.14e6, 5, 3.8e6 * 0.0002];

describe('layers, by hand', () => {
  const bloodless = (lines: readonly Line[]): Line[] => lines.map(([a, b, d, e]) => [a, b, d, e, 0]);
  test.each<[string, Partial<CastCase>, radius: number, lines: readonly Line[]]>([
    ['an arm', {}, 45 - 18.58, [muscle(12), fat(5), ...skin, padding, plaster]],
    [
      'a lean arm under a tourniquet',
      { body: { kind: 'limb', radius: 0.045, fat: 0.002, blood: 'none' } },
      45 - 15.58,
      [...bloodless([muscle(12), fat(2), ...skin]), padding, plaster],
    ],
    [
      'a finger: fat a quarter of the radius, muscle half of what is left',
      { body: { kind: 'limb', radius: 0.012, blood: 'flows' } },
      12 - (12 - 3 - 1.58) / 2 - 3 - 1.58,
      [muscle((12 - 3 - 1.58) / 2), fat(3), ...skin, padding, plaster],
    ],
    [
      'on the bare skin',
      { paddingLayers: 0, stockinette: false },
      45 - 18.58,
      [muscle(12), fat(5), ...skin, plaster],
    ],
    [
      'on stockinette alone',
      { paddingLayers: 0, compression: 0 },
      45 - 18.58,
      [muscle(12), fat(5), ...skin, [0.5, 0.045, 8e4, 4, 0], plaster],
    ],
    [
      'on padding alone',
      { stockinette: false },
      45 - 18.58,
      [muscle(12), fat(5), ...skin, [0.8 * 1.8, 0.045, 8e4, 4, 0], plaster],
    ],
    ['a tube of plastic', { body: tube() }, 37, [[3, 0.17, 1.251e6, 5, 0], padding, plaster]],
    [
      'a tube of glass with water that stands',
      { body: tube({ of: 'glass', inside: 'still water' }) },
      0,
      [[37, 6, 4.16e6, 8, 0], [3, 1, 1.875e6, 5, 0], padding, plaster],
    ],
    [
      'six plies',
      { plies: 6 },
      45 - 18.58,
      [muscle(12), fat(5), ...skin, padding, [2.52, ...plaster.slice(1)] as unknown as Line],
    ],
  ])('%s', (_, change, radius, lines) => {
    const { column, grid, plaster, cells, places } = castColumn({ ...limb, ...change }, c, {
      cells: 16,
      tolerance: 1,
    });
    close(column.radius, radius / 1000, 1e-11);
    expect(column.layers.length).toBe(lines.length);
    for (const [n, [mm, conductivity, capacity, count, blood]] of lines.entries()) {
      const layer = column.layers[n];
      close(layer?.thickness, mm / 1000, 1e-11);
      close(layer?.conductivity, conductivity);
      close(layer?.capacity, capacity);
      expect(layer?.cells).toBe(count);
      close(layer?.blood, blood);
      expect(layer?.source).toBe(0);
      expect(layer?.contact).toBe(0);
      if (blood > 0) expect(layer?.arterial).toBe(37);
      // Only the flow of the dermis answers to warmth.
      expect(layer?.doubling).toBe(conductivity === 0.372 ? 6 : undefined);
    }
    const total = lines.reduce((sum, [, , , count]) => sum + count, 0);
    expect(grid.capacity.length).toBe(total);
    expect(plaster).toEqual([total - 16, total]);
    expect(cells.reaction).toMatchObject({ first: total - 16, end: total });
    // All powder, 350 g a ply and square metre, gives 117.4 J a gram.
    for (const [i, heat] of cells.reaction?.heat.entries() ?? [])
      close(heat, i < total - 16 ? 0 : (grid.volumes[i] as number) * (350 / 0.42) * 1000 * 117.4);

    const depth = (n: number): number => lines.slice(0, n).reduce((sum, [mm]) => sum + mm, 0) / 1000;
    const under = lines.length - 1;
    const padded = lines.some(([, conductivity]) => conductivity === 0.045);
    close(places.interface, depth(under), 1e-11);
    close(places.skin, depth(padded ? under - 1 : under), 1e-11);
    const onLimb = lines.some(([mm]) => mm === 0.08);
    close(places.basal, places.skin - (onLimb ? 0.00008 : 0), 1e-11);
  });

  test('the plaster itself', () => {
    const { thickness, powder, capacity } = plasterOf(limb, c);
    close(thickness, 0.0042);
    close(powder, 3.5 / 0.0042);
    close(capacity, plaster[2]);
  });
});

/** Pressure of saturated vapour, kPa, by the Magnus form. */
const magnus = (t: number): number => 0.6112 * Math.exp((17.62 * t) / (243.12 + t));
/** Heat into the outside, W/m2, from a room, through an insulation that Newton need not know of. */
function fromRoom(surface: number, room: number, humidity: number, resistance: number, wet: number): number {
  const [a, b] = [surface + 273.15, room + 273.15];
  const film = 3.5 + (0.95 * 5.670374419e-8 * (b ** 4 - a ** 4)) / (b - a);
  const dry = (room - surface) / (1 / film + resistance);
  const over = magnus(surface) - humidity * magnus(room);
  return dry - (over > 0 ? 16.5 * 3.5 * wet * over : 0);
}

describe('surfaces', () => {
  const at = (surface: Surface | { readonly fixed: number }, temperature: number) => {
    const out = { heat: 99, slope: 99 };
    if (typeof surface === 'function') surface(temperature, out);
    return out;
  };
  test.each([
    ['bare', 0, 0.5],
    ['elastic', 0.02, 0.25],
    ['blanket', 0.2, 0.1],
    ['pillow', 0.3, 0],
  ] as const)('outside, %s: convection, radiation and what evaporates', (cover, resistance, wet) => {
    expect(coverOf(c, cover)).toEqual({ resistance, vapour: 2 * wet });
    const { column } = castColumn({ ...limb, cover }, c, coarse);
    // At 5 °C the wet plaster would take up water: nothing evaporates.
    for (const t of [5, 19, 30, 41, 60]) {
      const { heat, slope } = at(column.outer, t);
      close(heat, fromRoom(t, 20.1, 0.5, resistance, wet), 1e-10);
      const [more, less] = [at(column.outer, t + 1e-4), at(column.outer, t - 1e-4)];
      close(slope, (more.heat - less.heat) / 2e-4, 1e-6);
    }
  });

  test('inside: the core of a limb, a film in a tube, nothing on the axis of one that is full', () => {
    const inner = (body: CastCase['body']) => castColumn({ ...limb, body }, c, coarse).column.inner;
    expect(inner(limb.body)).toEqual({ fixed: 36.5 });
    expect(at(inner(tube()), 32)).toEqual({ heat: -10, slope: -5 });
    expect(at(inner(tube({ inside: 'circulating water' })), 29)).toEqual({ heat: 500, slope: -500 });
    expect(Math.abs(at(inner(tube({ inside: 'still water' })), 29).heat)).toBe(0);
  });
});

// The same cast written out anew: its cells with their balances of heat, for odex.
interface Cell {
  readonly from: number;
  readonly to: number;
  readonly line: number;
}
interface Model {
  readonly radius: number;
  readonly lines: readonly Line[];
  readonly inner: (surface: number) => number;
  readonly fixed?: number;
  readonly outer: (surface: number) => number;
  /** Which line reacts, and which is tape that was dipped at that time. */
  readonly reacts?: number;
  readonly tape?: { readonly line: number; readonly since: number };
}
const cellsOf = ({ lines }: Model): Cell[] =>
  lines.flatMap(([mm, , , count], line) => {
    const before = lines.slice(0, line).reduce((sum, [x]) => sum + x, 0);
    return Array.from({ length: count }, (_, k) => ({
      from: (before + (mm * k) / count) / 1000,
      to: (before + (mm * (k + 1)) / count) / 1000,
      line,
    }));
  });
const setting = settingRate(kineticsOf(c, 'fast plaster'));
/** Half of the resin has cured where 1 − (1 + x) e^−x is a half. */
const halfway = (() => {
  let [low, high] = [1, 3];
  for (let k = 0; k < 60; k++) {
    const x = (low + high) / 2;
    if (1 - (1 + x) * Math.exp(-x) < 0.5) low = x;
    else high = x;
  }
  return low;
})();

function written(model: Model) {
  const { radius, lines, reacts, tape } = model;
  const cells = cellsOf(model);
  const n = cells.length;
  const centre = ({ from, to }: Cell): number => (from + to) / 2;
  const k = ({ line }: Cell): number => lines[line]?.[1] as number;
  const way = (a: number, b: number, conductivity: number): number =>
    (radius + a === 0 ? Number.POSITIVE_INFINITY : Math.log((radius + b) / (radius + a))) / conductivity;
  /** Temperature of a surface, where what goes over is what is conducted: by the secant. */
  const surface = (here: number, resistance: number, area: number, flux: (t: number) => number): number => {
    if (resistance === Number.POSITIVE_INFINITY) return here;
    const off = (s: number): number => (here - s) / resistance + area * flux(s);
    let [a, b] = [here, here + 0.1];
    let before = off(a);
    for (let i = 0; i < 12; i++) {
      const now = off(b);
      if (now === before) break;
      [a, b, before] = [b, b - (now * (b - a)) / (now - before), now];
    }
    return b;
  };
  const ends = (T: readonly number[]): [inner: number, outer: number] => {
    const [first, last] = [cells[0] as Cell, cells[n - 1] as Cell];
    return [
      model.fixed ?? surface(T[0] as number, way(0, centre(first), k(first)), radius, model.inner),
      surface(T[n - 1] as number, way(centre(last), last.to, k(last)), radius + last.to, model.outer),
    ];
  };
  /** Heat that comes into each cell from within and from without, W per radian and metre. */
  const flows = (T: readonly number[]): [from: number, to: number][] => {
    const [inner, outer] = ends(T);
    return cells.map((cell, i) => {
      const here = T[i] as number;
      const [before, after] = [cells[i - 1], cells[i + 1]];
      const [a, b] = [way(cell.from, centre(cell), k(cell)), way(centre(cell), cell.to, k(cell))];
      return [
        ((before ? (T[i - 1] as number) : inner) - here) /
          (before ? a + way(centre(before), before.to, k(before)) : a),
        ((after ? (T[i + 1] as number) : outer) - here) /
          (after ? b + way(after.from, centre(after), k(after)) : b),
      ];
    });
  };
  const volume = ({ from, to }: Cell): number => ((radius + to) ** 2 - (radius + from) ** 2) / 2;
  const out = { rate: 0, byTemperature: 0, byConversion: 0 };
  const tau = 270 / halfway;
  const slopes = (time: number, y: readonly number[]): number[] => {
    const conversions: number[] = [];
    const warming = flows(y.slice(0, n)).map(([inwards, outwards], i) => {
      const cell = cells[i] as Cell;
      const [, conductivity, capacity, , blood] = lines[cell.line] as Line;
      const here = y[i] as number;
      const flow = conductivity === 0.372 ? Math.min(10, 2 ** ((here - 33) / 6)) : 1;
      let made = blood * flow * (37 - here);
      conversions.push(0);
      if (cell.line === reacts) {
        setting(here, y[n + i] as number, out);
        conversions[i] = out.rate;
        made += (350 / 0.42) * 1000 * 117.4 * out.rate;
      }
      if (cell.line === tape?.line) {
        const t = time - tape.since;
        // 230 g of resin in 0.8 mm, each with 210 J.
        made += ((230 * 210) / 0.0008) * (t / tau ** 2) * Math.exp(-t / tau);
      }
      return (inwards + outwards + made * volume(cell)) / (capacity * volume(cell));
    });
    return [...warming, ...conversions];
  };
  /** Temperature at the outer face of the last cell of a line. */
  const face = (T: readonly number[], line: number): number => {
    const i = cells.findLastIndex((cell) => cell.line === line);
    const cell = cells[i] as Cell;
    return (T[i] as number) + (flows(T)[i]?.[1] as number) * way(centre(cell), cell.to, k(cell));
  };
  const follow = (y0: readonly number[], from: number, to: number): number[] => {
    const solver = new Solver(2 * n);
    solver.relativeTolerance = 1e-10;
    solver.absoluteTolerance = 1e-10;
    solver.maxSteps = 100_000;
    const { y, outcome } = solver.solve((x, y) => slopes(x, y), from, [...y0], to);
    expect(outcome).toBe(Outcome.Converged);
    return y;
  };
  return { n, slopes, face, ends, follow };
}

/** With a quarter of the cells. */
const few = (lines: readonly Line[]): Line[] =>
  lines.map(([mm, k, capacity, count, blood]) => [mm, k, capacity, Math.ceil(count / 4), blood]);
const nothing = (): number => 0;

describe('at the start', () => {
  test('the plaster is what water and powder mix to, less a fifth of its warmth above the room', () => {
    const mixed = (4.18 * water * 27.7 + 0.82 * 20.1) / paste;
    close(startOf(limb, c), 20.1 + 0.8 * (mixed - 20.1));
    const { start, plaster } = castColumn(limb, c, coarse);
    for (let i = plaster[0]; i < plaster[1]; i++)
      expect(start.temperature[i]).toBe(startOf(limb, c) as number);
    expect(start.time).toBe(0);
    expect([...start.conversion]).toEqual(new Array(start.temperature.length).fill(0));
  });

  test('a limb is at rest in the room, and the padding between the two', () => {
    const lines = few([muscle(12), fat(5), ...skin]);
    const model = written({
      radius: (45 - 18.58) / 1000,
      lines,
      inner: nothing,
      fixed: 36.5,
      outer: (t) => fromRoom(t, 20.1, 0.5, 0, 0),
    });
    const { start } = castColumn(limb, c, coarse);
    const rested = [...start.temperature.slice(0, model.n)];
    // Nothing moves: each cell would drift by less than a ten-thousandth of a kelvin a second, which the skin makes good at once.
    for (const slope of model.slopes(0, [...rested, ...rested.map(() => 0)]))
      expect(Math.abs(slope)).toBeLessThan(1e-4);
    close(start.temperature[model.n], ((rested.at(-1) as number) + 20.1) / 2);
    expect(start.conversion.length).toBe(start.temperature.length);
  });

  test('a tube is as warm as what is in it', () => {
    for (const inside of ['air', 'still water', 'circulating water'] as const) {
      const { start, plaster } = castColumn({ ...limb, body: tube({ inside }) }, c, coarse);
      const all = [...start.temperature.slice(0, plaster[0])];
      expect(all.slice(0, -1)).toEqual(all.slice(0, -1).fill(30));
      close(all.at(-1), (30 + 20.1) / 2);
    }
  });
});

describe('the course, against odex', () => {
  const outside =
    (resistance: number, wet: number) =>
    (t: number): number =>
      fromRoom(t, 20.1, 0.5, resistance, wet);
  const arm = {
    radius: (45 - 18.58) / 1000,
    lines: few([muscle(12), fat(5), ...skin, padding, plaster]),
    inner: nothing,
    fixed: 36.5,
    reacts: 5,
  };
  const wall: Line = [3, 0.17, 1.251e6, 5, 0];
  const until = 900;

  test.each<[string, Partial<CastCase>, Model, skin: number, basal: number]>([
    ['an arm', {}, { ...arm, outer: outside(0, 0.5) }, 3, 2],
    ['an arm on a pillow', { cover: 'pillow' }, { ...arm, outer: outside(0.3, 0) }, 3, 2],
    [
      'a tube with air',
      { body: tube() },
      {
        radius: 0.037,
        lines: few([wall, padding, plaster]),
        inner: (t) => 5 * (30 - t),
        outer: outside(0, 0.5),
        reacts: 2,
      },
      0,
      0,
    ],
    [
      'a tube full of water, without padding',
      { body: tube({ inside: 'still water' }), paddingLayers: 0, stockinette: false },
      {
        radius: 0,
        lines: few([[37, 6, 4.16e6, 8, 0], wall, plaster]),
        inner: nothing,
        outer: outside(0, 0.5),
        reacts: 2,
      },
      1,
      1,
    ],
  ])('%s', (_, change, model, skin, basal) => {
    const given = { ...limb, ...change };
    const { start } = castColumn(given, c, coarse);
    const history = castHistory(given, c, until, coarse);
    const by = written(model);
    const tell = (y: readonly number[]): Record<keyof typeof history, number> => {
      const T = y.slice(0, by.n);
      return {
        interface: by.face(T, (model.reacts as number) - 1),
        skin: by.face(T, skin),
        basal: by.face(T, basal),
        outside: by.ends(T)[1],
        conversion: y.slice(-4).reduce((sum, a) => sum + a / 4, 0),
      };
    };
    const [before, after] = [
      [...start.temperature, ...start.conversion],
      by.follow([...start.temperature, ...start.conversion], 0, until),
    ].map(tell);
    expect(after?.conversion).toBeGreaterThan(0.3);
    for (const what of ['interface', 'skin', 'basal', 'outside', 'conversion'] as const) {
      const { time, value, slope } = history[what];
      expect(time[0]).toBe(0);
      expect(time.at(-1)).toBe(until);
      expect(Math.abs((value[0] as number) - (before?.[what] as number)), what).toBeLessThan(1e-9);
      expect(Math.abs((value.at(-1) as number) - (after?.[what] as number)), what).toBeLessThan(2e-5);
      expect(slope.length).toBe(time.length);
      // The slope is that of the value.
      let sum = value[0] as number;
      for (let n = 1; n < time.length; n++)
        sum +=
          (((slope[n] as number) + (slope[n - 1] as number)) / 2) *
          ((time[n] as number) - (time[n - 1] as number));
      expect(Math.abs(sum - (value.at(-1) as number)), what).toBeLessThan(
        what === 'conversion' ? 1e-4 : 1e-2,
      );
    }
  });

  test('an arm in an elastic bandage over which tape is laid after five minutes', () => {
    const after = 300;
    const given: CastCase = { ...limb, cover: 'elastic', overwrap: { after, layers: 4 } };
    const history = castHistory(given, c, until, coarse);
    const { start } = castColumn(given, c, coarse);
    const bare = written({ ...arm, outer: outside(0.02, 0.25) });
    const first = bare.follow([...start.temperature, ...start.conversion], 0, after);
    const tape: Line = [3.2, 0.15, 1.6e6, 2, 0];
    // Under tape the plaster no longer dries, and the tape comes from the same water.
    const over = written({
      ...arm,
      lines: [...arm.lines, tape],
      outer: outside(0.02, 0),
      tape: { line: 6, since: after },
    });
    const laid = (27.7 + 20.1) / 2;
    const last = over.follow(
      [...first.slice(0, bare.n), laid, laid, ...first.slice(bare.n), 0, 0],
      after,
      until,
    );
    const T = last.slice(0, over.n);
    const end = (what: keyof typeof history): number => history[what].value.at(-1) as number;
    expect(history.skin.time.filter((t) => t === after).length).toBe(2);
    expect(Math.abs(end('interface') - over.face(T, 4))).toBeLessThan(2e-5);
    expect(Math.abs(end('skin') - over.face(T, 3))).toBeLessThan(2e-5);
    expect(Math.abs(end('basal') - over.face(T, 2))).toBeLessThan(2e-5);
    expect(Math.abs(end('outside') - over.ends(T)[1])).toBeLessThan(2e-5);
    const mean = last.slice(-6, -2).reduce((sum, a) => sum + a / 4, 0);
    expect(Math.abs(end('conversion') - mean)).toBeLessThan(1e-6);
  });
});

test('each class of plaster has its own rate, and what goes with it', () => {
  for (const [material, k25] of [
    ['extra-fast plaster', 0.0085],
    ['fast plaster', 0.003],
    ['slow plaster', 0.0012],
  ] as const) {
    expect(kineticsOf(c, material)).toEqual({ k25, activation: 35_000, order: 2, seed: 0.01 });
    const rate = { rate: 0, byTemperature: 0, byConversion: 0 };
    castColumn({ ...limb, material }, c, coarse).cells.reaction?.rate(25, 0.3, rate);
    close(rate.rate, k25 * 0.31 ** (2 / 3) * 0.7);
  }
});
