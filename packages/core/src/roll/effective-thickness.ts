import { formula } from '../formula.ts';
import { length } from '../measure.ts';
import { mm } from '../quantity.ts';

/**
 * Thickness of one turn as it lies on the roll, from a roll whose length is known.
 *
 * It is the thickness with which the other formulas of a roll agree with that roll: pressed as it is wound, with the air
 * between the turns. A calliper on a loose piece gives another.
 *
 * @throws InputError when the roll is no wider than its core
 * @example
 * effectiveThickness({ outer: mm(51), core: mm(20), length: metres(2.7) }).value // 0.640… mm
 */
export const effectiveThickness = /* @__PURE__ */ formula({
  id: 'roll.effective-thickness',
  revision: 1,
  basis: 'identity',
  inputs: {
    outer: length('outer diameter of the roll', { symbol: 'D', possible: [mm(1), mm(1000)] }),
    core: length('diameter of the core; 0 where there is none', { symbol: 'd', possible: [mm(0), mm(300)] }),
    length: length('length of bandage on the roll', { symbol: 'l', possible: [mm(100), mm(200_000)] }),
  },
  joint: [
    {
      input: 'core',
      possible: 'a core narrower than the roll',
      breach: ({ outer, core }) => (core < outer ? undefined : `core ${core} mm in a roll of ${outer} mm`),
    },
  ],
  rises: ['outer'],
  falls: ['core', 'length'],
  output: length('thickness of one turn on the roll', { symbol: 't' }),
  sources: ['derivation.wound-roll', 'peterson-2003-roll'],
  compute: ({ outer, core, length }) => (Math.PI * (outer * outer - core * core)) / (4 * length),
});
