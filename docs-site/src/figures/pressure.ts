import { type AnyFormula, mm, underBandage } from 'swathe';
import { shown } from '../library/show.ts';
import { axesOf, spaced } from './axes.ts';
import { circle, type Figure, figure, type In, label, line, type Out, type Point } from './svg.ts';

const [least, most] = [150, 600];

/** How the pressure falls as the limb gets thicker, all else as in the example. */
export function pressureFigure(
  inputs: In<typeof underBandage>,
  value: Out<typeof underBandage>,
  formula: AnyFormula,
): Figure {
  const at = (girth: number): number => underBandage.compute({ ...inputs, girth: mm(girth) });
  const closing = Number((formula as typeof underBandage).constants?.closing.printed);
  const ends: Point = [Math.min(least, inputs.girth), Math.max(most, inputs.girth)];
  const axes = axesOf(
    { span: ends, symbol: 'C', unit: 'mm' },
    { span: [0, Math.max(at(ends[0]), closing) * 1.12], symbol: 'P', unit: 'mm[Hg]' },
  );
  const { x, y } = axes;
  const curve = spaced(...ends, 90).map((girth): Point => [girth, at(girth)]);
  const onRight = x(inputs.girth) > 320;
  const parts = [
    ...axes.parts,
    line([axes.left, y(closing)], [axes.right, y(closing)], 'limit-line'),
    label(
      axes.right,
      y(closing) - 7,
      `${shown(closing, 'mm[Hg]')}: assumed to close capillaries`,
      'end',
      'small',
    ),
    axes.curve(curve, 'strong'),
    circle(x(inputs.girth), y(value), 5, 'dot'),
    label(
      x(inputs.girth) + (onRight ? 0 : 12),
      y(value) - (onRight ? 12 : 8),
      shown(value, 'mm[Hg]', 4),
      onRight ? 'end' : 'start',
    ),
  ];
  const words = `Pressure against girth, with tension, layers and width as given. At ${shown(ends[0], 'mm', 4)} round it is ${shown(at(ends[0]), 'mm[Hg]', 3)}, at ${shown(inputs.girth, 'mm')} it is ${shown(value, 'mm[Hg]', 4)}, at ${shown(ends[1], 'mm', 4)} it is ${shown(at(ends[1]), 'mm[Hg]', 3)}. The broken line is ${shown(closing, 'mm[Hg]')}, assumed to close capillaries.`;
  return figure(axes.height, 'Pressure under a bandage against the girth of the limb', words, parts, {
    columns: ['girth [mm]', 'pressure [mm[Hg]]'],
    rows: curve,
  });
}
