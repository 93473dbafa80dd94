import { cm, degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const ulnarGutterSlab: Immobilisation<'ulnar-gutter-slab'> = {
  id: 'ulnar-gutter-slab',
  name: 'Ulnar gutter slab',
  kind: 'slab',
  limb: 'arm',
  from: {
    used: place('little-finger distal joint'),
    because: 'from the procedure text that also gives the layers; it leaves the nails in sight',
    published: [
      {
        value: place('mid distal phalanx of the ring and little fingers'),
        source: 'habrat-2024-ulnar',
        status: 'read',
      },
      {
        value: place('little-finger distal joint'),
        source: 'patel-2021-ulnar',
        at: 'technique',
        status: 'read',
      },
    ],
  },
  to: {
    used: place('proximal third of the forearm'),
    because: 'from the same procedure text',
    published: [
      { value: place('mid forearm'), source: 'habrat-2024-ulnar', status: 'read' },
      {
        value: place('proximal third of the forearm'),
        source: 'patel-2021-ulnar',
        at: 'technique',
        status: 'read',
      },
    ],
  },
  path: 'along the ulnar side of the ring and little fingers, hand and forearm',
  free: [
    { value: 'the thumb, index and middle fingers', source: 'habrat-2024-ulnar', status: 'read' },
    { value: 'the nails, in sight', source: 'patel-2021-ulnar', at: 'technique', status: 'read' },
  ],
  joints: {
    'wrist extension': {
      used: [degrees(10), degrees(20)],
      because: 'both texts agree',
      published: [
        { value: [degrees(10), degrees(20)], source: 'habrat-2024-ulnar', status: 'read' },
        { value: [degrees(10), degrees(20)], source: 'wikem-ulnar', status: 'read' },
      ],
    },
    'knuckle (MCP) flexion': {
      used: [degrees(70), degrees(90)],
      because: 'a peer-reviewed table and a manual agree',
      published: [
        { value: [degrees(70), degrees(90)], source: 'habrat-2024-ulnar', status: 'read' },
        { value: [degrees(70), degrees(90)], source: 'boyd-2009-methods', at: 'table', status: 'read' },
        { value: [degrees(50), degrees(50)], source: 'wikem-ulnar', status: 'read' },
        { value: [degrees(50), degrees(90)], source: 'wikem-ulnar', at: 'older revision', status: 'read' },
        { value: [degrees(50), degrees(90)], source: 'emergency-orthopaedics', status: 'read' },
      ],
    },
    'finger (IP) flexion': {
      used: [degrees(5), degrees(10)],
      because: 'from a peer-reviewed table; a manual says slight flexion, with no number',
      published: [
        { value: [degrees(5), degrees(10)], source: 'boyd-2009-methods', at: 'table', status: 'read' },
        { value: [degrees(5), degrees(10)], source: 'wikem-ulnar', status: 'read' },
        {
          value: [degrees(0), degrees(0)],
          source: 'emergency-orthopaedics',
          status: 'read',
          note: 'extended',
        },
      ],
    },
  },
  posture: [{ value: 'finger (IP) joints slightly bent', source: 'habrat-2024-ulnar', status: 'read' }],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: [
    {
      value: [cm(7.5), inch(4)],
      source: 'habrat-2024-ulnar',
      status: 'read',
      note: 'printed as 7.5 cm (4 in), which are not the same',
    },
    { value: [inch(3), inch(4)], source: 'patel-2021-ulnar', at: 'equipment', status: 'read' },
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
    prominences: [
      general.prominence('ulnar styloid'),
      general.prominence('knuckles (MCP joints)'),
      general.prominence('finger (IP) joints'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: [{ value: [cm(5), cm(5)], source: 'habrat-2024-ulnar', status: 'read' }],
  },
  notes: [
    {
      value: 'a strip of padding lies between the ring and little fingers',
      source: 'patel-2021-ulnar',
      status: 'read',
    },
    ...general.slabNotes,
  ],
};
