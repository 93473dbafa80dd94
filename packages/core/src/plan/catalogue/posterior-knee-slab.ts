import { cm, degrees, inch } from '../../quantity.ts';
import type { Immobilisation } from '../immobilisation.ts';
import * as general from './general.ts';

const { place } = general;

export const posteriorKneeSlab: Immobilisation<'posterior-knee-slab'> = {
  id: 'posterior-knee-slab',
  name: 'Posterior knee slab',
  kind: 'slab',
  limb: 'leg',
  from: {
    used: place('lateral malleolus'),
    because: 'a surgical reference; the foot is taken in only where the ankle must be held too',
    published: [
      {
        value: place('lateral malleolus'),
        source: 'ao-temporary-leg',
        status: 'read',
        note: 'above the malleoli; no distance given',
      },
      {
        value: place('metatarsal heads'),
        source: 'boyd-2009-methods',
        at: 'table',
        status: 'read',
        note: 'where the ankle must be held too',
      },
      { value: place('lateral malleolus'), status: 'from-memory', note: 'above the malleoli' },
    ],
  },
  to: {
    used: place('gluteal fold'),
    because: 'a surgical reference says the top of the thigh, which is the fold behind',
    published: [
      {
        value: place('gluteal fold'),
        source: 'ao-temporary-leg',
        status: 'read',
        note: 'the top of the thigh',
      },
      { value: place('gluteal fold'), status: 'from-memory', note: 'below the buttock' },
    ],
  },
  path: 'up the back of the calf, knee and thigh',
  free: [],
  joints: {
    'knee flexion': {
      used: [degrees(20), degrees(20)],
      because: 'the only number read for this type',
      published: [{ value: [degrees(20), degrees(20)], source: 'ao-temporary-leg', status: 'read' }],
    },
  },
  posture: [{ value: 'knee slightly bent', status: 'from-memory' }],
  share: general.standIn(general.slabShare, 'slabs'),
  widths: [
    {
      value: [cm(15), cm(15)],
      source: 'uk-mod-2025-plaster',
      at: 'materials',
      status: 'read',
      note: 'above-knee backslab',
    },
    { value: [inch(6), inch(6)], status: 'from-memory' },
  ],
  layers: {
    plaster: {
      used: [12, 15],
      because: 'a government guideline for above-knee backslabs, and the general rule for a leg',
      published: [{ value: [12, 15], status: 'from-memory' }, ...general.lowerLimbSlab.published],
    },
    fibreglass: general.fibreglassSlab,
  },
  padding: {
    layers: general.standIn(general.paddingLayers, 'padding'),
    prominences: [
      {
        value: 'above the ankle and at the upper thigh, several layers',
        source: 'ao-temporary-leg',
        status: 'read',
      },
      general.prominence('both malleoli'),
      general.prominence('fibular head'),
      general.prominence('patella'),
    ],
    extra: general.standIn(general.extraPadding, 'bony prominences'),
    widths: general.legPaddingWidths,
  },
  notes: general.slabNotes,
};
