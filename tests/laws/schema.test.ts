import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { type AnyFormula, InputError } from 'swathe';
import { jsonSchema } from 'swathe/schema';
import { describe, expect, test } from 'vitest';
import { answered, fewRuns, formulas, placesOf, runsOf, wireIn, wireOf, withAt } from '../generators.ts';

/** Whether a formula reads a wire input; what is not possible together is beyond what JSON Schema can say. */
function reads(formula: AnyFormula, json: unknown): boolean {
  try {
    formula.fromJson(json);
    return true;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.faults.every(({ fault }) => fault === 'joint');
  }
}

const picks = fc.array(fc.nat(20), { minLength: 1, maxLength: 8 });

/** What may stand at a place by mistake. */
const mistake = fc.oneof(
  fc.constantFrom<unknown>(undefined, null, true, 0, -1, 0.5, 12, 1e9, '', 'cm', 'plaster', [], {}),
  fc.record({
    value: fc.constantFrom<unknown>(-1, 0, 0.5, 50, 1e7, '12', null),
    unit: fc.constantFrom('mm', 'cm', '[in_i]', 'Cel', '%', '1', 'N', 'kgf', 'x'),
  }),
);

describe.each(formulas)('$id', ({ formula }) => {
  const compiled = () => new Ajv2020({ strict: true, strictTypes: false }).compile(jsonSchema(formula));

  test('has a JSON Schema 2020-12 that accepts what it reads, in every unit', () => {
    const accepts = compiled();
    fc.assert(
      fc.property(answered(formula), picks, (inputs, picks) => {
        for (const wire of [wireOf(formula, inputs), wireIn(formula, inputs, picks)]) {
          expect(accepts(wire), JSON.stringify(accepts.errors)).toBe(true);
          expect(reads(formula, wire)).toBe(true);
        }
      }),
      { numRuns: runsOf(formula, fewRuns) },
    );
  });

  test('has a JSON Schema that accepts and refuses the same as it does itself', () => {
    const accepts = compiled();
    const differing: string[] = [];
    let refused = 0;
    fc.assert(
      fc.property(answered(formula), fc.nat(), mistake, (inputs, pick, value) => {
        const wire = wireOf(formula, inputs);
        const places = placesOf(formula.input, wire);
        const path = places[pick % places.length]?.path ?? [];
        const extra = pick % 7 === 0 ? [...path, 'colour'] : path;
        const spoiled = JSON.parse(JSON.stringify(withAt(wire, extra, value) ?? null));
        const [schemaSays, formulaSays] = [accepts(spoiled), reads(formula, spoiled)];
        if (!formulaSays) refused += 1;
        if (schemaSays !== formulaSays)
          differing.push(
            `${extra.join('.')}: schema ${schemaSays}, formula ${formulaSays} for ${JSON.stringify(value)}`,
          );
        expect(differing).toEqual([]);
      }),
      { numRuns: runsOf(formula) },
    );
    expect(refused).toBeGreaterThan(runsOf(formula) / 5);
  });
});
