import { celsius } from '../quantity.ts';
import type { Rate } from './march.ts';
import { supersaturation } from './supersaturation.ts';

/** Speed of setting: an S-shaped law that dissolution drives and that stops where hemihydrate no longer dissolves. */
export interface Kinetics {
  /** Rate constant at 25 °C, 1/s. */
  readonly k25: number;
  /** Activation energy, J/mol. */
  readonly activation: number;
  /** Power of the driving force. */
  readonly order: number;
  /** Conversion at the start that stands for the nuclei. */
  readonly seed: number;
}

const gas = 8.314462618;
const zeroCelsius = 273.15;
/** The table of temperatures: colder and hotter than any paste that a tap and a room can make. */
const [coldest, pitch, size] = [-10, 0.5, 301] as const;

/** How far hemihydrate dissolves beyond what gypsum leaves in solution; none where it no longer does. */
const driveAt = (temperature: number): number =>
  Math.max(
    0,
    supersaturation.compute({ hemihydrate: 'beta', temperature: celsius(temperature) }).supersaturation - 1,
  );

/** The drive over the table, relative to 25 °C. It depends on no parameter, so it is worked out once. */
let drives: Float64Array | undefined;
function drivesOf(): Float64Array {
  const reference = driveAt(25);
  drives ??= Float64Array.from({ length: size }, (_, n) => driveAt(coldest + n * pitch) / reference);
  return drives;
}

/** Factor on the rate over the table, and its slope, so that the march need not raise to powers. */
function factors({ activation, order }: Kinetics) {
  const value = drivesOf().map((drive, n) => {
    const kelvin = coldest + n * pitch + zeroCelsius;
    const warmth = Math.exp((-activation / gas) * (1 / kelvin - 1 / (25 + zeroCelsius)));
    return drive === 0 ? 0 : warmth * drive ** order;
  });
  const at = (n: number): number => value[n] as number;
  const slope = value.map((_, n) => {
    const [low, high] = [Math.max(n - 1, 0), Math.min(n + 1, size - 1)];
    return (at(high) - at(low)) / ((high - low) * pitch);
  });
  return { value, slope };
}

/**
 * Rate of setting: k25 · f(T) · (α + α0)^⅔ · (1 − α), with f(T) = exp(−E/R · (1/T − 1/298.15)) · (drive / drive at 25 °C)ⁿ.
 *
 * f is read off a table with a cubic through values and slopes.
 */
export function settingRate(
  kinetics: Kinetics,
): (temperature: number, conversion: number, out: Rate) => void {
  const { value, slope } = factors(kinetics);
  const { k25, seed } = kinetics;
  return (temperature, conversion, out) => {
    const place = Math.min(Math.max((temperature - coldest) / pitch, 0), size - 1 - 1e-9);
    const n = Math.floor(place);
    const x = place - n;
    const [v0, v1] = [value[n] as number, value[n + 1] as number];
    const [s0, s1] = [(slope[n] as number) * pitch, (slope[n + 1] as number) * pitch];
    const a = 2 * (v0 - v1) + s0 + s1;
    const b = 3 * (v1 - v0) - 2 * s0 - s1;
    const factor = v0 + x * (s0 + x * (b + x * a));
    const factorSlope = (s0 + x * (2 * b + 3 * x * a)) / pitch;
    const open = Math.max(0, 1 - conversion);
    const root = Math.cbrt(Math.max(0, conversion) + seed);
    const shape = root * root * open;
    out.rate = k25 * factor * shape;
    out.byTemperature = k25 * factorSlope * shape;
    out.byConversion = k25 * factor * ((2 * open) / (3 * root) - root * root);
  };
}
