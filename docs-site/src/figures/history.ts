import type { injuryIntegral } from 'swathe';
import { shown } from '../library/show.ts';
import { axesOf } from './axes.ts';
import { circle, type Figure, figure, type In, type Point } from './svg.ts';

/** Temperature against time, as it was given. */
export function historyFigure({ history }: Pick<In<typeof injuryIntegral>, 'history'>): Figure {
  const rows = history.map(({ time, temperature }): Point => [time, temperature]);
  const temperatures = rows.map(([, t]) => t);
  const times = rows.map(([t]) => t);
  const axes = axesOf(
    { span: [Math.min(...times), Math.max(...times)], symbol: 't', unit: 's' },
    {
      span: [
        Math.floor(Math.min(...temperatures) / 5 - 0.2) * 5,
        Math.ceil(Math.max(...temperatures) / 5 + 0.2) * 5,
      ],
      symbol: 'T',
      unit: 'Cel',
    },
  );
  const parts = [
    ...axes.parts,
    axes.curve(rows, 'strong'),
    ...rows.map(([t, temperature]) => circle(axes.x(t), axes.y(temperature), 4, 'dot')),
  ];
  const words = `Temperature against time, straight from one point to the next: ${history
    .map(({ time, temperature }) => `${shown(temperature, 'Cel')} at ${shown(time, 's')}`)
    .join(', ')}.`;
  return figure(axes.height, 'The temperature history that is given', words, parts, {
    columns: ['time [s]', 'temperature [Cel]'],
    rows,
  });
}
