import { cm, degrees } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const forearmSugarTong: Immobilisation<'forearm-sugar-tong'> = {
  id: 'forearm-sugar-tong',
  name: 'Forearm sugar-tong slab',
  kind: 'slab',
  limb: 'arm',
  from: {
    used: place('metacarpal heads'),
    because: 'the text that names the joint; the other names only the palm',
    published: [
      {
        value: place('metacarpal heads'),
        source: 'habrat-2024-sugartong',
        status: 'read',
        note: 'just proximal to the MCP joints; no distance given',
      },
      {
        value: place('distal palmar crease'),
        source: 'meals-2023-sugartong',
        at: 'technique',
        status: 'read',
        note: 'the palm; no crease named',
      },
    ],
  },
  to: {
    used: place('knuckles'),
    because: 'both texts agree',
    published: [
      {
        value: place('knuckles'),
        source: 'habrat-2024-sugartong',
        status: 'read',
        note: 'back to the MCP joints',
      },
      {
        value: place('knuckles'),
        source: 'meals-2023-sugartong',
        at: 'technique',
        status: 'read',
        note: 'the back of the hand to the base of the fingers',
      },
    ],
  },
  path: 'along the palm side of the forearm, round the bent elbow, and along its back to the hand',
  free: [
    { value: 'the fingers, which still bend', source: 'habrat-2024-sugartong', status: 'read' },
    { value: 'the shoulder', source: 'habrat-2024-sugartong', status: 'read' },
  ],
  joints: {
    'elbow flexion': {
      used: [degrees(90), degrees(90)],
      because: 'both texts agree',
      published: [
        { value: [degrees(90), degrees(90)], source: 'habrat-2024-sugartong', status: 'read' },
        {
          value: [degrees(90), degrees(90)],
          source: 'meals-2023-sugartong',
          at: 'technique',
          status: 'read',
        },
      ],
    },
    'wrist extension': {
      used: [degrees(10), degrees(20)],
      because: 'the only range read for this type',
      published: [{ value: [degrees(10), degrees(20)], source: 'habrat-2024-sugartong', status: 'read' }],
    },
  },
  posture: [],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: [
    { value: [cm(7.5), cm(10)], source: 'habrat-2024-sugartong', status: 'read' },
    { value: [cm(10), cm(10)], source: 'meals-2023-sugartong', at: 'periprocedure', status: 'read' },
  ],
  layers: {
    plaster: {
      used: [10, 10],
      because: 'the only number read for this type; it lies within the general 8 to 10',
      published: [
        { value: [10, 10], source: 'meals-2023-sugartong', at: 'periprocedure', status: 'read' },
        ...general.upperLimbSlab.published,
      ],
    },
    fibreglass: general.fibreglassSlab,
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [
      general.prominence('ulnar styloid'),
      general.prominence('olecranon'),
      general.prominence('epicondyles'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: [{ value: [cm(7.5), cm(7.5)], source: 'habrat-2024-sugartong', status: 'read' }],
  },
  notes: [
    {
      value: 'padding goes up to the middle of the upper arm',
      source: 'habrat-2024-sugartong',
      status: 'read',
    },
    {
      value:
        'padding may be four sheets, each 5 cm longer than the slab: two side by side, the third on their seam, the fourth on the third; 1 or 2 turns besides at wrist and elbow',
      source: 'meals-2023-sugartong',
      at: 'technique',
      status: 'read',
    },
    ...general.slabNotes,
  ],
};
