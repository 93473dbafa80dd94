import type { Caution } from '../caution.ts';
import { formula } from '../formula.ts';
import {
  amount,
  choice,
  count,
  duration,
  either,
  group,
  kind,
  length,
  list,
  mass,
  optional,
  share,
  text,
} from '../measure.ts';
import { grams, type Length, type Mass, mm, ratio, type Span, tell, years } from '../quantity.ts';
import { normalShare, quantile95 } from './normal.ts';
import { adults, children } from './survey.ts';

const girths = [
  'wrist girth',
  'hand girth',
  'forearm girth',
  'forearm girth, flexed',
  'upper-arm girth',
  'upper-arm girth, flexed',
  'ankle girth',
  'ball-of-foot girth',
  'calf girth',
  'lower-thigh girth',
  'thigh girth',
] as const;
const lengths = [
  'hand length',
  'forearm length',
  'upper-arm length',
  'foot length',
  'shank length',
  'thigh length',
  'popliteal height',
] as const;
const measures = [...girths, ...lengths] as const;
export type Measured = (typeof measures)[number];

const models = ['sex alone', 'stature', 'stature and weight'] as const;

/** From this age the adults' survey is used, to here the children's. */
const grown = years(18);
const youngest = years(2);

/** One in a hundred lie below the first, one in a hundred above the second. */
const usual = [0.01, 0.99] as const;

interface Fit {
  readonly who: 'men' | 'women' | 'children';
  readonly n: number;
  readonly model: (typeof models)[number];
  readonly intercept: number;
  readonly perStature: number;
  readonly perKilogram: number;
  readonly spread: number;
}

interface Person {
  readonly age: number;
  readonly sex: 'male' | 'female' | 'unstated';
  readonly stature?: Length | undefined;
  readonly weight?: Mass | undefined;
}

const inside = (x: number, [least, most]: Span): boolean => x >= least && x <= most;

function childFit(measure: Measured, { stature }: Person): Fit | string {
  const row = children[measure];
  if (!row) return `${measure} was not measured on children, or not in this way`;
  if (stature === undefined) return 'a child’s sizes go by stature, which was not given';
  const [n, intercept, perStature, spread] = row;
  return { who: 'children', n, model: 'stature', intercept, perStature, perKilogram: 0, spread };
}

function adultFit(measure: Measured, sex: 'male' | 'female', person: Person, relaxed: number): Fit | string {
  const { n, measures, ...range } = adults[sex];
  const who = sex === 'male' ? 'men' : 'women';
  const row = measures[measure === 'forearm girth' ? 'forearm girth, flexed' : measure];
  if (!row) return `${measure} was not measured on adults, or not in this way`;
  const { stature } = person;
  const weight = person.weight === undefined ? undefined : tell(person.weight, 'kg');
  if (stature !== undefined && !inside(stature, range.stature))
    return `none of the ${who} surveyed had such a stature`;
  if (weight !== undefined && !inside(weight, range.weight))
    return `none of the ${who} surveyed had such a weight`;
  const [mean, deviation, a1, b1, s1, a2, b2, c2, s2] = row;
  const [model, intercept, perStature, perKilogram, spread] =
    stature === undefined
      ? (['sex alone', mean, 0, 0, deviation] as const)
      : weight === undefined
        ? (['stature', a1, b1, 0, s1] as const)
        : (['stature and weight', a2, b2, c2, s2] as const);
  const f = measure === 'forearm girth' ? relaxed : 1;
  return {
    who,
    n,
    model,
    intercept: f * intercept,
    perStature: f * perStature,
    perKilogram: f * perKilogram,
    spread: f * spread,
  };
}

function fitsOf(measure: Measured, person: Person, relaxed: number): readonly Fit[] | string {
  if (person.age < youngest) return 'below two years no survey read gives how widely sizes are spread';
  const fits =
    person.age < grown
      ? [childFit(measure, person)]
      : (person.sex === 'unstated' ? (['female', 'male'] as const) : [person.sex]).map((sex) =>
          adultFit(measure, sex, person, relaxed),
        );
  const found = fits.filter((fit) => typeof fit !== 'string');
  return found.length > 0 ? found : (fits[0] as string);
}

const four = (x: number): number => Number(x.toPrecision(4));

/**
 * Size that a girth or length of a limb usually has in a person of this sex, age, stature and weight, and how unusual a
 * measured one is.
 *
 * Nine in ten people lie between the two limits given, if the survey is like the person. It finds a slip of the tape; it
 * says nothing of health.
 *
 * @throws InputError when an age, stature, weight or measure is none that a person can have
 * @example
 * expectedSegment({ measure: 'wrist girth', sex: 'female', age: years(40), stature: cm(165) }).value // 145 to 167 mm
 */
