import type { overlapFor } from 'swathe';
import { digits, shown } from '../library/show.ts';
import {
  type Figure,
  figure,
  type In,
  label,
  line,
  measure,
  type Out,
  rect,
  scale,
  variable,
  wide,
} from './svg.ts';

/** One pass from its side: each turn a bar as long as the bandage is wide, set off by the distance between turns. */
export function overlapForFigure(
  { width, wanted, passes }: In<typeof overlapFor>,
  value: Out<typeof overlapFor>,
): Figure {
  const turns = value.perPass + 3;
  const reach = width + (turns - 1) * value.spacing;
  const x = scale([0, reach], [30, wide - 30]);
  const high = Math.min(16, 190 / turns);
  const skin = 34 + turns * high + 10;
  const bars = Array.from({ length: turns }, (_, k) => {
    const from = k * value.spacing;
    return rect(x(from), skin - 4 - (k + 1) * high, x(from + width) - x(from), high * 0.8, 'taken');
  });
  const place = ((value.perPass - 1) * value.spacing + width) / 2 + value.spacing / 4;
  const parts = [
    ...bars,
    line([20, skin], [wide - 20, skin], 'axis'),
    line([x(place), 20], [x(place), skin], 'guide'),
    label(x(place), 14, value.perPass === 1 ? '1 layer' : `${digits(value.perPass)} layers`),
    measure([x(0), skin + 16], [x(width), skin + 16]),
    variable((x(0) + x(width)) / 2, skin + 38, 'w'),
    measure([x(reach - value.spacing), skin + 16], [x(reach), skin + 16]),
    variable(x(reach - value.spacing / 2), skin + 38, 'q'),
  ];
  const words = `One pass cut along the limb, the turns lifted off each other: each bar is one turn, ${shown(width, 'mm')} wide, ${shown(value.spacing, 'mm', 4)} on from the last. Once the pass is under way ${digits(value.perPass)} lie over every place; ${digits(passes)} ${passes === 1 ? 'pass gives' : 'passes give'} ${digits(value.layers)}, where ${digits(wanted)} were wanted.`;
  return figure(skin + 50, 'How turns lie over each other in one pass', words, parts, {
    columns: ['turn', 'from [mm]', 'to [mm]'],
    rows: bars.map((_, k) => [k + 1, k * value.spacing, k * value.spacing + width]),
  });
}
