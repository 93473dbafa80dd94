import { csvFormatRows, csvParse } from 'd3-dsv';
import { type AnyFormula, InputError } from 'swathe';

/** No prototype: a heading such as `__proto__.x` is a name like any other. */
const bare = (): Record<string, unknown> => Object.create(null);

/** `stations.0.girth [cm]` in the heading puts `{ value, unit: 'cm' }` at that path; with no unit the cell stands bare. */
function place(into: Record<string, unknown>, heading: string, cell: string): void {
  const [, path = heading, unit] = /^(.*?)(?:\s*\[(.*)\])?$/.exec(heading) ?? [];
  if (cell === '') return;
  const value = Number.isNaN(Number(cell)) ? cell : Number(cell);
  const keys = path.split('.');
  let at: Record<string, unknown> = into;
  for (const [n, key] of keys.slice(0, -1).entries()) {
    at[key] ??= /^\d+$/.test(keys[n + 1] ?? '') ? [] : bare();
    at = at[key] as Record<string, unknown>;
  }
  at[keys.at(-1) as string] = unit === undefined ? value : { value, unit };
}

/** A value's leaves by path, each with its unit in the heading. */
function leaves(value: unknown, unit: unknown, path: string): [string, string][] {
  if (Array.isArray(value)) return value.flatMap((x, n) => leaves(x, unit, `${path}.${n}`));
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([key, x]) =>
      leaves(x, (unit as Record<string, unknown> | null)?.[key], `${path}.${key}`),
    );
  return [[typeof unit === 'string' && unit !== '1' ? `${path} [${unit}]` : path, String(value)]];
}

/**
 * A formula over each row of a table: the row as it was, and its answer or what cannot be. A column that names none of
 * the formula's inputs is carried along, such as a number of the row.
 */
export function runRows(formula: AnyFormula, csv: string): string {
  const rows = csvParse(csv);
  const isInput = (heading: string): boolean =>
    Object.hasOwn(formula.inputs, heading.split(/[. [\]]/)[0] ?? '');
  const done = rows.map((row) => {
    const given = bare();
    for (const heading of rows.columns) if (isInput(heading)) place(given, heading, row[heading] ?? '');
    try {
      const { value, unit, domain } = formula.fromJson(given);
      return new Map([...leaves(value, unit, 'value'), ['domain', domain], ['cannot', '']]);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const faults = error.faults.map((f) => `${f.input}: got ${f.got}; possible: ${f.possible}`);
      return new Map([['cannot', faults.join(' | ')]]);
    }
  });
  const found = [...new Set(done.flatMap((row) => [...row.keys()]))];
  const added = [...found.filter((h) => h !== 'domain' && h !== 'cannot'), 'domain', 'cannot'];
  return csvFormatRows([
    [...rows.columns, ...added],
    ...rows.map((row, n) => [
      ...rows.columns.map((h) => row[h] ?? ''),
      ...added.map((h) => done[n]?.get(h) ?? ''),
    ]),
  ]);
}
