import type * as z from 'zod/v4/core';
import { overlap, width } from '../coverage/bandage.ts';
import { ageBand } from '../layers/layers-wanted.ts';
import {
  choice,
  count,
  flag,
  force,
  group,
  length,
  list,
  mass,
  optional,
  share,
  temperature,
  text,
} from '../measure.ts';
import { celsius, cm, grams, mm, newtons, ratio } from '../quantity.ts';
import { roll } from '../roll/take-off.ts';
import { girth } from '../segment/girth.ts';
import { setting } from '../setting/set-times.ts';
import { castInputs } from '../setting/temperature-history.ts';
import { type ImmobilisationId, immobilisations } from './catalogue/index.ts';
import { landmarks } from './immobilisation.ts';
import { type FinishId, finishes, type StockinetteRuleId, stockinetteRules } from './rules.ts';

const keysOf = <K extends string>(record: Readonly<Record<K, unknown>>) => Object.keys(record) as [K, ...K[]];

const landmark = choice('landmark', landmarks);
const offset = length('distance from the landmark, positive towards the trunk', {
  possible: [cm(-60), cm(60)],
});
const place = group({ landmark, offset });
const segmentName = text('name of a segment of the limb');
const turns = count('circular turns', { possible: [0, 12] });

const rise = (side: string) =>
  length(`how far from the crossing the bandage lies at the back of the part ${side} it`, {
    possible: [mm(0), cm(60)],
  });

const segment = group({
  name: segmentName,
  /** The distal landmark. */
  from: landmark,
  /** The proximal landmark. */
  to: landmark,
  length: length('length of the segment, landmark to landmark', { possible: [cm(1), cm(80)] }),
  stations: list(group({ landmark, offset, girth }), [1, 50]),
});

const slab = group({
  made: choice('how the slab is made', ['layered', 'prefabricated']),
  path: length('length measured along the way the slab will lie', { possible: [cm(3), cm(250)] }),
  finish: choice('what is done at its edges', keysOf<FinishId>(finishes)),
  over: list(segmentName, [1, 6]),
  plies: optional(count('plies ordered', { possible: [1, 40] })),
  width: optional(length('width ordered', { possible: [cm(2), cm(50)] })),
});

const stockinette = group({
  what: text('what the tube is for'),
  width: length('width of the tube, laid flat', { possible: [mm(10), mm(300)] }),
  path: length('length measured along the limb', { possible: [cm(2), cm(250)] }),
  rule: choice('how much longer it is cut', keysOf<StockinetteRuleId>(stockinetteRules)),
});

const wrap = group({
  layer: choice('what is wrapped', ['padding', 'tape', 'elastic']),
  over: list(segmentName, [1, 6]),
  /** Where it begins and ends, if not where the order's `covers` says. */
  from: optional(place),
  to: optional(place),
  beyond: length('how far it goes past each end; negative to stop short', { possible: [cm(-20), cm(20)] }),
  width,
  overlap,
  passes: count('passes, up or down', { possible: [1, 12] }),
  startTurns: turns,
  endTurns: turns,
  extra: list(group({ landmark, offset, turns }), [0, 20]),
  /** Figures of eight over a joint, besides the turns. */
  eights: optional(
    list(
      group({
        landmark,
        offset,
        figures: count('figures of eight', { possible: [1, 12] }),
        riseDistal: rise('distal to'),
        riseProximal: rise('proximal to'),
      }),
      [1, 4],
    ),
  ),
  stretch: share('how much longer it lies than it comes off the roll', { possible: [ratio(0), ratio(3)] }),
  tension: optional(force('tension over its whole width', { possible: [newtons(0), newtons(200)] })),
  thickness: optional(length('thickness of one layer as it lies', { possible: [mm(0.05), mm(20)] })),
});

/** What a plan is drawn from: the order, the tape measure and the trolley. */
export const order = group({
  immobilisation: choice('splint or cast that is ordered', keysOf<ImmobilisationId>(immobilisations)),
  side: choice('side', ['left', 'right']),
  person: group({
    ageBand,
    reducedSensation: flag(
      'whether the limb feels less, or the person is anaesthetised or cannot say what it feels',
    ),
    sex: optional(choice('sex, as surveys of sizes have it', ['male', 'female'])),
    stature: optional(length('stature', { possible: [cm(40), cm(250)] })),
    weight: optional(mass('weight', { possible: [grams(1000), grams(400_000)] })),
  }),
  material: setting,
  /** Distal first. */
  limb: list(segment, [1, 8]),
  covers: group({ from: place, to: place }),
  slab: optional(slab),
  stockinette: list(stockinette, [0, 6]),
  wraps: list(wrap, [1, 12]),
  stock: list(roll, [0, 200]),
  room: temperature('temperature of the room', { possible: [celsius(0), celsius(50)] }),
  dip: temperature('temperature of the dip water', { possible: [celsius(0), celsius(70)] }),
  cover: optional(castInputs.cover),
});

/** What a plan is drawn from, its quantities held. */
export type Order = z.output<typeof order>;
export type Segment = z.output<typeof segment>;
/** A landmark, and how far from it: positive towards the trunk. */
export type PlaceOnLimb = z.output<typeof place>;
export type Wrap = z.output<typeof wrap>;
export type Slab = z.output<typeof slab>;
