import { cm, degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

const oneOfFour = 'here or in one of three other texts; which of them was not kept';

export const shortLegCast: Immobilisation<'short-leg-cast'> = {
  id: 'short-leg-cast',
  name: 'Short-leg cast',
  kind: 'cast',
  limb: 'leg',
  from: {
    used: place('metatarsal heads'),
    because: 'the only place read',
    published: [
      { value: place('metatarsal heads'), source: 'fpnotebook-shortleg', status: 'read', note: oneOfFour },
    ],
  },
  to: {
    used: place('tibial tuberosity'),
    because: 'a bone that a finger finds; the other page counts three finger-widths below the patella',
    published: [{ value: place('tibial tuberosity'), source: 'fpnotebook-shortleg', status: 'read' }],
  },
  path: 'turns round the foot, ankle and leg',
  free: [
    { value: 'the toes, in sight', source: 'fpnotebook-shortleg', status: 'read', note: oneOfFour },
    { value: 'the popliteal fossa', source: 'fpnotebook-shortleg', status: 'read', note: oneOfFour },
    { value: 'the knee', source: 'fpnotebook-shortleg', status: 'read', note: oneOfFour },
  ],
  joints: {
    'ankle, foot to shin': {
      used: [degrees(90), degrees(90)],
      because: 'the only value read',
      published: [
        { value: [degrees(90), degrees(90)], source: 'fpnotebook-shortleg', status: 'read', note: oneOfFour },
      ],
    },
  },
  posture: [
    {
      value: 'the second toe in line with the patella or the crest of the tibia',
      source: 'sabeh-2020-techniques',
      status: 'read',
      note: oneOfFour,
    },
  ],
  share: general.wholeGirth,
  widths: [
    {
      value: [inch(3), inch(3)],
      source: 'orthocasting-shortleg',
      status: 'read',
      note: 'fibreglass, two rolls',
    },
    {
      value: [inch(4), inch(4)],
      source: 'orthocasting-shortleg',
      status: 'read',
      note: 'fibreglass, two rolls',
    },
    { value: [cm(10), cm(15)], source: 'queens-casts', at: 'step 2', status: 'read', note: 'lower leg' },
  ],
  layers: {
    plaster: {
      used: [4, 6],
      because: 'the only number read for this type; it takes in the general 4 to 5',
      published: general.circularPlaster.published,
    },
    fibreglass: {
      used: [3, 4],
      because: 'from a peer-reviewed text on this type, which adds a finishing layer',
      published: general.circularFibreglass.published,
    },
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [
      general.prominence('heel'),
      general.prominence('both malleoli'),
      general.prominence('fibular head'),
      general.prominence('tibial tubercle and crest'),
      general.prominence('Achilles tendon'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: [
      { value: [inch(3), inch(3)], source: 'orthocasting-shortleg', status: 'read', note: 'two rolls' },
      { value: [inch(4), inch(4)], source: 'orthocasting-shortleg', status: 'read', note: 'two rolls' },
    ],
  },
  notes: [
    { value: 'ends three finger-widths below the patella', source: 'orthocasting-shortleg', status: 'read' },
    {
      value: 'texts on leg slabs and casts keep 2 in clear of the fibular head',
      source: 'boyd-2009-methods',
      at: 'table',
      status: 'read',
      note: 'a wiki on the stirrup says 3 to 4 cm',
    },
    {
      value:
        'as a toe plate the sole goes on past the toes, the back of which stays bare; the arch is moulded',
      source: 'fpnotebook-shortleg',
      status: 'read',
    },
    {
      value: 'of short-leg casts 17 % broke down in fibreglass and 66 % in plaster',
      source: 'kowalski-2002-fiberglass',
      status: 'abstract-only',
    },
    {
      value: 'the cast stops half an inch inside the edge of the padding',
      source: 'us-army-taskbook',
      status: 'read',
    },
    { value: '1 m of stockinette', source: 'brock-2001-shortleg', status: 'read' },
    ...general.castNotes,
  ],
};
