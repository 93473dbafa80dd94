import { coaptationSlab } from './coaptation-slab.ts';
import { dorsalSlab } from './dorsal-slab.ts';
import { doubleSugarTongArm, doubleSugarTongForearm } from './double-sugar-tong.ts';
import { forearmSugarTong } from './forearm-sugar-tong.ts';
import { longArmCast } from './long-arm-cast.ts';
import { longArmPosteriorSlab } from './long-arm-posterior-slab.ts';
import { longLegCast } from './long-leg-cast.ts';
import { posteriorAnkleSlab } from './posterior-ankle-slab.ts';
import { posteriorKneeSlab } from './posterior-knee-slab.ts';
import { radialGutterSlab } from './radial-gutter-slab.ts';
import { shortArmCast } from './short-arm-cast.ts';
import { shortLegCast } from './short-leg-cast.ts';
import { stirrupSlab } from './stirrup-slab.ts';
import { thumbSpicaCast } from './thumb-spica-cast.ts';
import { thumbSpicaSlab } from './thumb-spica-slab.ts';
import { ulnarGutterSlab } from './ulnar-gutter-slab.ts';
import { volarSlab } from './volar-slab.ts';

/** Every splint and cast that is described, by id. */
export const immobilisations = {
  [thumbSpicaSlab.id]: thumbSpicaSlab,
  [volarSlab.id]: volarSlab,
  [dorsalSlab.id]: dorsalSlab,
  [radialGutterSlab.id]: radialGutterSlab,
  [ulnarGutterSlab.id]: ulnarGutterSlab,
  [forearmSugarTong.id]: forearmSugarTong,
  [doubleSugarTongForearm.id]: doubleSugarTongForearm,
  [doubleSugarTongArm.id]: doubleSugarTongArm,
  [longArmPosteriorSlab.id]: longArmPosteriorSlab,
  [coaptationSlab.id]: coaptationSlab,
  [posteriorAnkleSlab.id]: posteriorAnkleSlab,
  [stirrupSlab.id]: stirrupSlab,
  [posteriorKneeSlab.id]: posteriorKneeSlab,
  [shortArmCast.id]: shortArmCast,
  [longArmCast.id]: longArmCast,
  [thumbSpicaCast.id]: thumbSpicaCast,
  [shortLegCast.id]: shortLegCast,
  [longLegCast.id]: longLegCast,
} as const;

/** The id of a splint or cast that is described. */
export type ImmobilisationId = keyof typeof immobilisations;
