import type { roundedEnds } from 'swathe';
import { shown } from '../library/show.ts';
import { el, type Figure, figure, type In, label, measure, type Out, rect, variable, wide } from './svg.ts';

const fine = (x: number): string => x.toFixed(2);

/** One ply to scale on the square-ended piece that it is cut from, its proximal end on the left. */
export function roundedEndsFigure(
  { plies, width, length, proximal, distal }: In<typeof roundedEnds>,
  value: Out<typeof roundedEnds>,
): Figure {
  const perMm = Math.min((wide - 100) / length, 200 / width);
  const [w, h, p, d] = [length * perMm, width * perMm, proximal * perMm, distal * perMm];
  const [left, top] = [(wide - w) / 2, 20];
  const [right, foot] = [left + w, top + h];
  const arc = (r: number, x: number, y: number): string =>
    `A${fine(r)} ${fine(r)} 0 0 1 ${fine(x)} ${fine(y)}`;
  const outline = [
    `M${fine(left + p)} ${top}H${fine(right - d)}${arc(d, right, top + d)}V${fine(foot - d)}${arc(d, right - d, foot)}`,
    `H${fine(left + p)}${arc(p, left, foot - p)}V${fine(top + p)}${arc(p, left + p, top)}Z`,
  ].join('');
  const parts = [
    rect(left, top, w, h, 'left'),
    el('path', { d: outline, class: 'taken' }),
    measure([left, foot + 16], [right, foot + 16]),
    variable(Math.min(left, wide / 2 - 40), foot + 38, 'r_p', 'start'),
    variable(wide / 2, foot + 38, 'l'),
    variable(Math.max(right, wide / 2 + 40), foot + 38, 'r_d', 'end'),
    measure([left - 14, top], [left - 14, foot]),
    variable(left - 22, top + h / 2 + 5, 'b', 'end'),
    label(
      wide / 2,
      foot + 62,
      `${shown(value.kept, 'mm2')} in ${plies} plies, ${shown(value.waste, 'mm2')} cut away`,
    ),
  ];
  const words = `One ply to scale, ${shown(length, 'mm')} by ${shown(width, 'mm')}, rounded to ${shown(proximal, 'mm')} at the proximal end and ${shown(distal, 'mm')} at the distal end. All ${plies} plies: ${shown(value.kept, 'mm2')} left, ${shown(value.waste, 'mm2')} cut away.`;
  return figure(foot + 74, 'One ply with its rounded ends', words, parts, {
    columns: ['what', 'area of one ply [mm2]'],
    rows: [
      ['square-ended', width * length],
      ['rounded', value.ply],
      ['cut away', value.waste / plies],
    ],
  });
}
