import type * as z from 'zod/v4/core';
import type { Caution } from './caution.ts';
import { checked, described, InputError, readJson } from './input.ts';
import { type About, aboutOf, type Fields, group, inside, isRecord, type Values, walk } from './measure.ts';
import type { Status } from './published.ts';
import { hold, type Span, type Unit, type UnitCode } from './quantity.ts';

type Any = z.$ZodType;
type Leaf = string | boolean | null | undefined;

/** A value without its brand: what arithmetic gives. */
export type Plain<T> = T extends number
  ? number
  : T extends Leaf
    ? T
    : T extends readonly (infer E)[]
      ? readonly Plain<E>[]
      : { readonly [K in keyof T]: Plain<T[K]> };

/** Units of a value, laid out as the value is; a list has one for all its entries. */
export type Units<T> = T extends number
  ? Unit
  : T extends Leaf
    ? null
    : T extends readonly (infer E)[]
      ? Units<E>
      : { readonly [K in keyof T]: Units<T[K]> };

/** A number that a source printed, as it printed it: `4620`, or a range with an en dash, `5–6`. */
export interface Constant {
  readonly printed: string;
  readonly unit: UnitCode;
  readonly says: string;
  readonly symbol?: string;
  readonly source?: string;
  readonly at?: string;
  readonly status: Status;
}
export type Constants = Readonly<Record<string, Constant>>;

/** Constants as numbers in the units held, a printed range as a span. */
export type Numbers<C extends Constants> = {
  readonly [K in keyof C]: C[K]['printed'] extends `${string}–${string}` ? Span : number;
};

/** A named value on the way, with which the sum can be redone by hand. */
export interface Step {
  readonly name: string;
  readonly says: string;
  readonly value: number;
  readonly unit: Unit;
}

/** An input outside the limits within which the formula was tested. */
export interface Beyond {
  readonly input: string;
  readonly got: number;
  readonly tested: Span;
  readonly unit: Unit;
}

/** A record of one calculation: plain JSON, enough to redo it by hand and to recompute it years later. */
export interface Answer<T = unknown> {
  readonly value: T;
  readonly unit: Units<T>;
  /** Formula and revision, `coverage.helix@1`. */
  readonly by: string;
  /** The inputs used, in the form that `fromJson` reads. */
  readonly from: unknown;
  readonly steps: readonly Step[];
  readonly constants: Constants;
  /** `exact` for an identity; `unstated` where no source says within which limits it holds. */
  readonly domain: 'exact' | 'tested' | 'beyond' | 'unstated';
  readonly beyond: readonly Beyond[];
  readonly cautions: readonly Caution[];
  readonly sources: readonly string[];
}

/** Inputs that are possible one by one but not together. */
export interface Joint<I extends Fields> {
  readonly input: keyof I & string;
  readonly possible: string;
  /** What was got, in words, or nothing where it holds. */
  breach(inputs: Values<I>): string | undefined;
}

/** All that a formula says of itself, and its arithmetic. */
export interface Definition<
  I extends Fields = Fields,
  O extends Any = Any,
  S extends Fields = Fields,
  C extends Constants = Constants,
> {
  readonly id: `${string}.${string}`;
  /** Rises when any number changes beyond rounding. */
  readonly revision: number;
  /** What moved in each revision after the first. */
  readonly changes?: Readonly<Record<number, string>>;
  readonly basis: 'identity' | 'empirical' | 'numerical';
  readonly inputs: I;
  readonly joint?: readonly Joint<I>[];
  readonly constants?: C;
  readonly steps?: S;
  readonly output: O;
  /** Pairs of inputs that may be swapped without changing the answer. */
  readonly symmetric?: readonly (readonly [keyof I & string, keyof I & string])[];
  /** Inputs with which a single-valued answer never falls, or never rises. */
  readonly rises?: readonly (keyof I & string)[];
  readonly falls?: readonly (keyof I & string)[];
  readonly sources: readonly string[];
  /** The arithmetic and nothing else; `step` keeps a value on the way. */
  compute(
    inputs: Values<I>,
    constants: Numbers<C>,
    step: (name: keyof S & string, value: number) => number,
  ): Plain<z.output<O>>;
  /** What there is to heed in an answer. */
  cautions?(inputs: Values<I>, value: Plain<z.output<O>>, constants: Numbers<C>): readonly Caution[];
}

