import { type Constants, formula } from '../formula.ts';
import { amount, choice, group, list, share, temperatureDifference, text } from '../measure.ts';
import { ratio } from '../quantity.ts';

const llnl = { unit: '1', source: 'llnl-thermodynamic', at: 'llnl.dat', status: 'read' } as const;
const thermoddem = { unit: '1', source: 'thermoddem', at: 'V1.10', status: 'read' } as const;
const thermochimie = { unit: '1', source: 'thermochimie', at: 'v10a', status: 'read' } as const;

/** Enthalpies at 25 °C, kJ/mol, as three data sets print them: of dissolution in two, of formation in the third. */
const constants = {
  llnlAlpha: { ...llnl, printed: '-18.711', symbol: 'L_h', says: 'dissolution of α-hemihydrate, kJ/mol' },
  llnlBeta: { ...llnl, printed: '-20.804', says: 'dissolution of β-hemihydrate, kJ/mol' },
  llnlGypsum: { ...llnl, printed: '-1.667', symbol: 'L_g', says: 'dissolution of gypsum, kJ/mol' },
  thermoddemHemihydrate: { ...thermoddem, printed: '-17.357', says: 'dissolution of hemihydrate, kJ/mol' },
  thermoddemGypsum: { ...thermoddem, printed: '-1.054', says: 'dissolution of gypsum, kJ/mol' },
  thermochimieHemihydrate: {
    ...thermochimie,
    printed: '-1577.897',
    says: 'formation of hemihydrate, kJ/mol',
  },
  thermochimieGypsum: { ...thermochimie, printed: '-2022.95', says: 'formation of gypsum, kJ/mol' },
  water: { unit: '1', printed: '-285.83', says: 'formation of water, kJ/mol', status: 'from-memory' },
  molarHemihydrate: {
    ...llnl,
    printed: '145.15',
    symbol: 'M_h',
    says: 'molar mass of hemihydrate, g/mol',
    status: 'read-secondary',
  },
  molarGypsum: {
    ...llnl,
    printed: '172.17',
    symbol: 'M_g',
    says: 'molar mass of gypsum, g/mol',
    status: 'read-secondary',
  },
  heatCapacityGypsum: {
    unit: '1',
    printed: '1.081',
    symbol: 'c_g',
    says: 'heat capacity of gypsum at 25 °C, J/(g.K)',
    source: 'obigt-thermodynamic',
    at: 'inorganic minerals, gypsum',
    status: 'derived',
  },
  heatCapacityWater: {
    unit: '1',
    printed: '4.18',
    symbol: 'c_w',
    says: 'heat capacity of water, J/(g.K)',
    status: 'from-memory',
  },
} as const satisfies Constants;

/**
 * Heat that hemihydrate gives as it turns to gypsum, from three sets of published enthalpies, and what a paste does with it.
 *
 * Two sets do not tell the α from the β form, so theirs stand with either. The set that does is used, and the spread
 * over all of them is told.
 *
 * @throws InputError when there is less water than the reaction binds
 * @example
 * hydrationHeat({ hemihydrate: 'alpha', water: ratio(0.7) }).value.perGram // 117.4…
 */
export const hydrationHeat = /* @__PURE__ */ formula({
  id: 'setting.hydration-heat',
  revision: 1,
  basis: 'empirical',
  inputs: {
    hemihydrate: choice('form of the hemihydrate', ['alpha', 'beta']),
    water: share('mass of water to mass of hemihydrate', { symbol: 'w', possible: [ratio(0.2), ratio(3)] }),
  },
  constants,
  output: group({
    perMole: amount('heat of hydration, kJ per mole of hemihydrate', { symbol: 'H' }),
    perGram: amount('heat of hydration, J per gram of hemihydrate', { symbol: 'h' }),
    published: list(
      group({
        source: text('which data set'),
        perMole: amount('heat of hydration by it, kJ per mole', { symbol: 'H_i' }),
        perGram: amount('heat of hydration by it, J per gram', { symbol: 'h_i' }),
      }),
      [3, 3],
    ),
    least: amount('least of the three, J per gram', { symbol: 'h_0' }),
    most: amount('most of the three, J per gram', { symbol: 'h_1' }),
    boundWater: amount('water bound, g per gram of hemihydrate', { symbol: 'b' }),
    gypsum: amount('gypsum formed, g per gram of hemihydrate', { symbol: 'g' }),
    heatCapacity: amount('heat capacity of the set paste, J/K per gram of hemihydrate', { symbol: 'c' }),
    adiabaticRise: temperatureDifference('rise of a paste that loses no heat', { symbol: 'R' }),
  }),
  sources: ['llnl-thermodynamic', 'thermoddem', 'thermochimie', 'obigt-thermodynamic'],
  compute: ({ hemihydrate, water }, c) => {
    const perMole = c.llnlGypsum - (hemihydrate === 'alpha' ? c.llnlAlpha : c.llnlBeta);
    const published = (
      [
        ['llnl-thermodynamic', perMole],
        ['thermoddem', c.thermoddemGypsum - c.thermoddemHemihydrate],
        ['thermochimie', c.thermochimieHemihydrate + 1.5 * c.water - c.thermochimieGypsum],
      ] as const
    ).map(([source, perMole]) => ({ source, perMole, perGram: (perMole * 1000) / c.molarHemihydrate }));
    const all = published.map(({ perGram }) => perGram);
    const perGram = (perMole * 1000) / c.molarHemihydrate;
    const gypsum = c.molarGypsum / c.molarHemihydrate;
    const boundWater = gypsum - 1;
    const heatCapacity = gypsum * c.heatCapacityGypsum + (water - boundWater) * c.heatCapacityWater;
    return {
      perMole,
      perGram,
      published,
      least: Math.min(...all),
      most: Math.max(...all),
      boundWater,
      gypsum,
      heatCapacity,
      adiabaticRise: perGram / heatCapacity,
    };
  },
});
