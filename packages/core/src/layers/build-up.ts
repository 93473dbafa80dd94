import { formula } from '../formula.ts';
import { count, group, length, share } from '../measure.ts';
import { mm, ratio } from '../quantity.ts';
import { girth } from '../segment/girth.ts';

/**
 * Thickness of layers on a limb, and the girth over them.
 *
 * @throws InputError when there are no layers, or one is thicker than any bandage
 * @example
 * buildUp({ girth: cm(25), layers: 4, thickness: mm(0.5), compression: percent(0) }).value.outerGirth // 262.56… mm
 */
export const buildUp = /* @__PURE__ */ formula({
  id: 'layers.build-up',
  revision: 1,
  basis: 'identity',
  inputs: {
    girth,
    layers: count('number of layers', { symbol: 'n', possible: [1, 60] }),
    thickness: length('thickness of one layer before it is pressed', {
      symbol: 't',
      possible: [mm(0.05), mm(20)],
    }),
    compression: share('share of the thickness that pressing takes away', {
      symbol: 'c',
      possible: [ratio(0), ratio(0.9)],
    }),
  },
  output: group({
    thickness: length('thickness of all layers', { symbol: 'h' }),
    outerGirth: length('girth over the layers', { symbol: 'C_o' }),
  }),
  sources: ['derivation.layers-on-a-circle'],
  compute: ({ girth, layers, thickness, compression }) => {
    const built = layers * thickness * (1 - compression);
    return { thickness: built, outerGirth: girth + 2 * Math.PI * built };
  },
});
