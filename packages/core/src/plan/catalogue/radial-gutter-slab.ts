import { degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const radialGutterSlab: Immobilisation<'radial-gutter-slab'> = {
  id: 'radial-gutter-slab',
  name: 'Radial gutter slab',
  kind: 'slab',
  limb: 'arm',
  from: {
    used: place('index-finger distal joint'),
    because: 'from a procedure text, which leaves the nails in sight',
    published: [
      {
        value: place('index-finger distal joint'),
        source: 'mccullough-2016-radial',
        at: 'technique',
        status: 'read',
      },
      {
        value: place('fingertips'),
        source: 'us-army-orthopedic',
        at: 'task 081-68B-1003',
        status: 'read',
        note: 'index and middle finger',
      },
    ],
  },
  to: {
    used: place('proximal third of the forearm'),
    because: 'from the same procedure text',
    published: [
      {
        value: place('proximal third of the forearm'),
        source: 'mccullough-2016-radial',
        at: 'technique',
        status: 'read',
      },
      {
        value: place('elbow crease', inch(-1.5), inch(-1)),
        source: 'us-army-orthopedic',
        at: 'task 081-68B-1003',
        status: 'read',
      },
    ],
  },
  path: 'along the radial side of the index and middle fingers, hand and forearm',
  free: [
    { value: 'the thumb, through a slot', source: 'mccullough-2016-radial', at: 'technique', status: 'read' },
    { value: 'the nails, in sight', source: 'mccullough-2016-radial', at: 'technique', status: 'read' },
    {
      value: 'the thumb and the other digits',
      source: 'us-army-orthopedic',
      at: 'task 081-68B-1003',
      status: 'read',
    },
  ],
  joints: {
    'wrist extension': {
      used: [degrees(15), degrees(30)],
      because: 'the only range read for this type',
      published: [
        {
          value: [degrees(15), degrees(30)],
          source: 'us-army-orthopedic',
          at: 'task 081-68B-1003',
          status: 'read',
        },
      ],
    },
    'knuckle (MCP) flexion': {
      used: [degrees(70), degrees(90)],
      because: 'both texts agree',
      published: [
        {
          value: [degrees(70), degrees(90)],
          source: 'boyd-2009-methods',
          at: 'table, gutter rows',
          status: 'read',
        },
        {
          value: [degrees(70), degrees(90)],
          source: 'us-army-orthopedic',
          at: 'task 081-68B-1003',
          status: 'read',
          note: 'flexion of the digits; the joint is not named',
        },
      ],
    },
    'finger (IP) flexion': {
      used: [degrees(5), degrees(10)],
      because: 'the number given for the ulnar gutter by the table that says near extension for both',
      published: [
        {
          value: [degrees(0), degrees(0)],
          source: 'boyd-2009-methods',
          at: 'table, gutter rows',
          status: 'read',
          note: 'near extension; no number given',
        },
        {
          value: [degrees(5), degrees(10)],
          source: 'boyd-2009-methods',
          at: 'table, ulnar gutter row',
          status: 'read',
        },
      ],
    },
  },
  posture: [],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: [{ value: [inch(3), inch(4)], source: 'mccullough-2016-radial', at: 'equipment', status: 'read' }],
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
      general.prominence('knuckles (MCP joints)'),
      general.prominence('finger (IP) joints'),
      general.prominence('base of the thumb'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: general.armPaddingWidths,
  },
  notes: [
    {
      value: 'a strip of padding lies between the index and middle fingers',
      source: 'mccullough-2016-radial',
      status: 'read',
    },
    { value: 'a slab on the radial side covers the pulse', status: 'common-practice' },
    ...general.slabNotes,
  ],
};
