import type { buildUp } from 'swathe';
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
  rect,
  variable,
  wide,
} from './svg.ts';

/** A cross-section to scale, and its layers enlarged. */
export function buildUpFigure({ girth, layers }: In<typeof buildUp>, value: Out<typeof buildUp>): Figure {
  const outer = value.outerGirth / (2 * Math.PI);
  const perMm = 110 / outer;
  const [cx, cy] = [130, 136];
  const edge = cx + (girth / (2 * Math.PI)) * perMm;
  const [left, bottom, tall] = [wide - 122, 214, 150];
  const one = tall / layers;
  const parts = [
    circle(cx, cy, 110, 'skin accent-fill'),
    circle(cx, cy, (girth / (2 * Math.PI)) * perMm, 'limb'),
    circle((edge + cx + 110) / 2, cy, 13, 'lens'),
    line([edge + 14, cy - 9], [left, bottom - tall], 'guide'),
    line([edge + 14, cy + 9], [left, bottom], 'guide'),
    ...Array.from({ length: layers }, (_, k) => rect(left, bottom - (k + 1) * one, 80, one, 'layer')),
    rect(left, bottom, 80, 18, 'limb'),
    label(left + 40, bottom - tall - 12, layers === 1 ? '1 layer' : `${layers} layers`),
    measure([left + 94, bottom], [left + 94, bottom - tall]),
    variable(left + 104, bottom - tall / 2 + 5, 'h', 'start'),
    variable(cx, cy - 2, 'C'),
    label(cx, cy + 18, shown(girth, 'mm')),
  ];
  const words = `On the left a limb of ${shown(girth, 'mm')} round in cross-section, with its layers drawn to scale; on the right the layers enlarged: ${digits(layers)} of them, ${shown(value.thickness, 'mm', 4)} in all. Round the outside it is ${shown(value.outerGirth, 'mm')}.`;
  return figure(262, 'Layers round a limb in cross-section', words, parts, {
    columns: ['layer', 'outside above the skin [mm]', 'girth outside [mm]'],
    rows: Array.from({ length: layers }, (_, k) => {
      const height = (value.thickness * (k + 1)) / layers;
      return [k + 1, height, girth + 2 * Math.PI * height];
    }),
  });
}
