import { formula } from '../formula.ts';
import { amount, group, length } from '../measure.ts';
import { mm, wholeDown } from '../quantity.ts';

/**
 * Length of bandage on a roll, from its diameters and the thickness of one turn.
 *
 * Three forms stand side by side: area, exact spiral, and the sum of circles on the inner faces, which falls short by a
 * known amount and is what a count of turns times the inner girth gives.
 *
 * @throws InputError when there is less than one turn between core and outside
 * @example
 * woundLength({ outer: mm(70), core: mm(25), thickness: mm(0.5) }).value.length // 6715.15… mm
 */
export const woundLength = /* @__PURE__ */ formula({
  id: 'roll.wound-length',
  revision: 1,
  basis: 'identity',
  inputs: {
    outer: length('outer diameter of the roll', { symbol: 'D', possible: [mm(1), mm(500)] }),
    core: length('diameter of the core; 0 where there is none', { symbol: 'd', possible: [mm(0), mm(300)] }),
    thickness: length('thickness of one turn on the roll', { symbol: 't', possible: [mm(0.02), mm(20)] }),
  },
  joint: [
    {
      input: 'core',
      possible: 'at least one turn between core and outside',
      breach: ({ outer, core, thickness }) =>
        wholeDown((outer - core) / (2 * thickness)) >= 1
          ? undefined
          : `core ${core} mm and turns of ${thickness} mm in a roll of ${outer} mm`,
    },
  ],
  output: group({
    length: length('length by area', { symbol: 'l' }),
    spiral: length('length of the exact spiral', { symbol: 'l_s' }),
    innerCircles: length('length by circles on the inner faces', { symbol: 'l_i' }),
    turns: amount('number of turns', { symbol: 'n' }),
  }),
  sources: ['derivation.wound-roll', 'peterson-2003-roll'],
  compute: ({ outer, core, thickness }) => {
    const turns = (outer - core) / (2 * thickness);
    const b = thickness / (2 * Math.PI);
    const arc = (r: number): number => {
      const s = Math.sqrt(r * r + b * b);
      return (r * s + b * b * Math.log(r + s)) / (2 * b);
    };
    return {
      length: (Math.PI * (outer * outer - core * core)) / (4 * thickness),
      spiral: arc(outer / 2) - arc(core / 2),
      innerCircles: Math.PI * turns * (core + thickness * (turns - 1)),
      turns,
    };
  },
});
