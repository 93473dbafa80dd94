import fc from 'fast-check';
import type { AnyFormula, Span } from 'swathe';
import { temperatureBand as bandFormula, codesFor, hold, InputError, tell } from 'swathe';
import { catalog } from 'swathe/catalog';
import { vi } from 'vitest';
import { width as widthOfBandage } from '../packages/core/src/coverage/bandage.ts';
import {
  type About,
  aboutOf,
  type Fields,
  inside,
  isRecord,
  partOf,
  walk,
} from '../packages/core/src/measure.ts';
import { girth } from '../packages/core/src/segment/girth.ts';
import { stations as stationsSchema } from '../packages/core/src/segment/profile.ts';

type Schema = Fields[string];
type Inputs = Readonly<Record<string, unknown>>;

/** Every formula, for `test.each`, which names what it tests by a field. */
export const formulas = catalog.map((formula) => ({ id: formula.id, formula }));

/** Runs of each property: more by `FC_RUNS=10000`. */
export const runs = Number(process.env['FC_RUNS'] ?? 300);
/** For arithmetic, which costs next to nothing. */
export const manyRuns = Number(process.env['FC_MANY'] ?? Math.max(runs, 1000));
/** For what takes milliseconds a run. */
export const fewRuns = Math.ceil(runs / 5);
// The machine may be shared and the runs many; and a failure need not be shrunk for ever.
vi.setConfig({ testTimeout: 100_000 + 1000 * runs });
fc.configureGlobal({
  // The same cases each time, so that a red test is due to a change; a long run looks at others by `FC_SEED=7`.
  seed: Number(process.env['FC_SEED'] ?? 1),
  interruptAfterTimeLimit: 60_000 + 500 * runs,
  markInterruptAsFailure: true,
});

/** A number between two, ends and whole numbers included: those are what people type. */
export function between(least: number, most: number): fc.Arbitrary<number> {
  const [first, last] = [Math.ceil(least), Math.floor(most)];
  const part = fc.integer({ min: 0, max: 1_000_000 }).map((n) => least + ((most - least) * n) / 1_000_000);
  const whole = first <= last ? [{ weight: 3, arbitrary: fc.integer({ min: first, max: last }) }] : [];
  return fc
    .oneof({ weight: 6, arbitrary: part }, { weight: 1, arbitrary: fc.constantFrom(least, most) }, ...whole)
    .map((x) => Math.min(most, Math.max(least, x)) + 0);
}

const possibleOf = (schema: Schema): Span => aboutOf(schema as Schema)?.possible ?? [-1000, 1000];
const within = (schema: Schema): fc.Arbitrary<number> => between(...possibleOf(schema));

export const entriesOf = (schema: Schema): readonly string[] => Object.keys(inside(schema).entries ?? {});

function leafArbitrary(schema: Schema, about: About): fc.Arbitrary<unknown> {
  switch (about.kind) {
    case 'measure':
      return within(schema);
    case 'count': {
      const [min, max] = possibleOf(schema);
      return fc.integer({ min, max });
    }
    case 'choice':
      return fc.constantFrom(...entriesOf(schema));
    case 'text':
      return fc.string({ minLength: 1, maxLength: 120 });
    case 'flag':
      return fc.boolean();
  }
}

const share = between(0, 1);

/** Girths in order along a limb. */
const stations: fc.Arbitrary<unknown> = fc
  .tuple(
    between(-1500, 500),
    fc.array(fc.tuple(between(1, 80), within(girth)), { minLength: 2, maxLength: 12 }),
  )
  .map(([start, steps]) => {
    let at = start;
    return steps.map(([gap, girth], n) => {
      if (n > 0) at += gap;
      return { at, girth };
    });
  });

