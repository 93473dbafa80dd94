import { type AnyFormula, celsius, type supersaturation } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { axesOf, spaced } from './axes.ts';
import { circle, type Figure, figure, type In, label, line, type Out, type Point } from './svg.ts';

const [coldest, hottest] = [0, 150];

/** What drives the plaster to set, against temperature, down to 1, where it stops. */
export function supersaturationFigure(
  inputs: In<typeof supersaturation>,
  value: Out<typeof supersaturation>,
  formula: AnyFormula,
): Figure {
  const { compute } = formula as typeof supersaturation;
  const at = (temperature: number): number =>
    compute({ ...inputs, temperature: celsius(temperature) }).supersaturation;
  const rows = spaced(coldest, hottest, 75).map((t): Point => [t, at(t)]);
  const highest = Math.ceil(Math.max(...rows.map(([, s]) => s)));
  const axes = axesOf(
    { span: [coldest, hottest], symbol: 'T', unit: 'Cel' },
    { span: [0, highest], symbol: 'S', unit: '1' },
  );
  const { x, y } = axes;
  const parts = [
    ...axes.parts,
    line([axes.left, y(1)], [axes.right, y(1)], 'limit-line'),
    label(axes.left + 6, y(1) + 16, 'at 1 setting stops', 'start', 'small'),
    axes.curve(rows, 'strong'),
    circle(x(inputs.temperature), y(value.supersaturation), 5, 'dot'),
    label(
      x(inputs.temperature) + (inputs.temperature > 110 ? -12 : 12),
      y(value.supersaturation) - 8,
      digits(value.supersaturation, 4),
      inputs.temperature > 110 ? 'end' : 'start',
    ),
  ];
  const words = `Supersaturation against temperature for ${inputs.hemihydrate}-hemihydrate. At ${shown(inputs.temperature, 'Cel')} it is ${digits(value.supersaturation, 4)}; the broken line is 1, where the reaction stops.`;
  return figure(axes.height, 'Supersaturation against temperature', words, parts, {
    columns: ['temperature [Cel]', 'supersaturation'],
    rows,
  });
}
