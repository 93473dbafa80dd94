import * as z from 'zod/mini';
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
export interface Measure<Q> extends z.ZodMiniType<Q, Q> {}

type Any = z.ZodMiniType;
type Shape = z.core.$ZodTypeDiscriminable;
/** Schemas by the name of what they describe. */
export type Fields = Readonly<Record<string, Any>>;
export type Values<F extends Fields> = z.output<z.ZodMiniObject<F>>;

/** Ours, never a global one: two copies of this library in one page must not meet. */
const abouts = /* @__PURE__ */ new WeakMap<Any, About>();

/** What the schema is about, if it is a leaf of ours. */
export const aboutOf = (schema: Any): About | undefined => abouts.get(schema);

function leaf<Q>(schema: Any, about: About): Measure<Q> {
  abouts.set(schema, about);
  return schema as unknown as Measure<Q>;
}

/** The kind of number is given, not chosen here, so that a formula that counts nothing does not carry whole numbers. */
function numeric<Q>(number: Any, about: About, limits: Limits<Q>): Measure<Q> {
  const [least, most] = limits.possible ?? [-Number.MAX_VALUE, Number.MAX_VALUE];
  return leaf(number.check(z.gte(least), z.lte(most)), { ...about, ...limits });
}

const measureIn =
  <U extends Unit>(unit: U) =>
  (says: string, limits: Limits<Quantity<U>> = {}): Measure<Quantity<U>> =>
    numeric(z.number(), { kind: 'measure', says, unit }, limits);

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
  numeric(z.int(), { kind: 'count', says, unit: '1' }, limits);

/** A number of things that need not be whole, such as turns. */
export const amount = (says: string, limits: Limits<number> = {}): Measure<number> =>
  numeric(z.number(), { kind: 'measure', says, unit: '1' }, limits);

export const choice = <const C extends readonly string[]>(says: string, of: C): Measure<C[number]> =>
  leaf(z.enum(of as unknown as [string, ...string[]]), { kind: 'choice', says, unit: null });

/** Free text that a person reads, never longer than a line. */
export const text = (says: string): Measure<string> =>
  leaf(z.string().check(z.minLength(1), z.maxLength(120)), { kind: 'text', says, unit: null });

export const flag = (says: string): Measure<boolean> => leaf(z.boolean(), { kind: 'flag', says, unit: null });

const sizes = /* @__PURE__ */ new WeakMap<Any, Span>();

/** As many as `size` says, in order. */
export function list<S extends Any>(of: S, size: Span): z.ZodMiniArray<S> {
  const schema = z.array(of).check(z.minLength(size[0]), z.maxLength(size[1]));
  sizes.set(schema, size);
  return schema;
}

export const group = <const F extends Fields>(fields: F): z.ZodMiniObject<F, z.core.$strict> =>
  z.strictObject(fields);

export const optional = <S extends Any>(of: S): z.ZodMiniOptional<S> => z.optional(of);

/** One of several shapes, told apart by the text in their field `kind`. */
export const either = <const S extends readonly [Shape, ...Shape[]]>(
  shapes: S,
): z.ZodMiniDiscriminatedUnion<S, 'kind'> => z.discriminatedUnion('kind', shapes);
export const kind = z.literal;

interface Inside {
  readonly innerType?: Any;
  readonly element?: Any;
  readonly shape?: Fields;
  readonly options?: readonly Any[];
  readonly values?: readonly string[];
  /** The words to choose from. */
  readonly entries?: Readonly<Record<string, string>>;
  readonly size?: Span | undefined;
}

/** What a schema that is no leaf of ours is made of. */
export function inside(schema: Any): Inside {
  const known = insides.get(schema);
  if (known) return known;
  const found = { ...(schema.def as Inside), size: sizes.get(schema) };
  insides.set(schema, found);
  return found;
}
const insides = /* @__PURE__ */ new WeakMap<Any, Inside>();

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
