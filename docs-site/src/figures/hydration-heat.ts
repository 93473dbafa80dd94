import { hydrationHeat, ratio } from 'swathe';
import { digits } from '../library/show.ts';
import { axesOf, spaced } from './axes.ts';
import {
  circle,
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
  wide,
} from './svg.ts';

/** Heat by each data set, and how far it warms a paste that loses none, against the water in it. */
export function hydrationHeatFigure(
  { hemihydrate, water }: In<typeof hydrationHeat>,
  value: Out<typeof hydrationHeat>,
  _: unknown,
  nameOf: (source: string | undefined) => string,
): Figure {
  const x = scale([0, value.most * 1.02], [24, wide - 24]);
  const bars = value.published.map(({ source, perGram }, n) => {
    const y = 34 + n * 42;
    const used = perGram === value.perGram;
    return (
      label(
        24,
        y - 7,
        used ? `${nameOf(source)}, used` : nameOf(source),
        'start',
        used ? 'strong-label' : '',
      ) +
      label(wide - 24, y - 7, `${digits(perGram, 4)} J/g`, 'end') +
      rect(24, y, x(perGram) - 24, 14, used ? 'used' : 'window')
    );
  });
  const foot = 34 + value.published.length * 42;
  const rise = (water: number): number =>
    value.perGram / hydrationHeat.compute({ hemihydrate, water: ratio(water) }).heatCapacity;
  const of = (heat: number, water: number): number => (rise(water) * heat) / value.perGram;
  const waters = spaced(0.2, Math.max(1.5, water), 52);
  const rows = waters.map((w) => [w, of(value.least, w), rise(w), of(value.most, w)] as const);
  const axes = axesOf(
    { span: [0.2, Math.max(1.5, water)], symbol: 'w', unit: '1' },
    { span: [0, Math.ceil(of(value.most, 0.2) / 20) * 20], symbol: 'R', unit: 'K' },
    { top: foot + 44, base: foot + 204 },
  );
  const curve = (k: 1 | 3): Point[] => rows.map((row): Point => [axes.x(row[0]), axes.y(row[k])]);
  const onRight = axes.x(water) > 220;
  const parts = [
    ...bars,
    line([24, foot - 10], [wide - 24, foot - 10], 'grid'),
    ...axes.parts,
    path([...curve(1), ...curve(3).toReversed()], 'between', true),
    axes.curve(
      rows.map((row): Point => [row[0], row[2]]),
      'strong',
    ),
    circle(axes.x(water), axes.y(value.adiabaticRise), 5, 'dot'),
    label(
      axes.x(water) + (onRight ? -4 : 12),
      axes.y(value.adiabaticRise) - (onRight ? 14 : water < 0.4 ? -5 : 10),
      `${digits(value.adiabaticRise, 3)} K if none were lost`,
      onRight ? 'end' : 'start',
    ),
  ];
  const words = `Above, the heat of ${hemihydrate}-hemihydrate by each data set: ${value.published
    .map(({ source, perGram }) => `${nameOf(source)} ${digits(perGram, 4)} J/g`)
    .join(
      ', ',
    )}; ${digits(value.perGram, 4)} J/g is used. Below, how far it would warm a paste that loses no heat, against the water to a gram of hemihydrate: with ${digits(water)} g it is ${digits(value.adiabaticRise, 4)} K, and over the three sets ${digits(of(value.least, water), 3)} to ${digits(of(value.most, water), 3)} K, the pale band. A bandage loses heat while it makes it and stays far below.`;
  return figure(
    axes.height,
    'Heat of setting by three data sets, and the rise of a paste that loses none',
    words,
    parts,
    {
      columns: ['water to hemihydrate', 'rise by the least [K]', 'rise [K]', 'rise by the most [K]'],
      rows,
    },
  );
}
