import type { AnyFormula } from 'swathe';
import { walk } from '../../../packages/core/src/measure.ts';
import { buildUpFigure } from './build-up.ts';
import { cutFigure } from './cut.ts';
import { dipWaterFigure } from './dip-water.ts';
import { helixFigure } from './helix.ts';
import { layerMapFigure } from './layer-map.ts';
import { girthProfileFigure } from './limb.ts';
import { pressureFigure } from './pressure.ts';
import { rollFigure } from './roll.ts';
import { setTimesFigure } from './set-times.ts';
import { slabShareFigure } from './slab-share.ts';
import { stripFigure } from './strip.ts';
import type { Draw, Figure } from './svg.ts';
import { takeOffFigure } from './take-off.ts';

const drawings: Readonly<Record<string, Draw>> = {
  'segment.girth-profile': girthProfileFigure,
  'segment.cut-length': cutFigure,
  'coverage.slab-share': slabShareFigure,
  'coverage.helix': helixFigure,
  'coverage.strip-length': stripFigure,
  'coverage.layer-map': layerMapFigure,
  'layers.build-up': buildUpFigure,
  'roll.wound-length': rollFigure,
  'roll.take-off': takeOffFigure,
  'setting.dip-water': dipWaterFigure,
  'setting.set-times': setTimesFigure,
  'pressure.under-bandage': pressureFigure,
};

/** A formula's figure, drawn from an answer of its own. */
export function figureOf(
  formula: AnyFormula,
  answer: { readonly from: unknown; readonly value: unknown },
): Figure | undefined {
  const inputs = walk(formula.input, answer.from, (about, told) =>
    about.unit === null || typeof told === 'number' ? told : (told as { value: number }).value,
  );
  return drawings[formula.id]?.(inputs as never, answer.value as never, formula);
}
