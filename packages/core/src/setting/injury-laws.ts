import type { Caution } from '../caution.ts';
import type { Constants, Numbers } from '../formula.ts';
import { choice, duration, group, list, temperature } from '../measure.ts';
import { celsius, hours, seconds } from '../quantity.ts';

const from = {
  source: 'heylmun-2020-exposure',
  at: 'reading of the model',
  status: 'read-secondary',
} as const;
const factor = { ...from, unit: '/s', symbol: 'P' } as const;
const degree = {
  source: 'jiang-2002-skin',
  at: 'worked example: the two contours that it draws',
  status: 'read-secondary',
  unit: '1',
} as const;
const activation = { ...from, unit: 'K', symbol: 'E' } as const;

/** Laws of injury by heat as their second-hand source prints them: two branches where a law has a knee at 50 °C. */
export const lawConstants = {
  henriquesFactor: { ...factor, printed: '3.1e98', says: 'rate factor, Henriques' },
  henriquesActivation: {
    ...activation,
    printed: '75000',
    says: 'activation energy over gas constant, Henriques; codes that hold 628 kJ/mol instead give a fifth',
  },
  weaverStollFactor: { ...factor, printed: '2.185e124', says: 'rate factor, Weaver and Stoll, up to 50 °C' },
  weaverStollActivation: {
    ...activation,
    printed: '93534.9',
    says: 'activation energy over gas constant, Weaver and Stoll, up to 50 °C',
  },
  weaverStollFactorHot: {
    ...factor,
    printed: '1.823e51',
    says: 'rate factor, Weaver and Stoll, above 50 °C',
  },
  weaverStollActivationHot: {
    ...activation,
    printed: '39109.8',
    says: 'activation energy over gas constant, Weaver and Stoll, above 50 °C',
  },
  takataFactor: { ...factor, printed: '4.32e64', says: 'rate factor, Takata, up to 50 °C' },
  takataActivation: {
    ...activation,
    printed: '50000',
    says: 'activation energy over gas constant, Takata, up to 50 °C',
  },
  takataFactorHot: { ...factor, printed: '9.39e104', says: 'rate factor, Takata, above 50 °C' },
  takataActivationHot: {
    ...activation,
    printed: '80000',
    says: 'activation energy over gas constant, Takata, above 50 °C',
  },
  mehtaWongEpidermisFactor: { ...factor, printed: '1.43e72', says: 'rate factor, Mehta and Wong, epidermis' },
  mehtaWongDermisFactor: { ...factor, printed: '2.86e69', says: 'rate factor, Mehta and Wong, dermis' },
  mehtaWongActivation: {
    ...activation,
    printed: '55000',
    says: 'activation energy over gas constant, Mehta and Wong',
  },
  knee: { ...from, unit: 'Cel', printed: '50', says: 'temperature at which a law of two branches changes' },
  firstDegree: { ...degree, printed: '0.53', says: 'integral at which injury of the first degree is set' },
  secondDegree: {
    unit: '1',
    printed: '1',
    says: 'integral at which injury of the second degree is set',
    status: 'from-memory',
  },
  thirdDegree: { ...degree, printed: '1e4', says: 'integral at which injury of the third degree is set' },
} as const satisfies Constants;

export type LawNumbers = Numbers<typeof lawConstants>;

const laws = ['henriques', 'weaver-stoll', 'takata', 'mehta-wong epidermis', 'mehta-wong dermis'] as const;
export type Law = (typeof laws)[number];
export const law = choice('law of injury by heat', laws);

/** Rate factor and activation energy over gas constant, below and above the knee. */
type Branches = readonly [below: readonly [number, number], above: readonly [number, number]];

