import { degrees, mm } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const thumbSpicaSlab: Immobilisation<'thumb-spica-slab'> = {
  id: 'thumb-spica-slab',
  name: 'Thumb spica slab',
  kind: 'slab',
  limb: 'arm',
  from: {
    used: place('mid distal phalanx of the thumb'),
    because: 'the only place read at first hand; it lies between the others and leaves the tip in sight',
    published: [
      { value: place('mid distal phalanx of the thumb'), source: 'wikism-thumb', status: 'read' },
      {
        value: place('thumb distal joint'),
        source: 'msd-thumb',
        status: 'read-secondary',
        note: 'just past the joint; no distance given',
      },
      { value: place('thumb tip'), status: 'common-practice', note: 'just past the tip' },
      {
        value: place('thumb distal joint'),
        status: 'common-practice',
        note: 'where the end joint is left free',
      },
    ],
  },
  to: {
    used: place('mid forearm'),
    because: 'both texts read say so; common practice goes further up',
    published: [
      { value: place('mid forearm'), source: 'wikism-thumb', status: 'read' },
      { value: place('mid forearm'), source: 'msd-thumb', status: 'read-secondary' },
      { value: place('elbow crease', mm(-50), mm(-25)), status: 'common-practice' },
    ],
  },
  path: 'along the radial side of the thumb, wrist and forearm',
  free: [
    { value: 'the other four digits', source: 'wikism-thumb', status: 'read' },
    { value: 'the elbow', source: 'wikism-thumb', status: 'read' },
    { value: 'the elbow', source: 'msd-thumb', status: 'read-secondary' },
    { value: 'the elbow still bends to 90 degrees', status: 'common-practice' },
  ],
  joints: {
    'wrist extension': {
      used: [degrees(25), degrees(30)],
      because: 'the only range read for this type; it lies within that of common practice',
      published: [
        { value: [degrees(25), degrees(30)], source: 'wikism-thumb', status: 'read' },
        { value: [degrees(20), degrees(30)], status: 'common-practice' },
      ],
    },
  },
  posture: [
    { value: 'forearm neutral', source: 'wikism-thumb', status: 'read' },
    { value: 'thumb as if holding a can', source: 'wikism-thumb', status: 'read' },
    { value: 'thumb opposed to the index finger as if holding a can', status: 'common-practice' },
  ],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: general.armWidths,
  layers: {
    plaster: {
      used: [8, 10],
      because:
        'most procedure texts on arm slabs; the 6 to 8 for this type was read only in a third-party copy',
      published: [
        { value: [6, 8], source: 'msd-thumb', status: 'read-secondary' },
        ...general.upperLimbSlab.published,
      ],
    },
    fibreglass: general.fibreglassSlab,
  },
  padding: {
    layers: {
      used: [2, 3],
      because: 'the 2 read for this type and the general 2 to 3',
      published: [
        { value: [2, 2], source: 'wikism-thumb', status: 'read' },
        ...general.paddingLayers.published,
      ],
    },
    prominences: [general.prominence('ulnar styloid'), general.prominence('base of the thumb')],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: general.armPaddingWidths,
  },
  notes: [
    { value: 'folds collect at the base of the thumb', source: 'msd-thumb', status: 'read-secondary' },
    { value: 'wedges cut at the thumb knuckle keep the slab from bunching', status: 'common-practice' },
    { value: 'a slab on the radial side covers the pulse', status: 'common-practice' },
    ...general.slabNotes,
  ],
};
