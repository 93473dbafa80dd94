import { formula } from '../formula.ts';
import { area, arealMass, group, mass, share } from '../measure.ts';
import { gramsPerSquareMetre, ratio, squareMetres, tell } from '../quantity.ts';

/**
 * Mass of the fabric in a splint or cast: as it comes off the roll, wet when it is laid on, and dry.
 *
 * Set plaster never gives back all its water: part of it is bound in the crystal.
 *
 * @throws InputError when more water is bound than was taken up
 * @example
 * castMass({ area: squareMetres(0.5), arealMass: gramsPerSquareMetre(400), water: percent(70), bound: percent(15) }).value.wet // 340 g
 */
export const castMass = /* @__PURE__ */ formula({
  id: 'layers.cast-mass',
  revision: 1,
  basis: 'identity',
  inputs: {
    area: area('area of all the fabric, ply by ply', {
      symbol: 'A',
      possible: [squareMetres(0), squareMetres(20)],
    }),
    arealMass: arealMass('mass of a square metre of the dry fabric, with what is spread on it', {
      symbol: '\\mu',
      possible: [gramsPerSquareMetre(1), gramsPerSquareMetre(3000)],
    }),
    water: share('mass of water held when it is laid on, to the mass of the dry fabric', {
      symbol: 'w',
      possible: [ratio(0), ratio(5)],
    }),
    bound: share('mass of water that stays for good, to the mass of the dry fabric', {
      symbol: 'w_b',
      possible: [ratio(0), ratio(1)],
    }),
  },
  joint: [
    {
      input: 'bound',
      possible: 'no more than the water taken up',
      breach: ({ water, bound }) => (bound <= water ? undefined : `${bound} bound of ${water}`),
    },
  ],
  output: group({
    fabric: mass('mass off the roll', { symbol: 'm' }),
    wet: mass('mass when laid on', { symbol: 'm_w' }),
    dry: mass('mass once dry', { symbol: 'm_d' }),
  }),
  sources: ['derivation.mass-of-layers', 'thinkmetric-paper'],
  compute: ({ area, arealMass, water, bound }) => {
    const fabric = arealMass * tell(area, 'm2');
    return { fabric, wet: fabric * (1 + water), dry: fabric * (1 + bound) };
  },
});
