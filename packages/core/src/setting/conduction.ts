import { formula } from '../formula.ts';
import {
  amount,
  conductivity,
  count,
  duration,
  either,
  group,
  heatCapacity,
  heatFlux,
  heatPerArea,
  heatSource,
  heatTransfer,
  kind,
  length,
  list,
  rate,
  temperature,
  temperatureDifference,
  thermalResistance,
} from '../measure.ts';
import {
  celsius,
  joulesPerCubicMetreKelvin,
  metres,
  mm,
  perSecond,
  seconds,
  squareMetreKelvinsPerWatt,
  wattsPerCubicMetre,
  wattsPerMetreKelvin,
  wattsPerSquareMetre,
  wattsPerSquareMetreKelvin,
  wholeUp,
} from '../quantity.ts';
import { type ColumnLayer, type Grid, gridOf, type Surface } from './column.ts';
import { march } from './march.ts';
import { cut } from './trace.ts';

/** What no tap gives and no fire is out of range. */
const heat = (says: string, shown: { readonly symbol?: string } = {}) =>
  temperature(says, { ...shown, possible: [celsius(-60), celsius(1200)] });

const capacityOf = (says: string, symbol: string) =>
  heatCapacity(says, { symbol, possible: [joulesPerCubicMetreKelvin(500), joulesPerCubicMetreKelvin(1e7)] });

const boundary = either([
  group({ kind: kind('insulated') }),
  group({
    kind: kind('fixed'),
    temperature: heat('temperature at which the surface is held', { symbol: 'T_s' }),
  }),
  group({
    kind: kind('flux'),
    flux: heatFlux('heat that flows in through the surface', {
      symbol: 'q',
      possible: [wattsPerSquareMetre(-1e5), wattsPerSquareMetre(1e5)],
    }),
  }),
  group({
    kind: kind('convective'),
    coefficient: heatTransfer('heat that goes over to the surroundings per kelvin', {
      symbol: 'h',
      possible: [wattsPerSquareMetreKelvin(0), wattsPerSquareMetreKelvin(1e5)],
    }),
    ambient: heat('temperature of the surroundings', { symbol: 'T_\\infty' }),
  }),
]);

const layers = list(
  group({
    thickness: length('thickness of the layer', { possible: [mm(0.02), mm(2000)] }),
    conductivity: conductivity('conductivity of the layer', {
      symbol: 'k',
      possible: [wattsPerMetreKelvin(0.01), wattsPerMetreKelvin(500)],
    }),
    capacity: capacityOf('heat capacity of the layer by volume', 'C'),
    start: heat('temperature of the layer at the start'),
    source: heatSource('heat that is made in the layer', {
      symbol: 's',
      possible: [wattsPerCubicMetre(0), wattsPerCubicMetre(1e7)],
    }),
    perfusion: either([
      group({ kind: kind('none') }),
      group({
        kind: kind('blood'),
        flow: rate('volume of blood per volume of tissue and second', {
          symbol: '\\omega',
          possible: [perSecond(0), perSecond(0.1)],
        }),
        capacity: capacityOf('heat capacity of the blood by volume', 'C_b'),
        temperature: temperature('temperature of the blood that comes', {
          symbol: 'T_b',
          possible: [celsius(0), celsius(45)],
        }),
      }),
    ]),
    contact: thermalResistance('resistance between the layer and the next', {
      possible: [squareMetreKelvinsPerWatt(0), squareMetreKelvinsPerWatt(10)],
    }),
  }),
  [1, 12],
);

const surface = group({
  temperature: temperature('temperature of the surface', { symbol: 'T' }),
  uncertainty: temperatureDifference('difference of it between the two meshes'),
  flux: heatFlux('heat that flows in through the surface, per area of that surface', { symbol: 'q' }),
  fluxUncertainty: heatFlux('difference of it between the two meshes'),
});

interface Given {
  readonly shape: { readonly kind: 'slab' } | { readonly kind: 'cylinder'; readonly innerRadius: number };
  readonly layers: readonly {
    readonly thickness: number;
    readonly conductivity: number;
    readonly capacity: number;
    readonly start: number;
    readonly source: number;
    readonly perfusion:
      | { readonly kind: 'none' }
      | {
          readonly kind: 'blood';
          readonly flow: number;
          readonly capacity: number;
          readonly temperature: number;
        };
    readonly contact: number;
  }[];
  readonly inner: Boundary;
  readonly outer: Boundary;
  readonly until: number;
  readonly probes: readonly number[];
  readonly cells: number;
}
type Boundary =
  | { readonly kind: 'insulated' }
  | { readonly kind: 'fixed'; readonly temperature: number }
  | { readonly kind: 'flux'; readonly flux: number }
  | { readonly kind: 'convective'; readonly coefficient: number; readonly ambient: number };

