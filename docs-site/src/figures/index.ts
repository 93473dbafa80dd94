import type { AnyFormula } from 'swathe';
import { walk } from 'swathe/definition';
import type { Draw, Figure } from './svg.ts';

/** Each loaded by the pages that show it, and by no other. */
const drawings: Readonly<Record<string, () => Promise<Draw>>> = {
  'segment.girth-profile': async () => (await import('./limb.ts')).girthProfileFigure,
  'segment.girth-at': async () => (await import('./limb.ts')).girthAtFigure,
  'segment.slice-profile': async () => (await import('./limb.ts')).sliceProfileFigure,
  'segment.expected-segment': async () => (await import('./expected.ts')).expectedSegmentFigure,
  'segment.stature-for-age': async () => (await import('./stature.ts')).statureForAgeFigure,
  'segment.cut-length': async () => (await import('./cut.ts')).cutFigure,
  'coverage.slab-share': async () => (await import('./slab-share.ts')).slabShareFigure,
  'coverage.overlap-for': async () => (await import('./overlap.ts')).overlapForFigure,
  'coverage.helix': async () => (await import('./helix.ts')).helixFigure,
  'coverage.strip-length': async () => (await import('./strip.ts')).stripFigure,
  'coverage.layer-map': async () => (await import('./layer-map.ts')).layerMapFigure,
  'coverage.geodesic-advance': async () => (await import('./cone.ts')).geodesicAdvanceFigure,
  'coverage.edge-mismatch': async () => (await import('./cone.ts')).edgeMismatchFigure,
  'coverage.figure-of-eight': async () => (await import('./figure-of-eight.ts')).figureOfEightFigure,
  'layers.layers-wanted': async () => (await import('./layers-wanted.ts')).layersWantedFigure,
  'layers.build-up': async () => (await import('./build-up.ts')).buildUpFigure,
  'layers.added-plies': async () => (await import('./added-plies.ts')).addedPliesFigure,
  'layers.cast-mass': async () => (await import('./cast-mass.ts')).castMassFigure,
  'layers.fabric-area': async () => (await import('./fabric-area.ts')).fabricAreaFigure,
  'layers.rounded-ends': async () => (await import('./rounded-ends.ts')).roundedEndsFigure,
  'layers.slab-stiffness': async () => (await import('./slab-section.ts')).slabStiffnessFigure,
  'layers.curved-slab': async () => (await import('./slab-section.ts')).curvedSlabFigure,
  'roll.wound-length': async () => (await import('./roll.ts')).rollFigure,
  'roll.wound-diameter': async () => (await import('./roll.ts')).woundDiameterFigure,
  'roll.effective-thickness': async () => (await import('./roll.ts')).effectiveThicknessFigure,
  'roll.length-left': async () => (await import('./roll.ts')).lengthLeftFigure,
  'roll.turns-on-roll': async () => (await import('./roll.ts')).turnsOnRollFigure,
  'roll.take-off': async () => (await import('./take-off.ts')).takeOffFigure,
  'roll.cutting-plan': async () => (await import('./cutting-plan.ts')).cuttingPlanFigure,
  'setting.dip-water': async () => (await import('./dip-water.ts')).dipWaterFigure,
  'setting.set-times': async () => (await import('./set-times.ts')).setTimesFigure,
  'setting.supersaturation': async () => (await import('./supersaturation.ts')).supersaturationFigure,
  'setting.hydration-heat': async () => (await import('./hydration-heat.ts')).hydrationHeatFigure,
  'setting.conduction': async () => (await import('./conduction.ts')).conductionFigure,
  'setting.room-loss': async () => (await import('./room-loss.ts')).roomLossFigure,
  'setting.temperature-history': async () => (await import('./temperature.ts')).temperatureHistoryFigure,
  'setting.temperature-band': async () => (await import('./temperature.ts')).temperatureBandFigure,
  'setting.equivalent-minutes': async () => (await import('./history.ts')).historyFigure,
  'setting.injury-integral': async () => (await import('./history.ts')).historyFigure,
  'setting.contact-time': async () => (await import('./contact-time.ts')).contactTimeFigure,
  'setting.heat-caution': async () => (await import('./heat-caution.ts')).heatCautionFigure,
  'pressure.under-bandage': async () => (await import('./pressure.ts')).pressureFigure,
};

/** A formula's figure, drawn from an answer of its own. */
export async function figureOf(
  formula: AnyFormula,
  answer: { readonly from: unknown; readonly value: unknown },
  nameOf: (source: string) => string,
): Promise<Figure | undefined> {
  const draw = await drawings[formula.id]?.();
  const inputs = walk(formula.input, answer.from, (about, told) =>
    about.unit === null || typeof told === 'number' ? told : (told as { value: number }).value,
  );
  return draw?.(inputs as never, answer.value as never, formula, (source) =>
    source === undefined ? 'common practice' : nameOf(source),
  );
}
