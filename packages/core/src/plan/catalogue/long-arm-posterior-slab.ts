import { cm, degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const longArmPosteriorSlab: Immobilisation<'long-arm-posterior-slab'> = {
  id: 'long-arm-posterior-slab',
  name: 'Long-arm posterior slab',
  kind: 'slab',
  limb: 'arm',
  from: {
    used: place('metacarpal heads'),
    because: 'of two texts of one grade, the one that holds the wrist as well; the other stops at it',
    published: [
      {
        value: place('metacarpal heads'),
        source: 'habrat-2024-longarm',
        status: 'read',
        note: 'the metacarpals; no part of them named',
      },
      {
        value: place('wrist crease'),
        source: 'jacobson-2019-longarm',
        at: 'technique',
        status: 'read',
        note: 'metacarpals not included',
      },
      {
        value: place('proximal palmar crease'),
        source: 'wikem-longarm',
        status: 'read-secondary',
        note: 'the page cites Boyd 2009, Methods',
      },
      {
        value: place('proximal palmar crease'),
        source: 'wikism-longarm',
        status: 'read-secondary',
        note: 'the page cites Boyd 2009, Methods',
      },
    ],
  },
  to: {
    used: place('mid upper arm'),
    because: 'from the same text as the other end',
    published: [
      { value: place('mid upper arm'), source: 'habrat-2024-longarm', status: 'read' },
      {
        value: place('axilla'),
        source: 'jacobson-2019-longarm',
        at: 'technique',
        status: 'read',
        note: 'axillary crease',
      },
      {
        value: place('axilla', inch(-3)),
        source: 'wikem-longarm',
        status: 'read-secondary',
        note: 'the page cites Boyd 2009, Methods',
      },
      {
        value: place('axilla', inch(-3)),
        source: 'wikism-longarm',
        status: 'read-secondary',
        note: 'the page cites Boyd 2009, Methods',
      },
    ],
  },
  path: 'along the ulnar side of the forearm, round the back of the elbow, and up the back of the upper arm',
  free: [
    { value: 'the knuckles (MCP joints)', source: 'habrat-2024-longarm', status: 'read' },
    { value: 'the thumb', source: 'habrat-2024-longarm', status: 'read' },
    { value: 'the whole hand', source: 'jacobson-2019-longarm', at: 'technique', status: 'read' },
  ],
  joints: {
    'elbow flexion': {
      used: [degrees(90), degrees(90)],
      because: 'every text says so; one goes down to 45 for some injuries',
      published: [
        { value: [degrees(90), degrees(90)], source: 'habrat-2024-longarm', status: 'read' },
        {
          value: [degrees(90), degrees(90)],
          source: 'jacobson-2019-longarm',
          at: 'technique',
          status: 'read',
        },
        {
          value: [degrees(45), degrees(90)],
          source: 'jacobson-2019-longarm',
          at: 'technique',
          status: 'read',
          note: 'by injury',
        },
        { value: [degrees(90), degrees(90)], source: 'medscape-elbow', status: 'read' },
        {
          value: [degrees(90), degrees(90)],
          source: 'wikem-longarm',
          status: 'read-secondary',
          note: 'the page cites Boyd 2009, Methods',
        },
        {
          value: [degrees(90), degrees(90)],
          source: 'wikism-longarm',
          status: 'read-secondary',
          note: 'the page cites Boyd 2009, Methods',
        },
      ],
    },
    'wrist extension': {
      used: [degrees(10), degrees(20)],
      because: 'a manual and a procedure text agree',
      published: [
        { value: [degrees(10), degrees(20)], source: 'habrat-2024-longarm', status: 'read' },
        { value: [degrees(10), degrees(20)], source: 'medscape-elbow', status: 'read' },
        {
          value: [degrees(0), degrees(0)],
          source: 'jacobson-2019-longarm',
          at: 'technique',
          status: 'read',
          note: 'neutral',
        },
        {
          value: [degrees(0), degrees(20)],
          source: 'wikem-longarm',
          status: 'read-secondary',
          note: 'neutral or 10 to 20: here and on the WikiSM page, which of them says which was not kept',
        },
      ],
    },
  },
  posture: [
    { value: 'forearm supinated', source: 'lewis-2021-longarm', status: 'read' },
    { value: 'forearm neutral', source: 'jacobson-2019-longarm', at: 'technique', status: 'read' },
    { value: 'forearm neutral, thumb up', source: 'medscape-elbow', status: 'read' },
    { value: 'forearm neutral, thumb up', source: 'wikem-longarm', status: 'read-secondary' },
    { value: 'forearm supinated or neutral', source: 'wikism-longarm', status: 'read-secondary' },
  ],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: [
    { value: [cm(7.5), cm(10)], source: 'habrat-2024-longarm', status: 'read' },
    { value: [cm(15), cm(15)], source: 'medscape-elbow', at: 'equipment', status: 'read' },
    {
      value: [cm(10), cm(10)],
      source: 'medscape-elbow',
      at: 'equipment',
      status: 'read',
      note: 'smaller patients',
    },
  ],
  layers: {
    plaster: {
      used: [8, 10],
      because: 'the texts on this type agree',
      published: [
        { value: [8, 10], source: 'medscape-elbow', at: 'technique', status: 'read' },
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
    widths: [{ value: [cm(7.5), cm(7.5)], source: 'habrat-2024-longarm', status: 'read' }],
  },
  notes: [
    {
      value: 'does not fully stop rotation of the forearm',
      source: 'habrat-2024-longarm',
      status: 'read',
      note: 'here or on the WikiSM page; which of them was not kept',
    },
    {
      value: 'too much padding in the antecubital fossa presses there',
      source: 'habrat-2024-longarm',
      status: 'read',
      note: 'here or on the WikiSM page; which of them was not kept',
    },
    {
      value:
        'stockinette along the limb and 5 cm more at each end is the template; the plaster is a little shorter',
      source: 'jacobson-2019-longarm',
      at: 'technique',
      status: 'read',
    },
    ...general.slabNotes,
  ],
};
