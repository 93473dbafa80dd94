import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { digits12 } from 'swathe';
import { catalog } from 'swathe/catalog';
import type { RowFile } from '../checks/rows.ts';
import { casesFolder, orderOf } from '../plan/cases.ts';
import type { Cases } from './numbers.ts';

const root = join(import.meta.dirname, '../..');
export const reportFile = join(root, 'references/values.txt');
export const kept = (): string => readFileSync(reportFile, 'utf8');

/** The inputs of every check row, and the orders of the demo. */
export function cases(): Cases {
  const rowsOf = (id: string) =>
    (JSON.parse(readFileSync(join(root, `references/checks/${id}.json`), 'utf8')) as RowFile).rows;
  const names = readdirSync(casesFolder).map((file) => file.replace('.json', ''));
  return {
    rows: Object.fromEntries(
      catalog.map(({ id }) => [id, rowsOf(id).map((row) => ({ id: row.id, given: row.given }))]),
    ),
    orders: Object.fromEntries(names.map((name) => [name, orderOf(name)])),
  };
}

/** What is told of one point: inputs as JSON, and values by their path. */
interface Point {
  readonly by: string;
  readonly inputs: string;
  readonly values: Map<string, string>;
}

/** A report read back, by formula and point. */
export function read(report: string): Map<string, Point> {
  const points = new Map<string, Point>();
  let values = new Map<string, string>();
  for (const line of report.trimEnd().split('\n')) {
    if (line.startsWith('  ')) {
      const [path, ...told] = line.trim().split(' ');
      for (const one of told) {
        const [key = '', value = ''] = one.split(/=(.*)/);
        values.set(path === '.' ? key : `${path}.${key}`, value);
      }
    } else {
      const [by = '', point = '', ...inputs] = line.split(' ');
      values = new Map();
      points.set(`${by.split('@')[0]} ${point}`, { by, inputs: inputs.join(' '), values });
    }
  }
  return points;
}

/** Numbers told as `value±width`, by their key. */
export const marksIn = (report: string): Record<string, string> =>
  Object.fromEntries(
    [...read(report)].flatMap(([point, { values }]) =>
      [...values].flatMap(([path, told]) =>
        !told.startsWith('"') && told.includes('±') ? [[`${point} ${path}`, told]] : [],
      ),
    ),
  );

/** The report's program as one script that runs anywhere: `numbers.text()`, or with every digit `numbers.raw()`. */
export async function bundle(
  { conditions = ['source'], lowered = false } = {},
  marks = marksIn(kept()),
): Promise<string> {
  const { outputFiles } = await build({
    stdin: {
      contents: `import { report, settled } from './numbers.ts';
        const cases = ${JSON.stringify(cases())};
        const marks = ${JSON.stringify(marks)};
        export const text = () => report(cases, settled(marks));
        export const raw = () => report(cases, String);`,
      resolveDir: import.meta.dirname,
    },
    bundle: true,
    format: 'iife',
    globalName: 'numbers',
    target: 'es2022',
    charset: 'utf8',
    conditions,
    supported: { 'exponent-operator': !lowered },
    write: false,
  });
  return outputFiles[0]?.text ?? '';
}

/** What the language leaves to each engine: a result may be off in its last bit. Elsewhere all engines agree to the bit. */
const approximate = [
  ...['acos', 'acosh', 'asin', 'asinh', 'atan', 'atan2', 'atanh', 'cbrt', 'cos', 'cosh', 'exp', 'expm1'],
  ...['hypot', 'log', 'log10', 'log1p', 'log2', 'pow', 'sin', 'sinh', 'tan', 'tanh'],
];

/** Mathematics of another engine: last bits fall otherwise, always alike for the same arguments. Whole results stay. */
function otherMath(seed: number): Math {
  const own = Object.fromEntries(
    approximate.map((name) => {
      const known = Math[name as 'pow'];
      const bits = new DataView(new ArrayBuffer(8));
      return [
        name,
        (...args: [number, number]) => {
          const x = known(...args);
          if (Number.isInteger(x) || !Number.isFinite(x)) return x;
          let mix = seed;
          for (const part of [...args, x]) {
            bits.setFloat64(0, part);
            mix = Math.imul(mix ^ bits.getInt32(0), 0x9e3779b1);
            mix = Math.imul((mix ^ (mix >>> 15)) + bits.getInt32(4), 0x85ebca6b);
          }
          return x * (1 + (((mix >>> 16) % 3) - 1) * 2 ** -52);
        },
      ];
    }),
  );
  return Object.assign(Object.create(null, Object.getOwnPropertyDescriptors(Math)), own);
}

/** Engines played. A real one was seen to differ by as much as seven times what eight of these did. */
const engines = 12;
const reserve = 8;
/** Where a last bit matters at all it matters to this share, whatever those engines happened to agree on. */
const least = 2e-14;

const widthOf = (w: number): number => 10 ** Math.ceil(Math.log10(2 * w));
const markOf = (x: number, w: number): string => {
  const width = widthOf(w);
  return `${Number(x.toFixed(Math.min(100, Math.max(0, -Math.round(Math.log10(width))))))}±${width}`;
};

/**
 * The numbers that last bits may carry past the twelfth digit. How far is found by playing other engines: the whole report
 * again, with the last bits of exp, pow, sin and their like disturbed. Most that are marked stand at an edge between two
 * roundings; the rest are differences of nearly equal numbers, which have fewer digits to begin with.
 */
export async function marks(before: Readonly<Record<string, string>>): Promise<Record<string, string>> {
  const program = `${await bundle({ lowered: true }, {})}; return read(numbers.raw());`;
  const run = (math: Math): Map<string, Point> => new Function('Math', 'read', program)(math, read);
  const own = run(Math);
  const others = Array.from({ length: engines }, (_, n) => run(otherMath(n + 1)));
  const found: Record<string, string> = {};
  for (const [point, { values }] of own)
    for (const [path, told] of values) {
      const x = Number(told);
      const elsewhere = others.map((other) => other.get(point)?.values.get(path));
      if (Number.isNaN(x) || told.startsWith('"')) {
        if (elsewhere.some((other) => other !== told)) throw new Error(`a last bit decides ${point} ${path}`);
        continue;
      }
      const spread = Math.max(...elsewhere.map((other) => Math.abs(Number(other) - x)));
      if (Number.isNaN(spread)) throw new Error(`a last bit decides whether there is ${point} ${path}`);
      const w = Math.max(reserve * spread, (spread > 0 ? least : 1e-15) * Math.abs(x));
      const isNear = (w: number): boolean => digits12(x - w) !== digits12(x + w);
      const key = `${point} ${path}`;
      const [value = 0, width = 0] = (before[key]?.split('±') ?? []).map(Number);
      // A mark once set stays until the number is twice as far, so that the report does not change to and fro.
      const stays = Math.abs(x - value) <= width && isNear(2 * w) && width <= 10 * widthOf(w);
      if (before[key] !== undefined && stays) found[key] = before[key];
      else if (isNear(w)) found[key] = markOf(x, w);
    }
  return found;
}
