import { degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

const read = { source: 'sabeh-2020-techniques', at: 'long-arm cast', status: 'read' } as const;
const only = 'the only text read on this type; it is about children';

export const longArmCast: Immobilisation<'long-arm-cast'> = {
  id: 'long-arm-cast',
  name: 'Long-arm cast',
  kind: 'cast',
  limb: 'arm',
  from: {
    used: place('distal palmar crease'),
    because: only,
    published: [{ value: place('distal palmar crease'), ...read, note: 'proximal to the MCP joints' }],
  },
  to: {
    used: place('axilla', inch(-1)),
    because: only,
    published: [{ value: place('axilla', inch(-1)), ...read, note: 'about an inch' }],
  },
  path: 'turns round the hand, forearm, bent elbow and upper arm',
  free: [
    { value: 'the knuckles (MCP joints)', ...read },
    { value: 'the thumb, which still reaches the little finger', ...read },
  ],
  joints: {
    'elbow flexion': {
      used: [degrees(90), degrees(90)],
      because: only,
      published: [{ value: [degrees(90), degrees(90)], ...read }],
    },
    'wrist extension': {
      used: [degrees(0), degrees(0)],
      because: only,
      published: [{ value: [degrees(0), degrees(0)], ...read, note: 'neutral' }],
    },
  },
  posture: [{ value: 'forearm neutral', ...read }],
  share: general.wholeGirth,
  widths: [{ value: [inch(2), inch(3)], ...read, note: 'tape, children' }],
  layers: {
    plaster: general.standIn(general.circularPlaster, 'plaster casts'),
    fibreglass: general.standIn(general.circularFibreglass, 'fibreglass casts'),
  },
  padding: {
    layers: {
      used: [2, 3],
      because: 'given for this type, with a warning against more than 4',
      published: general.paddingLayers.published,
    },
    prominences: [
      general.prominence('ulnar styloid'),
      general.prominence('olecranon'),
      general.prominence('epicondyles'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: [{ value: [inch(2), inch(3)], ...read, note: 'children' }],
  },
  notes: general.castNotes,
};
