import fc from 'fast-check';
import { codes, codesFor, formula as formulaOf, InputError, type UnitCode } from 'swathe';
import { expect } from 'vitest';
import {
  either,
  type Fields,
  group,
  inside,
  isRecord,
  kind,
  length,
  list,
  text,
} from '../packages/core/src/measure.ts';
import { type Place, placesOf, withAt } from './generators.ts';

type Schema = Fields[string];

/** A formula that reads a list of several shapes, as none of ours does yet. */
export const shapes = formulaOf({
  id: 'test.shapes',
  revision: 1,
  basis: 'identity',
  inputs: {
    parts: list(
      either([group({ kind: kind('a'), x: length('x') }), group({ kind: kind('b'), of: text('of') })]),
      [0, 9],
    ),
  },
  output: length('nothing'),
  sources: [],
  compute: () => 0,
});

/** What calling throws, if anything; whatever is not an InputError is a failure. */
export function refusal(call: () => unknown): InputError | undefined {
  try {
    call();
    return undefined;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error;
  }
}

/** What a hostile getter throws: the reader must not take it for a fault of its own. */
export class Trap extends Error {}
const trap = (): never => {
  throw new Trap('sprung');
};

const cyclic: Record<string, unknown> = { value: 1, unit: 'mm' };
cyclic['girth'] = cyclic;
cyclic['stations'] = [cyclic, cyclic];
cyclic['parts'] = [cyclic];
const cyclicList: unknown[] = [];
cyclicList.push(cyclicList, cyclicList);

/** Lists and objects by turns, as deep as told. */
function nested(levels: number, core: unknown): unknown {
  let out = core;
  for (let n = 0; n < levels; n++) out = n % 2 === 0 ? [out] : { value: out };
  return out;
}

/** Lists alone, which as text are as deep as they are. */
function lists(levels: number): unknown {
  let out: unknown = [];
  for (let n = 0; n < levels; n++) out = [out];
  return out;
}

const sparse: unknown[] = [];
sparse[2 ** 32 - 2] = 1;
const revoked = Proxy.revocable({}, {});
revoked.revoke();
const many = Array.from({ length: 300_000 }, () => ({ at: 5, girth: 5 }));

export const hostileKeys = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  'kind',
  'value',
  'unit',
  'length',
  'toJSON',
  'then',
  'a\u0000\u001b[31m\n\u2028\ud800',
  '',
];

/** Whatever JavaScript can hold that is no input. */
export const oddValues: readonly unknown[] = [
  cyclic,
  cyclicList,
  Symbol('s'),
  () => 1,
  10n,
  'x'.repeat(1_000_000),
  '\n\u001b[2J\u202e\ud800\u2028'.repeat(50),
  JSON.parse('{"__proto__":{"polluted":true},"constructor":{"prototype":{"polluted":true}}}'),
  JSON.parse('{"toString":null,"valueOf":null}'),
  JSON.parse('{"kind":{"toString":null,"valueOf":null}}'),
  { ['y'.repeat(100_000)]: 1 },
  { value: 1, unit: 'm'.repeat(100_000) },
  JSON.parse('{"length":{"toString":null,"valueOf":null}}'),
  { length: 5 },
  { length: sparse },
  { value: 1, unit: Symbol('mm') },
  { value: 10n, unit: 'mm' },
  { value: cyclic, unit: 'mm' },
  Object.create(null),
  [Object.create(null)],
  Object.freeze({ a: Number.NaN }),
  new Float64Array([1, Number.NaN]),
  new Map([['value', 1]]),
  new Date(Number.NaN),
  // biome-ignore lint/suspicious/noSparseArray: holes are what is tried
  [, 1, ,],
  sparse,
];

