import type { takeOff } from 'swathe';
import { shown } from '../library/show.ts';
import { type Figure, figure, type In, label, type Out, rect, scale, wide } from './svg.ts';

/** Every roll that is opened: what is taken from it and what is left. */
export function takeOffFigure(_: In<typeof takeOff>, value: Out<typeof takeOff>): Figure {
  const longest = Math.max(...value.left.map((roll) => roll.length), 1);
  const x = scale([0, longest], [24, wide - 24]);
  const rolls = value.left.map((roll, k) => {
    const y = 34 + k * 62;
    const gone = roll.length - roll.left;
    return (
      label(24, y - 8, `${roll.material}, ${shown(roll.width, 'mm')} wide`, 'start') +
      label(wide - 24, y - 8, `${shown(roll.left, 'mm', 4)} left`, 'end') +
      rect(24, y, x(gone) - 24, 26, 'taken') +
      rect(x(gone), y, x(roll.length) - x(gone), 26, 'left')
    );
  });
  const words = value.left
    .map(
      (roll, k) =>
        `Roll ${k + 1}, ${roll.material}, ${shown(roll.width, 'mm')} wide: ${shown(roll.length - roll.left, 'mm')} of ${shown(roll.length, 'mm')} is taken.`,
    )
    .join(' ');
  return figure(
    16 + Math.max(1, value.left.length) * 62,
    'Rolls that are opened and what is left on them',
    words || 'No roll is opened for these needs.',
    rolls,
    {
      columns: ['roll', 'material', 'width [mm]', 'length [mm]', 'left [mm]'],
      rows: value.left.map((roll, k) => [k + 1, roll.material, roll.width, roll.length, roll.left]),
    },
  );
}
