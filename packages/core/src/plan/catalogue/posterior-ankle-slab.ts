import { cm, degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const posteriorAnkleSlab: Immobilisation<'posterior-ankle-slab'> = {
  id: 'posterior-ankle-slab',
  name: 'Posterior ankle slab',
  kind: 'slab',
  limb: 'leg',
  from: {
    used: place('metatarsal heads'),
    because: 'the texts agree; one of the wikis goes on to the great toe',
    published: [
      { value: place('metatarsal heads'), source: 'msd-2025-ankle', status: 'read' },
      {
        value: place('metatarsal heads'),
        source: 'wikem-ankle',
        status: 'read',
        note: 'or the great toe: here and on the WikiSM page, which of them says which was not kept',
      },
    ],
  },
  to: {
    used: place('fibular head', inch(-2)),
    because: 'the peer-reviewed table gives a distance, which keeps clear of the common peroneal nerve',
    published: [
      { value: place('fibular head', inch(-2)), source: 'boyd-2009-methods', at: 'table', status: 'read' },
      {
        value: place('fibular head'),
        source: 'msd-2025-ankle',
        status: 'read',
        note: 'just below; no distance given',
      },
    ],
  },
  path: 'along the sole, round the heel and up the back of the calf',
  free: [
    { value: 'the toes', source: 'msd-2025-ankle', status: 'read' },
    { value: 'the fibular head', source: 'msd-2025-ankle', status: 'read' },
    {
      value: 'the common peroneal nerve',
      source: 'wikem-ankle',
      status: 'read',
      note: 'here, on the WikiSM page or in Boyd 2009, Methods; which of them was not kept',
    },
  ],
  joints: {
    'ankle, foot to shin': {
      used: [degrees(90), degrees(90)],
      because: 'the texts agree',
      published: [
        { value: [degrees(90), degrees(90)], source: 'msd-2025-ankle', status: 'read' },
        {
          value: [degrees(90), degrees(90)],
          source: 'wikem-ankle',
          status: 'read',
          note: 'pointed down for a torn Achilles tendon: here, on the WikiSM page or in Boyd 2009, Methods; which of them says so was not kept',
        },
      ],
    },
  },
  posture: [{ value: 'a bent knee helps to bring the foot up', source: 'msd-2025-ankle', status: 'read' }],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: [
    {
      value: [cm(10), cm(15)],
      source: 'uk-mod-2025-plaster',
      at: 'materials',
      status: 'read',
      note: 'below-knee backslab, 10 or 15 cm',
    },
    ...general.legWidths,
  ],
  layers: {
    plaster: {
      used: [10, 12],
      because:
        'a government guideline for below-knee backslabs; it lies between the 8 to 10 of a manual and the 12 to 15 of the wikis',
      published: [
        { value: [12, 15], source: 'wikem-ankle', at: 'older revision', status: 'read' },
        ...general.lowerLimbSlab.published,
      ],
    },
    fibreglass: general.fibreglassSlab,
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [
      general.prominence('heel'),
      general.prominence('both malleoli'),
      general.prominence('fibular head'),
      general.prominence('Achilles tendon'),
    ],
    extra: {
      ...general.standIn(general.extraPadding, 'bony prominences'),
      published: [
        ...general.extraPadding.published,
        {
          value: [2, 2],
          source: 'society-video-leg',
          status: 'read',
          note: 'a strip under the heel like a stirrup',
        },
        { value: [3, 3], source: 'society-video-leg', status: 'read', note: 'a strip behind the heel' },
      ],
    },
    widths: general.legPaddingWidths,
  },
  notes: [
    {
      value: 'padding is torn across on the wider, proximal side so that it lies flat and cannot tighten',
      source: 'msd-2025-ankle',
      at: 'step 4',
      status: 'read',
    },
    ...general.slabNotes,
  ],
};
