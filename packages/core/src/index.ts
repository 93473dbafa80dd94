export { type Caution, defers, noTrigger } from './caution.ts';
export { edgeMismatch } from './coverage/edge-mismatch.ts';
export { figureOfEight } from './coverage/figure-of-eight.ts';
export { geodesicAdvance } from './coverage/geodesic-advance.ts';
export { helix } from './coverage/helix.ts';
export { layerMap } from './coverage/layer-map.ts';
export { overlapFor } from './coverage/overlap-for.ts';
export { slabShare } from './coverage/slab-share.ts';
export { stripLength } from './coverage/strip-length.ts';
export {
  type Answer,
  type AnyFormula,
  type Beyond,
  type Constant,
  type Definition,
  type Formula,
  formula,
  type Recheck,
  recheck,
  type Step,
} from './formula.ts';
export { type Fault, type FaultCode, InputError } from './input.ts';
export { addedPlies } from './layers/added-plies.ts';
export { buildUp } from './layers/build-up.ts';
export { castMass } from './layers/cast-mass.ts';
export { curvedSlab } from './layers/curved-slab.ts';
export { fabricArea } from './layers/fabric-area.ts';
export { layersWanted } from './layers/layers-wanted.ts';
export { roundedEnds } from './layers/rounded-ends.ts';
export { slabStiffness } from './layers/slab-stiffness.ts';
export { applicationPlan, type Plan, type StockinettePlan } from './plan/application-plan.ts';
export { type ImmobilisationId, immobilisations } from './plan/catalogue/index.ts';
export type { Checks } from './plan/checks.ts';
export type { Immobilisation, Joint, Landmark, Place } from './plan/immobilisation.ts';
export type { Order, PlaceOnLimb } from './plan/order.ts';
export type { SlabPlan } from './plan/slab.ts';
export { type OrderTemplate, orderTemplate, type WrapTemplate } from './plan/templates.ts';
export type { WrapPlan } from './plan/wrap.ts';
export { underBandage } from './pressure/under-bandage.ts';
export type { Choice, Published, Status } from './published.ts';
export * from './quantity.ts';
export { cuttingPlan } from './roll/cutting-plan.ts';
export { effectiveThickness } from './roll/effective-thickness.ts';
export { lengthLeft } from './roll/length-left.ts';
export { takeOff } from './roll/take-off.ts';
export { turnsOnRoll } from './roll/turns-on-roll.ts';
export { woundDiameter } from './roll/wound-diameter.ts';
export { woundLength } from './roll/wound-length.ts';
export { cutLength } from './segment/cut-length.ts';
export { expectedSegment } from './segment/expected-segment.ts';
export { girthAt } from './segment/girth-at.ts';
export { girthProfile } from './segment/girth-profile.ts';
export { sliceProfile } from './segment/slice-profile.ts';
export { statureForAge } from './segment/stature-for-age.ts';
export { conduction } from './setting/conduction.ts';
export { contactTime } from './setting/contact-time.ts';
export { dipWater } from './setting/dip-water.ts';
export { equivalentMinutes } from './setting/equivalent-minutes.ts';
export { heatCaution } from './setting/heat-caution.ts';
export { hydrationHeat } from './setting/hydration-heat.ts';
export { injuryIntegral } from './setting/injury-integral.ts';
export { roomLoss } from './setting/room-loss.ts';
export { setTimes } from './setting/set-times.ts';
export { supersaturation } from './setting/supersaturation.ts';
export { temperatureBand } from './setting/temperature-band.ts';
export { temperatureHistory } from './setting/temperature-history.ts';