/** Stations, and two places within them at least a millimetre apart, as the stations are. */
const places = fc.tuple(stations, share, share).map(([stations, p, q]) => {
  const ats = (stations as { at: number }[]).map(({ at }) => at);
  const [first, last] = [ats[0] as number, ats.at(-1) as number];
  const a = first + (last - 1 - first) * p;
  return { stations, a, b: Math.min(last, a + 1 + (last - 1 - a) * q) };
});
const girthAt = places.map(({ stations, a }) => ({ stations, at: a }));
const sliceProfile = places.map(({ stations, a, b }) => ({ stations, from: a, to: b }));

/** Data of the shape of a schema, each leaf within its possible limits. */
export function dataOf(schema: Schema): fc.Arbitrary<unknown> {
  if ((schema as unknown) === stationsSchema) return stations;
  const about = aboutOf(schema);
  if (about) return leafArbitrary(schema, about);
  const { innerType, element, shape, options, values, size } = inside(schema);
  if (innerType) return fc.option(dataOf(innerType), { nil: undefined });
  if (element) {
    const [least, most] = size ?? [0, 6];
    return fc.array(dataOf(element), { minLength: least, maxLength: Math.min(most, least + 5) });
  }
  if (options) return fc.oneof(...options.map(dataOf));
  if (values) return fc.constantFrom(...values);
  return fc
    .record(Object.fromEntries(Object.entries(shape ?? {}).map(([key, part]) => [key, dataOf(part)])))
    .map((record) => Object.fromEntries(Object.entries(record).filter(([, x]) => x !== undefined)));
}

/** A bandage with turns closer together than the limb is round. */
const helix = fc.tuple(within(girth), within(widthOfBandage)).chain(([girth, width]) =>
  fc.record({
    girth: fc.constant(girth),
    width: fc.constant(width),
    overlap: between(Math.max(-1, 1 - (0.999 * girth) / width), 0.95),
  }),
);

const wholeTo = (max: number, min = 0): fc.Arbitrary<number> => fc.integer({ min, max });

/** A limb and a wrap on it that the bandage can follow: a wrap made leaf by leaf would be refused nine times in ten. */
const layerMap = fc
  .record({
    width: between(10, 200),
    overlap: between(-1, 0.9),
    keeps: fc.constantFrom('overlap', 'advance', 'lead angle'),
    phased: fc.boolean(),
    phases: fc.array(fc.record({ at: share, hand: fc.constantFrom('right', 'left') }), {
      minLength: 4,
      maxLength: 4,
    }),
    room: between(1, 5),
    begin: between(-1500, 0),
    lead: between(0, 100),
    tail: between(0, 100),
    thinnest: between(1, 4),
    parts: fc.array(fc.tuple(between(1, 10), share), { minLength: 2, maxLength: 6 }),
    extra: fc.array(fc.tuple(share, wholeTo(12)), { maxLength: 3 }),
    passes: wholeTo(4, 1),
    startTurns: wholeTo(3),
    endTurns: wholeTo(3),
    stretch: between(0, 3),
    least: wholeTo(6),
    more: wholeTo(12, 1),
  })
  .map((i) => {
    const wrap = i.width * i.room;
    const limb = i.lead + wrap + i.tail;
    // Spacing at most half the girth, and girth that changes by no more than half the way along the limb.
    const thinnest = Math.min(1000, Math.max(30, i.width / 4, 2 * i.width * (1 - i.overlap)) * i.thinnest);
    const swing = Math.min(1200 - thinnest, limb / 20);
    const total = i.parts.slice(1).reduce((sum, [gap]) => sum + gap, 0);
    let gone = 0;
    const stations = i.parts.map(([gap, x], n) => {
      if (n > 0) gone += gap;
      return { at: i.begin + (limb * gone) / total, girth: thinnest + swing * x };
    });
    const from = i.begin + i.lead;
    return {
      stations,
      from,
      to: from + wrap,
      width: i.width,
      overlap: i.overlap,
      keeps: i.keeps,
      ...(i.phased && { phases: i.phases.slice(0, i.passes) }),
      passes: i.passes,
      startTurns: i.startTurns,
      endTurns: i.endTurns,
      extra: i.extra.map(([x, turns]) => ({ at: i.begin + limb * x, turns })),
      stretch: i.stretch,
      wanted: { least: i.least, most: i.least + i.more },
    };
  });

