import { type AnyFormula, mm, underBandage } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { spaced } from './axes.ts';
import {
  circle,
  type Figure,
  figure,
  type In,
  label,
  line,
  type Out,
  type Point,
  path,
  scale,
  ticks,
  variable,
  wide,
} from './svg.ts';

const [least, most] = [150, 600];

/** How the pressure falls as the limb gets thicker, all else as in the example. */
export function pressureFigure(
  inputs: In<typeof underBandage>,
  value: Out<typeof underBandage>,
  formula: AnyFormula,
): Figure {
  const at = (girth: number): number => underBandage.compute({ ...inputs, girth: mm(girth) });
  const closing = Number((formula as typeof underBandage).constants?.closing.printed);
  const highest = Math.max(at(least), value, closing) * 1.12;
  const [left, right, top, base] = [52, wide - 20, 20, 230];
  const x = scale([least, most], [left, right]);
  const y = scale([0, highest], [base, top]);
  const curve = spaced(least, most, 90).map((girth): Point => [x(girth), y(at(girth))]);
  const parts = [
    ...ticks(0, highest, 5).map(
      (p) => line([left, y(p)], [right, y(p)], 'grid') + label(left - 8, y(p) + 5, digits(p), 'end'),
    ),
    line([left, base], [right, base], 'axis'),
    ...ticks(least, most, 5).map(
      (c) => line([x(c), base], [x(c), base + 5], 'axis') + label(x(c), base + 22, digits(c)),
    ),
    line([left, y(closing)], [right, y(closing)], 'limit-line'),
    label(right, y(closing) - 7, `${closing} mmHg: assumed to close capillaries`, 'end', 'small'),
    path(curve, 'strong'),
    circle(x(inputs.girth), y(value), 5, 'dot'),
    label(x(inputs.girth) + 12, y(value) - 8, shown(value, 'mm[Hg]', 4), 'start'),
    variable(left - 8, top - 6, 'P', 'end'),
    label(left, top - 6, '/ mmHg', 'start', 'small'),
    variable(right - 40, base + 44, 'C', 'end'),
    label(right - 36, base + 44, '/ mm', 'start', 'small'),
  ];
  const words = `Pressure against girth, with tension, layers and width as in the example. At ${digits(least)} mm round it is ${shown(at(least), 'mm[Hg]', 3)}, at ${shown(inputs.girth, 'mm')} it is ${shown(value, 'mm[Hg]', 4)}, at ${digits(most)} mm it is ${shown(at(most), 'mm[Hg]', 3)}. The broken line is ${closing} mmHg, assumed to close capillaries.`;
  return figure(base + 54, 'Pressure under a bandage against the girth of the limb', words, parts, {
    columns: ['girth [mm]', 'pressure [mm[Hg]]'],
    rows: spaced(least, most, 90).map((girth) => [girth, at(girth)]),
  });
}
