import { type Span, tell } from 'swathe';
import { digits } from '../library/show.ts';
import { get, type Part, type Units } from './state.ts';

export const unique = <T>(things: readonly T[]): T[] => [...new Set(things)];
export const range = ([least, most]: Span): string => (least === most ? `${least}` : `${least} to ${most}`);
export const percent = (share: number): string => `${digits(share * 100, 3)}\u00a0%`;

const nearInch = (mm: number): boolean => Math.abs(mm / 12.7 - Math.round(mm / 12.7)) < 1e-6;

/** Words and numbers as a person reads them: rounded here, at the edge, and nowhere else. */
export interface Writer {
  readonly units: Units;
  length(mm: number): string;
  lengths(span: Span): string;
  /** Width of a roll, by the unit it is named in. */
  width(mm: number): string;
  temperature(celsius: number): string;
  temperatures(span: Span): string;
}

const fixed = (value: number, decimals: number): string => digits(Number(value.toFixed(decimals)), 12);

export const writer = (units: Units): Writer => {
  const metric = units === 'cm';
  const small = (mm: number): string => fixed(metric ? mm / 10 : tell(mm, '[in_i]'), 1);
  const heat = (c: number): string => fixed(metric ? c : tell(c, '[degF]'), 0);
  const degree = metric ? '°C' : '°F';
  return {
    units,
    length: (mm) => {
      if (Math.abs(mm) < 2000) return `${small(mm)}\u00a0${units}`;
      return metric ? `${fixed(mm / 1000, 2)}\u00a0m` : `${fixed(tell(mm, '[yd_i]'), 2)}\u00a0yd`;
    },
    lengths: ([from, to]) =>
      from === to ? `${small(from)}\u00a0${units}` : `${small(from)} to ${small(to)}\u00a0${units}`,
    width: (mm) =>
      nearInch(mm) && (!metric || mm % 5 !== 0)
        ? `${fixed(mm / 25.4, 1)}\u00a0in`
        : metric || mm % 5 === 0
          ? `${fixed(mm / 10, 2)}\u00a0cm`
          : `${small(mm)}\u00a0in`,
    temperature: (c) => `${heat(c)}\u00a0${degree}`,
    temperatures: ([a, b]) =>
      a === b ? `${heat(a)}\u00a0${degree}` : `${heat(a)} to ${heat(b)}\u00a0${degree}`,
  };
};

const scales = [
  [86_400, 'd'],
  [3600, 'h'],
  [60, 'min'],
  [1, 's'],
] as const;

/** A window of time in the unit in which it reads best. */
export function durations([from, to]: Span): string {
  const scale = (of: number) => scales.find(([per]) => of >= 2 * per) ?? scales[3];
  const [per, unit] = scale(to);
  const [fromPer, fromUnit] = from % per === 0 || from === 0 ? [per, unit] : scale(from);
  const last = `${digits(to / per, 3)}\u00a0${unit}`;
  if (from === to) return last;
  return `${digits(from / fromPer, 3)}${fromUnit === unit ? '' : ` ${fromUnit}`} to ${last}`;
}

/** A place on the limb in words. */
export function placed(landmark: string, mm: number, write: Writer): string {
  if (mm === 0) return `at the ${landmark}`;
  return `${write.length(Math.abs(mm))} ${mm < 0 ? 'distal' : 'proximal'} to the ${landmark}`;
}

export const textAt = (from: Part, path: string): string => {
  const found = get(from, path);
  return typeof found === 'string' ? found : '';
};

export { digits };
