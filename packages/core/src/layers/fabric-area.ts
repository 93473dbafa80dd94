import { formula } from '../formula.ts';
import { area, count, group, length } from '../measure.ts';
import { mm } from '../quantity.ts';

/**
 * Area of fabric in a slab of plies cut to one size, as it comes off the roll and with its four corners rounded.
 *
 * @throws InputError when the corners are rounded by more than half the width or length
 * @example
 * fabricArea({ plies: 10, width: mm(100), length: mm(300), corner: mm(20) }).value.kept // 296566.3… mm²
 */
export const fabricArea = /* @__PURE__ */ formula({
  id: 'layers.fabric-area',
  revision: 1,
  basis: 'identity',
  inputs: {
    plies: count('number of plies', { symbol: 'n', possible: [1, 60] }),
    width: length('width of a ply', { symbol: 'b', possible: [mm(5), mm(500)] }),
    length: length('length of a ply', { symbol: 'l', possible: [mm(5), mm(5000)] }),
    corner: length('radius to which the corners are rounded; 0 where they stay square', {
      symbol: 'r',
      possible: [mm(0), mm(250)],
    }),
  },
  joint: [
    {
      input: 'corner',
      possible: 'up to half the width and half the length',
      breach: ({ width, length, corner }) =>
        2 * corner <= Math.min(width, length) ? undefined : `${corner} mm on ${width} by ${length} mm`,
    },
  ],
  output: group({
    cut: area('area as it comes off the roll', { symbol: 'A_0' }),
    kept: area('area left once the corners are rounded', { symbol: 'A' }),
  }),
  symmetric: [['width', 'length']],
  sources: ['derivation.rounded-rectangle', 'had2know-rounded'],
  compute: ({ plies, width, length, corner }) => ({
    cut: plies * width * length,
    kept: plies * (width * length - (4 - Math.PI) * corner * corner),
  }),
});
