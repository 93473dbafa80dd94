import type { Constant, Constants, Numbers } from '../formula.ts';
import { hydrationHeat } from './hydration-heat.ts';
import type { Kinetics } from './setting-rate.ts';

const assumed = { unit: '1', status: 'assumed' } as const;
const fromTable = { unit: '1', status: 'read-secondary', source: 'en-12524-table' } as const;
const tissue = { unit: '1', status: 'read-secondary', source: 'itis-tissue-quotes' } as const;
const volumetric = { ...tissue, status: 'derived' } as const;
const skin = { unit: '1', status: 'read-secondary', source: 'jiang-2002-skin' } as const;
const jos = { unit: '1', status: 'read-secondary', source: 'jos3-parameters' } as const;

/** Neutral values of the model of a setting cast. Those that no source gives are assumed, and say so. */
export const neutral = {
  dipReading: { ...assumed, unit: 'K', printed: '0', says: 'error of the thermometer in the dip water' },
  roomReading: { ...assumed, unit: 'K', printed: '0', says: 'error of the thermometer in the room' },
  heat: {
    unit: '1',
    status: 'derived',
    source: 'llnl-thermodynamic',
    printed: '117.4',
    symbol: 'h',
    says: 'heat of hydration, α form, J per g of hemihydrate: see setting.hydration-heat',
  },
  massPerPly: { ...assumed, unit: 'g/m2', printed: '350', symbol: 'm', says: 'dry plaster in a ply' },
  waterRatio: { ...assumed, printed: '0.7', symbol: 'w', says: 'water kept to dry plaster, by mass' },
  thicknessPerPly: { ...assumed, unit: 'mm', printed: '0.42', says: 'thickness of a wet ply' },
  castConductivity: {
    ...assumed,
    unit: 'W/(m.K)',
    printed: '0.45',
    symbol: 'k',
    says: 'conductivity across the wet cast',
  },
  heatCapacityHemihydrate: {
    unit: '1',
    status: 'from-memory',
    printed: '0.82',
    symbol: 'c_h',
    says: 'heat capacity of hemihydrate, J/(g.K), for the mixing of powder and water',
  },
  handlingLoss: {
    ...assumed,
    printed: '0.2',
    symbol: '\\beta',
    says: 'share of its warmth above the room that it loses between bowl and limb',
  },
  rateSlow: {
    ...assumed,
    unit: '/s',
    printed: '0.0012',
    says: 'rate constant at 25 °C of slow plaster: the fast class’s, by the ratio of printed setting times',
  },
  rateFast: {
    unit: '/s',
    status: 'calibrated-on',
    printed: '0.003',
    symbol: 'k_{25}',
    says: 'rate constant at 25 °C of fast plaster: so that a thin cast is hottest about 15 min after wetting, as the trade has it',
  },
  rateExtraFast: {
    ...assumed,
    unit: '/s',
    printed: '0.0085',
    says: 'rate constant at 25 °C of extra-fast plaster: so that it is hottest after 5 to 8 min',
  },
  activation: { ...assumed, printed: '35', symbol: 'E', says: 'activation energy of the rate, kJ/mol' },
  order: { ...assumed, printed: '2', symbol: 'p', says: 'power of the driving force in the rate' },
  nuclei: {
    ...assumed,
    printed: '0.01',
    symbol: 'a_0',
    says: 'conversion that stands for the nuclei at the start',
  },
  paddingThickness: {
    ...assumed,
    unit: 'mm',
    printed: '0.6',
    says: 'thickness of a layer of padding, in place',
  },
  paddingConductivity: {
    ...assumed,
    unit: 'W/(m.K)',
    source: 'en-12524-table',
    printed: '0.045',
    says: 'conductivity of padding; felt has 0.05 in the table, loose cellulose 0.042 in another',
  },
  paddingCapacity: { ...assumed, printed: '80', says: 'heat capacity of padding, kJ/(m³.K)' },
  stockinetteThickness: { ...assumed, unit: 'mm', printed: '0.5', says: 'thickness of stockinette' },
  convection: {
    ...assumed,
    unit: 'W/(m2.K)',
    source: 'jos3-parameters',
    printed: '3.5',
    says: 'natural convection: the source has 2.0 to 3.7 by part of the limb',
  },
  emissivity: { ...assumed, printed: '0.95', says: 'emissivity of the outer surface' },
  lewis: {
    ...jos,
    printed: '16.5',
    says: 'Lewis relation of evaporation to convection, K/kPa',
  },
  wetness: { ...assumed, printed: '0.5', says: 'share of the outside from which water evaporates' },
  elasticResistance: {
    ...assumed,
    unit: 'm2.K/W',
    printed: '0.02',
    says: 'insulation of an elastic bandage',
  },
  elasticVapour: { ...assumed, printed: '0.5', says: 'share of evaporation that an elastic bandage leaves' },
  blanketResistance: { ...assumed, unit: 'm2.K/W', printed: '0.2', says: 'insulation of a blanket' },
  blanketVapour: { ...assumed, printed: '0.2', says: 'share of evaporation that a blanket leaves' },
  pillowResistance: {
    ...assumed,
    unit: 'm2.K/W',
    printed: '0.3',
    says: 'insulation of a pillow where it lies against the cast',
  },
  pillowVapour: { ...assumed, printed: '0', says: 'share of evaporation that a covered pillow leaves' },
  core: { ...assumed, unit: 'Cel', printed: '36.5', says: 'temperature of deep muscle' },
  arterial: { ...assumed, unit: 'Cel', printed: '37', symbol: 'T_b', says: 'temperature of arterial blood' },
  muscleThickness: { ...assumed, unit: 'mm', printed: '12', says: 'thickness of muscle that takes part' },
  muscleConductivity: { ...tissue, unit: 'W/(m.K)', printed: '0.495', says: 'conductivity of muscle' },
  muscleCapacity: { ...volumetric, printed: '3.73', says: 'heat capacity of muscle, MJ/(m³.K)' },
  musclePerfusion: {
    ...volumetric,
    unit: '/s',
    printed: '0.00067',
    says: 'blood flow of muscle, volumes a second',
  },
  fatThickness: { ...assumed, unit: 'mm', printed: '5', says: 'thickness of fat, where none is given' },
  fatConductivity: { ...tissue, unit: 'W/(m.K)', printed: '0.209', says: 'conductivity of fat' },
  fatCapacity: { ...volumetric, printed: '2.14', says: 'heat capacity of fat, MJ/(m³.K)' },
  fatPerfusion: {
    ...assumed,
    unit: '/s',
    printed: '0.0002',
    says: 'blood flow of fat at rest, volumes a second',
  },
  dermisThickness: { ...assumed, unit: 'mm', printed: '1.5', says: 'thickness of the dermis' },
  dermisConductivity: { ...tissue, unit: 'W/(m.K)', printed: '0.372', says: 'conductivity of the dermis' },
  dermisCapacity: { ...volumetric, printed: '3.76', says: 'heat capacity of the dermis, MJ/(m³.K)' },
  skinPerfusion: {
    ...skin,
    unit: '/s',
    printed: '0.00125',
    symbol: '\\omega',
    says: 'blood flow of the dermis at 33 °C, volumes a second',
  },
  flowDoubling: {
    ...jos,
    unit: 'K',
    printed: '6',
    says: 'warming of the skin that doubles its blood flow; tenfold at most',
  },
  epidermisThickness: {
    ...skin,
    unit: 'mm',
    printed: '0.08',
    says: 'thickness of the epidermis',
  },
  epidermisConductivity: {
    ...skin,
    unit: 'W/(m.K)',
    printed: '0.24',
    says: 'conductivity of the epidermis',
  },
  epidermisCapacity: {
    ...skin,
    printed: '4.31',
    says: 'heat capacity of the epidermis, MJ/(m³.K)',
  },
  bloodCapacity: { ...volumetric, printed: '3.80', symbol: 'C_b', says: 'heat capacity of blood, MJ/(m³.K)' },
  glassConductivity: {
    ...fromTable,
    unit: 'W/(m.K)',
    printed: '1.0',
    says: 'conductivity of soda-lime glass',
  },
  glassCapacity: { ...fromTable, printed: '1.875', says: 'heat capacity of soda-lime glass, MJ/(m³.K)' },
  plasticConductivity: { ...fromTable, unit: 'W/(m.K)', printed: '0.17', says: 'conductivity of PVC' },
  plasticCapacity: { ...fromTable, printed: '1.251', says: 'heat capacity of PVC, MJ/(m³.K)' },
  tubeAir: { ...assumed, unit: 'W/(m2.K)', printed: '5', says: 'heat transfer to air inside a tube' },
  tubeWater: {
    ...assumed,
    unit: 'W/(m2.K)',
    printed: '500',
    says: 'heat transfer to water that circulates in a tube',
  },
  stillWater: {
    ...assumed,
    unit: 'W/(m.K)',
    printed: '6',
    says: 'conductivity that stands for still water stirred by its own warmth',
  },
  resinHeat: { ...assumed, printed: '210', says: 'heat of curing, kJ per kg of resin: middle of 123 to 298' },
  resinPerLayer: {
    unit: 'g/m2',
    status: 'from-memory',
    printed: '230',
    says: 'resin in a layer of tape',
  },
  tapeThickness: { ...assumed, unit: 'mm', printed: '0.8', says: 'thickness of a layer of tape' },
  tapeConductivity: { ...assumed, unit: 'W/(m.K)', printed: '0.15', says: 'conductivity across wet tape' },
  tapeCapacity: { ...assumed, printed: '1.6', says: 'heat capacity of wet tape, MJ/(m³.K)' },
  tapeHalfway: {
    ...assumed,
    unit: 's',
    printed: '270',
    says: 'time from dipping until half of the resin has cured',
  },
} as const satisfies Constants;