/** What takes long to copy or to throw at: tried seldom. */
const heavyValues: readonly unknown[] = [
  'x'.repeat(10_000_000),
  many,
  Object.fromEntries(many.slice(0, 100_000).map((_, n) => [`key${n}`, n])),
  nested(10_000, { value: 1, unit: 'mm' }),
  nested(100_000, 1),
  new Float64Array(200_000),
  { value: nested(100_000, 1), unit: 'mm' },
  { length: lists(100_000) },
  { value: 1, unit: 'mm', ...Object.fromEntries(many.slice(0, 20_000).map((_, n) => [n, n])) },
];

/** Data that throws when it is read, at different depths. */
const traps: readonly unknown[] = [
  revoked.proxy,
  Object.defineProperty({ unit: 'mm' }, 'value', { enumerable: true, get: trap }),
  Object.defineProperty({ value: 1 }, 'unit', { enumerable: true, get: trap }),
  Object.defineProperty({}, 'kind', { enumerable: true, get: trap }),
  Object.defineProperty([1, 2], 1, { enumerable: true, get: trap }),
  new Proxy({}, { ownKeys: trap }),
  new Proxy({ value: 1, unit: 'mm' }, { get: trap }),
  new Proxy({ value: 1, unit: 'mm' }, { has: trap }),
  new Proxy({ value: 1 }, { getOwnPropertyDescriptor: trap }),
  new Proxy([1, 2, 3], { get: trap }),
];

const anything = fc.anything({
  withBigInt: true,
  withDate: true,
  withMap: true,
  withNullPrototype: true,
  withTypedArray: true,
});

export const hostile: fc.Arbitrary<unknown> = fc.oneof(
  anything,
  fc.jsonValue().map((json) => JSON.parse(JSON.stringify(json))),
  fc.constantFrom(...oddValues),
);

const numbers = [
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  -0,
  0,
  -1,
  0.5,
  Number.MIN_VALUE,
  -Number.MIN_VALUE,
  Number.MAX_VALUE,
  -Number.MAX_VALUE,
  Number.EPSILON,
  1e308,
  1e21,
  2 ** 53,
  2 ** 31,
  1e-7,
];
export const hostileWords = [
  '',
  ' ',
  '1',
  '1e3',
  '0x10',
  'NaN',
  'null',
  '１',
  '1,5',
  'mm',
  'CM',
  ' cm',
  'in',
  '°C',
  '__proto__',
];

/** The next number up or down, in the last bit. */
export function besides(x: number, up: boolean): number {
  if (x === 0) return up ? Number.MIN_VALUE : -Number.MIN_VALUE;
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, x);
  view.setBigInt64(0, view.getBigInt64(0) + (x > 0 === up ? 1n : -1n));
  return view.getFloat64(0);
}

const quantity = (told: unknown, change: (value: number) => number): unknown => {
  if (typeof told === 'number') return change(told);
  return isRecord(told) && typeof told['value'] === 'number'
    ? { ...told, value: change(told['value']) }
    : told;
};

/** As text, whatever it is: some objects cannot be. */
const worded = (x: unknown): string => (typeof x === 'object' ? 'an object' : String(x));

const allCodes = Object.keys(codes) as UnitCode[];
const clone = (told: unknown): unknown => (isRecord(told) ? { ...told } : told);

/** One way to spoil valid JSON at one of its places, by three random numbers. */
type Mutation = (wire: unknown, place: Place, places: readonly Place[], n: number) => unknown;

const at =
  (change: (place: Place, n: number) => unknown): Mutation =>
  (wire, place, _, n) =>
    withAt(wire, place.path, change(place, n));
const one = <T>(of: readonly T[], n: number): T => of[n % of.length] as T;

const repeated = (data: unknown, n: number): unknown => {
  if (!Array.isArray(data) || data.length === 0) return [data, clone(data)];
  const many = one([data.length + 1, 2 * data.length, 200, 2001, n % 1000 === 0 ? 100_000 : 60], n >> 3);
  return Array.from({ length: many }, (_, k) => data[k % data.length]);
};

