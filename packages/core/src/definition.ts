/** How a definition is read: what a leaf is about, what a schema is made of, one walk through data that it describes. */
export type { $ZodType as Schema } from 'zod/v4/core';
export { numberOf } from './formula.ts';
export { type About, aboutOf, type Fields, inside, isRecord, partOf, walk } from './measure.ts';
