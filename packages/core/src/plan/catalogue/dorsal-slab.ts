import { cm, degrees, mm } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const dorsalSlab: Immobilisation<'dorsal-slab'> = {
  id: 'dorsal-slab',
  name: 'Dorsal forearm slab',
  kind: 'slab',
  limb: 'arm',
  from: {
    used: place('knuckles'),
    because: 'the page read on this type; the palm stays clear',
    published: [
      { value: place('knuckles'), source: 'medicowesome-2021-slab', status: 'read' },
      {
        value: place('distal palmar crease'),
        source: 'wikem-volar',
        status: 'read-secondary',
        note: 'volar or dorsal slab, to the level of the crease; the page cites Boyd 2009, Methods',
      },
    ],
  },
  to: {
    used: place('olecranon', mm(-50)),
    because: 'the page read on this type',
    published: [
      {
        value: place('olecranon', mm(-50)),
        source: 'medicowesome-2021-slab',
        status: 'read',
        note: 'about 5 cm',
      },
      {
        value: place('mid forearm'),
        source: 'wikem-volar',
        status: 'read-secondary',
        note: 'volar or dorsal slab; the page cites Boyd 2009, Methods',
      },
    ],
  },
  path: 'along the back of the hand, wrist and forearm',
  free: [
    { value: 'the palm crease', source: 'medicowesome-2021-slab', status: 'read' },
    { value: 'the knuckles (MCP joints)', source: 'medicowesome-2021-slab', status: 'read' },
  ],
  joints: {
    'wrist extension': {
      used: [degrees(25), degrees(25)],
      because: 'the page read on this type; it is also that of the position of function',
      published: [
        { value: [degrees(25), degrees(25)], source: 'medicowesome-2021-slab', status: 'read' },
        {
          value: [degrees(20), degrees(20)],
          source: 'wikem-volar',
          status: 'read-secondary',
          note: 'about 20, volar or dorsal slab; the page cites Boyd 2009, Methods',
        },
      ],
    },
    'elbow flexion': {
      used: [degrees(90), degrees(90)],
      because: 'the only value read',
      published: [{ value: [degrees(90), degrees(90)], source: 'medicowesome-2021-slab', status: 'read' }],
    },
  },
  posture: [],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: [
    {
      value: [cm(7.5), cm(10)],
      source: 'uk-mod-2025-plaster',
      at: 'materials',
      status: 'read',
      note: '7.5 or 10 cm',
    },
    { value: [cm(15), cm(15)], source: 'medicowesome-2021-slab', status: 'read' },
    { value: [cm(15), cm(15)], source: 'otmanage-2017-slab', status: 'read' },
  ],
  layers: {
    plaster: {
      used: [6, 8],
      because: 'a government guideline for forearm backslabs and the page on this type agree',
      published: [
        { value: [6, 8], source: 'medicowesome-2021-slab', status: 'read' },
        ...general.upperLimbSlab.published,
      ],
    },
    fibreglass: general.fibreglassSlab,
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [general.prominence('ulnar styloid')],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: general.armPaddingWidths,
  },
  notes: [
    {
      value: 'cut to the way from the tip of the olecranon to the knuckles, and 5 cm more',
      source: 'otmanage-2017-slab',
      status: 'read',
    },
    { value: 'does not stop rotation of the forearm', source: 'wikem-volar', status: 'read' },
    ...general.slabNotes,
  ],
};
