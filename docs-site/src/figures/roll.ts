import type { effectiveThickness, lengthLeft, turnsOnRoll, woundDiameter, woundLength } from 'swathe';
import { digits, shown } from '../library/show.ts';
import {
  circle,
  el,
  type Figure,
  figure,
  type In,
  label,
  measure,
  type Out,
  type Point,
  rect,
  scale,
  variable,
  wide,
} from './svg.ts';

interface Roll {
  readonly outer: number;
  readonly core: number;
  readonly thickness: number;
  readonly turns: number;
}

/** Turns that can be told apart on a page. */
const most = 150;

/** Every turn of a roll seen from its side, or every so many where there are too many to see. */
function spiral({ core, thickness, turns }: Roll, [cx, cy]: Point, perMm: number) {
  const every = Math.max(1, Math.ceil(turns / most));
  const perTurn = turns > 60 ? 24 : 40;
  const whole = turns / every;
  const points = Array.from({ length: Math.ceil(whole * perTurn) + 1 }, (_, k) => {
    const turn = Math.min(k / perTurn, whole);
    const r = (core / 2 + thickness * every * turn) * perMm;
    const angle = 2 * Math.PI * turn;
    return `${(cx + r * Math.cos(angle)).toFixed(1)} ${(cy + r * Math.sin(angle)).toFixed(1)}`;
  });
  const path = el('path', { class: 'spiral', d: `M${points.join('L')}` });
  const rows = Array.from({ length: Math.floor(whole) + 1 }, (_, k) => [
    k * every,
    core / 2 + thickness * k * every,
  ]);
  return { path, every, rows };
}

/** A roll from its side with its diameters. */
function drawn(roll: Roll) {
  const { outer, core, thickness, turns } = roll;
  const reach = 150;
  const [cx, cy] = [wide / 2 - 20, reach + 14];
  const perMm = reach / (outer / 2);
  const { path, every, rows } = spiral(roll, [cx, cy], perMm);
  const parts = [
    circle(cx, cy, reach, 'skin'),
    circle(cx, cy, (core / 2) * perMm, 'hole'),
    path,
    measure([cx - (core / 2) * perMm, cy], [cx + (core / 2) * perMm, cy]),
    variable(cx, cy - 8, 'd'),
    measure([cx + reach + 26, cy - reach], [cx + reach + 26, cy + reach]),
    variable(cx + reach + 36, cy + 5, 'D', 'start'),
    label(cx, cy + reach + 28, `${digits(turns, 4)} turns, each ${shown(thickness, 'mm', 4)} thick`),
  ];
  const all = every === 1 ? 'All of them are drawn' : `One in ${every} is drawn`;
  const words = `A roll from its side: the spiral runs from the core, ${shown(core, 'mm', 4)} across, to the outside, ${shown(outer, 'mm', 4)} across, in ${digits(turns, 4)} turns. ${all}.`;
  return { parts, words, height: cy + reach + 42, rows: [...rows, [turns, outer / 2]] };
}

function rolled(roll: Roll): Figure {
  const { parts, words, height, rows } = drawn(roll);
  return figure(height, 'The spiral of a wound roll', words, parts, {
    columns: ['turn', 'radius [mm]'],
    rows,
  });
}

export const rollFigure = (roll: In<typeof woundLength>, { turns }: Out<typeof woundLength>): Figure =>
  rolled({ ...roll, turns });

export const woundDiameterFigure = (
  { core, thickness }: In<typeof woundDiameter>,
  outer: Out<typeof woundDiameter>,
): Figure => rolled({ outer, core, thickness, turns: (outer - core) / (2 * thickness) });

export const effectiveThicknessFigure = (
  { outer, core }: In<typeof effectiveThickness>,
  thickness: Out<typeof effectiveThickness>,
): Figure => rolled({ outer, core, thickness, turns: (outer - core) / (2 * thickness) });

