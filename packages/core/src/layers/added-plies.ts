import { formula } from '../formula.ts';
import { amount, count, group } from '../measure.ts';

/**
 * How stiffness, strength and mass change when a slab of like plies gets more of them or fewer.
 *
 * These are ratios: they need no modulus, no strength and no thickness, and they say nothing of how strong a slab is.
 *
 * @throws InputError when there are no plies, or parts of one
 * @example
 * addedPlies({ before: 10, after: 12 }).value.stiffness // 1.728
 */
export const addedPlies = /* @__PURE__ */ formula({
  id: 'layers.added-plies',
  revision: 1,
  basis: 'identity',
  inputs: {
    before: count('plies before', { symbol: 'n_1', possible: [1, 60] }),
    after: count('plies after', { symbol: 'n_2', possible: [1, 60] }),
  },
  output: group({
    mass: amount(
      'times the mass; also times the stiffness and the strength of loose plies, and nearly of a thin tube',
      {
        symbol: 'q',
      },
    ),
    stiffness: amount('times the bending stiffness of a bonded flat slab', { symbol: 's' }),
    strength: amount('times the bending strength of a bonded flat slab', { symbol: 'f' }),
    bond: group({
      stiffness: amount('times stiffer than the same plies loose, afterwards', { symbol: 's_b' }),
      strength: amount('times stronger than the same plies loose, afterwards', { symbol: 'f_b' }),
    }),
  }),
  sources: ['derivation.layered-section', 'structures-workshop-strips'],
  compute: ({ before, after }) => {
    const mass = after / before;
    return {
      mass,
      stiffness: mass * mass * mass,
      strength: mass * mass,
      bond: { stiffness: after * after, strength: after },
    };
  },
});
