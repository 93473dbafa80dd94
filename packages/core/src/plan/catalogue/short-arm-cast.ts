import { degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

const oneOfThree = 'here, in the bandaging text or in the society manual; which of them was not kept';

export const shortArmCast: Immobilisation<'short-arm-cast'> = {
  id: 'short-arm-cast',
  name: 'Short-arm cast',
  kind: 'cast',
  limb: 'arm',
  from: {
    used: place('distal palmar crease'),
    because: 'the texts agree that the edge goes no further; the knuckles stay bare on the back',
    published: [
      {
        value: place('distal palmar crease'),
        source: 'bandaging-cast',
        status: 'read',
        note: 'palm edge, no further; the knuckles uncovered on the back',
      },
      { value: place('knuckles'), source: 'us-army-1968-plaster', status: 'read', note: oneOfThree },
    ],
  },
  to: {
    used: place('elbow crease', inch(-1.5), inch(-1)),
    because:
      'the texts on this cast say just below the elbow; a task for a forearm cast with the fingers gives a distance',
    published: [
      {
        value: place('elbow crease'),
        source: 'us-army-1968-plaster',
        status: 'read',
        note: 'just below the elbow; no distance given',
      },
      {
        value: place('elbow crease', inch(-1.5), inch(-1)),
        source: 'us-army-orthopedic',
        at: 'task 081-68B-2200',
        status: 'read',
        note: 'forearm cast that takes in the fingers',
      },
    ],
  },
  path: 'turns round the hand, wrist and forearm',
  free: [
    {
      value: 'the thumb, which still opposes',
      source: 'us-army-1968-plaster',
      status: 'read',
      note: oneOfThree,
    },
    { value: 'the knuckles (MCP joints)', source: 'us-army-1968-plaster', status: 'read', note: oneOfThree },
    { value: 'the elbow', source: 'us-army-1968-plaster', status: 'read', note: oneOfThree },
  ],
  joints: {
    'wrist extension': {
      used: [degrees(0), degrees(0)],
      because: 'from a government manual; the other two texts, of a lower grade, go up to 20',
      published: [
        { value: [degrees(0), degrees(0)], source: 'us-army-1968-plaster', status: 'read', note: 'neutral' },
        { value: [degrees(15), degrees(15)], source: 'bandaging-cast', status: 'read', note: 'about 15' },
        {
          value: [degrees(20), degrees(20)],
          source: 'society-casting',
          status: 'read',
          note: 'slight, about 20',
        },
      ],
    },
    'elbow flexion': {
      used: [degrees(90), degrees(90)],
      because: 'the only value read; it holds only while the cast is put on, since the elbow stays free',
      published: [
        {
          value: [degrees(90), degrees(90)],
          source: 'bandaging-cast',
          status: 'read',
          note: 'while it is put on',
        },
      ],
    },
  },
  posture: [],
  share: general.wholeGirth,
  widths: [
    { value: [inch(4), inch(4)], source: 'primary-care-casts', status: 'read', note: 'plaster, adult man' },
    {
      value: [inch(3), inch(3)],
      source: 'primary-care-casts',
      status: 'read',
      note: 'fibreglass, adult man',
    },
    { value: [inch(3), inch(3)], source: 'primary-care-casts', status: 'read', note: 'plaster, child' },
    { value: [inch(2), inch(2)], source: 'primary-care-casts', status: 'read', note: 'fibreglass, child' },
  ],
  layers: {
    plaster: {
      used: [4, 5],
      because: 'given for this type, and by the general rule',
      published: general.circularPlaster.published,
    },
    fibreglass: {
      used: [2, 3],
      because: 'the only number read for this type',
      published: general.circularFibreglass.published,
    },
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [general.prominence('ulnar styloid'), general.prominence('base of the thumb')],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: [{ value: [inch(3), inch(3)], source: 'primary-care-casts', status: 'read' }],
  },
  notes: [
    {
      value: 'the cast stops half an inch inside the edge of the padding at both ends',
      source: 'us-army-taskbook',
      at: 'pp. 71, 117',
      status: 'read',
    },
    {
      value: 'two turns anchor it at the wrist',
      source: 'us-army-taskbook',
      at: 'pp. 71, 117',
      status: 'read',
    },
    {
      value: 'stockinette one and a half times as long as the plaster',
      source: 'bandaging-cast',
      status: 'read',
    },
    ...general.castNotes,
  ],
};