/** The roll from its side, and beneath it the bandage unrolled with where each turn ends: the outer ones are the long ones. */
export function turnsOnRollFigure(
  { length, core, thickness }: In<typeof turnsOnRoll>,
  turns: Out<typeof turnsOnRoll>,
): Figure {
  const outer = (2 * length) / (Math.PI * turns) - core;
  const { parts, words, height, rows } = drawn({ outer, core, thickness, turns });
  const every = Math.max(1, Math.ceil(turns / 30));
  const x = scale([0, length], [24, wide - 24]);
  /** Length of the innermost so many turns. */
  const used = (turn: number): number => Math.PI * turn * (core + turn * thickness);
  const y = height + 20;
  const ends = [...Array.from({ length: Math.ceil(turns / every) }, (_, k) => k * every), turns];
  const pieces = ends.slice(1).map((turn, k) => {
    const [from, to] = [x(used(ends[k] as number)), x(Math.min(length, used(turn)))];
    return rect(from, y, to - from, 28, k % 2 === 0 ? 'layer' : 'skin accent-line');
  });
  const [first, last] = [used(Math.min(1, turns)), length - used(Math.max(0, turns - 1))];
  const beneath = [
    label(
      24,
      y - 9,
      every === 1 ? 'unrolled, turn by turn' : `unrolled, ${every} turns by ${every}`,
      'start',
    ),
    ...pieces,
    measure([24, y + 42], [wide - 24, y + 42]),
    label(wide / 2, y + 62, shown(length, 'mm', 4)),
  ];
  const told = `${words} Beneath, the bandage unrolled, ${shown(length, 'mm', 4)} long, the core’s end on the left and a new shade at each ${every === 1 ? 'turn' : `${every} turns`}: the innermost turn takes ${shown(first, 'mm', 3)}, the outermost ${shown(last, 'mm', 3)}.`;
  return figure(y + 76, 'The turns on a roll, and the same unrolled', told, [...parts, ...beneath], {
    columns: ['turn', 'radius [mm]', 'length from the core [mm]'],
    rows: rows.map(([turn = 0, radius = 0]) => [turn, radius, used(turn)]),
  });
}

/** The roll from its side, what is gone in broken line, and beneath it how much of the length that is. */
export function lengthLeftFigure(
  { now, core, outerNew, lengthNew }: In<typeof lengthLeft>,
  { length, share }: Out<typeof lengthLeft>,
): Figure {
  const outer = now.kind === 'girth' ? now.girth / Math.PI : now.diameter;
  // The thickness of a turn drops out of the formula; what was new tells it all the same.
  const thickness = (Math.PI * (outerNew * outerNew - core * core)) / (4 * lengthNew);
  const turns = (outer - core) / (2 * thickness);
  const reach = 120;
  const [cx, cy] = [wide / 2, reach + 14];
  const perMm = reach / (outerNew / 2);
  const { path, every } = spiral({ outer, core, thickness, turns }, [cx, cy], perMm);
  const [r, hole] = [(outer / 2) * perMm, (core / 2) * perMm];
  const y = cy + reach + 52;
  const x = scale([0, lengthNew], [24, wide - 24]);
  const gone = (outerNew - outer) / (outerNew - core);
  const parts = [
    circle(cx, cy, reach, 'left'),
    circle(cx, cy, r, 'skin'),
    circle(cx, cy, hole, 'hole'),
    path,
    measure([cx - hole, cy], [cx + hole, cy]),
    variable(cx, cy - 8, 'd'),
    measure([cx + reach + 26, cy - reach], [cx + reach + 26, cy + reach]),
    variable(cx + reach + 36, cy + 5, 'D_0', 'start'),
    measure([cx - reach - 26, cy - r], [cx - reach - 26, cy + r]),
    variable(cx - reach - 36, cy + 5, 'D', 'end'),
    label(24, y - 9, `${shown(length, 'mm', 4)} left`, 'start'),
    label(wide - 24, y - 9, `of ${shown(lengthNew, 'mm', 4)}`, 'end'),
    rect(24, y, x(length) - 24, 28, 'taken'),
    rect(x(length), y, x(lengthNew) - x(length), 28, 'left'),
    label(
      24,
      y + 50,
      `${digits(100 * gone, 3)} % of the depth is gone, ${digits(100 * (1 - share), 3)} % of the length`,
      'start',
    ),
  ];
  const words = `The roll from its side: new it was ${shown(outerNew, 'mm', 4)} across, the outer broken circle; now it is ${shown(outer, 'mm', 4)} across on a core of ${shown(core, 'mm', 4)}, which is ${digits(turns, 3)} turns by what it was when new${every === 1 ? '' : `, one in ${every} drawn`}. Beneath, the bandage unrolled: ${shown(length, 'mm', 4)} of ${shown(lengthNew, 'mm', 4)} is left, ${digits(100 * share, 3)} %. Of the depth of the winding ${digits(100 * gone, 3)} % is gone, of the length ${digits(100 * (1 - share), 3)} %.`;
  return figure(y + 62, 'What is left on a part-used roll', words, parts, {
    columns: ['outer diameter [mm]', 'length left [mm]', 'share left'],
    rows: [...Array.from({ length: 21 }, (_, k) => core + ((outerNew - core) * k) / 20), outer]
      .sort((a, b) => a - b)
      .map((across) => {
        const part = (across * across - core * core) / (outerNew * outerNew - core * core);
        return [across, part * lengthNew, part];
      }),
  });
}
