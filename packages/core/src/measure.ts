import * as z from 'zod/v4/core';
import type { Quantity, Span, Unit } from './quantity.ts';

/** What an input, step or output is: all that forms, pages, schemas, laws and errors need to know. */
export interface About {
  readonly kind: 'measure' | 'count' | 'choice' | 'text' | 'flag';
  readonly says: string;
  /** UCUM code of the unit held; null where there is nothing to measure. */
  readonly unit: Unit | null;
  /** As the formula prints it, in TeX. */
  readonly symbol?: string;
  /** What a body, a roll or a tap can give: outside it is refused. */
  readonly possible?: Span;
  /** Where the sources tested the formula: outside it is answered and flagged. */
  readonly tested?: Span;
}

interface Limits<N> {
  readonly symbol?: string;
  readonly possible?: Span<N & number>;
  readonly tested?: Span<N & number>;
}

/** A named type for a schema, so that hovers and declarations stay short. */
export interface Measure<Q> extends z.$ZodType<Q, Q> {}

type Any = z.$ZodType;
type Shape = z.$ZodTypeDiscriminable;
/** Schemas by the name of what they describe. */
export type Fields = Readonly<Record<string, Any>>;
export type Values<F extends Fields> = z.output<z.$ZodObject<F, z.$strict>>;

/** What a schema is about, if it is a leaf; what it is made of, if not; and in words what it lets through. */
interface Inside {
  readonly about?: About;
  readonly innerType?: Any;
  readonly element?: Any;
  readonly shape?: Fields;
  readonly options?: readonly Any[];
  readonly values?: readonly string[];
  /** The words to choose from. */
  readonly entries?: Readonly<Record<string, string>>;
  readonly size?: Span;
  /** Of a number only what stands before its limits. */
  readonly words?: string;
}

/** Ours, never a global one: two copies of this library in one page must not meet. */
const insides = /* @__PURE__ */ new WeakMap<Any, Inside>();

/** What is known of a schema: what it is about, is made of and lets through. */
export const inside = (schema: Any): Inside => insides.get(schema) ?? (schema._zod.def as Inside);

/** What the schema is about, if it is a leaf of ours. */
export const aboutOf = (schema: Any): About | undefined => inside(schema).about;

function made<S extends Any>(schema: Any, words: string, more?: Inside): S {
  insides.set(schema, { ...(schema._zod.def as Inside), words, ...more });
  return schema as S;
}

const least = (value: number): z.$ZodCheckGreaterThan =>
  new z.$ZodCheckGreaterThan({ check: 'greater_than', inclusive: true, value });
const most = (value: number): z.$ZodCheckLessThan =>
  new z.$ZodCheckLessThan({ check: 'less_than', inclusive: true, value });

/** What more is asked of a number is given, not chosen here, so that a formula that counts nothing does not carry it. */
function numeric<Q>(
  about: About,
  limits: Limits<Q>,
  far = Number.MAX_VALUE,
  also: z.$ZodCheck<number>[] = [],
  words = '',
): Measure<Q> {
  const [from, to] = limits.possible ?? [-far, far];
  const checks = [...also, least(from), most(to)];
  return made(new z.$ZodNumber({ type: 'number', checks }), words, { about: { ...about, ...limits } });
}

const measureIn =
  <U extends Unit>(unit: U) =>
  (says: string, limits: Limits<Quantity<U>> = {}): Measure<Quantity<U>> =>
    numeric({ kind: 'measure', says, unit }, limits);

export const length = /* @__PURE__ */ measureIn('mm');
export const area = /* @__PURE__ */ measureIn('mm2');
export const volume = /* @__PURE__ */ measureIn('mm3');
export const secondMoment = /* @__PURE__ */ measureIn('mm4');
export const duration = /* @__PURE__ */ measureIn('s');
export const temperature = /* @__PURE__ */ measureIn('Cel');
export const force = /* @__PURE__ */ measureIn('N');
export const pressure = /* @__PURE__ */ measureIn('mm[Hg]');
export const modulus = /* @__PURE__ */ measureIn('N/mm2');
export const rigidity = /* @__PURE__ */ measureIn('N.mm2');
export const mass = /* @__PURE__ */ measureIn('g');
export const arealMass = /* @__PURE__ */ measureIn('g/m2');
export const angle = /* @__PURE__ */ measureIn('deg');
export const temperatureDifference = /* @__PURE__ */ measureIn('K');
export const rate = /* @__PURE__ */ measureIn('/s');
export const heatFlux = /* @__PURE__ */ measureIn('W/m2');
export const heatSource = /* @__PURE__ */ measureIn('W/m3');
export const conductivity = /* @__PURE__ */ measureIn('W/(m.K)');
export const heatTransfer = /* @__PURE__ */ measureIn('W/(m2.K)');
export const heatCapacity = /* @__PURE__ */ measureIn('J/(m3.K)');
export const thermalResistance = /* @__PURE__ */ measureIn('m2.K/W');
export const heatPerArea = /* @__PURE__ */ measureIn('J/m2');
/** A pure number that may be told in percent: an overlap, a share. */
export const share = /* @__PURE__ */ measureIn('1');

/** A whole number of things. */
export const count = (says: string, limits: Limits<number> = {}): Measure<number> =>
  numeric(
    { kind: 'count', says, unit: '1' },
    limits,
    Number.MAX_SAFE_INTEGER,
    [new z.$ZodCheckMultipleOf({ check: 'multiple_of', value: 1 })],
    'a whole number, ',
  );