/** Most are one small change: those get deepest. */
const mutations: readonly (readonly [weight: number, Mutation])[] = [
  // Numbers
  [6, at(({ data }, n) => quantity(data, () => one(numbers, n)))],
  [4, at(({ data }, n) => quantity(data, (x) => x * 10 ** ((n % 13) - 6)))],
  [2, at(({ data }, n) => quantity(data, (x) => -x * (1 + (n % 2))))],
  [2, at(({ data }, n) => quantity(data, (x) => besides(x, n % 2 === 0)))],
  [2, at(({ data }) => quantity(data, (x) => x + 0.5))],
  [2, at(({ data }) => (isRecord(data) ? { ...data, value: worded(data['value']) } : String(typeof data)))],
  // Units
  [
    3,
    at(({ data }, n) =>
      isRecord(data) ? { ...data, unit: one(allCodes, n) } : { value: data, unit: one(allCodes, n) },
    ),
  ],
  [
    3,
    at(({ data, about }, n) =>
      about?.unit && isRecord(data) ? { ...data, unit: one(codesFor(about.unit), n) } : data,
    ),
  ],
  [
    1,
    at(({ data }, n) =>
      isRecord(data) ? { ...data, unit: one(hostileWords, n) } : { value: data, unit: one(hostileWords, n) },
    ),
  ],
  [1, at(({ data }) => (isRecord(data) && 'value' in data ? data['value'] : { value: data }))],
  // Shape
  [4, at(() => undefined)],
  [2, at((_, n) => one([null, true, {}, [], '', 0], n))],
  [2, at((_, n) => one(hostileWords, n))],
  [3, at(({ data }, n) => repeated(data, n))],
  [2, at(({ data }) => (Array.isArray(data) ? data.toReversed() : [data]))],
  [1, at(({ data }) => (Array.isArray(data) ? [] : { value: data, unit: '1' }))],
  [1, at(({ data }) => (Array.isArray(data) ? { ...data } : Object.create(null)))],
  [1, at(({ data }) => (isRecord(data) ? new Map(Object.entries(data)) : data))],
  [1, at(({ data }) => (isRecord(data) ? Object.freeze(Object.assign(Object.create(null), data)) : data))],
  [1, at(({ data }, n) => nested(1 + (n % 12), data))],
  [1, at(({ data }) => JSON.stringify(data) ?? '')],
  [2, (wire, { path }, _, n) => withAt(wire, [...path, one(hostileKeys, n)], one(hostileWords, n >> 4))],
  [
    1,
    (wire, { path }, _, n) =>
      withAt(wire, [...path, one(['seed', 'colour', 'Value', '0', '-1', '1e9'], n)], n),
  ],
  // Two places changed for one another, or one copied over the other
  [
    3,
    (wire, place, places, n) => {
      const other = one(places, n);
      return withAt(withAt(wire, place.path, other.data), other.path, place.data);
    },
  ],
  [2, (wire, place, places, n) => withAt(wire, place.path, clone(one(places, n).data))],
];

const weighted = mutations.flatMap(([weight, mutation]) => Array<Mutation>(weight).fill(mutation));

/** Valid JSON of a schema, spoilt at a few places; what cannot be looked into comes last. */
export function spoilt(schema: Schema, wire: unknown, picks: readonly (readonly number[])[]): unknown {
  let out = wire;
  for (const [which = 0, where = 0, n = 0] of picks) {
    const places = placesOf(schema, out);
    const place = one(places, where);
    const { path } = place;
    // Seldom what takes long to read.
    if (which % 1009 === 0) return withAt(out, path, one(heavyValues, n));
    if (which % 23 === 0) return withAt(out, path, one(traps, n));
    if (which % 11 === 0) return withAt(out, path, one(oddValues, n));
    if (which % 13 === 0) return withAt(out, [...path, one(hostileKeys, n)], one(oddValues, n >> 4));
    out = one(weighted, which >> 4)(out, place, places, n >> 1);
  }
  return out;
}

/** Places whose number is the work to be done: at most, a case takes seconds by the caller's own wish. */
const works = new Set(['samples', 'steps', 'cells']);

