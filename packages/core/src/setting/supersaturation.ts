import { type Constants, formula, type Numbers } from '../formula.ts';
import { amount, choice, group, temperature } from '../measure.ts';
import { celsius } from '../quantity.ts';

const at = { unit: '1', source: 'llnl-thermodynamic', status: 'read' } as const;

/** log K = a + bT + c/T + d log T + e/T², T in kelvin: one line a mineral, as printed. */
const constants = {
  alphaA: { ...at, printed: '-220.1', says: 'a of α-hemihydrate' },
  alphaB: { ...at, printed: '-0.080230', says: 'b of α-hemihydrate' },
  alphaC: { ...at, printed: '5509.2', says: 'c of α-hemihydrate' },
  alphaD: { ...at, printed: '89.651', says: 'd of α-hemihydrate' },
  alphaE: { ...at, printed: '86.031', says: 'e of α-hemihydrate' },
  betaA: { ...at, printed: '-230.54', says: 'a of β-hemihydrate' },
  betaB: { ...at, printed: '-0.082832', says: 'b of β-hemihydrate' },
  betaC: { ...at, printed: '5913.2', says: 'c of β-hemihydrate' },
  betaD: { ...at, printed: '93.705', says: 'd of β-hemihydrate' },
  betaE: { ...at, printed: '92.338', says: 'e of β-hemihydrate' },
  gypsumA: { ...at, printed: '-244.17', symbol: 'A', says: 'a of gypsum' },
  gypsumB: { ...at, printed: '-0.083329', symbol: 'B', says: 'b of gypsum' },
  gypsumC: { ...at, printed: '5595.8', symbol: 'C', says: 'c of gypsum' },
  gypsumD: { ...at, printed: '99.301', symbol: 'D', says: 'd of gypsum' },
  gypsumE: { ...at, printed: '87.389', symbol: 'E', says: 'e of gypsum' },
} as const satisfies Constants;

type Mineral = 'alpha' | 'beta' | 'gypsum';
const zeroCelsius = 273.15;

function logK(c: Numbers<typeof constants>, mineral: Mineral, kelvin: number): number {
  return (
    c[`${mineral}A`] +
    c[`${mineral}B`] * kelvin +
    c[`${mineral}C`] / kelvin +
    c[`${mineral}D`] * Math.log10(kelvin) +
    c[`${mineral}E`] / (kelvin * kelvin)
  );
}

/**
 * How far water saturated with hemihydrate is above its saturation with gypsum: what drives plaster to set.
 *
 * It falls as the paste warms, which holds back the reaction that warms it; at 1 it stops.
 *
 * @throws InputError when the water would be ice or steam
 * @example
 * supersaturation({ hemihydrate: 'beta', temperature: celsius(25) }).value.supersaturation // 3.1…
 */
export const supersaturation = /* @__PURE__ */ formula({
  id: 'setting.supersaturation',
  revision: 1,
  basis: 'empirical',
  inputs: {
    hemihydrate: choice('form of the hemihydrate', ['alpha', 'beta']),
    temperature: temperature('temperature of the paste', {
      symbol: 'T',
      possible: [celsius(0), celsius(150)],
      tested: [celsius(0), celsius(150)],
    }),
  },
  constants,
  output: group({
    supersaturation: amount('ratio of the two solubilities', { symbol: 'S' }),
    logHemihydrate: amount('decimal logarithm of the solubility product of hemihydrate', { symbol: 'k_h' }),
    logGypsum: amount('decimal logarithm of the solubility product of gypsum', { symbol: 'k_g' }),
  }),
  sources: ['llnl-thermodynamic'],
  compute: ({ hemihydrate, temperature }, c) => {
    const kelvin = temperature + zeroCelsius;
    const logHemihydrate = logK(c, hemihydrate, kelvin);
    const logGypsum = logK(c, 'gypsum', kelvin);
    return { supersaturation: 10 ** ((logHemihydrate - logGypsum) / 2), logHemihydrate, logGypsum };
  },
});
