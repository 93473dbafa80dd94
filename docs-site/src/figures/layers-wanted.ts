import type { AnyFormula, layersWanted } from 'swathe';
import { digits } from '../library/show.ts';
import {
  circle,
  type Figure,
  figure,
  type In,
  label,
  line,
  type Out,
  rect,
  scale,
  ticks,
  wide,
} from './svg.ts';

/** Every published range of layers, the one that is used filled darker. */
export function layersWantedFigure(
  { material, use, limb, age }: In<typeof layersWanted>,
  value: Out<typeof layersWanted>,
  _: AnyFormula,
  nameOf: (source: string | undefined) => string,
): Figure {
  const most = value.most + 2;
  const x = scale([0, most], [200, wide - 24]);
  const base = 30 + value.published.length * 26;
  const bars = value.published.map(({ constant, source, least, most }, k) => {
    const y = 30 + k * 26;
    const used = constant === value.used.constant;
    const name = source === 'common practice' ? source : nameOf(source);
    const says = name.length > 30 ? `${name.slice(0, 29)}…` : name;
    return (
      label(190, y + 4, says, 'end', used ? 'small strong-label' : 'small') +
      (least === most
        ? circle(x(least), y, 5, 'window-dot')
        : rect(x(least), y - 5, x(most) - x(least), 10, used ? 'used' : 'window'))
    );
  });
  const parts = [
    ...ticks(0, most, 6).map(
      (t) => line([x(t), 16], [x(t), base], 'grid') + label(x(t), base + 20, digits(t)),
    ),
    line([x(0), base], [x(most), base], 'axis'),
    ...bars,
    label((x(0) + x(most)) / 2, base + 40, 'layers', '', 'small'),
  ];
  const words = `Layers that sources give for ${material}, ${use}, ${limb}, ${age}: ${value.published
    .map(
      (p) =>
        `${p.source === 'common practice' ? p.source : nameOf(p.source)} ${p.least === p.most ? p.least : `${p.least} to ${p.most}`}`,
    )
    .join('; ')}. Used: ${value.used.least} to ${value.used.most}.`;
  return figure(base + 52, 'Published numbers of layers', words, parts, {
    columns: ['source', 'least', 'most'],
    rows: value.published.map(({ source, least, most }) => [source, least, most]),
  });
}
