import { type AnyFormula, celsius, type roomLoss } from 'swathe';
import { digits, shown, unitWord } from '../library/show.ts';
import { axesOf, spaced } from './axes.ts';
import { circle, type Figure, figure, type In, label, type Out, type Point } from './svg.ts';

const perKelvin = (of: number): string => `${digits(of, 3)} ${unitWord('W/(m2.K)')}`;

/** What goes with the air and what is radiated, per kelvin, against the temperature of the surface. */
export function roomLossFigure(
  inputs: In<typeof roomLoss>,
  value: Out<typeof roomLoss>,
  formula: AnyFormula,
): Figure {
  const { compute } = formula as typeof roomLoss;
  const span = [Math.min(inputs.room, inputs.surface), Math.max(60, inputs.surface)] as const;
  const rows = spaced(...span, 80).map((t): readonly [number, number, number] => {
    const { convection, radiation } = compute({ ...inputs, surface: celsius(t) });
    return [t, convection, radiation];
  });
  const highest = Math.max(1, Math.ceil(Math.max(...rows.flatMap(([, c, r]) => [c, r]))));
  const axes = axesOf(
    { span, symbol: 'T_s', unit: 'Cel' },
    { span: [0, highest], symbol: 'h', unit: 'W/(m2.K)' },
  );
  const { x, y } = axes;
  const isRight = inputs.surface > (span[0] + span[1]) / 2;
  const mark = (of: number, name: string, side: 1 | -1): string =>
    circle(x(inputs.surface), y(of), 5, 'dot') +
    label(
      x(inputs.surface) + (isRight ? -10 : 10),
      y(of) - 12 * side + (side === -1 ? 10 : 0),
      `${name} ${perKelvin(of)}`,
      isRight ? 'end' : 'start',
    );
  const above = value.radiation >= value.convection ? 1 : -1;
  const parts = [
    ...axes.parts,
    axes.curve(
      rows.map(([t, c]): Point => [t, c]),
      'strong',
    ),
    axes.curve(
      rows.map(([t, , r]): Point => [t, r]),
      'limit-line',
    ),
    mark(value.radiation, 'radiated', above),
    mark(value.convection, 'with the air', above === 1 ? -1 : 1),
  ];
  const words = `Heat per kelvin against the temperature of the surface, in a room of ${shown(inputs.room, 'Cel')}. At ${shown(inputs.surface, 'Cel')} the air takes ${perKelvin(value.convection)}, the full line, and ${perKelvin(value.radiation)} is radiated, the broken line.`;
  return figure(axes.height, 'Heat given to a still room', words, parts, {
    columns: ['surface [Cel]', 'convection [W/(m2.K)]', 'radiation [W/(m2.K)]'],
    rows,
  });
}
