import { cm, degrees } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

const cites = {
  source: 'wikem-stirrup',
  status: 'read-secondary',
  note: 'the page cites Boyd 2009, Methods',
} as const;
const only = 'the only text read on this type';

export const stirrupSlab: Immobilisation<'stirrup-slab'> = {
  id: 'stirrup-slab',
  name: 'Stirrup slab (U-slab of the ankle)',
  kind: 'slab',
  limb: 'leg',
  from: {
    used: place('fibular head', cm(-4), cm(-3)),
    because: only,
    published: [{ value: place('fibular head', cm(-4), cm(-3)), ...cites }],
  },
  to: {
    used: place('fibular head', cm(-4), cm(-3)),
    because: only,
    published: [{ value: place('fibular head', cm(-4), cm(-3)), ...cites }],
  },
  path: 'down the outer side of the leg, under the sole, and up the inner side to the same height',
  free: [{ value: 'the toes', ...cites }],
  joints: {
    'ankle, foot to shin': {
      used: [degrees(90), degrees(90)],
      because: only,
      published: [{ value: [degrees(90), degrees(90)], ...cites }],
    },
  },
  posture: [],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: general.legWidths,
  layers: {
    plaster: general.standIn(general.lowerLimbSlab, 'leg slabs'),
    fibreglass: general.fibreglassSlab,
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [
      general.prominence('heel'),
      general.prominence('both malleoli'),
      general.prominence('fibular head'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: general.legPaddingWidths,
  },
  notes: [
    {
      value: 'with a posterior slab, that one first and the stirrup over it',
      source: 'wikem-stirrup',
      status: 'read',
    },
    ...general.slabNotes,
  ],
};
