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
  const pitch = 38;
  const [left, right, most] = [24, wide - 24, value.most + 2];
  const x = scale([0, most], [left, right]);
  const base = 14 + value.published.length * pitch;
  const said = ({ least, most }: { least: number; most: number }): string =>
    least === most ? digits(least) : `${digits(least)} to ${digits(most)}`;
  const bars = value.published.map(({ constant, source, least, most }, k) => {
    const y = 36 + k * pitch;
    const used = constant === value.used.constant;
    const name = source === 'common practice' ? source : nameOf(source);
    const look = used ? 'small strong-label' : 'small';
    return (
      label(left, y - 10, name, 'start', look) +
      label(right, y - 10, used ? `${said({ least, most })}, used` : said({ least, most }), 'end', look) +
      (least === most
        ? circle(x(least), y, 5, 'window-dot')
        : rect(x(least), y - 5, x(most) - x(least), 10, used ? 'used' : 'window'))
    );
  });
  const parts = [
    ...ticks(0, most, 6).map(
      (t) => line([x(t), 12], [x(t), base], 'grid') + label(x(t), base + 20, digits(t)),
    ),
    line([left, base], [right, base], 'axis'),
    ...bars,
    label((left + right) / 2, base + 40, 'layers', '', 'small'),
  ];
  const words = `Layers that sources give for ${material}, ${use}, ${limb}, ${age}: ${value.published
    .map((p) => `${p.source === 'common practice' ? p.source : nameOf(p.source)} ${said(p)}`)
    .join('; ')}. Used: ${value.used.least} to ${value.used.most}.`;
  return figure(base + 52, 'Published numbers of layers', words, parts, {
    columns: ['source', 'least', 'most'],
    rows: value.published.map(({ source, least, most }) => [source, least, most]),
  });
}
