import { formula } from '../formula.ts';
import { length } from '../measure.ts';
import { mm } from '../quantity.ts';

/**
 * Outer diameter of a roll, from the length wound on its core and the thickness of one turn.
 *
 * @throws InputError when an input is missing or cannot be
 * @example
 * woundDiameter({ length: metres(2.7), core: mm(20), thickness: mm(0.65) }).value // 51.327… mm
 */
export const woundDiameter = /* @__PURE__ */ formula({
  id: 'roll.wound-diameter',
  revision: 1,
  basis: 'identity',
  inputs: {
    length: length('length of bandage on the roll', { symbol: 'l', possible: [mm(1), mm(200_000)] }),
    core: length('diameter of the core; 0 where there is none', { symbol: 'd', possible: [mm(0), mm(300)] }),
    thickness: length('thickness of one turn on the roll', { symbol: 't', possible: [mm(0.02), mm(20)] }),
  },
  symmetric: [['length', 'thickness']],
  rises: ['length', 'core', 'thickness'],
  output: length('outer diameter of the roll', { symbol: 'D' }),
  sources: ['derivation.wound-roll', 'peterson-2003-roll'],
  compute: ({ length, core, thickness }) => Math.sqrt(core * core + (4 * length * thickness) / Math.PI),
});
