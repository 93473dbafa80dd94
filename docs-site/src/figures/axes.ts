import { digits } from '../library/show.ts';
import { label, line, type Point, path, scale, ticks, variable, wide } from './svg.ts';

interface Axis {
  readonly span: Point;
  /** Symbol and unit, as `T` and `°C`. */
  readonly symbol: string;
  readonly unit: string;
}

/** A frame with two axes, a line across at each round value of the upright one. */
export function axesOf(across: Axis, upright: Axis, { top = 32, base = 236 } = {}) {
  const [left, right] = [56, wide - 20];
  const x = scale(across.span, [left, right]);
  const y = scale(upright.span, [base, top]);
  const unit = (of: string): string => (of === '' ? '' : `/ ${of}`);
  const parts = [
    ...ticks(...upright.span, 5).map(
      (v) => line([left, y(v)], [right, y(v)], 'grid') + label(left - 8, y(v) + 5, digits(v), 'end'),
    ),
    line([left, base], [right, base], 'axis'),
    ...ticks(...across.span, 5).map(
      (v) => line([x(v), base], [x(v), base + 5], 'axis') + label(x(v), base + 22, digits(v)),
    ),
    variable(left - 8, top - 14, upright.symbol, 'end'),
    label(left, top - 14, unit(upright.unit), 'start', 'small'),
    variable(right - 44, base + 44, across.symbol, 'end'),
    label(right - 40, base + 44, unit(across.unit), 'start', 'small'),
  ];
  const curve = (values: readonly Point[], of: string): string =>
    path(
      values.map(([a, b]): Point => [x(a), y(b)]),
      of,
    );
  return { x, y, parts, curve, left, right, top, base, height: base + 54 };
}

/** Evenly spaced values, both ends included. */
export const spaced = (from: number, to: number, parts: number): readonly number[] =>
  Array.from({ length: parts + 1 }, (_, n) => from + ((to - from) * n) / parts);
