import { cm, degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const volarSlab: Immobilisation<'volar-slab'> = {
  id: 'volar-slab',
  name: 'Volar forearm slab',
  kind: 'slab',
  limb: 'arm',
  from: {
    used: place('distal palmar crease'),
    because: 'a manual says so and a wiki that cites the family-physician review agrees',
    published: [
      {
        value: place('distal palmar crease'),
        source: 'habrat-2024-volar',
        status: 'read',
        note: 'at the MCP joints',
      },
      { value: place('metacarpal heads'), source: 'baecher-2022-volar', at: 'technique', status: 'read' },
      {
        value: place('distal palmar crease'),
        source: 'wikem-volar',
        status: 'read-secondary',
        note: 'the page cites Boyd 2009, Methods',
      },
    ],
  },
  to: {
    used: place('mid forearm'),
    because: 'a manual says so and a wiki that cites the family-physician review agrees',
    published: [
      { value: place('mid forearm'), source: 'habrat-2024-volar', status: 'read' },
      {
        value: place('proximal third of the forearm'),
        source: 'baecher-2022-volar',
        at: 'technique',
        status: 'read',
      },
      {
        value: place('mid forearm'),
        source: 'wikem-volar',
        status: 'read-secondary',
        note: 'the page cites Boyd 2009, Methods',
      },
    ],
  },
  path: 'along the palm side of the hand, wrist and forearm',
  free: [
    { value: 'the knuckles (MCP joints), which still bend', source: 'habrat-2024-volar', status: 'read' },
    { value: 'the elbow', source: 'habrat-2024-volar', status: 'read' },
  ],
  joints: {
    'wrist extension': {
      used: [degrees(10), degrees(20)],
      because: 'from a manual; the other value lies at its end',
      published: [
        { value: [degrees(10), degrees(20)], source: 'habrat-2024-volar', status: 'read' },
        {
          value: [degrees(20), degrees(20)],
          source: 'wikem-volar',
          status: 'read-secondary',
          note: 'about 20; the page cites Boyd 2009, Methods',
        },
      ],
    },
  },
  posture: [],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: [
    { value: [cm(7.5), cm(10)], source: 'habrat-2024-volar', status: 'read' },
    { value: [inch(3), inch(4)], source: 'baecher-2022-volar', at: 'equipment', status: 'read' },
  ],
  layers: {
    plaster: {
      used: [8, 10],
      because: 'given for this type by a procedure text',
      published: general.upperLimbSlab.published,
    },
    fibreglass: general.fibreglassSlab,
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [general.prominence('ulnar styloid'), general.prominence('base of the thumb')],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: [{ value: [cm(7.5), cm(7.5)], source: 'habrat-2024-volar', status: 'read' }],
  },
  notes: [
    { value: 'does not stop rotation of the forearm', source: 'habrat-2024-volar', status: 'read' },
    { value: 'does not stop rotation of the forearm', source: 'wikem-volar', status: 'read' },
    {
      value: 'a ridged slab of 8 layers outdid a flat one of 10',
      source: 'volar-splints-construction',
      status: 'abstract-only',
    },
    ...general.slabNotes,
  ],
};
