import { degrees } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const thumbSpicaCast: Immobilisation<'thumb-spica-cast'> = {
  id: 'thumb-spica-cast',
  name: 'Thumb spica cast',
  kind: 'cast',
  limb: 'arm',
  from: {
    used: place('thumb distal joint'),
    because: 'the page on this cast; the other, for the scaphoid, leaves the joint free',
    published: [
      { value: place('thumb distal joint'), source: 'fpnotebook-thumb', status: 'read' },
      {
        value: place('thumb distal joint'),
        source: 'gipsverband-thumb',
        status: 'read',
        note: 'covers only the proximal half of the thumb and leaves the joint free',
      },
    ],
  },
  to: {
    used: place('proximal third of the forearm'),
    because: 'the page on this cast',
    published: [
      { value: place('proximal third of the forearm'), source: 'fpnotebook-thumb', status: 'read' },
    ],
  },
  path: 'turns round the thumb, hand, wrist and forearm',
  free: [
    { value: 'the fingers', source: 'fpnotebook-thumb', status: 'read' },
    { value: 'the elbow', source: 'fpnotebook-thumb', status: 'read' },
    { value: 'the end joint of the thumb', source: 'gipsverband-thumb', status: 'read' },
  ],
  joints: {
    'wrist extension': {
      used: [degrees(20), degrees(25)],
      because: 'the page on this cast; a society video says neutral',
      published: [
        { value: [degrees(20), degrees(25)], source: 'fpnotebook-thumb', status: 'read' },
        { value: [degrees(0), degrees(0)], source: 'society-video-thumb', status: 'read', note: 'neutral' },
      ],
    },
  },
  posture: [
    { value: 'forearm neutral', source: 'fpnotebook-thumb', status: 'read' },
    { value: 'thumb as if holding a can', source: 'fpnotebook-thumb', status: 'read' },
    { value: 'the fingertips still pinch against the thumb', source: 'gipsverband-thumb', status: 'read' },
  ],
  share: general.wholeGirth,
  widths: general.armWidths,
  layers: {
    plaster: general.standIn(general.circularPlaster, 'plaster casts'),
    fibreglass: general.standIn(general.circularFibreglass, 'fibreglass casts'),
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [general.prominence('ulnar styloid'), general.prominence('base of the thumb')],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: general.armPaddingWidths,
  },
  notes: [
    {
      value:
        'padding: three turns on the thumb and three at each end, half overlapping; it stops within two fingers of the elbow',
      source: 'society-video-thumb',
      status: 'read',
    },
    {
      value: 'fibreglass stops an inch short of the edge of the padded cuff',
      source: 'society-video-thumb',
      status: 'read',
    },
    ...general.castNotes,
  ],
};
