import type { fabricArea } from 'swathe';
import { shown } from '../library/show.ts';
import { el, type Figure, figure, type In, label, measure, type Out, rect, variable, wide } from './svg.ts';

/** One ply to scale: as it comes off the roll, and with its corners rounded. */
export function fabricAreaFigure(
  { width, length, corner, plies }: In<typeof fabricArea>,
  value: Out<typeof fabricArea>,
): Figure {
  const perMm = Math.min((wide - 100) / length, 200 / width);
  const [w, h] = [length * perMm, width * perMm];
  const [left, top] = [(wide - w) / 2, 20];
  const parts = [
    rect(left, top, w, h, 'left'),
    el('rect', { x: left, y: top, width: w, height: h, rx: corner * perMm, class: 'taken' }),
    measure([left, top + h + 16], [left + w, top + h + 16]),
    variable(left + w / 2, top + h + 38, 'l'),
    measure([left - 14, top], [left - 14, top + h]),
    variable(left - 22, top + h / 2 + 5, 'b', 'end'),
    label(wide / 2, top + h + 60, `${shown(value.kept, 'mm2')} in ${plies} plies`),
  ];
  const words = `One ply to scale, ${shown(length, 'mm')} by ${shown(width, 'mm')}, its corners rounded to ${shown(corner, 'mm')}. All ${plies} plies: ${shown(value.cut, 'mm2')} off the roll, ${shown(value.kept, 'mm2')} once rounded.`;
  return figure(top + h + 72, 'One ply with its rounded corners', words, parts, {
    columns: ['what', 'area of one ply [mm2]'],
    rows: [
      ['off the roll', value.cut / plies],
      ['rounded', value.kept / plies],
    ],
  });
}