const depthOf = (layers: Given['layers']): number =>
  layers.reduce((sum, { thickness }) => sum + thickness, 0);

function exchange(end: Boundary): Surface | { readonly fixed: number } {
  if (end.kind === 'fixed') return { fixed: end.temperature };
  const [coefficient, ambient] = end.kind === 'convective' ? [end.coefficient, end.ambient] : [0, 0];
  const flux = end.kind === 'flux' ? end.flux : 0;
  return (temperature, out) => {
    out.heat = flux + coefficient * (ambient - temperature);
    out.slope = -coefficient;
  };
}

interface Mesh {
  readonly grid: Grid;
  readonly layers: readonly ColumnLayer[];
  readonly start: Float64Array;
  /** Where each probe lies, m. */
  readonly places: readonly number[];
}

/**
 * The column cut into cells, `fine` of them for each of the plain mesh, with a face at each probe. One that lies within a
 * thousandth of a layer of another face gets none, since so thin a cell would cost digits: it is read between face and
 * centre.
 */
function meshOf({ shape, layers, inner, outer, probes, cells }: Given, fine: 1 | 2): Mesh {
  const pieces: ColumnLayer[] = [];
  const starts: number[] = [];
  const cuts = [{ at: 0, face: 0 }];
  let before = 0;
  for (const [
    n,
    { thickness, conductivity, capacity, start, source, perfusion, contact },
  ] of layers.entries()) {
    const end = before + thickness;
    const near = thickness / 1000;
    const blood = perfusion.kind === 'blood' ? perfusion : { flow: 0, capacity: 0, temperature: 0 };
    let from = before;
    const inside = probes.filter((p) => p < end - near).sort((a, b) => a - b);
    for (const to of [...inside, end]) {
      if (!(to > from + near)) continue;
      const own = Math.max(2, wholeUp((cells * (to - from)) / thickness)) * fine;
      pieces.push({
        thickness: (to - from) / 1000,
        conductivity,
        capacity,
        cells: own,
        source,
        blood: blood.flow * blood.capacity,
        arterial: blood.temperature,
        contact: to === end && n < layers.length - 1 ? contact : 0,
      });
      for (let k = 0; k < own; k++) starts.push(start);
      cuts.push({ at: to, face: starts.length });
      from = to;
    }
    before = end;
  }
  const radius = shape.kind === 'cylinder' ? shape.innerRadius / 1000 : undefined;
  const grid = gridOf({ radius, layers: pieces, inner: exchange(inner), outer: exchange(outer) });
  // A place on a face is that face to the last bit, so that beside a contact it is read on the inner side.
  const places = probes.map((probe) => {
    const cut = cuts.find(({ at }) => Math.abs(probe - at) <= 1e-12 * at);
    return cut ? (grid.faces[cut.face] as number) : probe / 1000;
  });
  return { grid, layers: pieces, start: Float64Array.from(starts), places };
}

/** The same with all temperatures told from the middle of them, where they have most digits; and that middle. */
function centred(given: Given): { readonly middle: number; readonly about: Given } {
  const endsOf = (end: Boundary): number[] =>
    end.kind === 'fixed' ? [end.temperature] : end.kind === 'convective' ? [end.ambient] : [];
  const all = [
    ...given.layers.flatMap(({ start, perfusion }) =>
      perfusion.kind === 'blood' ? [start, perfusion.temperature] : [start],
    ),
    ...endsOf(given.inner),
    ...endsOf(given.outer),
  ];
  const middle = (Math.min(...all) + Math.max(...all)) / 2;
  const end = (end: Boundary): Boundary =>
    end.kind === 'fixed'
      ? { ...end, temperature: end.temperature - middle }
      : end.kind === 'convective'
        ? { ...end, ambient: end.ambient - middle }
        : end;
  const layers = given.layers.map(({ start, perfusion, ...layer }) => ({
    ...layer,
    start: start - middle,
    perfusion:
      perfusion.kind === 'blood' ? { ...perfusion, temperature: perfusion.temperature - middle } : perfusion,
  }));
  return { middle, about: { ...given, layers, inner: end(given.inner), outer: end(given.outer) } };
}

