import { type AnyFormula, type expectedSegment, mm } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { axesOf, spaced } from './axes.ts';
import { circle, type Figure, figure, type In, label, line, type Out, type Point, rect } from './svg.ts';

/** In how many of a hundred people the size is smaller, against the size: one curve for each group surveyed. */
export function expectedSegmentFigure(
  inputs: In<typeof expectedSegment>,
  value: Out<typeof expectedSegment>,
  formula: AnyFormula,
): Figure {
  const title = `Share of people in whom a ${inputs.measure} is smaller`;
  if (value.kind === 'unsurveyed')
    return figure(60, title, `There is no curve: ${value.because}.`, [label(220, 34, 'no survey to draw')]);
  const { compute } = formula as typeof expectedSegment;
  const reach = value.among.map((a) => [a.expected - 3.2 * a.spread, a.expected + 3.2 * a.spread] as const);
  const { measured } = inputs;
  const ends = [...reach.flat(), ...(measured === undefined ? [] : [measured])];
  const span: Point = [Math.max(1, Math.min(...ends)), Math.max(...ends)];
  const axes = axesOf({ span, symbol: 'y', unit: 'mm' }, { span: [0, 1], symbol: 'P', unit: '%' });
  const sizes = spaced(...span, 80);
  const shares = (size: number): readonly number[] => {
    const placed = compute({ ...inputs, measured: mm(size) } as typeof inputs);
    return placed.kind === 'surveyed' ? placed.among.map(({ percentile = 0 }) => percentile) : [];
  };
  const rows = sizes.map((size) => [size, ...shares(size)]);
  const curves = value.among.map((_, k) =>
    axes.curve(
      rows.map((row): Point => [row[0] as number, row[k + 1] as number]),
      k === 0 ? 'strong' : 'construction',
    ),
  );
  const { x, y } = axes;
  const parts = [
    rect(x(value.least), axes.top, x(value.most) - x(value.least), axes.base - axes.top, 'wanted'),
    ...axes.parts,
    ...[0.05, 0.5, 0.95].map((p) => line([axes.left, y(p)], [axes.right, y(p)], 'guide')),
    ...curves,
    ...value.among.map((a, k) =>
      label(
        x(a.expected) + (k === 0 ? -12 : 12),
        y(k === 0 ? 0.62 : 0.38),
        a.who,
        k === 0 ? 'end' : 'start',
        'small',
      ),
    ),
    ...(measured === undefined
      ? []
      : value.among.map((a) => circle(x(measured), y(a.percentile ?? 0), 5, 'dot'))),
  ];
  const words = [
    `In how many of a hundred people the ${inputs.measure} is smaller, against its size.`,
    ...value.among.map(
      (a) =>
        `Among ${a.who} half are below ${shown(a.expected, 'mm', 4)}, and nine in ten lie between ${shown(a.least, 'mm', 4)} and ${shown(a.most, 'mm', 4)}.${measured === undefined ? '' : ` ${digits(100 * (a.percentile ?? 0), 3)} in a hundred are below ${shown(measured, 'mm')}.`}`,
    ),
  ].join(' ');
  return figure(axes.height, title, words, parts, {
    columns: ['size [mm]', ...value.among.map(({ who }) => `share of ${who} below [%]`)],
    rows: rows.map(([size, ...shares]) => [size as number, ...shares.map((share) => 100 * share)]),
  });
}