/** Call it for an `Answer`; `fromJson` for the same from JSON; `compute` for the bare arithmetic. */
export interface Formula<
  I extends Fields = Fields,
  O extends Any = Any,
  S extends Fields = Fields,
  C extends Constants = Constants,
> extends Omit<Definition<I, O, S, C>, 'compute' | 'cautions'> {
  (inputs: Values<I>): Answer<z.output<O>>;
  /** From JSON, quantities as `{ value, unit }` in UCUM. */
  fromJson(json: unknown): Answer<z.output<O>>;
  /** No check, no record. The constants may be others than the printed ones. */
  compute(inputs: Values<I>, constants?: Numbers<C>): Plain<z.output<O>>;
  /** The whole input as one schema of zod, which is a Standard Schema as well. */
  readonly input: z.$ZodType<Values<I>>;
  /** The constants as numbers in the units held. */
  readonly numbers: Numbers<C>;
  /** What it was made from: `formula({ ...helix.definition, constants })` is the same with other constants. */
  readonly definition: Definition<I, O, S, C>;
}

/** A constant's printed text as a number, or a span, in the unit held. */
export function numberOf({ printed, unit }: Constant): number | Span {
  const [first, last] = printed.split('–').map((part) => hold(Number(part), unit));
  return last === undefined ? (first as number) : [first as number, last];
}

/** The units of what a schema describes, laid out as the data is. */
function unitsOf(schema: Any): unknown {
  const about = aboutOf(schema);
  if (about) return about.unit;
  const { innerType, element, shape, options } = inside(schema);
  const part = innerType ?? element;
  if (part) return unitsOf(part);
  const shapes = shape ? [shape] : (options ?? []).map((option) => inside(option).shape ?? {});
  if (shapes.length === 0) return null;
  return Object.fromEntries(shapes.flatMap(Object.entries).map(([key, x]) => [key, unitsOf(x)]));
}

/**
 * Makes a formula from its definition: the one place that says what it is called, takes, gives, assumes and rests on.
 *
 * @throws InputError when called with inputs that cannot be
 */
export function formula<
  const I extends Fields,
  O extends Any,
  const S extends Fields = Record<never, never>,
  const C extends Constants = Record<never, never>,
>(definition: Definition<I, O, S, C>): Formula<I, O, S, C> {
  const { id, revision, basis, constants = {} as C, steps: named, output, joint = [] } = definition;
  const by = `${id}@${revision}`;
  const input = group(definition.inputs) as unknown as z.$ZodType<Values<I>>;
  const unit = unitsOf(output) as Units<z.output<O>>;
  const numbers = Object.fromEntries(
    Object.entries(constants).map(([name, constant]) => [name, numberOf(constant)]),
  ) as Numbers<C>;

  const answer = (inputs: Values<I>): Answer<z.output<O>> => {
    const faults = joint.flatMap(({ input, possible, breach }) => {
      const got = breach(inputs);
      return got === undefined ? [] : [{ input, fault: 'joint' as const, got, possible }];
    });
    if (faults.length > 0) throw new InputError(id, faults);

    const steps: Step[] = [];
    const value = definition.compute(inputs, numbers, (name, x) => {
      const { says, unit } = aboutOf((named as Fields)[name] as Any) as About;
      steps.push({ name, says, value: x, unit: unit as Unit });
      return x;
    });

    const beyond: Beyond[] = [];
    let unstated = false;
    const from = walk(input as Any, inputs, (about, got, path) => {
      if (about.unit === null || typeof got !== 'number') return got;
      if (about.tested === undefined) unstated ||= about.kind === 'measure';
      else if (got < about.tested[0] || got > about.tested[1])
        beyond.push({ input: path, got, tested: about.tested, unit: about.unit });
      return about.unit === '1' ? got : { value: got, unit: about.unit };
    });
    const measured = beyond.length > 0 ? 'beyond' : unstated ? 'unstated' : 'tested';
    return {
      value: value as z.output<O>,
      unit,
      by,
      from,
      steps,
      constants,
      domain: basis === 'identity' ? 'exact' : measured,
      beyond,
      cautions: definition.cautions?.(inputs, value, numbers) ?? [],
      sources: definition.sources,
    };
  };

  const { cautions: _, ...rest } = definition;
  return Object.assign((inputs: Values<I>) => answer(checked(id, input, inputs)), rest, {
    input,
    numbers,
    definition,
    fromJson: (json: unknown) => answer(readJson(id, input, json)),
    compute: (inputs: Values<I>, other: Numbers<C> = numbers) =>
      definition.compute(inputs, other, (_, value) => value),
  });
}

