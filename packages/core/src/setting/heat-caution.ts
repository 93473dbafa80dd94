import type { Caution } from '../caution.ts';
import { type Constants, formula } from '../formula.ts';
import {
  choice,
  count,
  duration,
  either,
  flag,
  group,
  kind,
  list,
  optional,
  temperature,
  text,
} from '../measure.ts';
import { celsius, hours, seconds } from '../quantity.ts';
import { setting } from './set-times.ts';

const constants = {
  plasterDip: {
    unit: 'Cel',
    printed: '24',
    says: 'dip water of plaster, above which heat was found to rise',
    symbol: 'T_1',
    source: 'lavalette-1982-setting',
    at: 'abstract',
    status: 'abstract-only',
  },
  tapeDip: {
    unit: 'Cel',
    printed: '27',
    says: 'dip water of fibreglass, warmest advised',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },
  manyPlies: {
    unit: '1',
    printed: '8',
    says: 'plies of plaster, above which heat was found to rise',
    symbol: 'n_1',
    source: 'lavalette-1982-setting',
    at: 'abstract',
    status: 'abstract-only',
  },
  hotSkin: {
    unit: 'Cel',
    printed: '44',
    says: 'skin temperature at which published burns begin, after hours',
    symbol: 'T_2',
    source: 'moritz-1947-burns',
    at: 'the lowest temperature of its table, 6 h',
    status: 'read-secondary',
  },
  hotFor: {
    unit: 'min',
    printed: '2',
    says: 'time above 49 °C after which a first degree burn is reported',
    symbol: 't_1',
    source: 'williamson-thermal',
    at: 'as a paper on casts cites it: 2 to 3 min',
    status: 'read-secondary',
  },
  resinHeat: {
    unit: '1',
    printed: '298',
    says: 'most heat of curing, kJ per kg of resin; the least estimate is 123',
    status: 'from-memory',
  },
  resinPerLayer: {
    unit: '1',
    printed: '0.28',
    says: 'most resin in a layer of tape, kg/m²',
    status: 'from-memory',
  },
  layerCapacity: {
    unit: '1',
    printed: '1.46',
    says: 'heat capacity of a wet layer of tape, kJ/(m².K)',
    status: 'assumed',
  },
} as const satisfies Constants;

type Leads = 'information' | 'raised' | 'high';

interface Trigger {
  readonly code: string;
  readonly leads: Leads;
  readonly says: string;
  readonly because: string;
  readonly sources: readonly string[];
}

interface Given {
  readonly material: string;
  readonly plies: number;
  readonly folded: boolean;
  readonly dip: number;
  readonly usedWater: boolean;
  readonly cover: string;
  readonly overwrap: string;
  readonly age: string;
  readonly reducedSensation: boolean;
  readonly band?: { readonly skin: number; readonly above49: number } | undefined;
}