/** What is known only within bands: the same names, each as the span within which it is drawn. */
export const ranges = {
  dipReading: { ...assumed, unit: 'K', printed: '-1–1', says: neutral.dipReading.says },
  roomReading: { ...assumed, unit: 'K', printed: '-1–1', says: neutral.roomReading.says },
  heat: {
    ...neutral.heat,
    printed: '112.3–131.8',
    says: 'heat of hydration over three data sets and both forms, J/g',
  },
  massPerPly: { ...assumed, unit: 'g/m2', printed: '300–420', says: neutral.massPerPly.says },
  waterRatio: { ...assumed, printed: '0.6–0.9', says: neutral.waterRatio.says },
  thicknessPerPly: { ...assumed, unit: 'mm', printed: '0.35–0.50', says: neutral.thicknessPerPly.says },
  castConductivity: {
    ...assumed,
    unit: 'W/(m.K)',
    printed: '0.30–0.60',
    says: neutral.castConductivity.says,
  },
  handlingLoss: { ...assumed, printed: '0–0.4', says: neutral.handlingLoss.says },
  rateSlow: { ...assumed, unit: '/s', printed: '0.0009–0.0017', says: neutral.rateSlow.says },
  rateFast: { ...neutral.rateFast, unit: '/s', printed: '0.0025–0.004' },
  rateExtraFast: { ...assumed, unit: '/s', printed: '0.006–0.012', says: neutral.rateExtraFast.says },
  activation: { ...assumed, printed: '30–40', says: neutral.activation.says },
  order: { ...assumed, printed: '1–2', says: neutral.order.says },
  paddingThickness: { ...assumed, unit: 'mm', printed: '0.3–1.0', says: neutral.paddingThickness.says },
  paddingConductivity: {
    ...assumed,
    unit: 'W/(m.K)',
    printed: '0.035–0.06',
    says: 'conductivity of padding',
  },
  convection: { ...neutral.convection, unit: 'W/(m2.K)', printed: '2.0–4.3', says: 'natural convection' },
  wetness: { ...assumed, printed: '0.2–0.8', says: neutral.wetness.says },
  elasticResistance: {
    ...assumed,
    unit: 'm2.K/W',
    printed: '0.01–0.04',
    says: neutral.elasticResistance.says,
  },
  blanketResistance: { ...assumed, unit: 'm2.K/W', printed: '0.1–0.3', says: neutral.blanketResistance.says },
  pillowResistance: { ...assumed, unit: 'm2.K/W', printed: '0.1–0.5', says: neutral.pillowResistance.says },
  core: { ...assumed, unit: 'Cel', printed: '36–37', says: neutral.core.says },
  fatThickness: { ...assumed, unit: 'mm', printed: '2–10', says: neutral.fatThickness.says },
  skinPerfusion: { ...assumed, unit: '/s', printed: '0.0005–0.004', says: neutral.skinPerfusion.says },
  resinHeat: { ...assumed, printed: '123–298', says: 'heat of curing, kJ per kg of resin' },
  resinPerLayer: {
    unit: 'g/m2',
    status: 'from-memory',
    printed: '180–280',
    says: neutral.resinPerLayer.says,
  },
} as const satisfies Partial<Record<keyof typeof neutral, Constant>>;

