import { formula } from '../formula.ts';
import { amount, count, group, length, list, modulus, rigidity } from '../measure.ts';
import { megapascals, mm } from '../quantity.ts';

/**
 * Bending stiffness of a flat slab of layers, alike or mixed: of layers that hold together, and of layers that slide.
 *
 * A real slab lies between the two. No stiffness and no thickness of a ply is assumed: none that was published could be
 * read, so both are measured on the material at hand.
 *
 * @throws InputError when there is no layer, or one is of no material that there is
 * @example
 * slabStiffness({ width: mm(75), layers: [{ plies: 8, thickness: mm(0.5), modulus: megapascals(1) }] }).value.bonded // 400
 */
export const slabStiffness = /* @__PURE__ */ formula({
  id: 'layers.slab-stiffness',
  revision: 1,
  basis: 'identity',
  inputs: {
    width: length('width of the slab', { symbol: 'b', possible: [mm(5), mm(500)] }),
    layers: list(
      group({
        plies: count('number of like plies that follow each other', { symbol: 'n', possible: [1, 60] }),
        thickness: length('thickness of one ply', { symbol: 't', possible: [mm(0.05), mm(20)] }),
        modulus: modulus('modulus in bending', {
          symbol: 'E',
          possible: [megapascals(0.001), megapascals(1_000_000)],
        }),
      }),
      [1, 20],
    ),
  },
  output: group({
    bonded: rigidity('EI of layers that hold together', { symbol: 'D_{\\mathrm{b}}' }),
    unbonded: rigidity('EI of layers that slide on each other', { symbol: 'D_{\\mathrm{u}}' }),
    ratio: amount('times stiffer bonded than unbonded', { symbol: 'r' }),
    thickness: length('thickness of the slab', { symbol: 'h' }),
    axis: length('neutral axis of the bonded slab, from the face of the first layer', { symbol: '\\bar z' }),
    middles: list(
      length('middle of each run of like plies, from the face of the first layer', { symbol: 'z' }),
      [1, 20],
    ),
  }),
  sources: ['derivation.layered-section', 'mathalino-built-up', 'ugural-2019-composite'],
  compute: ({ width, layers }) => {
    let thickness = 0;
    const runs = layers.map(({ plies, thickness: ply, modulus }) => {
      const deep = plies * ply;
      thickness += deep;
      return { plies, ply, modulus, deep, middle: thickness - deep / 2 };
    });
    const sum = (of: (run: (typeof runs)[number]) => number): number =>
      runs.reduce((total, run) => total + of(run), 0);
    const axis = sum((r) => r.modulus * r.deep * r.middle) / sum((r) => r.modulus * r.deep);
    const bonded =
      width *
      sum((r) => r.modulus * r.deep * ((r.deep * r.deep) / 12 + (r.middle - axis) * (r.middle - axis)));
    const unbonded = (width * sum((r) => r.modulus * r.plies * r.ply * r.ply * r.ply)) / 12;
    return {
      bonded,
      unbonded,
      ratio: bonded / unbonded,
      thickness,
      axis,
      middles: runs.map(({ middle }) => middle),
    };
  },
});
