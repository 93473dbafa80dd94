import fc from 'fast-check';
import { type Answer, type AnyFormula, codes, InputError, recheck, type Span, type Unit } from 'swathe';
import { describe, expect, test } from 'vitest';
import { walk } from '../../packages/core/src/measure.ts';
import {
  agrees,
  answered,
  disagreement,
  formulas,
  numbersIn,
  placesOf,
  runsOf,
  samplesOf,
  withAt,
} from '../generators.ts';

const numRuns = (formula: AnyFormula) => ({ numRuns: runsOf(formula) });

/** How a value in each unit grows when lengths grow `l`-fold, forces `f`-fold, times `t`-fold and masses `m`-fold. */
type Factors = Readonly<Record<'l' | 'f' | 't' | 'm', number>>;
const growth: Readonly<Partial<Record<Unit, (by: Factors) => number>>> = {
  mm: ({ l }) => l,
  mm2: ({ l }) => l * l,
  mm3: ({ l }) => l * l * l,
  mm4: ({ l }) => l ** 4,
  s: ({ t }) => t,
  N: ({ f }) => f,
  'mm[Hg]': ({ f, l }) => f / (l * l),
  'N/mm2': ({ f, l }) => f / (l * l),
  'N.mm2': ({ f, l }) => f * l * l,
  g: ({ m }) => m,
  'g/m2': ({ m, l }) => m / (l * l),
  deg: () => 1,
  '1': () => 1,
};

/** Data grown by its units, which are laid out as the data is. */
function grown(data: unknown, units: unknown, by: Factors): unknown {
  if (typeof data === 'number') return data * (growth[units as Unit]?.(by) ?? Number.NaN);
  if (Array.isArray(data)) return data.map((x) => grown(x, units, by));
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(
    Object.entries(data).map(([key, x]) => [key, grown(x, (units as Record<string, unknown>)[key], by)]),
  );
}

/** A temperature has a zero of its own, so it does not grow. */
const grows = (formula: AnyFormula): boolean => {
  const units = samplesOf(formula, 1).flatMap((inputs) => [
    formula(inputs).unit,
    placesOf(formula.input, inputs).map(({ about }) => about),
  ]);
  return !JSON.stringify(units).includes('"Cel"');
};

const largest = (data: unknown): number => Math.max(1, ...numbersIn(data).map(({ x }) => Math.abs(x)));

describe.each(formulas)('$id', ({ formula }) => {
  test('answers possible input with finite numbers inside its output’s limits, and survives JSON', () => {
    fc.assert(
      fc.property(answered(formula), (inputs) => {
        const answer = formula(inputs);
        const numbers = [...numbersIn(answer.value), ...numbersIn(answer.steps)];
        expect(numbers.filter(({ x }) => !Number.isFinite(x))).toEqual([]);
        expect(formula.output['~standard'].validate(answer.value)).toHaveProperty('value');
        expect(JSON.parse(JSON.stringify(answer))).toEqual(answer);
        expect(answer.steps.map(({ name }) => name).toSorted()).toEqual(
          Object.keys(formula.steps ?? {}).toSorted(),
        );
        const outside: string[] = [];
        walk(formula.output, answer.value, (about, x, path) => {
          const [least, most] = about.possible ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
          if (typeof x === 'number' && (x < least || x > most)) outside.push(`${path}: ${x}`);
        });
        expect(outside).toEqual([]);
      }),
      numRuns(formula),
    );
  });

  test('flags input outside the tested limits, and nothing else', () => {
    fc.assert(
      fc.property(answered(formula), (inputs) => {
        const { beyond, domain } = formula(inputs);
        const left = placesOf(formula.input, inputs).filter(
          ({ about, data }) =>
            about?.tested && ((data as number) < about.tested[0] || (data as number) > about.tested[1]),
        );
        expect(beyond.map(({ input }) => input).toSorted()).toEqual(
          left.map(({ path }) => path.join('.')).toSorted(),
        );
        if (formula.basis === 'identity') expect(domain).toBe('exact');
        else expect(domain === 'beyond').toBe(left.length > 0);
      }),
      numRuns(formula),
    );
  });

  test('gives the same by compute, by a call and from the record of its own inputs', () => {
    fc.assert(
      fc.property(answered(formula), (inputs) => {
        const answer = formula(inputs);
        expect(formula.compute(inputs)).toEqual(answer.value);
        expect(disagreement(formula.fromJson(answer.from).value, answer.value)).toBeUndefined();
      }),
      numRuns(formula),
    );
  });

  test('recheck holds after a round trip through JSON, and finds any number that was changed', () => {
    fc.assert(
      fc.property(answered(formula), fc.nat(), (inputs, pick) => {
        const kept = JSON.parse(JSON.stringify(formula(inputs)));
        expect(recheck(kept, formula)).toEqual({ kind: 'holds' });
        const numbers = numbersIn(kept.value);
        const changed = numbers[pick % numbers.length];
        if (!changed) return;
        const { path, x } = changed;
        const other = { ...kept, value: withAt(kept.value, path, x === 0 ? 1e-9 : x * (1 + 1e-9)) };
        const found = recheck(other, formula);
        expect(found.kind === 'differs' && found.differences.map((d) => d.path)).toEqual([path.join('.')]);
      }),
      numRuns(formula),
    );
  });

  test('recheck refuses an answer of another formula, or of a revision that never was', () => {
    const [answer] = samplesOf(formula, 1).map((inputs) => formula(inputs)) as [Answer];
    const never = [`${formula.id}@0`, `${formula.id}@${formula.revision + 1}`, formula.id, `${formula.id}@x`];
    for (const by of ['coverage.nothing@1', ...never])
      expect(() => recheck({ ...answer, by }, formula), by).toThrow(InputError);
    for (const { id, formula: other } of formulas)
      if (id !== formula.id) expect(() => recheck(answer, other), id).toThrow(InputError);
  });
});

