import { csvFormatRows, csvParseRows } from 'd3-dsv';
import { type AnyFormula, InputError } from 'swathe';

/** What a table's columns make of a row, by key. No prototype: `__proto__` and `constructor` are names like any other. */
type Node = { [key: string]: Node | Cell };
/** What stands in one cell. */
class Cell {
  readonly told: unknown;
  constructor(told: unknown) {
    this.told = told;
  }
}
const bare = (): Node => Object.create(null);

/** `stations.0.girth [cm]` in the heading puts `{ value, unit: 'cm' }` at that path; with no unit the cell stands bare. */
function place(into: Node, heading: string, text: string): void {
  const [, path = heading, unit] = /^(.*?)(?:\s*\[(.*)\])?$/s.exec(heading) ?? [];
  const cell = text.trim();
  if (cell === '') return;
  const value = Number.isNaN(Number(cell)) ? text : Number(cell);
  const keys = path.split('.');
  let at = into;
  for (const key of keys.slice(0, -1)) {
    at[key] ??= bare();
    const next = at[key];
    if (next instanceof Cell) throw twice(path);
    at = next;
  }
  const last = keys.at(-1) as string;
  if (at[last] !== undefined) throw twice(path);
  at[last] = new Cell(unit === undefined ? value : { value, unit });
}

const twice = (path: string): InputError =>
  new InputError('the table', [
    {
      input: path,
      fault: 'joint',
      got: 'two columns for it, or one for a part of it',
      possible: 'one column',
    },
  ]);

/** The row as JSON would have it: places in a list are numbered from 0, and none of ours is longer than this allows. */
function json(node: Node | Cell | undefined): unknown {
  if (node === undefined || node instanceof Cell) return node?.told;
  const keys = Object.keys(node);
  if (keys.every((key) => /^(0|[1-9]\d{0,3})$/.test(key)))
    return Array.from({ length: Math.max(...keys.map(Number)) + 1 }, (_, n) => json(node[n]));
  const out: Record<string, unknown> = Object.create(null);
  for (const key of keys) out[key] = json(node[key]);
  return out;
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
  const [headings = [], ...rows] = csvParseRows(csv);
  const inputs = [...headings.entries()].filter(([, heading]) =>
    Object.hasOwn(formula.inputs, heading.split(/[. [\]]/)[0] ?? ''),
  );
  const done = rows.map((row) => {
    try {
      const given = bare();
      for (const [n, heading] of inputs) place(given, heading, row[n] ?? '');
      const read = Object.fromEntries(Object.keys(given).map((key) => [key, json(given[key])]));
      const { value, unit, domain } = formula.fromJson(read);
      return new Map([...leaves(value, unit, 'value'), ['domain', domain], ['cannot', '']]);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      const faults = error.faults.slice(0, 8).map((f) => `${f.input}: got ${f.got}; possible: ${f.possible}`);
      const more = error.faults.length > 8 ? [`and ${error.faults.length - 8} more`] : [];
      return new Map([['cannot', [...faults, ...more].join(' | ')]]);
    }
  });
  const found = [...new Set(done.flatMap((row) => [...row.keys()]))];
  const added = [...found.filter((h) => h !== 'domain' && h !== 'cannot'), 'domain', 'cannot'];
  return csvFormatRows([
    [...headings, ...added],
    ...rows.map((row, n) => [
      ...headings.map((_, k) => row[k] ?? ''),
      ...added.map((h) => done[n]?.get(h) ?? ''),
    ]),
  ]);
}
