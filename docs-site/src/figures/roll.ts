import type { effectiveThickness, woundDiameter, woundLength } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { circle, el, type Figure, figure, type In, label, measure, type Out, variable, wide } from './svg.ts';

interface Roll {
  readonly outer: number;
  readonly core: number;
  readonly thickness: number;
  readonly turns: number;
}

/** Turns that can be told apart on a page. */
const most = 150;

/** A roll from its side, with every turn of its spiral, or every so many where there are too many to see. */
function drawn({ outer, core, thickness, turns }: Roll): Figure {
  const reach = 150;
  const [cx, cy] = [wide / 2 - 20, reach + 14];
  const perMm = reach / (outer / 2);
  const every = Math.max(1, Math.ceil(turns / most));
  const perTurn = turns > 60 ? 24 : 40;
  const whole = turns / every;
  const points = Array.from({ length: Math.ceil(whole * perTurn) + 1 }, (_, k) => {
    const turn = Math.min(k / perTurn, whole);
    const r = (core / 2 + thickness * every * turn) * perMm;
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
    label(cx, cy + reach + 28, `${digits(turns, 4)} turns, each ${shown(thickness, 'mm', 4)} thick`),
  ];
  const all = every === 1 ? 'All of them are drawn' : `One in ${every} is drawn`;
  const words = `A roll from its side: the spiral runs from the core, ${shown(core, 'mm', 4)} across, to the outside, ${shown(outer, 'mm', 4)} across, in ${digits(turns, 4)} turns. ${all}.`;
  const rows = Array.from({ length: Math.floor(whole) + 1 }, (_, k) => [
    k * every,
    core / 2 + thickness * k * every,
  ]);
  return figure(cy + reach + 42, 'The spiral of a wound roll', words, parts, {
    columns: ['turn', 'radius [mm]'],
    rows: [...rows, [turns, outer / 2]],
  });
}

export const rollFigure = (roll: In<typeof woundLength>, { turns }: Out<typeof woundLength>): Figure =>
  drawn({ ...roll, turns });

export const woundDiameterFigure = (
  { core, thickness }: In<typeof woundDiameter>,
  outer: Out<typeof woundDiameter>,
): Figure => drawn({ outer, core, thickness, turns: (outer - core) / (2 * thickness) });

export const effectiveThicknessFigure = (
  { outer, core }: In<typeof effectiveThickness>,
  thickness: Out<typeof effectiveThickness>,
): Figure => drawn({ outer, core, thickness, turns: (outer - core) / (2 * thickness) });
