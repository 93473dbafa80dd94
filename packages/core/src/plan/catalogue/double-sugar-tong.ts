import { degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

const cites = {
  source: 'wikem-double',
  status: 'read-secondary',
  note: 'the page cites Boyd 2009, Methods',
} as const;
const only = 'the only text read on this type';

// Two slabs are laid, so two entries: neither stands without the other.
const both = {
  kind: 'slab',
  limb: 'arm',
  posture: [{ value: 'forearm neutral', ...cites }],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: general.armWidths,
  layers: {
    plaster: general.standIn(general.upperLimbSlab, 'arm slabs'),
    fibreglass: general.fibreglassSlab,
  },
} as const;

const elbow = {
  used: [degrees(90), degrees(90)],
  because: only,
  published: [{ value: [degrees(90), degrees(90)], ...cites }],
} as const;

export const doubleSugarTongForearm: Immobilisation<'double-sugar-tong-forearm'> = {
  ...both,
  id: 'double-sugar-tong-forearm',
  name: 'Double sugar-tong: forearm slab',
  from: {
    used: place('proximal palmar crease'),
    because: only,
    published: [{ value: place('proximal palmar crease'), ...cites }],
  },
  to: {
    used: place('knuckles'),
    because: only,
    published: [{ value: place('knuckles'), ...cites }],
  },
  path: 'along the palm side of the forearm, round the bent elbow, and along its back to the hand',
  free: [],
  joints: {
    'elbow flexion': elbow,
    'wrist extension': {
      used: [degrees(20), degrees(20)],
      because: only,
      published: [
        { value: [degrees(20), degrees(20)], ...cites, note: 'about 20; the page cites Boyd 2009, Methods' },
      ],
    },
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [
      general.prominence('ulnar styloid'),
      general.prominence('olecranon'),
      general.prominence('epicondyles'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: general.armPaddingWidths,
  },
  notes: [{ value: 'laid together with the slab of the upper arm', ...cites }, ...general.slabNotes],
};

export const doubleSugarTongArm: Immobilisation<'double-sugar-tong-arm'> = {
  ...both,
  id: 'double-sugar-tong-arm',
  name: 'Double sugar-tong: upper-arm slab',
  from: {
    used: place('deltoid insertion'),
    because: only,
    published: [{ value: place('deltoid insertion'), ...cites }],
  },
  to: {
    used: place('axilla', inch(-3)),
    because: only,
    published: [{ value: place('axilla', inch(-3)), ...cites }],
  },
  path: 'down the outer side of the upper arm, round the bent elbow, and up its inner side',
  free: [{ value: 'the axilla', ...cites }],
  joints: { 'elbow flexion': elbow },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [general.prominence('olecranon'), general.prominence('epicondyles')],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: general.armPaddingWidths,
  },
  notes: [{ value: 'laid together with the slab of the forearm', ...cites }, ...general.slabNotes],
};