export const expectedSegment = /* @__PURE__ */ formula({
  id: 'segment.expected-segment',
  revision: 1,
  basis: 'empirical',
  inputs: {
    measure: choice('what is measured', measures),
    sex: choice('sex, as the surveys have it', ['male', 'female', 'unstated']),
    age: duration('age', {
      possible: [years(0), years(110)],
      tested: [youngest, years(58)],
    }),
    stature: optional(
      length('stature, standing', {
        symbol: 'h',
        possible: [mm(400), mm(2500)],
        tested: [mm(848.7), mm(1993)],
      }),
    ),
    weight: optional(
      mass('weight', {
        symbol: 'm',
        possible: [grams(1000), grams(400_000)],
        tested: [grams(10_800), grams(144_200)],
      }),
    ),
    measured: optional(
      length('what the tape said, to be placed', { symbol: 'y', possible: [mm(10), mm(1500)] }),
    ),
  },
  constants: {
    relaxed: {
      printed: '0.94',
      unit: '1',
      says: 'girth of a relaxed forearm as a share of the flexed one',
      symbol: 'k',
      source: 'heinz-2003-body',
      at: 'mean relaxed girths of 247 men and 260 women, over the flexed girths that the fits give at their mean stature and weight: 0.942 and 0.940',
      status: 'derived',
    },
  },
  output: either([
    group({
      kind: kind('surveyed'),
      survey: choice('who was surveyed', ['soldiers aged 17 to 58', 'children aged 2 to 18']),
      model: choice('what the size is predicted from', models),
      least: length('size that one in twenty do not reach; of two sexes, the smaller'),
      most: length('size that one in twenty exceed; of two sexes, the larger'),
      among: list(
        group({
          who: choice('among whom', ['men', 'women', 'children']),
          n: count('how many were measured', { symbol: 'n' }),
          intercept: length('intercept of the fit', { symbol: 'a' }),
          perStature: amount('change for each mm of stature, in mm', { symbol: 'b' }),
          perKilogram: amount('change for each kg of weight, in mm', { symbol: 'c' }),
          expected: length('expected size', { symbol: '\\hat y' }),
          spread: length('standard deviation about it', { symbol: 's' }),
          least: length('size that one in twenty do not reach', { symbol: 'y_5' }),
          most: length('size that one in twenty exceed', { symbol: 'y_{95}' }),
          percentile: optional(
            share('share of such people in whom it is smaller than measured', {
              symbol: 'P',
              possible: [ratio(0), ratio(1)],
            }),
          ),
        }),
        [1, 2],
      ),
    }),
    group({ kind: kind('unsurveyed'), because: text('why nothing is expected') }),
  ]),
  sources: [
    'gordon-2014-ansur2',
    'snyder-1977-children',
    'heinz-2003-body',
    'derivation.normal-distribution',
  ],
  compute: ({ measure, measured, ...person }, { relaxed }) => {
    const fits = fitsOf(measure, person, relaxed);
    if (typeof fits === 'string') return { kind: 'unsurveyed' as const, because: fits };
    // Where one was not given, the fit has nothing to multiply it by.
    const { stature = 0, weight = 0 } = person;
    const among = fits.map(({ model: _, ...fit }) => {
      const expected = fit.intercept + fit.perStature * stature + fit.perKilogram * tell(weight, 'kg');
      return {
        ...fit,
        expected,
        least: expected - quantile95 * fit.spread,
        most: expected + quantile95 * fit.spread,
        ...(measured !== undefined && { percentile: normalShare((measured - expected) / fit.spread) }),
      };
    });
    return {
      kind: 'surveyed' as const,
      survey: person.age < grown ? ('children aged 2 to 18' as const) : ('soldiers aged 17 to 58' as const),
      model: (fits[0] as Fit).model,
      least: Math.min(...among.map((a) => a.least)),
      most: Math.max(...among.map((a) => a.most)),
      among,
    };
  },
  cautions: ({ measure, measured }, value): readonly Caution[] => {
    if (value.kind !== 'surveyed' || measured === undefined) return [];
    const outside = value.among.every(
      ({ percentile = 0.5 }) => percentile < usual[0] || percentile > usual[1],
    );
    if (!outside) return [];
    return [
      {
        code: 'measure-again',
        level: 'info',
        says: `Measure again: so unusual a ${measure} may be a slip of the tape, the wrong place, or swelling.`,
        because: `${four(measured)} mm; nine in ten lie between ${four(value.least)} and ${four(value.most)} mm, by ${value.model}, among ${value.survey}`,
        sources: value.survey === 'children aged 2 to 18' ? ['snyder-1977-children'] : ['gordon-2014-ansur2'],
      },
    ];
  },
});
