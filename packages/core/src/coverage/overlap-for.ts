import { formula } from '../formula.ts';
import { angle, count, group, length, share } from '../measure.ts';
import { wholeUp } from '../quantity.ts';
import { girth } from '../segment/girth.ts';
import { width } from './bandage.ts';

const degreesPerRadian = 180 / Math.PI;
/** An overlap of 95 %: nobody lays turns closer. */
const mostPerPass = 20;

/**
 * Overlap at which a number of passes leaves at least the layers wanted everywhere.
 *
 * Only whole layers can be counted on, so each pass is laid for a whole number of them, rounded up. Passes that are laid
 * alike may give a layer or more beyond what was wanted: `surplus`.
 *
 * @throws InputError when a pass would need more than 20 layers, or its turns would lie farther apart than the limb is round
 * @example
 * overlapFor({ wanted: 8, passes: 4, girth: cm(20), width: cm(10) }).value.overlap // 0.5
 */
export const overlapFor = /* @__PURE__ */ formula({
  id: 'coverage.overlap-for',
  revision: 1,
  basis: 'identity',
  inputs: {
    wanted: count('layers wanted, everywhere at least', { symbol: 'n_w', possible: [1, 60] }),
    passes: count('passes, up or down', { symbol: 'k', possible: [1, 12] }),
    girth,
    width,
  },
  joint: [
    {
      input: 'passes',
      possible: `enough for at most ${mostPerPass} layers in each`,
      breach: ({ wanted, passes }) =>
        wholeUp(wanted / passes) <= mostPerPass ? undefined : `${passes} for ${wanted} layers`,
    },
    {
      input: 'width',
      possible: 'turns closer together than the limb is round',
      breach: ({ wanted, passes, girth, width }) => {
        const spacing = width / wholeUp(wanted / passes);
        return spacing < girth ? undefined : `turns ${spacing} mm apart round ${girth} mm`;
      },
    },
  ],
  output: group({
    perPass: count('layers that each pass leaves', { symbol: 'n' }),
    overlap: share('overlap of each turn on the last, as a share of the width', { symbol: 'f' }),
    spacing: length('distance between turns, square to the edge', { symbol: 'q' }),
    leadAngle: angle('lead angle, from the circumference', { symbol: '\\alpha' }),
    advance: length('advance along the limb per turn', { symbol: 'p' }),
    layers: count('layers after all passes', { symbol: 'N' }),
    surplus: count('layers beyond those wanted', { symbol: 'u' }),
  }),
  sources: ['derivation.unrolled-helix'],
  compute: ({ wanted, passes, girth, width }) => {
    const perPass = wholeUp(wanted / passes);
    const spacing = width / perPass;
    const sine = spacing / girth;
    return {
      perPass,
      overlap: (perPass - 1) / perPass,
      spacing,
      leadAngle: Math.asin(sine) * degreesPerRadian,
      advance: spacing / Math.sqrt(1 - sine * sine),
      layers: perPass * passes,
      surplus: perPass * passes - wanted,
    };
  },
});