/** What led to the class: each rule of the literature that is met, and the model's upper band where it was run. */
function triggersOf(
  { material, plies, folded, dip, usedWater, cover, overwrap, age, reducedSensation, band }: Given,
  c: { readonly [K in keyof typeof constants]: number },
): Trigger[] {
  const tape = material === 'fibreglass';
  const laid = folded ? 2 * plies : plies;
  const limit = tape ? c.tapeDip : c.plasterDip;
  const many = !tape && laid > c.manyPlies;
  const covered = cover !== 'bare';
  const all: readonly (readonly [boolean, Trigger])[] = [
    [
      dip > limit,
      {
        code: 'dip-above-limit',
        leads: 'raised',
        says: 'Dip water is above a published limit: the setting bandage gets hotter on the skin, and sets sooner.',
        because: `water ${dip} °C, limit ${limit} °C`,
        sources: tape
          ? ['ekanayake-2023-revolution']
          : ['lavalette-1982-setting', 'halanski-2007-thermal', 'conroy-2007-optimal'],
      },
    ],
    [
      usedWater,
      {
        code: 'water-used',
        leads: 'raised',
        says: 'Dip water with plaster in it changes how the next bandage sets: take clean water.',
        because: 'the water was used before, or is not clean',
        sources: ['lavalette-1982-setting', 'composite-casts-exothermic'],
      },
    ],
    [
      many && covered,
      {
        code: 'many-plies-covered',
        leads: 'raised',
        says: 'A thick slab under a cover gets much hotter: leave it open to the air until it has cooled.',
        because: `${laid} plies, more than ${c.manyPlies}, under or on: ${cover}`,
        sources: ['lavalette-1982-setting', 'gannaway-1983-thermal'],
      },
    ],
    [
      covered && !many,
      {
        code: 'covered-while-setting',
        leads: 'raised',
        says: 'What lies over or under a setting bandage keeps its heat in: leave it open to the air until it has cooled.',
        because: `under or on: ${cover}`,
        sources:
          cover === 'elastic'
            ? ['gannaway-1983-thermal']
            : ['halanski-2007-thermal', 'gannaway-1983-thermal'],
      },
    ],
    [
      many && !covered,
      {
        code: 'many-plies',
        leads: 'information',
        says: 'A thick slab gets hotter: more so on a pillow, under a cover, or folded back on itself.',
        because: `${laid} plies; a study found more heat above ${c.manyPlies}, most of all on a pillow`,
        sources: ['lavalette-1982-setting', 'childrens-immobilization'],
      },
    ],
    [
      folded,
      {
        code: 'folded-back',
        leads: 'raised',
        says: 'Folded back on itself a slab has twice the plies there, and gets hotter: cut it instead.',
        because: `${plies} plies folded make ${laid}`,
        sources: ['halanski-2007-thermal', 'childrens-immobilization'],
      },
    ],
    [
      overwrap === 'before it has cooled',
      {
        code: 'wrapped-before-cool',
        leads: 'raised',
        says: 'Tape laid over plaster that has not cooled keeps its heat in and adds its own: wait until it has cooled.',
        because: 'over-wrapped before it has cooled',
        sources: ['molding-2011-temperature', 'composite-casts-exothermic'],
      },
    ],
    [
      age === 'infant' || age === 'child' || age === 'older adult',
      {
        code: 'skin-more-sensitive',
        leads: 'raised',
        says: 'This skin is more sensitive to heat: cooler water, fewer layers at once, closer watch.',
        because: `age: ${age}`,
        sources: ['composite-casts-exothermic'],
      },
    ],
    [
      reducedSensation,
      {
        code: 'cannot-report-pain',
        leads: 'raised',
        says: 'Pain or heat may not be felt or told: look at the skin and at circulation more often.',
        because: 'reduced sensation, anaesthetised, or unable to say',
        sources: ['halanski-2008-complications', 'eorthopod-complications'],
      },
    ],
    [
      band !== undefined && band.skin >= c.hotSkin,
      {
        code: 'band-skin-hot',
        leads: 'high',
        says: 'The upper end of the computed band on the skin reaches the temperature at which published burns begin.',
        because: `1 in 20 computed courses goes above ${Math.floor((band?.skin ?? 0) * 10) / 10} °C on the skin; ${c.hotSkin} °C`,
        sources: ['moritz-1947-burns'],
      },
    ],
    [
      band !== undefined && band.above49 > c.hotFor,
      {
        code: 'band-under-cast-hot',
        leads: 'high',
        says: 'The upper end of the computed band under the plaster stays above 49 °C, which studies of casts call dangerous.',
        because: `1 in 20 computed courses stays above 49 °C for more than ${Math.floor((band?.above49 ?? 0) / 60)} min; limit ${c.hotFor / 60} min`,
        sources: ['hutchinson-2008-factors', 'williamson-thermal'],
      },
    ],
    [
      tape,
      {
        code: 'fibreglass-upper-bound',
        leads: 'information',
        says: 'The heat of fibreglass is known too poorly to compute a temperature: only an upper bound is told, with no heat lost.',
        because: 'published heats of curing differ more than twofold',
        sources: ['raphael-2018-ice', 'thomas-1994-exothermic'],
      },
    ],
  ];
  return all.flatMap(([met, trigger]) => (met ? [trigger] : []));
}