/** Possible data with some of its numbers at, or a bit inside, the ends of what is possible, and lists as long as may be. */
export function atLimits(schema: Schema, data: unknown, picks: readonly number[]): unknown {
  let out = data;
  const [first = 0] = picks;
  for (const [k, { path, about, data: x, schema: of }] of placesOf(schema, data).entries()) {
    const n = picks[k % picks.length] ?? 0;
    if (first % 5 === 0 && Array.isArray(x) && x.length > 0 && n % 3 === 0)
      out = withAt(out, path, spread(of, x));
    else if (about?.possible && n % 3 === 0 && !works.has(path.at(-1) ?? '')) {
      const [least, most] = about.possible;
      const inside =
        about.kind === 'count' ? [least, most] : [least, most, besides(least, true), besides(most, false)];
      out = withAt(out, path, one([...inside, least, most], n >> 2));
    }
  }
  return out;
}

/** A list as long as it may be; what must run on, at even steps over all that is possible. */
function spread(schema: Schema, data: readonly unknown[]): unknown[] {
  const most = Math.min(inside(schema).size?.[1] ?? 10, 200);
  return Array.from({ length: most }, (_, k) => {
    const x = data[k % data.length];
    if (!isRecord(x)) return x;
    if ('girth' in x && 'at' in x && typeof x['at'] === 'number')
      return { ...x, at: -1500 + (3000 * k) / (most - 1) };
    return 'time' in x ? { ...x, time: (864_000 * k) / (most - 1) } : x;
  });
}

const pick = fc.nat({ max: 2 ** 24 });
const picks = fc.array(pick, { minLength: 3, maxLength: 3 });

/** How one case is made, so that a failure tells the way it came about rather than a megabyte. */
export interface Hostile {
  readonly made: 'noise' | 'limits' | 'spoilt';
  readonly json: unknown;
}

/** Cases for a reader: noise, valid but extreme, and mostly valid with a few things spoilt. */
export function hostileTo(
  schema: Schema,
  valid: fc.Arbitrary<unknown>,
  wire: (inputs: unknown, units: readonly number[]) => unknown,
): fc.Arbitrary<Hostile> {
  const units = fc.array(fc.nat({ max: 5 }), { minLength: 1, maxLength: 4 });
  return fc.oneof(
    { weight: 1, arbitrary: hostile.map((json): Hostile => ({ made: 'noise', json })) },
    {
      weight: 4,
      arbitrary: fc
        .tuple(valid, fc.array(pick, { minLength: 1, maxLength: 12 }), units)
        .map(([inputs, at, u]): Hostile => ({ made: 'limits', json: wire(atLimits(schema, inputs, at), u) })),
    },
    {
      weight: 10,
      arbitrary: fc
        .tuple(valid, fc.array(picks, { minLength: 1, maxLength: 4 }), units)
        .map(([inputs, at, u]): Hostile => ({ made: 'spoilt', json: spoilt(schema, wire(inputs, u), at) })),
    },
  );
}

/** What any refusal must be: short, on as many lines as it says, and naming each of its faults or how many more there are. */
export function holds(error: InputError | undefined): void {
  if (!error) return;
  const { message, faults } = error;
  expect(message.length).toBeLessThanOrEqual(2000);
  expect(faults.length).toBeGreaterThan(0);
  const lines = message.split('\n').slice(1);
  const shown = lines.at(-1)?.startsWith('  and ') ? lines.slice(0, -1) : lines;
  expect(shown.length).toBeGreaterThan(0);
  for (const [n, { input, got, possible }] of faults.slice(0, shown.length).entries()) {
    expect(got.length * possible.length).toBeGreaterThan(0);
    const line = `  ${input || 'input'}: got ${got}; possible: ${possible}`;
    expect(shown[n]).toBe(line.length > 800 ? `${line.slice(0, 800)}…` : line);
  }
  if (faults.length > shown.length) expect(lines.at(-1)).toBe(`  and ${faults.length - shown.length} more`);
  expect(message.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cs}]/u);
}
