import fc from 'fast-check';
import { codes, codesFor, type Fault, type FaultCode, InputError } from 'swathe';
import { describe, expect, test } from 'vitest';
import { inside } from '../../packages/core/src/measure.ts';
import {
  answered,
  formulas,
  inputsOf,
  isPossible,
  type Place,
  placesOf,
  runsOf,
  samplesOf,
  wireOf,
  withAt,
} from '../generators.ts';

/** A change that makes possible input impossible, and what should be said of it. */
interface Spoiled {
  readonly path: readonly string[];
  readonly fault: FaultCode;
  readonly value: unknown;
}

/** Just past a limit: one part in 10⁹, which every unit can tell. */
const past = (limit: number, sign: 1 | -1): number => limit + sign * (Math.abs(limit) || 1) * 1e-9;

function spoiledLeaf({ path, about, data, loose }: Place): Spoiled[] {
  if (!about) return [];
  const missing: Spoiled[] = loose ? [] : [{ path, fault: 'missing', value: undefined }];
  const spoil = (fault: FaultCode, ...values: unknown[]): Spoiled[] =>
    values.map((value) => ({ path, fault, value }));
  switch (about.kind) {
    case 'flag':
      return [...missing, ...spoil('type', 'yes', 1, null, {})];
    case 'text':
      return [
        ...missing,
        ...spoil('type', 1, null, []),
        ...spoil('too-few', ''),
        ...spoil('too-many', 'x'.repeat(121)),
      ];
    case 'choice':
      return [...missing, ...spoil('choice', 'no such choice', 1, null, {}, '__proto__', 'toString')];
    case 'count':
    case 'measure': {
      const unit = about.unit ?? '1';
      const [least, most] = about.possible ?? [];
      const whole = about.kind === 'count';
      const held = (value: unknown) => ({ value, unit });
      const below = least === undefined ? [] : [whole ? least - 1 : past(least, -1)];
      const above = most === undefined ? [] : [whole ? most + 1 : past(most, 1)];
      const otherDimension = Object.keys(codes).filter(
        (code) => !codesFor(unit).includes(code as keyof typeof codes),
      );
      return [
        ...missing,
        ...spoil('below', ...below.map(held)),
        ...spoil('above', ...above.map(held)),
        ...(whole ? spoil('not-whole', held((data as number) + 0.5)) : []),
        ...spoil('not-finite', ...[Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY].map(held)),
        ...spoil('type', ...['12', null, true, [12], { is: 12 }].map(held)),
        ...spoil(
          'unit',
          ...[...otherDimension, 'furlong', '', null, 7, 'toString'].map((u) => ({ value: 1, unit: u })),
        ),
        ...spoil('unit', '12 cm', null, true, [], { value: 1 }, { unit }, { value: 1, unit, of: 'bandage' }),
        ...(unit === '1' ? [] : spoil('unit', 12)),
      ];
    }
  }
}

function spoiledWhole({ path, about, schema, data, loose }: Place): Spoiled[] {
  if (about) return [];
  const { element, shape, size } = inside(schema);
  const missing: Spoiled[] = loose || path.length === 0 ? [] : [{ path, fault: 'missing', value: undefined }];
  const wrong: Spoiled[] = ['text', 12, null, element ? {} : []].map((value) => ({
    path,
    fault: 'type',
    value,
  }));
  if (element && size) {
    const entries = data as readonly unknown[];
    const many = Array.from({ length: size[1] + 1 }, () => entries[0]);
    return [
      ...missing,
      ...wrong,
      ...(size[0] > 0 ? [{ path, fault: 'too-few' as const, value: entries.slice(0, size[0] - 1) }] : []),
      ...(entries.length > 0 ? [{ path, fault: 'too-many' as const, value: many }] : []),
    ];
  }
  if (shape) return [...missing, ...wrong, { path: [...path, 'colour'], fault: 'unknown', value: 'red' }];
  return missing;
}

const faultsOf = (call: () => unknown): readonly Fault[] => {
  try {
    call();
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.faults;
    throw error;
  }
};
const told = (faults: readonly Fault[]): string[] => faults.map(({ input, fault }) => `${input}: ${fault}`);

describe.each(formulas)('$id', ({ formula }) => {
  test('refuses fewer than one in ten generated inputs', () => {
    // Of ten, one alone would be too many, and on a busy machine a slow formula gets no more than ten runs.
    const numRuns = Math.max(50, runsOf(formula, 1000));
    const inputs = fc.sample(inputsOf(formula), { seed: 7, numRuns });
    const refused = inputs.filter((i) => !isPossible(() => formula(i)));
    expect(refused.length / inputs.length).toBeLessThan(0.1);
  });

  test('refuses each leaf and list with the one right fault, from JSON', () => {
    const wrong: string[] = [];
    for (const inputs of samplesOf(formula, 3)) {
      const wire = wireOf(formula, inputs);
      for (const place of placesOf(formula.input, wire)) {
        for (const { path, fault, value } of [...spoiledLeaf(place), ...spoiledWhole(place)]) {
          const got = told(faultsOf(() => formula.fromJson(withAt(wire, path, value))));
          const want = `${path.join('.')}: ${fault}`;
          if (got.length !== 1 || got[0] !== want)
            wrong.push(
              `${want} for ${JSON.stringify(value)?.slice(0, 60)}; got ${got.slice(0, 3).join(', ') || 'an answer'}`,
            );
        }
      }
    }
    expect(wrong).toEqual([]);
  });

  test('refuses the same when called with quantities', () => {
    const wrong: string[] = [];
    for (const inputs of samplesOf(formula, 3)) {
      for (const place of placesOf(formula.input, inputs)) {
        for (const { path, fault, value } of [...spoiledLeaf(place), ...spoiledWhole(place)]) {
          const measured = place.about?.unit != null && fault !== 'missing';
          if (measured && (fault === 'unit' || typeof value !== 'object' || value === null)) continue;
          const bare = measured ? (value as { value: unknown }).value : value;
          const got = told(faultsOf(() => formula(withAt(inputs, path, bare))));
          const want = `${path.join('.')}: ${fault}`;
          if (got.length !== 1 || got[0] !== want)
            wrong.push(`${want}; got ${got.slice(0, 3).join(', ') || 'an answer'}`);
        }
      }
    }
    expect(wrong).toEqual([]);
  });

  test('includes its limits', () => {
    const wrong: string[] = [];
    for (const inputs of samplesOf(formula, 3)) {
      for (const { path, about } of placesOf(formula.input, inputs)) {
        for (const limit of about?.possible ?? []) {
          const at = withAt(inputs, path, limit);
          const faults = [
            ...faultsOf(() => formula(at)),
            ...faultsOf(() => formula.fromJson(wireOf(formula, at))),
          ];
          // At the end of one input another may no longer go with it; that is no breach of this limit.
          wrong.push(
            ...told(faults.filter(({ fault }) => fault !== 'joint')).map((fault) => `${limit} as ${fault}`),
          );
        }
      }
    }
    expect(wrong).toEqual([]);
  });

  test('tells every fault at once', () => {
    fc.assert(
      fc.property(answered(formula), (inputs) => {
        const leaves = placesOf(formula.input, inputs).filter(({ about }) => about);
        const spoiled = leaves.reduce<unknown>(
          (data, { path }) => withAt(data, path, { no: 'leaf' }),
          inputs,
        );
        const got = faultsOf(() => formula.fromJson(spoiled)).map(({ input }) => input);
        expect(got.toSorted()).toEqual(leaves.map(({ path }) => path.join('.')).toSorted());
      }),
      { numRuns: runsOf(formula, 30) },
    );
  });
});
