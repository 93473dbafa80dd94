import { formula } from '../formula.ts';
import { amount, length } from '../measure.ts';
import { mm } from '../quantity.ts';
import { girth } from '../segment/girth.ts';

/**
 * Length of strip that helical turns use on a cylinder.
 *
 * @throws InputError when a length is past what a limb or a bandage can be
 * @example
 * stripLength({ girth: cm(16.5), advance: inch(1.5), turns: 6 }).value // 1016.05… mm
 */
export const stripLength = /* @__PURE__ */ formula({
  id: 'coverage.strip-length',
  revision: 1,
  basis: 'identity',
  inputs: {
    girth,
    advance: length('advance along the limb per turn', { symbol: 'p', possible: [mm(1), mm(300)] }),
    turns: amount('number of turns', { symbol: 'n', possible: [0, 200] }),
  },
  symmetric: [['girth', 'advance']],
  rises: ['girth', 'advance', 'turns'],
  output: length('length of strip', { symbol: 'l' }),
  sources: ['derivation.unrolled-helix'],
  compute: ({ girth, advance, turns }) => turns * Math.sqrt(girth * girth + advance * advance),
});
