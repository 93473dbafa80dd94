import type { stripLength } from 'swathe';
import { digits, shown } from '../library/show.ts';
import {
  circle,
  type Figure,
  figure,
  type In,
  line,
  measure,
  type Out,
  path,
  variable,
  wide,
} from './svg.ts';

/** All turns rolled out in one line: a right triangle. */
export function stripFigure(
  { girth, advance, turns }: In<typeof stripLength>,
  value: Out<typeof stripLength>,
): Figure {
  // No turn at all is drawn as if it had just begun.
  const drawn = Math.max(turns, 0.001);
  const perMm = Math.min((wide - 84) / (girth * drawn), 330 / (advance * drawn));
  const across = girth * drawn * perMm;
  const left = (wide - 36 - across) / 2;
  const right = left + across;
  const rise = advance * drawn * perMm;
  const bottom = 46 + rise;
  const marks = Array.from({ length: Math.floor(turns) + 1 }, (_, k) => {
    const x = left + k * girth * perMm;
    return (
      circle(x, bottom - k * advance * perMm, 3.2, 'dot') +
      line([x, bottom], [x, bottom - k * advance * perMm], 'guide')
    );
  });
  const parts = [
    path(
      [
        [left, bottom],
        [right, bottom],
        [right, bottom - rise],
      ],
      'skin',
      true,
    ),
    ...marks,
    line([left, bottom], [right, bottom - rise], 'strong'),
    variable((left + right) / 2 - 14, bottom - rise / 2 - 14, 'l'),
    measure([left, bottom + 22], [left + Math.min(1, drawn) * girth * perMm, bottom + 22]),
    variable(left + (Math.min(1, drawn) * girth * perMm) / 2, bottom + 42, turns < 1 ? 'n C' : 'C'),
    measure([right + 16, bottom], [right + 16, bottom - rise]),
    variable(right + 26, bottom - rise / 2 + 5, 'n p', 'start'),
  ];
  const words = `${digits(turns)} turns rolled out in one line. The line rises ${shown(advance, 'mm')} for each ${shown(girth, 'mm')} that it goes round; the slanting side is the strip, ${shown(value, 'mm')} long.`;
  return figure(bottom + 56, 'The turns of a strip rolled out as a right triangle', words, parts, {
    columns: ['turns', 'round [mm]', 'along [mm]'],
    rows: [...new Set([...Array.from({ length: Math.floor(turns) + 1 }, (_, k) => k), turns])].map((k) => [
      k,
      k * girth,
      k * advance,
    ]),
  });
}
