import { celsius, mm, percent } from 'swathe';

/** Twelve plies of fast plaster on padding round an arm, in a common room. */
export const onAnArm = {
  material: 'fast plaster',
  plies: 12,
  folded: false,
  dip: celsius(24),
  room: celsius(22),
  humidity: percent(50),
  paddingLayers: 3,
  stockinette: true,
  compression: percent(0),
  body: { kind: 'limb', radius: mm(45), blood: 'flows' },
  cover: 'bare',
} as const;
