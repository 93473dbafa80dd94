import type { woundLength } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { circle, el, type Figure, figure, type In, label, measure, type Out, variable, wide } from './svg.ts';

const perTurn = 40;

/** A roll from its side, with every turn of its spiral. */
export function rollFigure(
  { outer, core, thickness }: In<typeof woundLength>,
  value: Out<typeof woundLength>,
): Figure {
  const reach = 150;
  const [cx, cy] = [wide / 2 - 20, reach + 14];
  const perMm = reach / (outer / 2);
  const steps = Math.ceil(value.turns * perTurn);
  const points = Array.from({ length: steps + 1 }, (_, k) => {
    const turn = Math.min(k / perTurn, value.turns);
    const r = (core / 2 + thickness * turn) * perMm;
    const angle = 2 * Math.PI * turn;
    return `${(cx + r * Math.cos(angle)).toFixed(1)} ${(cy + r * Math.sin(angle)).toFixed(1)}`;
  });
  const parts = [
    circle(cx, cy, reach, 'skin'),
    circle(cx, cy, (core / 2) * perMm, 'hole'),
    el('path', { class: 'spiral', d: `M${points.join('L')}` }),
    measure([cx - (core / 2) * perMm, cy], [cx + (core / 2) * perMm, cy]),
    variable(cx, cy - 8, 'd'),
    measure([cx + reach + 26, cy - reach], [cx + reach + 26, cy + reach]),
    variable(cx + reach + 36, cy + 5, 'D', 'start'),
    label(cx, cy + reach + 28, `${digits(value.turns, 4)} turns, each ${shown(thickness, 'mm')} thick`),
  ];
  const words = `A roll from its side: the spiral runs from the core, ${shown(core, 'mm')} across, to the outside, ${shown(outer, 'mm')} across, in ${digits(value.turns, 4)} turns. All of them are drawn.`;
  return figure(cy + reach + 42, 'The spiral of a wound roll', words, parts);
}
