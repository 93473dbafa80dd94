import type { curvedSlab, slabStiffness } from 'swathe';
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
  scale,
  variable,
  wide,
} from './svg.ts';

/** A slab round a limb in cross-section, to scale, with the axis about which it bends; beside it the same slab flat. */
export function curvedSlabFigure(
  { girth, share, thickness }: In<typeof curvedSlab>,
  value: Out<typeof curvedSlab>,
): Figure {
  const inner = girth / (2 * Math.PI);
  const outer = inner + thickness;
  const perMm = 100 / outer;
  const [cx, cy] = [wide / 2, 124];
  const half = Math.PI * share;
  const point = (radius: number, angle: number): Point => [
    cx + radius * perMm * Math.sin(angle),
    cy + radius * perMm * Math.cos(angle),
  ];
  const angles = Array.from({ length: 81 }, (_, k) => -half + (2 * half * k) / 80);
  const ring = [...angles.map((a) => point(outer, a)), ...angles.toReversed().map((a) => point(inner, a))];
  // Centroid of a sector of a ring, from the middle of the limb.
  const centroid =
    ((2 * Math.sin(half)) / (3 * half)) * ((outer ** 3 - inner ** 3) / (outer ** 2 - inner ** 2));
  const axis = cy + centroid * perMm;
  const flat = 2 * half * (inner + thickness / 2);
  const flatScale = Math.min(perMm, (wide - 40) / flat);
  const y = 276;
  const parts = [
    circle(cx, cy, inner * perMm, 'limb'),
    path(ring, 'taken', true),
    line([cx - 118, axis], [cx + 118, axis], 'axis-line'),
    label(cx + 124, axis + 4, 'axis', 'start', 'small'),
    rect(
      cx - (flat * flatScale) / 2,
      y - thickness * flatScale,
      flat * flatScale,
      Math.max(0.8, thickness * flatScale),
      'taken',
    ),
    label(cx, y + 22, `curved ${digits(value.ratio, 4)} times as stiff as flat`),
  ];
  const words = `Above, the limb in cross-section with the slab round ${digits(100 * share, 3)} % of it, ${shown(thickness, 'mm')} thick, to scale; the broken line is the axis about which it bends. Below, the same slab laid flat${flatScale === perMm ? ', to the same scale' : ', drawn smaller'}. Curved it is ${digits(value.ratio, 4)} times as stiff.`;
  return figure(y + 36, 'A curved slab and the same slab flat, in cross-section', words, parts, {
    columns: ['angle from the middle of the slab [deg]', 'inner radius [mm]', 'outer radius [mm]'],
    rows: angles.filter((_, k) => k % 8 === 0).map((a) => [(a * 180) / Math.PI, inner, outer]),
  });
}

/** The layers of a slab from the side, to scale across, with the axis about which it bends. */
export function slabStiffnessFigure(
  { layers }: In<typeof slabStiffness>,
  value: Out<typeof slabStiffness>,
): Figure {
  const y = scale([0, value.thickness], [24, 204]);
  const [left, right] = [60, wide - 200];
  const stiffest = Math.max(...layers.map((l) => l.modulus));
  let depth = 0;
  const runs = layers.map(({ plies, thickness, modulus }, k) => {
    const [from, to] = [depth, depth + plies * thickness];
    depth = to;
    const shade = `band layers-${Math.max(1, Math.round((8 * modulus) / stiffest) - 1)}`;
    const between = Array.from({ length: Math.min(plies, 60) - 1 }, (_, n) =>
      line([left, y(from + (n + 1) * thickness)], [right, y(from + (n + 1) * thickness)], 'ply'),
    );
    return {
      from,
      to,
      svg:
        rect(left, y(from), right - left, y(to) - y(from), shade) +
        rect(left, y(from), right - left, y(to) - y(from), 'outline') +
        between.join('') +
        (y(to) - y(from) > 15
          ? label(
              right + 10,
              (y(from) + y(to)) / 2 + 4,
              `${plies} plies, ${shown(modulus, 'N/mm2', 3)}`,
              'start',
              'small',
            )
          : ''),
      row: [k + 1, from, to, modulus] as const,
    };
  });
  const parts = [
    ...runs.map(({ svg }) => svg),
    line([left - 30, y(value.axis)], [right + 4, y(value.axis)], 'axis-line'),
    variable(left - 36, y(value.axis) + 5, 'z', 'end'),
    measure([left - 14, y(0)], [left - 14, y(value.thickness)]),
    label(
      wide / 2,
      230,
      `${shown(value.thickness, 'mm', 4)} thick; bonded ${digits(value.ratio, 4)} times as stiff as sliding`,
    ),
  ];
  const words = `The slab from its side, its thickness to scale, stiffer layers stronger in colour. ${runs.map(({ from, to }, k) => `Run ${k + 1}: ${shown(from, 'mm', 4)} to ${shown(to, 'mm', 4)}.`).join(' ')} The broken line is the neutral axis, ${shown(value.axis, 'mm', 4)} from the face of the first layer.`;
  return figure(244, 'The layers of a slab and its neutral axis', words, parts, {
    columns: ['run', 'from [mm]', 'to [mm]', 'modulus [N/mm2]'],
    rows: runs.map(({ row }) => row),
  });
}
