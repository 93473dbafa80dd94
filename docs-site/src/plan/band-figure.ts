import { tell } from 'swathe';
import { el, label, line, type Point, path, scale, ticks, wide } from '../figures/svg.ts';

interface Range {
  readonly least: readonly number[];
  readonly most: readonly number[];
}

/** Within what nine in ten computed courses of temperature lie, under the plaster and on the skin. */
export function bandFigure(
  curve: { readonly time: readonly number[]; readonly interface: Range; readonly skin: Range },
  units: 'cm' | 'in',
): string {
  const heat = (c: number): number => (units === 'cm' ? c : tell(c, '[degF]'));
  const of = ({ least, most }: Range): Range => ({ least: least.map(heat), most: most.map(heat) });
  const [under, skin] = [of(curve.interface), of(curve.skin)];
  const all = [...under.least, ...under.most, ...skin.least, ...skin.most];
  const [low, high] = [Math.floor(Math.min(...all) / 5) * 5, Math.ceil(Math.max(...all) / 5) * 5];
  const [left, right, top, base] = [44, wide - 16, 30, 190];
  const x = scale([0, 60], [left, right]);
  const y = scale([low, high], [base, top]);
  const points = (values: readonly number[]): Point[] =>
    values.map((v, n) => [x((curve.time[n] as number) / 60), y(v)]);
  const band = ({ least, most }: Range, fill: string, edge: string): string =>
    path([...points(most), ...points(least).reverse()], fill, true) +
    path(points(most), edge) +
    path(points(least), edge);
  const parts = [
    ...ticks(low, high, 5).map(
      (v) => line([left, y(v)], [right, y(v)], 'grid') + label(left - 7, y(v) + 4, String(v), 'end'),
    ),
    line([left, base], [right, base], 'axis'),
    ...ticks(0, 60, 6).map((v) => label(x(v), base + 18, String(v))),
    label(left, top - 12, units === 'cm' ? '°C' : '°F', 'end', 'small'),
    label(right, base + 34, 'minutes after laying on', 'end', 'small'),
    band(under, 'between', 'soft-line'),
    band(skin, 'wanted', 'construction'),
    label(right, top - 12, 'coloured: under the plaster; grey: on the skin', 'end', 'small'),
  ];
  return el(
    'svg',
    {
      viewBox: `0 0 ${wide} 232`,
      role: 'img',
      'aria-label':
        'Temperatures in the first hour: within the coloured band under the plaster, within the grey one on the skin, in nine of ten computed courses',
    },
    parts.join(''),
  );
}
