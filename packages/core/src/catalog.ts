import { edgeMismatch } from './coverage/edge-mismatch.ts';
import { figureOfEight } from './coverage/figure-of-eight.ts';
import { geodesicAdvance } from './coverage/geodesic-advance.ts';
import { helix } from './coverage/helix.ts';
import { layerMap } from './coverage/layer-map.ts';
import { overlapFor } from './coverage/overlap-for.ts';
import { slabShare } from './coverage/slab-share.ts';
import { stripLength } from './coverage/strip-length.ts';
import type { AnyFormula } from './formula.ts';
import { addedPlies } from './layers/added-plies.ts';
import { buildUp } from './layers/build-up.ts';
import { castMass } from './layers/cast-mass.ts';
import { curvedSlab } from './layers/curved-slab.ts';
import { fabricArea } from './layers/fabric-area.ts';
import { layersWanted } from './layers/layers-wanted.ts';
import { roundedEnds } from './layers/rounded-ends.ts';
import { slabStiffness } from './layers/slab-stiffness.ts';
import { underBandage } from './pressure/under-bandage.ts';
import { cuttingPlan } from './roll/cutting-plan.ts';
import { effectiveThickness } from './roll/effective-thickness.ts';
import { lengthLeft } from './roll/length-left.ts';
import { takeOff } from './roll/take-off.ts';
import { turnsOnRoll } from './roll/turns-on-roll.ts';
import { woundDiameter } from './roll/wound-diameter.ts';
import { woundLength } from './roll/wound-length.ts';
import { cutLength } from './segment/cut-length.ts';
import { expectedSegment } from './segment/expected-segment.ts';
import { girthAt } from './segment/girth-at.ts';
import { girthProfile } from './segment/girth-profile.ts';
import { sliceProfile } from './segment/slice-profile.ts';
import { statureForAge } from './segment/stature-for-age.ts';
import { conduction } from './setting/conduction.ts';
import { contactTime } from './setting/contact-time.ts';
import { dipWater } from './setting/dip-water.ts';
import { equivalentMinutes } from './setting/equivalent-minutes.ts';
import { heatCaution } from './setting/heat-caution.ts';
import { hydrationHeat } from './setting/hydration-heat.ts';
import { injuryIntegral } from './setting/injury-integral.ts';
import { roomLoss } from './setting/room-loss.ts';
import { setTimes } from './setting/set-times.ts';
import { supersaturation } from './setting/supersaturation.ts';
import { temperatureBand } from './setting/temperature-band.ts';
import { temperatureHistory } from './setting/temperature-history.ts';

/** Every formula there is, in the order in which a job meets them. */
export const catalog: readonly AnyFormula[] = [
  girthProfile,
  girthAt,
  sliceProfile,
  expectedSegment,
  statureForAge,
  cutLength,
  slabShare,
  overlapFor,
  helix,
  stripLength,
  layerMap,
  geodesicAdvance,
  edgeMismatch,
  figureOfEight,
  layersWanted,
  buildUp,
  fabricArea,
  roundedEnds,
  castMass,
  slabStiffness,
  curvedSlab,
  addedPlies,
  woundLength,
  woundDiameter,
  turnsOnRoll,
  effectiveThickness,
  lengthLeft,
  takeOff,
  cuttingPlan,
  dipWater,
  setTimes,
  supersaturation,
  hydrationHeat,
  conduction,
  roomLoss,
  temperatureHistory,
  temperatureBand,
  heatCaution,
  injuryIntegral,
  equivalentMinutes,
  contactTime,
  underBandage,
];
