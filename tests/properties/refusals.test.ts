import fc from 'fast-check';
import {
  type AnyFormula,
  applicationPlan,
  equivalentMinutes,
  girthProfile,
  helix,
  InputError,
  recheck,
  seconds,
  temperatureHistory,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import {
  answered,
  fewRuns,
  formulas,
  placesOf,
  runs,
  runsOf,
  samplesOf,
  wireOf,
  withAt,
} from '../generators.ts';
import { holds, hostile, hostileKeys, refusal, shapes, Trap } from '../hostile.ts';

const readers = [
  ...formulas.map(({ id, formula }) => ({
    id,
    reads: (json: unknown): unknown => formula.fromJson(json),
    formula,
  })),
  { id: 'plan', reads: (json: unknown): unknown => applicationPlan.fromJson(json), formula: undefined },
  { id: 'test.shapes', reads: (json: unknown): unknown => shapes.fromJson(json), formula: undefined },
];

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

describe('what the fuzzer came upon', () => {
  const mm = (value: number) => ({ value, unit: 'mm' });

  test('a list of four thousand million holes is refused without walking it', () => {
    const sparse: unknown[] = [];
    sparse[2 ** 32 - 2] = { at: mm(1), girth: mm(200) };
    const error = refusal(() => girthProfile.fromJson({ stations: sparse }));
    expect(error?.faults.find(({ fault }) => fault === 'too-many')).toMatchObject({
      input: 'stations',
      got: 'a list of 4294967295',
    });
    holds(error);
  });

  test('a million wrong stations are refused, and the message says how many came', () => {
    const stations = Array.from({ length: 1_000_000 }, () => 'wrong');
    for (const read of [girthProfile.fromJson, girthProfile as (json: unknown) => unknown]) {
      const error = refusal(() => read({ stations }));
      expect(error?.faults.map(({ got }) => got)).toContain('a list of 1000000');
      holds(error);
    }
  });

  test.each([
    ['whose length is no number', '{"length":{"toString":null,"valueOf":null}}'],
    ['whose length is a list a hundred thousand deep', `{"length":${'['.repeat(1e5)}${']'.repeat(1e5)}}`],
  ])('an object %s is no list and no text', (_, told) => {
    const json = JSON.parse(told);
    for (const call of [
      () => girthProfile.fromJson({ stations: json }),
      () => girthProfile({ stations: json }),
      () => shapes.fromJson({ parts: [{ kind: 'b', of: json }] }),
    ]) {
      const error = refusal(call);
      expect(error?.faults.map(({ fault, got }) => `${fault} ${got}`)).toEqual(['type an object']);
      expect(error?.cause).toBeUndefined();
    }
  });

  test('what throws when it is read is refused, and its own error is kept', () => {
    const girth = { unit: 'mm' };
    Object.defineProperty(girth, 'value', {
      enumerable: true,
      get: () => {
        throw new Trap('sprung');
      },
    });
    const error = refusal(() => helix.fromJson({ girth, width: mm(75), overlap: 0.5 }));
    expect(error?.cause).toBeInstanceOf(Trap);
    holds(error);
  });

  test('a zero below zero is zero, so that JSON brings the answer back', () => {
    const history = [-0, 60].map((time) => ({
      time: { value: time, unit: 's' },
      temperature: { value: 44, unit: 'Cel' },
    }));
    const json = { girth: mm(200), width: mm(75), overlap: -0 };
    for (const answer of [helix.fromJson(json), equivalentMinutes.fromJson({ history })])
      expect(JSON.parse(JSON.stringify(answer))).toStrictEqual(answer);
  });

  test('an overwrap put on after less than any step of time is one put on at once', () => {
    const [, before] = samplesOf(temperatureHistory, 2) as [never, Parameters<typeof temperatureHistory>[0]];
    const wrappedAt = (value: number) =>
      temperatureHistory({ ...before, overwrap: { after: seconds(value), layers: 5 } }).value;
    expect(wrappedAt(Number.MIN_VALUE)).toEqual(wrappedAt(0));
  });

  test('a message steers no terminal and keeps to its lines', () => {
    const error = refusal(() =>
      helix.fromJson({ 'a\n\u001b[2J': 1, girth: '\u001b[31m\ud800', width: mm(75), overlap: 0 }),
    );
    expect(error?.message.split('\n').length).toBe(3);
    expect(error?.faults.map(({ input, got }) => `${input} ${got}`)).toEqual([
      'girth "\ufffd[31m\ufffd"',
      'a\ufffd\ufffd[2J 1',
    ]);
    holds(error);
  });
});
