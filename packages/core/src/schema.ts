import * as z from 'zod/v4/core';
import type { AnyFormula } from './formula.ts';
import { type About, aboutOf } from './measure.ts';
import { codesFor, tell } from './quantity.ts';

/** How one leaf is told in JSON: with its unit, and its limits in that unit. */
function wire(about: About): Record<string, unknown> | undefined {
  if (about.unit === null) return { description: about.says };
  const limits = (code: (typeof codes)[number]) =>
    about.possible ? { minimum: tell(about.possible[0], code), maximum: tell(about.possible[1], code) } : {};
  const whole = about.kind === 'count';
  const type = whole ? 'integer' : 'number';
  const codes = codesFor(about.unit);
  const bare = about.unit === '1' ? [{ type, ...limits('1') }] : [];
  const told = codes.map((code) => ({
    type: 'object',
    properties: {
      value:
        code === about.unit
          ? { type, ...limits(code) }
          : { type: 'number', ...limits(code), ...(whole ? { multipleOf: tell(1, code) } : {}) },
      unit: { const: code },
    },
    required: ['value', 'unit'],
    additionalProperties: false,
  }));
  return { description: about.says, anyOf: [...bare, ...told] };
}

/** JSON Schema 2020-12 of any of our schemas, as `fromJson` reads it. */
export const jsonSchemaOf = (schema: z.$ZodType): Record<string, unknown> =>
  z.toJSONSchema(schema, {
    override: ({ zodSchema, jsonSchema }) => {
      const about = aboutOf(zodSchema as unknown as z.$ZodType);
      if (!about) return;
      if (about.unit !== null)
        for (const key of Object.keys(jsonSchema)) delete jsonSchema[key as keyof typeof jsonSchema];
      Object.assign(jsonSchema, wire(about));
    },
  }) as Record<string, unknown>;

/** JSON Schema 2020-12 of what a formula's `fromJson` reads. */
export const jsonSchema = (formula: AnyFormula): Record<string, unknown> => ({
  ...jsonSchemaOf(formula.input),
  title: `${formula.id}@${formula.revision}`,
});