export type CastNumbers = Numbers<typeof neutral>;
export type Varied = keyof typeof ranges;

export type PlasterClass = 'extra-fast plaster' | 'fast plaster' | 'slow plaster';
export const rateOf = {
  'extra-fast plaster': 'rateExtraFast',
  'fast plaster': 'rateFast',
  'slow plaster': 'rateSlow',
} as const satisfies Record<PlasterClass, Varied>;

export const kineticsOf = (c: CastNumbers, material: PlasterClass): Kinetics => ({
  k25: c[rateOf[material]],
  activation: c.activation * 1000,
  order: c.order,
  seed: c.nuclei,
});

export type Cover = 'bare' | 'elastic' | 'blanket' | 'pillow';

/** Insulation of a cover, and the share of evaporation that it leaves. */
export function coverOf(
  c: CastNumbers,
  cover: Cover,
): { readonly resistance: number; readonly vapour: number } {
  if (cover === 'bare') return { resistance: 0, vapour: 1 };
  return { resistance: c[`${cover}Resistance`], vapour: c[`${cover}Vapour`] };
}

/** Heat capacity of the set paste, J/K per g of hemihydrate that it was made of. */
export const pasteCapacity = (waterRatio: number): number =>
  hydrationHeat.compute({ hemihydrate: 'alpha', water: waterRatio as never }).heatCapacity;
