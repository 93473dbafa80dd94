import { formula } from '../formula.ts';
import { amount, area, group, length, secondMoment, share } from '../measure.ts';
import { mm, ratio } from '../quantity.ts';
import { girth } from '../segment/girth.ts';

/**
 * Second moment of area of a slab bent round a limb, from a shallow gutter to the full tube of a cast, beside the same slab
 * laid flat.
 *
 * It is taken about the axis through the centroid that lies across the open side, for bending along the limb. Times the
 * material's modulus in bending it is the stiffness.
 *
 * @throws InputError when the share is past the whole way round
 * @example
 * curvedSlab({ girth: cm(19), share: percent(50), thickness: mm(4) }).value.ratio // 74.5… times the flat slab
 */
export const curvedSlab = /* @__PURE__ */ formula({
  id: 'layers.curved-slab',
  revision: 1,
  basis: 'identity',
  inputs: {
    girth,
    share: share('share of the way round that the slab covers', {
      symbol: 'k',
      possible: [ratio(0.03), ratio(1)],
    }),
    thickness: length('thickness of the slab, its layers bonded', {
      symbol: 'h',
      possible: [mm(0.2), mm(60)],
    }),
  },
  steps: {
    radius: length('radius to the middle of the slab', { symbol: 'R' }),
    halfAngle: amount('half the angle that the slab covers, in radians', { symbol: '\\alpha' }),
    section: area('area of the cross-section', { symbol: 'A' }),
    square: amount('mean square of the cosine over the slab', { symbol: 'M' }),
    spread: amount('that mean less the square of the mean cosine', { symbol: 'V' }),
  },
  output: group({
    secondMoment: secondMoment('second moment of area of the curved slab', { symbol: 'I' }),
    flat: secondMoment('second moment of area of the same slab laid flat', { symbol: 'I_0' }),
    ratio: amount('times stiffer curved than flat', { symbol: 'r' }),
  }),
  sources: ['derivation.ring-sector', 'mott-pipe-table'],
  compute: ({ girth, share, thickness }, _, step) => {
    const radius = step('radius', girth / (2 * Math.PI) + thickness / 2);
    const halfAngle = step('halfAngle', Math.PI * share);
    const section = step('section', 2 * halfAngle * radius * thickness);
    const sine = Math.sin(halfAngle) / halfAngle;
    const square = step('square', (1 + sine * Math.cos(halfAngle)) / 2);
    const spread = step('spread', square - sine * sine);
    // Distances from the axis are r cos(angle): the spread of a product, so that no two large numbers are subtracted.
    const bulge = (thickness * thickness) / (12 * radius);
    const mean = radius + bulge;
    const secondMoment = section * (mean * mean * spread + (radius - bulge) * bulge * square);
    const flat = (section * thickness * thickness) / 12;
    return { secondMoment, flat, ratio: secondMoment / flat };
  },
});
