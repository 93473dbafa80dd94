import { formula } from '../formula.ts';
import { area, count, group, length } from '../measure.ts';
import { mm } from '../quantity.ts';

/**
 * Area of fabric in a slab whose ends are cut round, each with a radius of its own, and what is cut away.
 *
 * @throws InputError when an end is rounded by more than half the width, or both together by more than the length
 * @example
 * roundedEnds({ plies: 10, width: mm(100), length: mm(300), proximal: mm(20), distal: mm(50) }).value.waste // 12446.9… mm²
 */
export const roundedEnds = /* @__PURE__ */ formula({
  id: 'layers.rounded-ends',
  revision: 1,
  basis: 'identity',
  inputs: {
    plies: count('number of plies', { symbol: 'n', possible: [1, 60] }),
    width: length('width of a ply', { symbol: 'b', possible: [mm(5), mm(500)] }),
    length: length('length of a ply, over the rounded ends', { symbol: 'l', possible: [mm(5), mm(5000)] }),
    proximal: length('radius of the two corners of the proximal end; 0 where it stays square', {
      symbol: 'r_p',
      possible: [mm(0), mm(250)],
    }),
    distal: length('radius of the two corners of the distal end; 0 where it stays square', {
      symbol: 'r_d',
      possible: [mm(0), mm(250)],
    }),
  },
  joint: [
    {
      input: 'proximal',
      possible: 'a proximal radius of up to half the width',
      breach: ({ width, proximal }) =>
        2 * proximal <= width ? undefined : `${proximal} mm on a width of ${width} mm`,
    },
    {
      input: 'distal',
      possible: 'a distal radius of up to half the width',
      breach: ({ width, distal }) =>
        2 * distal <= width ? undefined : `${distal} mm on a width of ${width} mm`,
    },
    {
      input: 'length',
      possible: 'a length no less than both radii together',
      breach: ({ length, proximal, distal }) =>
        proximal + distal <= length ? undefined : `${length} mm for radii of ${proximal} and ${distal} mm`,
    },
  ],
  output: group({
    ply: area('area of one ply', { symbol: 'A_1' }),
    kept: area('area of all plies', { symbol: 'A' }),
    waste: area('area cut away from all plies', { symbol: 'W' }),
  }),
  symmetric: [
    ['proximal', 'distal'],
    ['width', 'length'],
  ],
  sources: ['derivation.rounded-rectangle', 'had2know-rounded', 'marecek-2020-prealgebra'],
  compute: ({ plies, width, length, proximal, distal }) => {
    const offPly = (2 - Math.PI / 2) * (proximal * proximal + distal * distal);
    const ply = width * length - offPly;
    return { ply, kept: plies * ply, waste: plies * offPly };
  },
});
