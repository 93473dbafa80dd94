import { readFileSync } from 'node:fs';
import { join } from 'node:path';

export const casesFolder = join(import.meta.dirname, '../../packages/cli/cases');

/** The order of one of the demo's invented cases, as JSON gives it. */
export const orderOf = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(join(casesFolder, `${name}.json`), 'utf8')).order;
