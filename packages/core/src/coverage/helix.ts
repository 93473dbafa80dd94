import { formula } from '../formula.ts';
import { amount, angle, count, group, length, share } from '../measure.ts';
import { wholeDown, wholeUp } from '../quantity.ts';
import { girth } from '../segment/girth.ts';
import { overlap, width } from './bandage.ts';

const degreesPerRadian = 180 / Math.PI;

/**
 * Advance, angle, length and layers of a bandage wound round a cylinder at a chosen overlap.
 *
 * The overlap is measured square to the bandage's edge. Half-width overlap gives two layers everywhere; less, and some of
 * the surface has one.
 *
 * @throws InputError when the turns would lie farther apart than the limb is round
 * @example
 * helix({ girth: cm(20), width: cm(7.5), overlap: percent(50) }).value.advance // 38.177… mm
 */
export const helix = /* @__PURE__ */ formula({
  id: 'coverage.helix',
  revision: 1,
  basis: 'identity',
  inputs: { girth, width, overlap },
  joint: [
    {
      input: 'overlap',
      possible: 'turns closer together than the limb is round',
      breach: ({ girth, width, overlap }) =>
        width * (1 - overlap) < girth
          ? undefined
          : `turns ${width * (1 - overlap)} mm apart round ${girth} mm`,
    },
  ],
  steps: {
    spacing: length('distance between turns, square to the edge', { symbol: 'q' }),
    sine: amount('sine of the lead angle', { symbol: '\\sin\\alpha' }),
  },
  output: group({
    advance: length('advance along the limb per turn', { symbol: 'p' }),
    leadAngle: angle('lead angle, from the circumference', { symbol: '\\alpha' }),
    turnLength: length('length of bandage per turn', { symbol: 'l' }),
    mean: amount('layers, averaged over the surface', { symbol: '\\bar n' }),
    least: count('fewest layers anywhere', { symbol: 'n_{\\mathrm{min}}' }),
    most: count('most layers anywhere', { symbol: 'n_{\\mathrm{max}}' }),
    shareOfMost: share('share of the surface that has the most layers'),
    gap: length('width of the uncovered stripe, along the limb; 0 where there is none', { symbol: 'g' }),
  }),
  sources: ['derivation.unrolled-helix'],
  compute: ({ girth, width, overlap }, _, step) => {
    const spacing = step('spacing', width * (1 - overlap));
    const sine = step('sine', spacing / girth);
    const cosine = Math.sqrt(1 - sine * sine);
    const advance = spacing / cosine;
    const mean = 1 / (1 - overlap);
    const least = wholeDown(mean);
    const most = wholeUp(mean);
    return {
      advance,
      leadAngle: Math.asin(sine) * degreesPerRadian,
      turnLength: girth / cosine,
      mean,
      least,
      most,
      shareOfMost: most === least ? 1 : mean - least,
      gap: Math.max(0, advance - width / cosine),
    };
  },
});
