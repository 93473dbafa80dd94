import { cm, degrees } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

const notKept = 'here or in the AO pages; which of them was not kept';

export const longLegCast: Immobilisation<'long-leg-cast'> = {
  id: 'long-leg-cast',
  name: 'Long-leg cast',
  kind: 'cast',
  limb: 'leg',
  from: {
    used: place('base of the toes'),
    because: 'the only place read',
    published: [{ value: place('base of the toes'), source: 'ebmg-lower', status: 'read', note: notKept }],
  },
  to: {
    used: place('proximal third of the thigh'),
    because: 'three ends are published; this is the lowest, clear of the groin',
    published: [
      { value: place('proximal third of the thigh'), source: 'ebmg-lower', status: 'read', note: notKept },
      { value: place('groin'), source: 'ebmg-lower', status: 'read', note: `just below; ${notKept}` },
      { value: place('greater trochanter'), source: 'ebmg-lower', status: 'read', note: notKept },
    ],
  },
  path: 'turns round the foot, ankle, leg, bent knee and thigh',
  free: [{ value: 'the toes', source: 'ebmg-lower', status: 'read', note: notKept }],
  joints: {
    'ankle, foot to shin': {
      used: [degrees(90), degrees(90)],
      because: 'the only value read',
      published: [{ value: [degrees(90), degrees(90)], source: 'ebmg-lower', status: 'read', note: notKept }],
    },
    'knee flexion': {
      used: [degrees(25), degrees(30)],
      because:
        'a guideline on leg casts in general; it lies within that for the distal femur, while the tibial shaft asks for less',
      published: [
        { value: [degrees(25), degrees(30)], source: 'ebmg-lower', status: 'read' },
        {
          value: [degrees(20), degrees(35)],
          source: 'ao-distal-femur',
          status: 'read',
          note: 'distal femur',
        },
        {
          value: [degrees(5), degrees(10)],
          source: 'ao-tibia',
          status: 'read',
          note: 'short of full extension, tibial shaft, thigh part',
        },
      ],
    },
  },
  posture: [],
  share: general.wholeGirth,
  widths: [
    { value: [cm(15), cm(20)], source: 'ebmg-lower', status: 'read', note: 'plaster' },
    { value: [cm(10), cm(10)], source: 'ebmg-lower', status: 'read', note: 'fibreglass' },
    { value: [cm(20), cm(20)], source: 'ao-distal-femur', status: 'read', note: 'plaster' },
    { value: [cm(15), cm(15)], source: 'ao-distal-femur', status: 'read', note: 'plaster, the alternative' },
  ],
  layers: {
    plaster: {
      used: [5, 5],
      because: 'a guideline gives it for this cast, with a sole slab of 4 to 5 layers besides',
      published: general.circularPlaster.published,
    },
    fibreglass: general.standIn(general.circularFibreglass, 'fibreglass casts'),
  },
  padding: {
    layers: {
      used: [2, 2],
      because: 'a guideline gives it for this cast, from the toes to the upper thigh',
      published: general.paddingLayers.published,
    },
    prominences: [
      general.prominence('heel'),
      general.prominence('both malleoli'),
      general.prominence('fibular head'),
      general.prominence('tibial tubercle and crest'),
      general.prominence('patella'),
      general.prominence('Achilles tendon'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: general.legPaddingWidths,
  },
  notes: [
    {
      value: 'a slab for the sole has 4 to 5 layers, or 3 to 4 where it runs the full length',
      source: 'ebmg-lower',
      status: 'read',
    },
    {
      value: 'may go on in two stages: to the middle of the patella, left to set, then the thigh',
      source: 'ao-tibia',
      status: 'read',
    },
    {
      value: 'the cast stops an inch inside the edge of the padding',
      source: 'us-army-taskbook',
      status: 'read',
    },
    ...general.castNotes,
  ],
};