/** More than any temperature can be: those at the start and outside, and all heat that comes, spread and piled up. */
function hottest({ layers, inner, outer, until }: Given): number {
  const ends = [inner, outer].map((end) =>
    end.kind === 'fixed' ? end.temperature : end.kind === 'convective' ? end.ambient : 0,
  );
  const fluxes = [inner, outer].reduce((sum, end) => sum + (end.kind === 'flux' ? Math.abs(end.flux) : 0), 0);
  const made = fluxes + layers.reduce((sum, l) => sum + (l.source * l.thickness) / 1000, 0);
  const stores = layers.reduce((sum, l) => sum + (l.capacity * l.thickness) / 1000, 0);
  const resists = layers.reduce((sum, l) => sum + l.thickness / 1000 / l.conductivity + l.contact, 0);
  const there = [...ends, ...layers.map(({ start }) => start)].map(Math.abs);
  return Math.max(100, ...there) + made * (until / stores + resists);
}

interface Solved {
  /** Temperatures at the probes; temperature and flux at either end; heat stored, entered, made, moved, and for 1 K. */
  readonly values: readonly number[];
  readonly times: readonly number[];
}

/** One march over one mesh: with steps of its own, or over the given times. */
function solve(given: Given, mesh: Mesh, tolerance: number, over?: readonly number[]): Solved {
  const { grid, layers, start } = mesh;
  const { capacity, volumes, layerOf, faces } = grid;
  const n = capacity.length;
  const times: number[] = [];
  const each = ({ time }: { readonly time: number }): unknown => times.push(time);
  const still = { time: 0, temperature: start, conversion: new Float64Array(n) };
  const account = { held: new Float64Array(n), brought: new Float64Array(n) };
  const course = over ? { times: over, account } : { account };
  const { temperature: T } = march(grid, still, given.until, tolerance, each, course);
  // All heat goes straight with temperature: what came in a time is what would come at the mean of it.
  const mean = account.held.map((sum) => sum / given.until);
  const came = (['inner', 'outer'] as const).map((end) => given.until * grid.inflow(end, mean));
  const inside = mean.map((t, i) => {
    const { source, blood, arterial } = layers[layerOf[i] as number] as ColumnLayer;
    return given.until * (volumes[i] as number) * (source + blood * (arterial - t));
  });
  const sum = (of: Iterable<number>): number => [...of].reduce((all, x) => all + x, 0);
  const [entered, made] = [sum(came), sum(inside)];
  const moved = sum([...came, ...inside].map(Math.abs));
  const warming = capacity.reduce((sum, c) => sum + c);
  const stored = T.reduce((sum, t, i) => sum + (capacity[i] as number) * (t - (start[i] as number)), 0);

  const [first, last] = [faces[0] as number, faces[n] as number];
  const radius = given.shape.kind === 'cylinder' ? given.shape.innerRadius / 1000 : undefined;
  const areas = radius === undefined ? [1, 1] : [radius + first, radius + last];
  const ends = (['inner', 'outer'] as const).flatMap((end, k) => {
    const area = areas[k] as number;
    return [grid.surface(end, T), area === 0 ? 0 : grid.inflow(end, T) / area];
  });
  const outside = areas[1] as number;
  return {
    values: [
      ...mesh.places.map((place) => grid.at(place, T)),
      ...ends,
      ...[stored, entered, made, moved, warming].map((heat) => heat / outside),
    ],
    times,
  };
}

/** Largest error of a step on the plain mesh, in kelvin, for temperatures of up to a hundred degrees. */
const accuracy = 1e-6;

/**
 * Temperatures in a stack of layers, flat or round, after a time: conduction with contact resistance, sources and blood flow.
 *
 * It is solved twice, the second time with cells and time steps halved, and the two answers are carried on to where they
 * lead. Their difference stands beside each number: the error that is left is mostly far smaller. A probe where two layers
 * meet reads the inner one. Energy is per area of the outer surface.
 *
 * @throws InputError when a probe lies outside the layers, or the axis of a solid cylinder is to pass heat
 * @example
 * conduction({ shape: { kind: 'slab' }, layers: [{ thickness: mm(10), conductivity: wattsPerMetreKelvin(0.3), capacity: joulesPerCubicMetreKelvin(1e6), start: celsius(20), source: wattsPerCubicMetre(0), perfusion: { kind: 'none' }, contact: squareMetreKelvinsPerWatt(0) }], inner: { kind: 'fixed', temperature: celsius(30) }, outer: { kind: 'fixed', temperature: celsius(20) }, until: hours(1), probes: [mm(5)], cells: 20 }).value.probes[0].temperature // 25.0000…
 */
