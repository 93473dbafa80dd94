import type { layerMap } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { marksOf } from './axes.ts';
import { outlineOf } from './limb.ts';
import {
  type Figure,
  figure,
  type In,
  label,
  line,
  type Out,
  type Point,
  path,
  rect,
  scale,
  ticks,
  variable,
  wide,
} from './svg.ts';

const counted = ({ least, most }: { least: number; most: number }): string =>
  least === most ? digits(least) : `${digits(least)}–${digits(most)}`;

/** The limb with its bands of layers above, and below it how many layers lie where. */
export function layerMapFigure(
  { stations, wanted }: In<typeof layerMap>,
  value: Out<typeof layerMap>,
): Figure {
  const [left, right] = [48, wide - 20] as const;
  const probe = outlineOf(stations, [left, right], 0);
  const middle = probe.widest + 14;
  const limb = outlineOf(stations, [left, right], middle);
  const shade = ({ least }: { least: number }): string => `band layers-${Math.min(8, least)}`;

  const top = middle + limb.widest + 40;
  const base = top + 130;
  const highest = Math.max(value.most, wanted.most) + 1;
  const y = scale([0, highest], [base, top]);
  const corners = (of: 'least' | 'most'): readonly Point[] =>
    value.bands.flatMap((b): readonly Point[] => [
      [limb.x(b.from), y(b[of])],
      [limb.x(b.to), y(b[of])],
    ]);
  const along = marksOf({ span: [limb.first, limb.last], unit: 'mm' });
  const wide12 = value.bands.filter((b) => limb.x(b.to) - limb.x(b.from) > 26);
  const parts = [
    limb.part(limb.first, limb.last, 'limb'),
    ...value.bands.map((b) => limb.part(b.from, b.to, shade(b))),
    ...wide12.map((b) => label((limb.x(b.from) + limb.x(b.to)) / 2, middle + limb.widest + 20, counted(b))),
    label(left - 10, middle + limb.widest + 20, 'layers', 'end', 'small'),
    rect(left, y(wanted.most), right - left, y(wanted.least) - y(wanted.most), 'wanted'),
    ...ticks(0, highest, 5).map(
      (k) => line([left, y(k)], [right, y(k)], 'grid') + label(left - 8, y(k) + 5, digits(k), 'end'),
    ),
    path([...corners('most'), ...corners('least').toReversed()], 'between', true),
    path(corners('most'), 'soft-line'),
    path(corners('least'), 'strong'),
    line([left, base], [right, base], 'axis'),
    ...along.marks.map(
      ({ at, says }) =>
        line([limb.x(at), base], [limb.x(at), base + 5], 'axis') + label(limb.x(at), base + 21, says),
    ),
    variable(right - 33, base + 42, 'x', 'end'),
    label(right - 29, base + 42, `/ ${along.word}`, 'start', 'small'),
  ];
  const words = `${value.bands
    .map((b) => `From ${shown(b.from, 'mm', 4)} to ${shown(b.to, 'mm', 4)}: ${counted(b)} layers.`)
    .join(
      ' ',
    )} The strong line is the fewest layers round the limb, the fine line the most; the pale band is what was wanted, ${wanted.least} to ${wanted.most}.`;
  return figure(base + 52, 'Layers along a tapering limb', words, parts, {
    columns: ['from [mm]', 'to [mm]', 'fewest layers', 'most layers'],
    rows: value.bands.map((b) => [b.from, b.to, b.least, b.most]),
  });
}