test.each(formulas.filter(({ formula }) => formula.rises || formula.falls))(
  '$id rises and falls as it declares',
  ({ formula }) => {
    const directions = [
      ...(formula.rises ?? []).map((input) => ({ input, sign: 1 })),
      ...(formula.falls ?? []).map((input) => ({ input, sign: -1 })),
    ];
    for (const { input, sign } of directions) {
      fc.assert(
        fc.property(answered(formula), answered(formula), (a, b) => {
          const [x, y] = [a, b].map((i) => (i as Record<string, number>)[input] ?? 0).sort((p, q) => p - q);
          const [less, more] = [x, y].map((value) => formula.compute(withAt(a, [input], value)) as number);
          expect(sign * (more as number), `${input} from ${x} to ${y}`).toBeGreaterThanOrEqual(
            sign * (less as number) - 1e-12 * largest(a),
          );
        }),
        numRuns(formula),
      );
    }
  },
);

test.each(formulas.filter(({ formula }) => formula.basis === 'identity' && grows(formula)))(
  '$id is homogeneous in length, force, time and mass',
  ({ formula }) => {
    const factor = fc.constantFrom(0.3, 0.5, 1.7, 2, 9);
    fc.assert(
      fc.property(
        answered(formula),
        fc.record({ l: factor, f: factor, t: factor, m: factor }),
        (inputs, by) => {
          const growing = walk(formula.input, inputs, (about, x) =>
            about.unit === null ? x : grown(x, about.unit, by),
          ) as Record<string, unknown>;
          const constants = Object.fromEntries(
            Object.entries(formula.numbers as Record<string, number | Span>).map(([name, x]) => {
              const code = formula.constants[name].unit as keyof typeof codes;
              return [name, grown(x, codes[code].holds, by)];
            }),
          );
          const answer = formula(inputs);
          const value = formula.compute(growing, constants as typeof formula.numbers);
          const expected = grown(answer.value, answer.unit, by);
          expect(disagreement(value, expected, 1e-3 * largest(expected))).toBeUndefined();
        },
      ),
      numRuns(formula),
    );
  },
);

test.each(formulas.filter(({ formula }) => formula.symmetric))(
  '$id: swapping two inputs that are declared symmetric changes nothing',
  ({ formula }) => {
    for (const [p, q] of (formula.symmetric ?? []) as [string, string][]) {
      fc.assert(
        fc.property(answered(formula), (inputs) => {
          const { [p]: x, [q]: y } = inputs;
          const swapped = { ...inputs, [p]: y, [q]: x };
          const [a, b] = [formula.compute(inputs), formula.compute(swapped)];
          expect(disagreement(a, b, largest(inputs)), `${p} and ${q}`).toBeUndefined();
        }),
        numRuns(formula),
      );
    }
  },
);

test('agreement is at 12 digits, not looser', () => {
  expect(agrees(1, 1 + 1e-10)).toBe(false);
  expect(agrees(1e6, 1e6 + 1e-6)).toBe(true);
});