const roll = fc.record({
  material: fc.constantFrom('plaster', 'padding'),
  width: fc.constantFrom(50, 75, 76.2, 100),
  length: fc.oneof(fc.constantFrom(2743.2, 2750, 3000, 3657.6), between(100, 6000)),
  onHand: wholeTo(12),
});

/** Few materials and widths, so that needs and stock meet, and lengths that go into a roll exactly as well as not. */
const takeOff = fc.record({
  needs: fc.array(
    fc
      .record({
        what: fc.constantFrom('slab', 'wrap', 'strip'),
        material: fc.constantFrom('plaster', 'padding'),
        width: fc.constantFrom(40, 50, 75, 76.2, 100),
        length: fc.oneof(fc.constantFrom(304.8, 275, 343, 914.4), between(20, 4000)),
        pieces: wholeTo(20, 1),
        joins: fc.boolean(),
        wider: fc.boolean(),
        makeUp: fc.constantFrom(undefined, undefined, 'in full', 'nearest'),
      })
      .map(({ makeUp, ...need }) =>
        makeUp === undefined || (makeUp === 'nearest' && !need.joins) ? need : { ...need, makeUp },
      ),
    { minLength: 1, maxLength: 5 },
  ),
  stock: fc.array(roll, { maxLength: 6 }),
});

/** A core narrower than its roll. */
/** At least one turn of any roll. */
const woundLength = fc
  .record({ outer: between(1, 500), part: share, rest: share })
  .map(({ outer, part, rest }) => {
    const thickness = 0.02 + part * (Math.min(20, outer / 2) - 0.02);
    return { outer, core: Math.min(300, rest * (outer - 2 * thickness)), thickness };
  });

/** Corners that fit on the piece. */
const fabricArea = fc
  .record({ plies: wholeTo(60, 1), width: between(5, 500), length: between(5, 5000), part: share })
  .map(({ part, ...rest }) => ({
    ...rest,
    corner: Math.min(250, (part * Math.min(rest.width, rest.length)) / 2),
  }));

/** Ends that fit on the piece, half circles among them. */
const roundedEnds = fc
  .record({ plies: wholeTo(60, 1), width: between(5, 500), length: between(5, 5000), p: share, d: share })
  .map(({ p, d, ...rest }) => {
    const proximal = p * Math.min(rest.width / 2, rest.length);
    return { ...rest, proximal, distal: d * Math.min(rest.width / 2, rest.length - proximal) };
  });

/** No more water bound than taken up. */
const castMass = fc
  .record({ area: between(0, 2e7), arealMass: between(1, 3000), water: between(0, 5), part: share })
  .map(({ part, ...rest }) => ({ ...rest, bound: part * Math.min(1, rest.water) }));

/** Layers and passes of which none needs turns closer than a twentieth of the width. */
const overlapFor = fc.tuple(wholeTo(12, 1), within(girth)).chain(([passes, girth]) =>
  fc.record({ wanted: wholeTo(Math.min(60, 20 * passes), 1), part: share }).map(({ wanted, part }) => {
    const widest = Math.min(500, 0.999 * girth * Math.ceil(wanted / passes));
    return { wanted, passes, girth, width: 10 + part * (widest - 10) };
  }),
);

/**
 * Two girths and the way between them. Girths are in whole millimetres: of two that differ by less than a thousandth, the
 * difference has lost the digits that are compared.
 */
const cone = { first: wholeTo(1200, 30), last: wholeTo(1200, 30), apart: between(10, 1500) };

/** A bandage that does not reach past the tip of its cone. */
const edgeMismatch = fc
  .record({ ...cone, part: share, leadAngle: between(0, 80), takes: between(0, 3) })
  .map(({ part, ...i }) => {
    const rise = Math.abs(i.last - i.first) / (2 * Math.PI);
    const tip = (Math.min(i.first, i.last) * Math.hypot(rise, i.apart)) / (Math.PI * rise);
    return { ...i, width: 10 + part * (Math.min(500, 0.999 * tip) - 10) };
  })
  .filter(({ width }) => width >= 10);

