import type { Caution } from '../caution.ts';
import { type Constants, formula } from '../formula.ts';
import { choice, group, list, temperature, text } from '../measure.ts';
import { celsius, type Span } from '../quantity.ts';

const advised = { unit: 'Cel', says: 'dip water advised' } as const;
const limit = { unit: 'Cel', says: 'dip water not above' } as const;

/** Per material: what sources advise, and limits that they found. */
const constants = {
  plasterFemur: { ...advised, printed: '22–25', source: 'ao-distal-femur', at: 'materials', status: 'read' },
  plasterShortLeg: {
    ...advised,
    printed: '20–25',
    source: 'brock-2001-shortleg',
    at: 'steps 1-4',
    status: 'read',
  },
  plasterReview: {
    ...advised,
    printed: '20–25',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },
  plasterLimit: {
    ...limit,
    printed: '24',
    source: 'lavalette-1982-setting',
    at: 'abstract',
    status: 'abstract-only',
  },
  fibreglassReview: {
    ...advised,
    printed: '15–27',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },
} as const satisfies Constants;

type Name = keyof typeof constants;
const namesOf = {
  plaster: ['plasterFemur', 'plasterShortLeg', 'plasterReview', 'plasterLimit'],
  fibreglass: ['fibreglassReview'],
} as const satisfies Record<string, readonly Name[]>;

/**
 * Where dip water stands to what is published for a material.
 *
 * Sources disagree: some advise up to 25 °C for plaster, one found a raised risk above 24 °C. The strictest upper limit
 * is used, and the lowest lower one.
 *
 * @throws InputError when no tap gives such water
 * @example
 * dipWater({ material: 'plaster', water: celsius(30) }).cautions[0]?.code // 'dip-above-limit'
 */
export const dipWater = /* @__PURE__ */ formula({
  id: 'setting.dip-water',
  revision: 1,
  basis: 'empirical',
  inputs: {
    material: choice('what is dipped', ['plaster', 'fibreglass']),
    water: temperature('temperature of the dip water', { symbol: 'T', possible: [celsius(0), celsius(70)] }),
  },
  constants,
  output: group({
    least: temperature('lowest temperature that a source advises', { symbol: 'T_0' }),
    most: temperature('strictest upper limit that a source gives', { symbol: 'T_1' }),
    place: choice('where the water stands', ['below', 'within', 'above']),
    published: list(text('which constant'), [1, 20]),
  }),
  sources: ['lavalette-1982-setting', 'brock-2001-shortleg', 'ekanayake-2023-revolution', 'ao-distal-femur'],
  compute: ({ material, water }, c) => {
    const spans: readonly Span[] = namesOf[material].map((name) => {
      const value: number | Span = c[name];
      return typeof value === 'number' ? [Number.POSITIVE_INFINITY, value] : value;
    });
    const least = Math.min(...spans.map(([low]) => low));
    const most = Math.min(...spans.map(([, high]) => high));
    const place: 'above' | 'below' | 'within' = water > most ? 'above' : water < least ? 'below' : 'within';
    return { least, most, place, published: namesOf[material] };
  },
  cautions: ({ material, water }, { least, most, place }, c): readonly Caution[] => {
    if (place === 'within') return [];
    const exceeded = namesOf[material].filter((name) => {
      const value: number | Span = c[name];
      const [low, high] = typeof value === 'number' ? [0, value] : value;
      return place === 'above' ? water > high : water < low;
    });
    const sources = [...new Set(exceeded.map((name) => constants[name].source))];
    return place === 'above'
      ? [
          {
            code: 'dip-above-limit',
            level: 'warning',
            says: 'Dip water is above a published limit: the setting bandage gets hotter on the skin, and sets sooner.',
            because: `water ${water} °C, strictest limit ${most} °C for ${material}`,
            sources,
          },
        ]
      : [
          {
            code: 'dip-below-range',
            level: 'info',
            says: 'Dip water is colder than sources advise: the bandage sets later and must be held longer.',
            because: `water ${water} °C, lowest advised ${least} °C for ${material}`,
            sources,
          },
        ];
  },
});
