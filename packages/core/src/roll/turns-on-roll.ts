import { formula } from '../formula.ts';
import { amount, length } from '../measure.ts';
import { mm } from '../quantity.ts';

/**
 * Turns that a length of bandage makes on its roll: the length over the mean way round.
 *
 * @throws InputError when an input is missing or cannot be
 * @example
 * turnsOnRoll({ length: metres(2.7), core: mm(20), thickness: mm(0.65) }).value // 24.09… turns
 */
export const turnsOnRoll = /* @__PURE__ */ formula({
  id: 'roll.turns-on-roll',
  revision: 1,
  basis: 'identity',
  inputs: {
    length: length('length of bandage on the roll', { symbol: 'l', possible: [mm(1), mm(200_000)] }),
    core: length('diameter of the core; 0 where there is none', { symbol: 'd', possible: [mm(0), mm(300)] }),
    thickness: length('thickness of one turn on the roll', { symbol: 't', possible: [mm(0.02), mm(20)] }),
  },
  rises: ['length'],
  falls: ['core', 'thickness'],
  steps: { outer: length('outer diameter of the roll', { symbol: 'D' }) },
  output: amount('number of turns', { symbol: 'n' }),
  sources: ['derivation.wound-roll', 'peterson-2003-roll'],
  compute: ({ length, core, thickness }, _, step) => {
    const outer = step('outer', Math.sqrt(core * core + (4 * length * thickness) / Math.PI));
    return (2 * length) / (Math.PI * (outer + core));
  },
});