/** A bandage that begins with turns closer together than the limb is round. */
const geodesicAdvance = fc
  .record({ ...cone, width: within(widthOfBandage), part: share })
  .map(({ part, ...i }) => {
    const least = Math.max(-1, 1 - (0.999 * i.first) / i.width);
    return { ...i, overlap: least + part * (0.95 - least) };
  });

/** Few draws: each is a run of the whole model. */
const temperatureBand = fc
  .tuple(dataOf(bandFormula.input as unknown as Schema), wholeTo(9, 8))
  .map(([inputs, samples]) => ({ ...(inputs as Inputs), samples }));

/** A roll wider than its core, of a thickness that winds. */
const effectiveThickness = fc
  .record({ outer: between(1, 1000), part: between(0, 0.999), length: between(100, 200_000) })
  .map(({ outer, part, length }) => ({ outer, core: Math.min(300, outer * part), length }));

/** A reading between the core and what the roll was. */
const lengthLeft = fc
  .record({
    outerNew: between(4, 1000),
    part: between(0.1, 0.9),
    gone: between(0, 0.999),
    byGirth: fc.boolean(),
    lengthNew: between(100, 200_000),
  })
  .map(({ outerNew, part, gone, byGirth, lengthNew }) => {
    const core = Math.min(300, outerNew * part);
    const diameter = Math.max(1, outerNew - gone * (outerNew - core));
    const now = byGirth
      ? { kind: 'girth', girth: Math.max(3, Math.min(3141, Math.PI * diameter)) }
      : { kind: 'diameter', diameter };
    return { now, core, outerNew, lengthNew };
  });

/** Short lists with lengths that fill a roll as well as any, and few steps, so that some run out of them. */
const cuttingPlan = fc.record(
  {
    pieces: fc.array(
      fc.record({
        what: fc.constantFrom('slab', 'strut', 'strip'),
        length: fc.oneof(fc.constantFrom(275, 304.8, 340, 550, 800), between(100, 2800)),
        pieces: wholeTo(9, 1),
      }),
      { minLength: 1, maxLength: 4 },
    ),
    rolls: fc.array(
      fc.record(
        {
          length: fc.oneof(fc.constantFrom(2743.2, 2750, 4570), between(1000, 6000)),
          onHand: wholeTo(12),
        },
        { requiredKeys: ['length'] },
      ),
      { maxLength: 3 },
    ),
    perCut: fc.constantFrom(0, 0, 2, 5.08),
    leastUseful: fc.constantFrom(0, 150, 300, 200_000),
    steps: wholeTo(30_000, 1000),
  },
  { requiredKeys: ['pieces', 'rolls', 'perCut', 'leastUseful', 'steps'] },
);

const heat = between(-20, 95);

/** What lies outside a surface. */
const boundary = fc.oneof(
  fc.record({ kind: fc.constant('insulated') }),
  fc.record({ kind: fc.constant('fixed'), temperature: heat }),
  fc.record({ kind: fc.constant('flux'), flux: between(-500, 2000) }),
  fc.record({ kind: fc.constant('convective'), coefficient: between(0, 500), ambient: heat }),
);

