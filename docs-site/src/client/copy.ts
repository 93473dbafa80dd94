import { type Answer, type AnyFormula, hold, tell, type UnitCode } from 'swathe';
import { type About, aboutOf, inside, isRecord, partOf, type Schema } from 'swathe/definition';
import { isTold } from './units.ts';

/** What the library calls the function that makes a value of a unit. */
const makers: Partial<Record<UnitCode, string>> = {
  mm: 'mm',
  cm: 'cm',
  m: 'metres',
  '[in_i]': 'inch',
  '[ft_i]': 'feet',
  '[yd_i]': 'yards',
  m2: 'squareMetres',
  s: 'seconds',
  min: 'minutes',
  h: 'hours',
  mo: 'months',
  a: 'years',
  Cel: 'celsius',
  '[degF]': 'fahrenheit',
  N: 'newtons',
  kgf: 'kgf',
  'mm[Hg]': 'mmHg',
  kPa: 'kPa',
  MPa: 'megapascals',
  g: 'grams',
  'g/m2': 'gramsPerSquareMetre',
  deg: 'degrees',
  K: 'kelvin',
  '/s': 'perSecond',
  'W/m2': 'wattsPerSquareMetre',
  'W/m3': 'wattsPerCubicMetre',
  'W/(m.K)': 'wattsPerMetreKelvin',
  'W/(m2.K)': 'wattsPerSquareMetreKelvin',
  'J/(m3.K)': 'joulesPerCubicMetreKelvin',
  'm2.K/W': 'squareMetreKelvinsPerWatt',
  '1': 'ratio',
  '%': 'percent',
};

/** The same value in a unit that the library has a function for. */
function made(value: number, unit: UnitCode, about: About): string {
  const name = makers[unit];
  if (name !== undefined) return `${name}(${value})`;
  const held = hold(value, unit);
  const other =
    (Object.keys(makers) as UnitCode[]).find((code) => code === about.unit) ??
    ({ mm2: 'm2', 'N/mm2': 'MPa' } as Partial<Record<string, UnitCode>>)[String(about.unit)];
  return other === undefined ? String(held) : `${makers[other]}(${tell(held, other)})`;
}

function codeOf(schema: Schema | undefined, data: unknown, indent: string): string {
  const { innerType } = schema ? inside(schema) : {};
  if (innerType) return codeOf(innerType, data, indent);
  const about = schema && aboutOf(schema);
  if (about?.kind === 'count') return String(isTold(data) ? hold(data.value as number, data.unit) : data);
  if (about?.unit)
    return isTold(data) ? made(data.value as number, data.unit, about) : made(data as number, '1', about);
  const inner = `${indent}  `;
  const lines = Array.isArray(data)
    ? data.map((x, n) => codeOf(schema && partOf(schema, String(n), data), x, inner))
    : isRecord(data)
      ? Object.entries(data).map(
          ([name, x]) => `${name}: ${codeOf(schema && partOf(schema, name, data), x, inner)}`,
        )
      : undefined;
  if (!lines)
    return typeof data === 'string'
      ? `'${data.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`
      : String(data);
  const [open, close] = Array.isArray(data) ? ['[', ']'] : ['{ ', ' }'];
  const line = open + lines.join(', ') + close;
  if (line.length + indent.length <= 96 && !line.includes('\n')) return lines.length === 0 ? '[]' : line;
  return `${open.trim()}\n${lines.map((x) => `${inner}${x},\n`).join('')}${indent}${close.trim()}`;
}

/** A call of the library with these inputs, each with the function that makes its unit. */
export function asCode(formula: AnyFormula, exported: string, given: unknown): string {
  const call = `${exported}(${codeOf(formula.input, given, '')})`;
  const used = Object.values(makers).filter((name) => new RegExp(`\\b${name}\\(`).test(call));
  return `import { ${[exported, ...used].join(', ')} } from 'swathe';\n\n${call};\n`;
}

const cell = (x: unknown): string => {
  const text = String(x);
  return /[",\n\r]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

/** A table as a spreadsheet reads it. */
export const csvOf = (rows: readonly (readonly unknown[])[]): string =>
  rows.map((row) => `${row.map(cell).join(',')}\n`).join('');

const heading = (path: string, unit: unknown): string =>
  typeof unit === 'string' && unit !== '1' ? `${path} [${unit}]` : path;

function given(data: unknown, path: string): [string, unknown][] {
  if (isTold(data)) return [[`${path} [${data.unit}]`, data.value]];
  if (Array.isArray(data)) return data.flatMap((x, n) => given(x, `${path}.${n}`));
  if (isRecord(data))
    return Object.entries(data).flatMap(([name, x]) => given(x, path === '' ? name : `${path}.${name}`));
  return [[path, data]];
}

function got(value: unknown, unit: unknown, path: string): [string, unknown][] {
  if (value === undefined) return [];
  if (Array.isArray(value)) return value.flatMap((x, n) => got(x, unit, `${path}.${n}`));
  if (isRecord(value))
    return Object.entries(value).flatMap(([name, x]) =>
      got(x, isRecord(unit) ? unit[name] : undefined, `${path}.${name}`),
    );
  return [[heading(path, unit), value]];
}

/** One row of a table and its heading: inputs as given and all that came back, named as the command line names them. */
export function asCsv(inputs: unknown, answer: Answer): string {
  const cells = [
    ...given(inputs, ''),
    ...got(answer.value, answer.unit, 'value'),
    ['domain', answer.domain] as [string, unknown],
  ];
  return csvOf([cells.map(([name]) => name), cells.map(([, x]) => x)]);
}
