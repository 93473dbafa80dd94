import { tell, type UnitCode } from 'swathe';
import type { About } from 'swathe/definition';

/** Places of a slider, whole numbers, and the round value at each. */
export interface Slider {
  readonly first: number;
  readonly last: number;
  valueAt(place: number): number;
  placeOf(value: number): number;
}

const digits = (value: number): number => Number(value.toPrecision(12));

/** Even steps of 1, 2 or 5, about 250 of them. */
function linear(least: number, most: number, whole: boolean): Slider {
  const rough = Math.max((most - least) / 250, whole ? 1 : 0);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = digits(([1, 2, 5, 10].find((n) => n * power >= rough * 0.999) ?? 10) * power);
  return {
    // Never a minus zero.
    first: Math.ceil(least / step - 1e-9) + 0,
    last: Math.floor(most / step + 1e-9) + 0,
    valueAt: (place) => digits(place * step),
    placeOf: (value) => Math.round(value / step),
  };
}

/** Two digits from decade to decade: 1.0, 1.1 … 9.9, 10, 11 … */
function decades(least: number, most: number): Slider {
  const placeOf = (value: number): number => {
    const power = Math.floor(Math.log10(value) + 1e-12);
    return 90 * power + Math.round((value / 10 ** power) * 10) - 10;
  };
  const valueAt = (place: number): number => {
    const power = Math.floor(place / 90);
    return digits(((place - 90 * power + 10) / 10) * 10 ** power);
  };
  const [from, to] = [placeOf(least), placeOf(most)];
  return {
    first: valueAt(from) < least ? from + 1 : from,
    last: valueAt(to) > most ? to - 1 : to,
    valueAt,
    placeOf: (value) => (value > 0 ? placeOf(value) : from),
  };
}

/** A slider over all that is possible, in the unit shown; none where that is not finite, or too many whole numbers. */
export function sliderOf({ kind, possible }: About, code: UnitCode): Slider | undefined {
  if (!possible) return undefined;
  const [least, most] = [tell(possible[0], code), tell(possible[1], code)];
  const whole = kind === 'count';
  if (whole) return most - least > 1000 ? undefined : linear(least, most, true);
  return least > 0 && most / least > 100 ? decades(least, most) : linear(least, most, false);
}