/** A few layers such as lie on a limb, cut coarsely: a call takes a millisecond or two. */
const conduction = fc
  .record({
    shape: fc.constantFrom('slab', 'cylinder', 'solid'),
    radius: between(5, 100),
    layers: fc.array(
      fc.record({
        thickness: between(0.5, 30),
        conductivity: between(0.03, 2),
        capacity: between(50_000, 5_000_000),
        start: heat,
        source: fc.oneof(fc.constant(0), between(0, 100_000)),
        perfusion: fc.oneof(
          fc.record({ kind: fc.constant('none') }),
          fc.record({
            kind: fc.constant('blood'),
            flow: between(0, 0.005),
            capacity: between(3_500_000, 4_200_000),
            temperature: between(20, 40),
          }),
        ),
        contact: fc.oneof(fc.constant(0), between(0, 0.05)),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    inner: boundary,
    outer: boundary,
    until: between(1, 3600),
    places: fc.array(share, { maxLength: 3 }),
    cells: wholeTo(6, 2),
  })
  .map(({ shape, radius, layers, inner, places, ...rest }) => {
    const depth = layers.reduce((sum, { thickness }) => sum + thickness, 0);
    return {
      ...rest,
      shape:
        shape === 'slab'
          ? { kind: shape }
          : { kind: 'cylinder', innerRadius: shape === 'solid' ? 0 : radius },
      layers: layers.map((l, n) => (n === layers.length - 1 ? { ...l, contact: 0 } : l)),
      inner: shape === 'solid' ? { kind: 'insulated' } : inner,
      probes: places.map((p) => p * depth),
    };
  });

/** Temperatures at times that run on. */
const history = fc
  .tuple(
    between(0, 100),
    fc.array(fc.tuple(between(0.5, 3000), between(0, 100)), { minLength: 2, maxLength: 12 }),
  )
  .map(([start, moments]) => {
    let time = start;
    return moments.map(([gap, temperature], n) => {
      if (n > 0) time += gap;
      return { time, temperature };
    });
  });

const written: Readonly<Record<string, fc.Arbitrary<unknown>>> = {
  'segment.girth-at': girthAt,
  'segment.slice-profile': sliceProfile,
  'coverage.edge-mismatch': edgeMismatch,
  'coverage.geodesic-advance': geodesicAdvance,
  'coverage.helix': helix,
  'coverage.layer-map': layerMap,
  'coverage.overlap-for': overlapFor,
  'layers.fabric-area': fabricArea,
  'layers.rounded-ends': roundedEnds,
  'layers.cast-mass': castMass,
  'roll.cutting-plan': cuttingPlan,
  'roll.effective-thickness': effectiveThickness,
  'roll.length-left': lengthLeft,
  'roll.take-off': takeOff,
  'roll.wound-length': woundLength,
  'setting.conduction': conduction,
  'setting.equivalent-minutes': fc.record({ history }),
  'setting.injury-integral': fc.record({
    history,
    law: fc.constantFrom('henriques', 'weaver-stoll', 'takata', 'mehta-wong epidermis', 'mehta-wong dermis'),
  }),
  'setting.temperature-band': temperatureBand,
};

/** Possible inputs of a formula, in the units held. The few that are not possible together, a test skips. */
export const inputsOf = (formula: AnyFormula): fc.Arbitrary<Inputs> =>
  (written[formula.id] ?? dataOf(formula.input as Schema)) as fc.Arbitrary<Inputs>;

/** Whether a call answers rather than refuses its input. */
export function isPossible(call: () => unknown): boolean {
  try {
    call();
    return true;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return false;
  }
}

/** Inputs of a formula that it answers. */
export const answered = (formula: AnyFormula): fc.Arbitrary<Inputs> =>
  inputsOf(formula).filter((inputs) => isPossible(() => formula(inputs)));

/** The same few of those in every run. */
export const samplesOf = (formula: AnyFormula, numRuns: number): Inputs[] =>
  fc.sample(answered(formula), { seed: 1, numRuns });

const paces = new Map<string, number>();

/** Runs of a property of one formula: fewer where a call takes long, so that each property takes a second or so. */
export function runsOf(formula: AnyFormula, most = runs): number {
  const pace = paces.get(formula.id) ?? paceOf(formula);
  paces.set(formula.id, pace);
  return Math.ceil(Math.min(most, Math.max(10, ((pace / 3) * runs) / 300)));
}

/** Calls of a formula in a second. */
function paceOf(formula: AnyFormula): number {
  const inputs = samplesOf(formula, 5);
  const began = performance.now();
  for (const i of inputs) formula(i);
  return (1000 * inputs.length) / (performance.now() - began);
}

/** Inputs as JSON tells them, in the units held. */
export const wireOf = (formula: AnyFormula, inputs: unknown): unknown =>
  walk(formula.input as Schema, inputs, (about, x) =>
    about.unit === null || about.unit === '1' ? x : { value: x, unit: about.unit },
  );

/** The same in whichever units there are, chosen by `picks`; never past a limit by the last bit of a conversion. */
export function wireIn(
  formula: { readonly input: unknown },
  inputs: unknown,
  picks: readonly number[],
): unknown {
  let n = 0;
  return walk(formula.input as Schema, inputs, (about, x) => {
    if (about.unit === null || typeof x !== 'number') return x;
    const codes = codesFor(about.unit);
    const code = codes[(picks[n++ % picks.length] ?? 0) % codes.length] ?? about.unit;
    const back = hold(tell(x, code), code);
    const [least, most] = about.possible ?? [back, back];
    const keeps = back >= least && back <= most && (about.kind !== 'count' || Number.isInteger(back));
    return keeps ? { value: tell(x, code), unit: code } : { value: x, unit: about.unit };
  });
}

/** A place in data where its schema expects something. */
export interface Place {
  readonly path: readonly string[];
  readonly schema: Schema;
  readonly about: About | undefined;
  readonly data: unknown;
  /** Whether it may be left out, as the entries of a list may. */
  readonly loose: boolean;
}

/** Every place of some data, the whole first. */
export function placesOf(
  schema: Schema,
  data: unknown,
  path: readonly string[] = [],
  loose = false,
): Place[] {
  const { innerType } = inside(schema);
  if (innerType) return data === undefined ? [] : placesOf(innerType, data, path, true);
  const about = aboutOf(schema);
  const here: Place = { path, schema, about, data, loose };
  if (about || typeof data !== 'object' || data === null) return [here];
  const parts = Object.entries(data).flatMap(([key, x]) => {
    const part = partOf(schema, key, data);
    return part ? placesOf(part, x, [...path, key], Array.isArray(data)) : [];
  });
  return [here, ...parts];
}

/** A copy of data with another value at a path, or without one where the value is `undefined`. */
export function withAt<T>(data: T, path: readonly string[], value: unknown): T {
  return changed(data, path, value) as T;
}

function changed(data: unknown, [key, ...rest]: readonly string[], value: unknown): unknown {
  if (key === undefined) return value;
  if (Array.isArray(data)) return data.map((x, n) => (String(n) === key ? changed(x, rest, value) : x));
  if (!isRecord(data)) return data;
  const { [key]: old, ...others } = data;
  if (rest.length === 0 && value === undefined) return others;
  return { ...data, [key]: changed(old, rest, value) };
}

/** Agreement at the 12 digits that runtimes promise, where a difference of larger numbers has cost no more than that. */
export const agrees = (a: number, b: number, scale = 0): boolean =>
  Object.is(a, b) || Math.abs(a - b) <= 1e-11 * Math.max(Math.abs(a), Math.abs(b), scale);

/** What of two results differs, in words; nothing where they agree. */
export function disagreement(a: unknown, b: unknown, scale = 0, path = ''): string | undefined {
  if (typeof a === 'number' && typeof b === 'number')
    return agrees(a, b, scale) ? undefined : `${path || 'value'}: ${a} and ${b}`;
  if (typeof a === 'object' && typeof b === 'object' && a !== null && b !== null) {
    for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) {
      const [x, y] = [a, b].map((side) => (side as Record<string, unknown>)[key]);
      const found = disagreement(x, y, scale, path === '' ? key : `${path}.${key}`);
      if (found !== undefined) return found;
    }
    return undefined;
  }
  return Object.is(a, b) ? undefined : `${path || 'value'}: ${String(a)} and ${String(b)}`;
}

/** Numbers of some data, with their paths. */
export function numbersIn(
  data: unknown,
  path: readonly string[] = [],
): { path: readonly string[]; x: number }[] {
  if (typeof data === 'number') return [{ path, x: data }];
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([key, x]) => numbersIn(x, [...path, key]));
}
