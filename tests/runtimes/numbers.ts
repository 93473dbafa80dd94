import { applicationPlan, digits12, InputError } from 'swathe';
import { catalog } from 'swathe/catalog';
import { type Schema, walk } from 'swathe/definition';

/** What the report is made from: plain data, so that this module runs wherever JavaScript does. */
export interface Cases {
  /** Inputs of the check rows, by formula. */
  readonly rows: Readonly<Record<string, readonly { readonly id: string; readonly given: unknown }[]>>;
  /** Orders of the demo. */
  readonly orders: Readonly<Record<string, unknown>>;
}

/** Formulas with fewer inputs among their rows than this get points of a grid as well. */
const enough = 12;
const gridPoints = 18;

/** How a number is told, by the key of its place. */
export type Told = (x: number, key: string) => string;

/**
 * At twelve digits. A number that a last bit may carry past them stands in `marks` as `value±width`, and is told so as long
 * as it lies within; beyond, it is told as it is, and the report differs.
 */
export const settled =
  (marks: Readonly<Record<string, string>>): Told =>
  (x, key) => {
    const mark = marks[key];
    const [value, width] = (mark?.split('±') ?? []).map(Number) as [number, number];
    return mark !== undefined && Math.abs(x - value) <= width ? mark : String(digits12(x));
  };

const isLeaf = (value: unknown): boolean => typeof value !== 'object' || value === null;
/** Sentences are no results, and what an answer rests on is not computed. */
const isProse = (value: unknown): boolean => typeof value === 'string' && value.split(' ').length > 3;
const apart = ['order', 'constants', 'sources', 'unit', 'says'];
const perLine = 8;

/** Lines of a value: one for what a record holds itself, and one for every few entries of a list. */
function linesOf(value: object, path: string, leaf: (at: string, value: unknown) => string): string[] {
  const at = (key: string): string => (path === '' ? key : `${path}.${key}`);
  const parts = Object.entries(value)
    .filter(([key, x]) => x !== undefined && !apart.includes(key) && !isProse(x))
    .map(([key, x]) => [key.replaceAll(' ', '_'), x] as const);
  const own = parts.flatMap(([key, x]) => (isLeaf(x) ? [`${key}=${leaf(at(key), x)}`] : []));
  const lines = Array.from({ length: Math.ceil(own.length / perLine) }, (_, n) =>
    [`  ${path || '.'}`, ...own.slice(n * perLine, (n + 1) * perLine)].join(' '),
  );
  return [...lines, ...parts.flatMap(([key, x]) => (isLeaf(x) ? [] : linesOf(x as object, at(key), leaf)))];
}

/** Inputs on the limits of a formula, tested or else possible: one leaf after the other is moved from where a row has it. */
function grid(formula: (typeof catalog)[number], from: unknown): { id: string; given: unknown }[] {
  const schema = formula.input as Schema;
  const ways: { path: string; at: string; value: unknown }[] = [];
  walk(schema, from, ({ kind, unit, tested, possible }, told, path) => {
    const limits = tested ?? possible;
    if (unit === null || !limits) return told;
    const [least, most] = limits;
    const middle = kind === 'count' ? Math.floor((least + most) / 2) : (least + most) / 2;
    for (const [at, value] of Object.entries({ least, middle, most }))
      ways.push({ path, at, value: unit === '1' ? value : { value, unit } });
    return told;
  });
  const points = ways.map(({ path, at, value }) => ({
    id: `${path}:${at}`,
    given: walk(schema, from, (_, told, here) => (here === path ? value : told)),
  }));
  const every = Math.ceil(points.length / gridPoints);
  return points.filter((_, n) => n % every === 0);
}

/**
 * Every formula on the inputs of its rows and on a grid, a seeded temperature band among them, and every plan of the demo. No
 * series is thinned: at a megabyte the whole can still be read, and a number that moves shows in a line of its own.
 */
export function report({ rows, orders }: Cases, told: Told): string {
  const lines: string[] = [];
  const add = (by: string, point: string, rest: string, value: object): void => {
    const key = `${by.split('@')[0]} ${point}`;
    const leaf = (at: string, x: unknown): string =>
      typeof x === 'number' ? told(x, `${key} ${at}`) : JSON.stringify(x).replaceAll(' ', '_');
    lines.push(`${by} ${point}${rest}`, ...linesOf(value, '', leaf));
  };

  for (const formula of catalog) {
    const known = new Set<string>();
    const own = (rows[formula.id] ?? []).filter(({ given }) => {
      const text = JSON.stringify(given);
      return !known.has(text) && known.add(text);
    });
    const more = own.length < enough ? grid(formula, own[0]?.given) : [];
    for (const { id, given } of [...own, ...more]) {
      try {
        const { by, value, steps } = formula.fromJson(given);
        const named = Object.fromEntries(steps.map((step) => [step.name, step.value]));
        add(by, id, ` ${JSON.stringify(given)}`, { value, steps: named });
      } catch (error) {
        // The limits of one input may not go with the others; a row always answers.
        if (!(error instanceof InputError) || !id.includes(':')) throw error;
      }
    }
  }
  for (const [name, order] of Object.entries(orders)) add('plan', name, '', applicationPlan.fromJson(order));
  return `${lines.join('\n')}\n`;
}
