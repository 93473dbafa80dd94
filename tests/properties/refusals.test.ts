import fc from 'fast-check';
import { type AnyFormula, applicationPlan, formula as formulaOf, InputError, recheck } from 'swathe';
import { describe, expect, test } from 'vitest';
import { either, group, kind, length, list, text } from '../../packages/core/src/measure.ts';
import { answered, fewRuns, formulas, placesOf, runs, runsOf, wireOf, withAt } from '../generators.ts';

/** A formula that reads a list of several shapes, as none of ours does yet. */
const shapes = formulaOf({
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

const readers = [
  ...formulas.map(({ id, formula }) => ({
    id,
    reads: (json: unknown): unknown => formula.fromJson(json),
    formula,
  })),
  { id: 'plan', reads: (json: unknown): unknown => applicationPlan.fromJson(json), formula: undefined },
  { id: 'test.shapes', reads: (json: unknown): unknown => shapes.fromJson(json), formula: undefined },
];

/** What calling throws, if anything; whatever is not an InputError is a failure. */
function refusal(call: () => unknown): InputError | undefined {
  try {
    call();
    return undefined;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error;
  }
}

function holds(error: InputError | undefined): void {
  if (!error) return;
  expect(error.message.length).toBeLessThanOrEqual(2000);
  expect(error.faults.length).toBeGreaterThan(0);
  for (const { input, got, possible } of error.faults.slice(0, 8)) {
    expect(error.message).toContain(`${input || 'input'}: got ${got}; possible: ${possible}`);
    expect([got, possible].map((words) => words.length > 0)).toEqual([true, true]);
  }
  expect(error.message.includes('more')).toBe(
    error.faults.length > 8 || /more/.test(error.faults.map((f) => f.possible).join()),
  );
}

const cyclic: Record<string, unknown> = { value: 1, unit: 'mm' };
cyclic['girth'] = cyclic;
cyclic['stations'] = [cyclic, cyclic];
cyclic['parts'] = [cyclic];
const cyclicList: unknown[] = [];
cyclicList.push(cyclicList, cyclicList);

const hostileKeys = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  'kind',
  'value',
  'unit',
  '',
];
const hostile: fc.Arbitrary<unknown> = fc.oneof(
  fc.anything({
    withBigInt: true,
    withDate: true,
    withMap: true,
    withNullPrototype: true,
    withTypedArray: true,
  }),
  fc.jsonValue().map((json) => JSON.parse(JSON.stringify(json))),
  fc.constantFrom<unknown>(
    cyclic,
    cyclicList,
    Symbol('s'),
    () => 1,
    10n,
    'x'.repeat(1_000_000),
    JSON.parse('{"__proto__":{"polluted":true},"constructor":{"prototype":{"polluted":true}}}'),
    JSON.parse('{"toString":null,"valueOf":null}'),
    JSON.parse('{"kind":{"toString":null,"valueOf":null}}'),
    { ['y'.repeat(100_000)]: 1 },
    { value: 1, unit: 'm'.repeat(100_000) },
    { value: 1, unit: Symbol('mm') },
    { value: 10n, unit: 'mm' },
    { value: cyclic, unit: 'mm' },
    Object.create(null),
    [Object.create(null)],
    Object.freeze({ a: Number.NaN }),
  ),
);

describe.each(readers)('$id', ({ reads, formula }) => {
  test('answers or refuses whatever it is given, with an InputError and nothing else', () => {
    fc.assert(
      fc.property(hostile, (json) => holds(refusal(() => reads(json)))),
      { numRuns: runs },
    );
  });

  test('refuses hostile values under its own keys and beside them, and pollutes nothing', () => {
    const inputs = formula
      ? answered(formula).map((i) => wireOf(formula, i))
      : fc.constant<unknown>({ parts: [{ kind: 'a' }] });
    fc.assert(
      fc.property(inputs, fc.nat(), fc.constantFrom(...hostileKeys), hostile, (wire, pick, key, value) => {
        const places = formula
          ? placesOf(formula.input, wire).map(({ path }) => path)
          : [['parts'], ['parts', '0'], ['parts', '0', 'kind']];
        const path = places[pick % places.length] ?? [];
        holds(refusal(() => reads(withAt(wire, path, value))));
        const beside = refusal(() => reads(withAt(wire, [...path, key], value)));
        holds(beside);
        expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
      }),
      { numRuns: formula ? runsOf(formula, fewRuns) : fewRuns },
    );
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  test('names a prototype key that JSON brings, as it does any other that it does not know', () => {
    for (const key of ['__proto__', 'constructor', 'colour']) {
      const error = refusal(() => reads(JSON.parse(`{ "${key}": { "polluted": true } }`)));
      expect(error?.faults.map(({ input, fault }) => `${input} ${fault}`)).toContain(`${key} unknown`);
    }
  });
});

test('a shape is told by its kind alone, whatever stands there', () => {
  for (const odd of [
    JSON.parse('{"toString":null,"valueOf":null}'),
    Object.create(null),
    Symbol('kind'),
    ['a'],
    1,
    'c',
  ]) {
    const error = refusal(() => shapes.fromJson({ parts: [{ kind: odd }] }));
    expect(error?.faults.map(({ input, fault }) => `${input} ${fault}`)).toEqual(['parts.0.kind choice']);
  }
});

describe('very long input is refused in a short message', () => {
  const many = Array.from({ length: 100_000 }, () => ({ at: 5, girth: 5 }));
  const manyKeys = Object.fromEntries(many.map((_, n) => [`key${n}`, n]));
  test.each([
    { what: '100 000 stations, each wrong', json: { stations: many } },
    { what: '100 000 unknown keys', json: manyKeys },
  ])('$what', ({ json }) => {
    for (const id of ['segment.girth-profile', 'coverage.layer-map']) {
      const { formula } = formulas.find((f) => f.id === id) as { formula: AnyFormula };
      const error = refusal(() => formula.fromJson(json));
      expect(error).toBeInstanceOf(InputError);
      holds(error);
      expect(refusal(() => formula(json))).toBeInstanceOf(InputError);
    }
  });
});

test('recheck refuses whatever is no answer, with a short message', () => {
  const [formula] = formulas.map((f) => f.formula) as [AnyFormula];
  for (const by of [
    'x'.repeat(1_000_000),
    null,
    undefined,
    7,
    {},
    Symbol('by'),
    JSON.parse('{"toString":null}'),
  ])
    holds(refusal(() => recheck({ by, from: {}, value: 0 } as never, formula)) ?? expect.fail('an answer'));
});
