import { degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const coaptationSlab: Immobilisation<'coaptation-slab'> = {
  id: 'coaptation-slab',
  name: 'Coaptation slab (U-slab of the upper arm)',
  kind: 'slab',
  limb: 'arm',
  from: {
    used: place('axilla'),
    because: 'both texts agree',
    published: [
      { value: place('axilla'), source: 'xiong-2021-coaptation', status: 'read' },
      {
        value: place('axilla'),
        source: 'wikem-coaptation',
        status: 'read',
        note: 'inner arm, near the axilla',
      },
    ],
  },
  to: {
    used: place('acromion'),
    because: 'both texts agree',
    published: [
      {
        value: place('acromion'),
        source: 'xiong-2021-coaptation',
        status: 'read',
        note: 'over the acromion',
      },
      {
        value: place('acromion'),
        source: 'wikem-coaptation',
        status: 'read',
        note: 'the acromioclavicular joint',
      },
    ],
  },
  path: 'down the inner arm from the axilla, under the bent elbow, up the outer arm and over the acromion',
  free: [{ value: 'the neck', source: 'xiong-2021-coaptation', status: 'read' }],
  joints: {
    'elbow flexion': {
      used: [degrees(90), degrees(90)],
      because: 'the only value read; the length is measured in it',
      published: [{ value: [degrees(90), degrees(90)], source: 'xiong-2021-coaptation', status: 'read' }],
    },
  },
  posture: [],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: [
    { value: [inch(4), inch(4)], source: 'xiong-2021-coaptation', status: 'read' },

    { value: [inch(4), inch(6)], source: 'procedures-consult-coaptation', at: 'equipment', status: 'read' },
  ],
  layers: {
    plaster: {
      used: [10, 12],
      because: 'the only number read for this type',
      published: [
        { value: [10, 12], source: 'xiong-2021-coaptation', status: 'read' },
        ...general.upperLimbSlab.published,
      ],
    },
    fibreglass: general.fibreglassSlab,
  },
  padding: {
    layers: {
      used: [5, 5],
      because: 'the only number read for this type; it is more than the general rule',
      published: [
        { value: [5, 5], source: 'xiong-2021-coaptation', status: 'read' },
        ...general.paddingLayers.published,
      ],
    },
    prominences: [
      { value: 'the skin of the axilla', source: 'xiong-2021-coaptation', status: 'read' },
      general.prominence('olecranon'),
      general.prominence('epicondyles'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: [
      { value: [inch(4), inch(6)], source: 'procedures-consult-coaptation', at: 'equipment', status: 'read' },
    ],
  },
  notes: [
    {
      value: 'a radial nerve palsy after it is put on: take it down and look again',
      source: 'xiong-2021-coaptation',
      status: 'read',
    },
    {
      value: 'stockinette 4 in wide and at least 6 ft long, with the ends as a sling',
      source: 'xiong-2021-coaptation',
      status: 'read',
    },
    {
      value: 'the elastic bandage goes from proximal to distal, the other way from most slabs',
      source: 'wikem-coaptation',
      status: 'read',
    },
    ...general.slabNotes,
  ],
};
