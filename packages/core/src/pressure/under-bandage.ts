import type { Caution } from '../caution.ts';
import { width } from '../coverage/bandage.ts';
import { formula } from '../formula.ts';
import { count, force, length, pressure } from '../measure.ts';
import { hold, mm, newtons } from '../quantity.ts';
import { girth } from '../segment/girth.ts';

/** One newton per square millimetre. */
const newtonPerMm2 = hold(1000, 'kPa');

/**
 * Pressure on the limb under an elastic bandage, averaged round it, by Laplace's law.
 *
 * Each layer lies on the ones before it, so with thick layers the outer ones press less. On a real limb the law is a
 * guide to what raises or lowers the pressure, not a measurement: published comparisons found wide differences.
 *
 * @throws InputError when a tension or a size cannot be
 * @example
 * underBandage({ tension: kgf(1), layers: 2, girth: cm(25), width: cm(10), thickness: mm(0) }).value // 36.97… mmHg
 */
export const underBandage = /* @__PURE__ */ formula({
  id: 'pressure.under-bandage',
  revision: 1,
  basis: 'identity',
  inputs: {
    tension: force('tension over the whole width of the bandage', {
      symbol: 'F',
      possible: [newtons(0), newtons(200)],
    }),
    layers: count('layers', { symbol: 'n', possible: [1, 30] }),
    girth,
    width,
    thickness: length('thickness of one layer as it lies; 0 to leave the build-up out', {
      symbol: 't',
      possible: [mm(0), mm(20)],
    }),
  },
  constants: {
    closing: {
      printed: '32',
      unit: 'mm[Hg]',
      says: 'pressure assumed to close capillaries',
      source: 'landis-1930-capillary',
      status: 'read-secondary',
    },
  },
  rises: ['tension', 'layers'],
  falls: ['girth', 'width', 'thickness'],
  output: pressure('pressure under the bandage', { symbol: 'P' }),
  sources: ['derivation.laplace', 'thomas-2003-laplace', 'alkhaburi-impact', 'landis-1930-capillary'],
  compute: ({ tension, layers, girth, width, thickness }) => {
    let perTension = 0;
    for (let n = 0; n < layers; n++) perTension += (2 * Math.PI) / (girth + 2 * Math.PI * n * thickness);
    return ((tension * perTension) / width) * newtonPerMm2;
  },
  cautions: (_, value, { closing }): readonly Caution[] =>
    value > closing
      ? [
          {
            code: 'pressure-above-capillary',
            level: 'warning',
            says: 'The average pressure is above what is assumed to close capillaries: check circulation closely.',
            because: `${Number(value.toPrecision(3))} mmHg by Laplace's law, ${closing} mmHg assumed to close capillaries`,
            sources: ['landis-1930-capillary', 'garrigues-2021-laplace'],
          },
        ]
      : [],
});