export function branchesOf(law: Law, c: LawNumbers): Branches {
  const one = (factor: number, activation: number): Branches => [
    [factor, activation],
    [factor, activation],
  ];
  switch (law) {
    case 'henriques':
      return one(c.henriquesFactor, c.henriquesActivation);
    case 'weaver-stoll':
      return [
        [c.weaverStollFactor, c.weaverStollActivation],
        [c.weaverStollFactorHot, c.weaverStollActivationHot],
      ];
    case 'takata':
      return [
        [c.takataFactor, c.takataActivation],
        [c.takataFactorHot, c.takataActivationHot],
      ];
    case 'mehta-wong epidermis':
      return one(c.mehtaWongEpidermisFactor, c.mehtaWongActivation);
    case 'mehta-wong dermis':
      return one(c.mehtaWongDermisFactor, c.mehtaWongActivation);
  }
}

const zero = 273.15;
/** Gauss's rule of eight points on −1 to 1, its positive half. */
const gauss = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.31370664587788727],
  [0.7966664774136267, 0.22238103445337448],
  [0.9602898564975363, 0.10122853629037626],
] as const;
/** Kelvin in one piece: the rate grows no more than sevenfold in it, and the rule is exact to the last digits. */
const pitch = 2;

/** Integral of one branch over a time in which temperature goes straight from one value to another. */
function branchIntegral(
  [factor, activation]: readonly [number, number],
  time: number,
  t1: number,
  t2: number,
) {
  const pieces = Math.max(1, Math.ceil(Math.abs(t2 - t1) / pitch));
  const rate = (celsius: number): number => factor * Math.exp(-activation / (celsius + zero));
  let sum = 0;
  for (let n = 0; n < pieces; n++) {
    const middle = t1 + ((t2 - t1) * (n + 0.5)) / pieces;
    const half = (t2 - t1) / (2 * pieces);
    for (const [x, weight] of gauss) sum += weight * (rate(middle - half * x) + rate(middle + half * x));
  }
  return (sum * time) / (2 * pieces);
}

/** Integral of a law over a time in which temperature goes straight from one value to another, told by its ends. */
export function integralOver(
  [below, above]: Branches,
  knee: number,
  time: number,
  t1: number,
  t2: number,
): number {
  if (t1 <= knee && t2 <= knee) return branchIntegral(below, time, t1, t2);
  if (t1 >= knee && t2 >= knee) return branchIntegral(above, time, t1, t2);
  const share = (knee - t1) / (t2 - t1);
  const [one, other] = t1 < knee ? [below, above] : [above, below];
  return branchIntegral(one, time * share, t1, knee) + branchIntegral(other, time * (1 - share), knee, t2);
}

/** Temperatures at times, in order; straight between. */
export const history = list(
  group({
    time: duration('time', { symbol: 't', possible: [seconds(0), hours(240)] }),
    temperature: temperature('temperature of the tissue then', {
      symbol: 'T',
      possible: [celsius(0), celsius(100)],
      tested: [celsius(44), celsius(60)],
    }),
  }),
  [2, 2000],
);

type Moments = readonly { readonly time: number; readonly temperature: number }[];

/** Stretches of a history: how long, from which temperature, to which. */
export const stretchesOf = (moments: Moments): (readonly [time: number, from: number, to: number])[] =>
  moments.slice(1).map((now, n) => {
    const before = moments[n] as Moments[number];
    return [now.time - before.time, before.temperature, now.temperature];
  });

/** Times that do not run on, for a joint limit. */
export function outOfOrder(moments: Moments): string | undefined {
  const n = moments.findIndex((now, k) => k > 0 && !(now.time > (moments[k - 1] as Moments[number]).time));
  return n < 0 ? undefined : `time ${moments[n]?.time} s after ${moments[n - 1]?.time} s`;
}

/** Goes with every answer that such a law gives. */
export const comparesLaws: Caution = {
  code: 'compares-laws',
  level: 'warning',
  says:
    'Made to compare published laws of injury by heat with each other and with published tables. ' +
    'It says nothing about a person, and nothing here follows from it for one.',
  because: 'the laws differ three- to sevenfold from 46 to 50 °C, and skin differs from person to person',
  sources: ['heylmun-2020-exposure'],
};