/** A formula whatever it takes and gives: what a catalog holds. */
// biome-ignore lint/suspicious/noExplicitAny: variance of a function's inputs; each formula keeps its own types
export type AnyFormula = Formula<any, any, any, any>;

export interface Difference {
  readonly path: string;
  readonly then: unknown;
  readonly now: unknown;
}

/** Whether a kept answer still holds, and if not, what differs and why. */
export type Recheck =
  | { readonly kind: 'holds' }
  | {
      readonly kind: 'differs';
      readonly revision: { readonly then: number; readonly now: number };
      readonly differences: readonly Difference[];
      /** What the revisions since then changed. */
      readonly changes: readonly string[];
    };

/**
 * Half a unit in the twelfth digit, as a share. Both rounded to twelve digits could differ by a last bit, where it lies between
 * two roundings.
 */
const half = 5e-12;
const isSame = (then: number, now: number): boolean =>
  Math.abs(then - now) <= half * Math.max(Math.abs(then), Math.abs(now));

function differencesOf(then: unknown, now: unknown, path = ''): Difference[] {
  if (typeof then === 'number' && typeof now === 'number' && isSame(then, now)) return [];
  if ((Array.isArray(then) && Array.isArray(now)) || (isRecord(then) && isRecord(now))) {
    const [a, b] = [then, now] as unknown as [Record<string, unknown>, Record<string, unknown>];
    const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])];
    return keys.flatMap((key) => differencesOf(a[key], b[key], path === '' ? key : `${path}.${key}`));
  }
  return Object.is(then, now) ? [] : [{ path, then, now }];
}

/**
 * Whether a kept answer still holds: recomputes it from its own record and compares at 12 significant digits. Of an earlier
 * revision it tells what each later one changed. A number that is a small difference of large ones has fewer digits, and may
 * be told as different on another runtime.
 *
 * @throws InputError when the answer is not one of this formula's, or its inputs are no longer possible
 */
export function recheck(answer: Pick<Answer, 'by' | 'from' | 'value'>, by: AnyFormula): Recheck {
  const [, id, revision] = (typeof answer.by === 'string' && /^(.+)@([1-9]\d*)$/.exec(answer.by)) || [];
  const then = Number(revision);
  if (id !== by.id || then > by.revision)
    throw new InputError('recheck', [
      {
        input: 'by',
        fault: 'choice',
        got: described(answer.by),
        possible: `${by.id}@1 to ${by.id}@${by.revision}`,
      },
    ]);
  const differences = differencesOf(answer.value, by.fromJson(answer.from).value);
  if (differences.length === 0) return { kind: 'holds' };
  const changes = Object.entries(by.changes ?? {}).flatMap(([n, change]) =>
    Number(n) > then ? [change] : [],
  );
  return { kind: 'differs', revision: { then, now: by.revision }, differences, changes };
}
