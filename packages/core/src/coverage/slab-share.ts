import type { Caution } from '../caution.ts';
import { formula } from '../formula.ts';
import { group, share } from '../measure.ts';
import { frusta } from '../segment/frustum.ts';
import { outOfOrder, stations } from '../segment/profile.ts';
import { width } from './bandage.ts';

/**
 * Share of the girth that a slab of one width covers along a limb: most where the limb is thin, least where it is thick.
 *
 * @throws InputError when the stations are out of order
 * @example
 * slabShare({ stations: [{ at: cm(0), girth: cm(16) }, { at: cm(20), girth: cm(24) }], width: cm(10) }).value.mean // 0.5
 */
export const slabShare = /* @__PURE__ */ formula({
  id: 'coverage.slab-share',
  revision: 1,
  basis: 'identity',
  inputs: { stations, width },
  joint: [
    {
      input: 'stations',
      possible: 'each station farther along the limb than the one before',
      breach: (i) => outOfOrder(i.stations),
    },
  ],
  constants: {
    bowl: {
      printed: '66.7',
      unit: '%',
      symbol: 'k',
      says: 'share of the girth above which a slab is no longer a shallow bowl',
      source: 'rphc-2019-slabs',
      at: 'first part: two thirds, told here to 0.1 %',
      status: 'read',
    },
  },
  output: group({
    mean: share('share of the mean girth', { symbol: '\\bar k' }),
    atNarrowest: share('share where the limb is thinnest', { symbol: 'k_{\\mathrm{max}}' }),
    atWidest: share('share where the limb is thickest', { symbol: 'k_{\\mathrm{min}}' }),
  }),
  sources: ['derivation.frustum', 'rphc-2019-slabs'],
  compute: ({ stations, width }) => {
    const girths = stations.map((s) => s.girth);
    const { girthByLength, length } = frusta(stations);
    return {
      mean: (width * length) / girthByLength,
      atNarrowest: width / Math.min(...girths),
      atWidest: width / Math.max(...girths),
    };
  },
  cautions: (_, { atNarrowest }, { bowl }): readonly Caution[] =>
    atNarrowest > bowl
      ? [
          {
            code: 'slab-covers-too-much',
            level: 'warning',
            says: 'The slab covers more of the girth than a shallow bowl: it leaves no room for swelling and may meet itself.',
            because: `${Number((atNarrowest * 100).toPrecision(3))} % of the girth where the limb is thinnest, at most ${Number((bowl * 100).toPrecision(3))} % published`,
            sources: ['rphc-2019-slabs'],
          },
        ]
      : [],
});
