import { codes, tell, type Unit, type UnitCode } from 'swathe';

const words: Partial<Record<UnitCode, string>> = {
  mm2: 'mm²',
  cm2: 'cm²',
  m2: 'm²',
  mm3: 'mm³',
  cm3: 'cm³',
  mm4: 'mm⁴',
  cm4: 'cm⁴',
  'N/mm2': 'N/mm²',
  'N.mm2': 'N·mm²',
  'N.m2': 'N·m²',
  'g/m2': 'g/m²',
  '/s': 's⁻¹',
  'W/m2': 'W/m²',
  'W/m3': 'W/m³',
  'W/(m.K)': 'W/(m·K)',
  'W/(m2.K)': 'W/(m²·K)',
  'J/(m3.K)': 'J/(m³·K)',
  'm2.K/W': 'm²·K/W',
  'J/m2': 'J/m²',
  'kg/m3': 'kg/m³',
  'J/(kg.K)': 'J/(kg·K)',
  '[in_i]': 'in',
  '[ft_i]': 'ft',
  '[yd_i]': 'yd',
  mo: 'months',
  a: 'years',
  Cel: '°C',
  '[degF]': '°F',
  'mm[Hg]': 'mmHg',
  deg: '°',
  '1': '',
};

/** A unit as people write it. */
export const unitWord = (code: UnitCode): string => words[code] ?? code;

/** A number for reading: six significant digits, a real minus sign, thin spaces in long ones. */
export function digits(value: number, most = 6): string {
  const [whole = '', part] = String(Number(value.toPrecision(most))).split('.');
  const spaced = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u202f') : whole;
  return (part === undefined ? spaced : `${spaced}.${part}`).replace('-', '\u2212');
}

/** A number with its unit, told in `code`. */
export function told(value: number, code: UnitCode, most?: number): string {
  const word = unitWord(code);
  return word === '' ? digits(value, most) : `${digits(value, most)}${word === '°' ? '' : '\u00a0'}${word}`;
}

let preferred: { readonly length?: 'cm' | 'in' | undefined; readonly temperature?: 'C' | 'F' | undefined } =
  {};

/** From now on lengths and temperatures are shown in what the reader of the page asked for. */
export function prefer(units: typeof preferred): void {
  preferred = units;
}

/** The unit in which a held value reads best. */
function readable(value: number, unit: Unit): UnitCode {
  const size = Math.abs(value);
  if (unit === 'mm' && preferred.length === 'in') return '[in_i]';
  if (unit === 'Cel' && preferred.temperature === 'F') return '[degF]';
  if (unit === 'mm' && size >= 10_000) return 'm';
  if (unit === 'mm2' && size >= 1000) return 'cm2';
  if (unit === 'mm3' && size >= 1000) return 'cm3';
  if (unit === 's' && size >= 31_557_600) return 'a';
  if (unit === 's' && size >= 7200) return 'h';
  if (unit === 's' && size >= 120) return 'min';
  return unit;
}

/** The unit of a scale that reaches to a held value: `code`, or what the reader asked for in its place. */
export function scaleUnit(code: UnitCode, most: number): UnitCode {
  const held = codes[code].holds;
  const best = readable(most, held);
  return code === held || best === '[in_i]' || best === '[degF]' ? best : code;
}

/** A value held, in the unit in which it reads best. */
export function shown(value: number, unit: Unit, most?: number): string {
  const code = readable(value, unit);
  return told(tell(value, code), code, most);
}

/** From one limit to another, the unit said once where both read best in the same. */
export function spanShown([least, most]: readonly [number, number], unit: Unit): string {
  const code = readable(most, unit);
  const low = least === 0 || readable(least, unit) === code ? digits(tell(least, code)) : shown(least, unit);
  return `${low} to ${told(tell(most, code), code)}`;
}

const isWire = (x: object): x is { value: number; unit: UnitCode } =>
  'value' in x && 'unit' in x && typeof x.unit === 'string' && Object.hasOwn(codes, x.unit);

/** Input as `fromJson` reads it, on one line. */
export function wireShown(data: unknown): string {
  if (typeof data === 'number') return digits(data);
  if (typeof data !== 'object' || data === null) return String(data);
  if (Array.isArray(data)) return data.length === 0 ? 'none' : data.map((x) => `(${wireShown(x)})`).join(' ');
  if (isWire(data)) return told(data.value, data.unit);
  return Object.entries(data)
    .map(([name, x]) => `${name} ${wireShown(x)}`)
    .join(', ');
}
