import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Answer } from 'swathe';

export const casesFolder = join(import.meta.dirname, '../../packages/cli/cases');

/** The order of one of the demo's invented cases, as JSON gives it. */
export const orderOf = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(join(casesFolder, `${name}.json`), 'utf8')).order;

/** Every answer inside a plan, wherever it stands, in its order. */
export function answersIn(value: unknown): Answer[] {
  if (typeof value !== 'object' || value === null) return [];
  if ('by' in value && 'from' in value) return [value as Answer];
  return Object.values(value).flatMap(answersIn);
}