export const conduction = /* @__PURE__ */ formula({
  id: 'setting.conduction',
  revision: 1,
  basis: 'numerical',
  inputs: {
    shape: either([
      group({ kind: kind('slab') }),
      group({
        kind: kind('cylinder'),
        innerRadius: length('radius of the inner surface; none for a solid cylinder', {
          symbol: 'r_0',
          possible: [mm(0), metres(10)],
        }),
      }),
    ]),
    layers,
    inner: boundary,
    outer: boundary,
    until: duration('time from the start', { symbol: 't', possible: [seconds(0.001), seconds(1e8)] }),
    probes: list(
      length('place that is read, from the inner surface', { symbol: 'x', possible: [mm(0), metres(24)] }),
      [0, 24],
    ),
    cells: count('cells in a layer, at least', { possible: [2, 500] }),
  },
  joint: [
    {
      input: 'layers',
      possible: 'no contact resistance behind the last',
      breach: ({ layers }) => {
        const last = layers.at(-1)?.contact ?? 0;
        return last === 0 ? undefined : `${last} m2.K/W between the last layer and nothing`;
      },
    },
    {
      input: 'inner',
      possible: 'insulated where there is no inner surface: the axis of a solid cylinder passes no heat',
      breach: ({ shape, inner }) =>
        shape.kind === 'cylinder' && shape.innerRadius === 0 && inner.kind !== 'insulated'
          ? `${inner.kind}, at a radius of 0 mm`
          : undefined,
    },
    {
      input: 'probes',
      possible: 'inside the layers',
      breach: ({ layers, probes }) => {
        const depth = depthOf(layers);
        const beyond = probes.filter((probe) => probe > depth * (1 + 1e-12));
        return beyond.length === 0 ? undefined : `${beyond.join(', ')} mm in layers of ${depth} mm together`;
      },
    },
  ],
  steps: {
    cells: count('cells of the plain mesh; the fine one has twice as many'),
    instants: count('time steps on the plain mesh; the fine one has twice as many'),
  },
  output: group({
    probes: list(
      group({
        at: length('place, from the inner surface', { symbol: 'x' }),
        temperature: temperature('temperature there', { symbol: 'T' }),
        uncertainty: temperatureDifference('difference of it between the two meshes'),
      }),
      [0, 24],
    ),
    inner: surface,
    outer: surface,
    energy: group({
      stored: heatPerArea('heat that the layers hold more than at the start', { symbol: 'U' }),
      entered: heatPerArea('heat that came in through both surfaces', { symbol: 'Q' }),
      made: heatPerArea('heat made in the layers and brought by blood', { symbol: 'S' }),
      imbalance: amount(
        'what is stored beyond what came, as a part of all heat moved or of a warming by 1 K, whichever is more',
      ),
    }),
  }),
  sources: ['derivation.conduction'],
  compute: (given: Given, _, step) => {
    const { middle, about } = centred(given);
    const tolerance = (accuracy * hottest(about)) / 100;
    const [plain, fine] = [meshOf(about, 1), meshOf(about, 2)];
    const rough = solve(about, plain, tolerance);
    const near = solve(about, fine, tolerance, cut(rough.times, 2).slice(1));
    step('cells', plain.start.length);
    step('instants', rough.times.length - 1);
    // Errors of the cells fall fourfold where they are halved; those of the steps are far smaller.
    const values = near.values.map((value, n) => value + (value - (rough.values[n] as number)) / 3);
    const doubts = near.values.map((value, n) => Math.abs(value - (rough.values[n] as number)));
    const k = given.probes.length;
    const end = (n: number) => ({
      temperature: middle + (values[n] as number),
      uncertainty: doubts[n] as number,
      flux: values[n + 1] as number,
      fluxUncertainty: doubts[n + 1] as number,
    });
    const [stored = 0, entered = 0, made = 0, moved = 0, warming = 1] = values.slice(k + 4);
    return {
      probes: given.probes.map((at, n) => ({
        at,
        temperature: middle + (values[n] as number),
        uncertainty: doubts[n] as number,
      })),
      inner: end(k),
      outer: end(k + 2),
      energy: {
        stored,
        entered,
        made,
        imbalance: Math.abs(stored - entered - made) / Math.max(moved, warming),
      },
    };
  },
});
