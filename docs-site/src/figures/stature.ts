import { type AnyFormula, months, type statureForAge, tell, years } from 'swathe';
import { shown } from '../library/show.ts';
import { axesOf, spaced } from './axes.ts';
import { circle, type Figure, figure, type In, label, type Out, type Point, path } from './svg.ts';

/** Stature against age: the middle, the span of nine in ten, and the child's own place. */
export function statureForAgeFigure(
  inputs: In<typeof statureForAge>,
  value: Out<typeof statureForAge>,
  formula: AnyFormula,
): Figure {
  const title = 'Stature against age by the growth charts';
  const { compute } = formula as typeof statureForAge;
  const rows = spaced(24, 240, 72).flatMap((age) => {
    const at = compute({ ...inputs, age: months(age) });
    return at.kind === 'placed' ? [[months(age), at.least, at.median, at.most] as const] : [];
  });
  const { age, stature } = inputs;
  const axes = axesOf(
    { span: [years(2), years(20)], symbol: 'age', unit: 'a' },
    { span: [Math.min(750, stature), Math.max(2000, stature)], symbol: 'X', unit: 'cm' },
  );
  const { x, y, curve } = axes;
  const line = (k: 1 | 2 | 3): Point[] => rows.map((row): Point => [row[0], row[k]]);
  const band = [...line(1), ...line(3).toReversed()].map(([a, b]): Point => [x(a), y(b)]);
  const placed = value.kind === 'placed';
  const parts = [
    ...axes.parts,
    path(band, 'between', true),
    curve(line(1), 'soft-line'),
    curve(line(3), 'soft-line'),
    curve(line(2), 'strong'),
    label(x(years(19.8)), y((rows.at(-1)?.[3] ?? 0) + 30), '95 in a hundred', 'end', 'small'),
    ...(placed ? [circle(x(age), y(stature), 5.5, 'dot')] : []),
  ];
  const words = placed
    ? `The strong line is the middle stature, the band holds nine children in ten. At this age the middle is ${shown(value.median, 'mm', 4)} and the band ${shown(value.least, 'mm', 4)} to ${shown(value.most, 'mm', 4)}; the dot is ${shown(inputs.stature, 'mm')}.`
    : `The strong line is the middle stature, the band holds nine children in ten. This age lies outside the charts.`;
  return figure(axes.height, title, words, parts, {
    columns: ['age [a]', '5 in a hundred below [cm]', 'half below [cm]', '95 in a hundred below [cm]'],
    rows: rows.map(([at, ...sizes]) => [tell(at, 'a'), ...sizes.map((size) => size / 10)]),
  });
}