/** A number of things that need not be whole, such as turns. */
export const amount = (says: string, limits: Limits<number> = {}): Measure<number> =>
  numeric({ kind: 'measure', says, unit: '1' }, limits);

const wordy = <T>(schema: Any, kind: About['kind'], says: string, words: string): Measure<T> =>
  made(schema, words, { about: { kind, says, unit: null } });

export const choice = <const C extends readonly string[]>(says: string, of: C): Measure<C[number]> =>
  wordy(
    new z.$ZodEnum({ type: 'enum', entries: Object.fromEntries(of.map((word) => [word, word])) }),
    'choice',
    says,
    of.join(', '),
  );

const sizeChecks = ([minimum, maximum]: Span): [z.$ZodCheckMinLength, z.$ZodCheckMaxLength] => [
  new z.$ZodCheckMinLength({ check: 'min_length', minimum }),
  new z.$ZodCheckMaxLength({ check: 'max_length', maximum }),
];

/** Free text that a person reads, never longer than a line. */
export const text = (says: string): Measure<string> =>
  wordy(
    new z.$ZodString({ type: 'string', checks: sizeChecks([1, 120]) }),
    'text',
    says,
    'text of 1 to 120 characters',
  );

export const flag = (says: string): Measure<boolean> =>
  wordy(new z.$ZodBoolean({ type: 'boolean' }), 'flag', says, 'true or false');

/** As many as `size` says, in order. */
export const list = <S extends Any>(element: S, size: Span): z.$ZodArray<S> =>
  made(
    new z.$ZodArray({ type: 'array', element, checks: sizeChecks(size) }),
    `a list of ${size[0]} to ${size[1]}`,
    { size },
  );

export const group = <const F extends Fields>(shape: F): z.$ZodObject<F, z.$strict> =>
  made(
    new z.$ZodObject({ type: 'object', shape, catchall: new z.$ZodNever({ type: 'never' }) }),
    `an object of ${Object.keys(shape).join(', ')}`,
  );

export const optional = <S extends Any>(innerType: S): z.$ZodOptional<S> =>
  made(new z.$ZodOptional({ type: 'optional', innerType }), '');

/** One of several shapes, told apart by the text in their field `kind`. */
export const either = <const S extends readonly [Shape, ...Shape[]]>(
  shapes: S,
): z.$ZodDiscriminatedUnion<S, 'kind'> => {
  const options = shapes as unknown as readonly (Any & { readonly _zod: z.$ZodObjectInternals })[];
  const words = options.map((option) => inside(inside(option).shape?.['kind'] ?? option).words).join(', ');
  return made(new z.$ZodDiscriminatedUnion({ type: 'union', options, discriminator: 'kind' }), words);
};
export const kind = <const V extends string>(value: V): z.$ZodLiteral<V> =>
  made(new z.$ZodLiteral({ type: 'literal', values: [value] }), value);

/** Whether data is an object with named parts: no list, and not nothing. */
export const isRecord = (data: unknown): data is Readonly<Record<string, unknown>> =>
  typeof data === 'object' && data !== null && !Array.isArray(data);

/** Data where a list or a text is wanted: an object is as good as an empty one, since its own `length` must not be asked. */
export const sized = (data: unknown): unknown => (isRecord(data) ? {} : data);

/** The shape among several that data of this `kind` has. */
function shapeFor(options: readonly Any[], data: unknown): Any | undefined {
  if (!isRecord(data)) return undefined;
  return options.find((option) => {
    const tag = inside(option).shape?.['kind'];
    return tag && inside(tag).values?.includes(data['kind'] as string);
  });
}

/** The schema of the part named `key`, and undefined where the schema names no such part. */
export function partOf(schema: Any, key: string, data: unknown): Any | undefined {
  const { innerType, element, shape, options } = inside(schema);
  if (innerType) return partOf(innerType, key, data);
  if (element) return element;
  if (options) {
    const found = shapeFor(options, data);
    if (found) return partOf(found, key, data);
    return key === 'kind' ? schema : undefined;
  }
  return shape && Object.hasOwn(shape, key) ? shape[key] : undefined;
}

/**
 * The one traversal, led by the schema: the data with each leaf replaced by what `visit` makes of it. What the schema
 * does not name is passed through untouched, for the schema itself to refuse. A list longer than may be is cut to one too
 * many: walked to its end, one of a thousand million holes would never be refused.
 */
export function walk(
  schema: Any,
  data: unknown,
  visit: (about: About, data: unknown, path: string) => unknown,
  path = '',
): unknown {
  const about = aboutOf(schema);
  if (about) return visit(about, data, path);
  const { innerType, element, options, shape, size } = inside(schema);
  if (innerType) return data === undefined ? data : walk(innerType, data, visit, path);
  if (options) {
    const found = shapeFor(options, data);
    return found ? walk(found, data, visit, path) : data;
  }
  const under = path === '' ? '' : `${path}.`;
  if (element) {
    if (!Array.isArray(data)) return sized(data);
    const length = Math.min(data.length, (size?.[1] ?? data.length) + 1);
    return Array.from({ length }, (_, n) => walk(element, data[n], visit, under + n));
  }
  if (!shape || !isRecord(data)) return data;
  const out: Record<string, unknown> = {};
  for (const key of Object.keys(data)) {
    const part = Object.hasOwn(shape, key) ? shape[key] : undefined;
    const value = part ? walk(part, data[key], visit, under + key) : data[key];
    // A key of this name would else be taken for the object's prototype.
    if (key === '__proto__') Object.defineProperty(out, key, { value, enumerable: true });
    else out[key] = value;
  }
  return out;
}
