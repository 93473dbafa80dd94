import type { figureOfEight } from 'swathe';
import { digits, shown } from '../library/show.ts';
import {
  circle,
  type Figure,
  figure,
  type In,
  label,
  line,
  measure,
  type Out,
  type Point,
  path,
  rect,
  variable,
  wide,
} from './svg.ts';

/** The skin above and below the joint rolled out, each cut at the back: four straight runs through one crossing. */
export function figureOfEightFigure(i: In<typeof figureOfEight>, value: Out<typeof figureOfEight>): Figure {
  const high = Math.max(i.riseAbove + i.width, 60);
  const low = Math.max(i.riseBelow + i.width, 60);
  const perMm = Math.min((wide - 90) / Math.max(i.above, i.below), 300 / (high + low));
  const [cx, cy] = [wide / 2, 40 + high * perMm];
  const at = (x: number, y: number): Point => [cx + x * perMm, cy - y * perMm];
  const ends: readonly Point[] = [
    [-i.above / 2, i.riseAbove],
    [i.above / 2, i.riseAbove],
    [-i.below / 2, -i.riseBelow],
    [i.below / 2, -i.riseBelow],
  ];
  const run = ([x, y]: Point): string => {
    const long = Math.sqrt(x * x + y * y) || 1;
    const [sx, sy] = [((-y / long) * i.width) / 2, ((x / long) * i.width) / 2];
    return path([at(sx, sy), at(x + sx, y + sy), at(x - sx, y - sy), at(-sx, -sy)], 'strip', true);
  };
  const skin = (girth: number, from: number, to: number): string => {
    const [a, b] = [at(-girth / 2, to), at(girth / 2, from)];
    return rect(a[0], a[1], b[0] - a[0], b[1] - a[1], 'skin');
  };
  const bottom = cy + low * perMm;
  const parts = [
    skin(i.above, 0, high),
    skin(i.below, -low, 0),
    ...ends.map(run),
    ...ends.map((end) => line([cx, cy], at(...end), 'strong')),
    ...ends.map((end) => circle(...at(...end), 4, 'dot')),
    circle(cx, cy, 4, 'dot'),
    measure([at(-i.above / 2, 0)[0], 24], [at(i.above / 2, 0)[0], 24]),
    variable(cx, 18, 'C_a'),
    measure([at(-i.below / 2, 0)[0], bottom + 14], [at(i.below / 2, 0)[0], bottom + 14]),
    variable(cx, bottom + 36, 'C_b'),
    ...(i.riseAbove > 0
      ? [
          measure([at(i.above / 2, 0)[0] + 14, cy], [at(i.above / 2, 0)[0] + 14, at(0, i.riseAbove)[1]]),
          variable(at(i.above / 2, 0)[0] + 22, (cy + at(0, i.riseAbove)[1]) / 2 + 5, 'h_a', 'start'),
        ]
      : []),
    ...(i.riseBelow > 0
      ? [
          measure([at(i.below / 2, 0)[0] + 14, cy], [at(i.below / 2, 0)[0] + 14, at(0, -i.riseBelow)[1]]),
          variable(at(i.below / 2, 0)[0] + 22, (cy + at(0, -i.riseBelow)[1]) / 2 + 5, 'h_b', 'start'),
        ]
      : []),
    label(cx, bottom + 58, `one figure: ${shown(value.perFigure, 'mm', 5)}`),
  ];
  const words = `The skin rolled out, above the joint and below it, each slit at the back so that the left edge and the right edge are one place. From the crossing the bandage goes half round to the back of one part, ${shown(i.riseAbove, 'mm')} above, and home; then the same below, at ${shown(i.riseBelow, 'mm')}. One figure takes ${shown(value.perFigure, 'mm', 5)}, ${digits(i.figures)} of them ${shown(value.length, 'mm', 5)}.`;
  const runs = ends.map(([x, y], k) => [k + 1, 0, 0, x, y]);
  return figure(bottom + 70, 'A figure of eight on the skin rolled out', words, parts, {
    columns: ['run', 'from round [mm]', 'from along [mm]', 'to round [mm]', 'to along [mm]'],
    rows: runs,
  });
}