/**
 * Whether any known trigger of heat under a setting bandage is met, and which: a class with its reasons, never a temperature
 * that would be harmless and never a time until harm.
 *
 * Rules come from the literature. Where setting.temperature-band was run, its upper end counts as well. That no trigger is
 * met does not mean that nothing can happen.
 *
 * @throws InputError when there is no ply, or no tap gives such water
 * @example
 * heatCaution({
 *   material: 'fast plaster', plies: 12, folded: false, dip: celsius(24), usedWater: false, cover: 'pillow',
 *   overwrap: 'none', age: 'adult', reducedSensation: false,
 * }).value.class // raised
 */
export const heatCaution = /* @__PURE__ */ formula({
  id: 'setting.heat-caution',
  revision: 1,
  basis: 'empirical',
  inputs: {
    material: setting,
    plies: count('plies, or layers of tape', { symbol: 'n', possible: [1, 60] }),
    folded: flag('whether it is folded back on itself somewhere'),
    dip: temperature('temperature of the dip water', { symbol: 'T_w', possible: [celsius(0), celsius(70)] }),
    usedWater: flag('whether bandages were dipped in the water before, or it is not clean'),
    cover: choice('what lies over or under it while it sets', ['bare', 'elastic', 'blanket', 'pillow']),
    overwrap: choice('whether tape is laid over plaster', [
      'none',
      'before it has cooled',
      'after it has cooled',
    ]),
    age: choice('age', ['infant', 'child', 'adolescent', 'adult', 'older adult']),
    reducedSensation: flag('whether the limb feels less, or the person is anaesthetised or cannot say'),
    /** The upper end of the computed band, where there is one. */
    band: optional(
      group({
        skin: temperature('95 % of peaks on the skin are below', {
          symbol: 'T_{s,95}',
          possible: [celsius(0), celsius(150)],
        }),
        above49: duration('in 95 % of cases the time above 49 °C under the plaster is less', {
          symbol: 't_{49,95}',
          possible: [seconds(0), hours(1)],
        }),
      }),
    ),
  },
  constants,
  output: group({
    class: choice('class', ['no trigger met', 'raised', 'high']),
    triggers: list(
      group({
        code: text('which trigger'),
        leads: choice('what it leads to', ['information', 'raised', 'high']),
      }),
      [0, 20],
    ),
    bound: either([
      group({
        kind: kind('no heat lost'),
        temperature: temperature('temperature of the tape if it lost no heat', { symbol: 'T_m' }),
      }),
      group({ kind: kind('modelled'), because: text('why there is no bound') }),
    ]),
  }),
  sources: [
    'lavalette-1982-setting',
    'halanski-2007-thermal',
    'gannaway-1983-thermal',
    'conroy-2007-optimal',
    'hutchinson-2008-factors',
    'williamson-thermal',
    'moritz-1947-burns',
    'molding-2011-temperature',
    'composite-casts-exothermic',
    'halanski-2008-complications',
  ],
  compute: (inputs, c) => {
    const triggers = triggersOf(inputs, c).map(({ code, leads }) => ({ code, leads }));
    const leadsTo = (leads: Leads): boolean => triggers.some((t) => t.leads === leads);
    const rise = (c.resinPerLayer * c.resinHeat) / c.layerCapacity;
    return {
      class: leadsTo('high')
        ? ('high' as const)
        : leadsTo('raised')
          ? ('raised' as const)
          : ('no trigger met' as const),
      triggers,
      bound:
        inputs.material === 'fibreglass'
          ? { kind: 'no heat lost' as const, temperature: inputs.dip + rise }
          : { kind: 'modelled' as const, because: 'plaster: see setting.temperature-band' },
    };
  },
  cautions: (inputs, _, c): readonly Caution[] =>
    triggersOf(inputs, c).map(({ leads, ...caution }) => ({
      ...caution,
      level: leads === 'information' ? 'info' : 'warning',
    })),
});
