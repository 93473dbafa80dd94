import { create, all as everything } from 'mathjs';
import { celsius, contactTime, injuryIntegral, mm, seconds } from 'swathe';
import { describe, expect, test } from 'vitest';

const math = create(everything ?? {}, { number: 'BigNumber', precision: 40 });
const big = (expression: string): number => Number(String(math.evaluate(expression)));

type Law = Parameters<typeof injuryIntegral>[0]['law'];
/** Factor and activation of each law at a temperature, written out again for the other program. */
const pairs: Readonly<Record<string, readonly [string, string, string, string]>> = {
  henriques: ['3.1e98', '75000', '3.1e98', '75000'],
  'weaver-stoll': ['2.185e124', '93534.9', '1.823e51', '39109.8'],
  takata: ['4.32e64', '50000', '9.39e104', '80000'],
  'mehta-wong epidermis': ['1.43e72', '55000', '1.43e72', '55000'],
  'mehta-wong dermis': ['2.86e69', '55000', '2.86e69', '55000'],
};
const laws = Object.keys(pairs) as Law[];
const pair = (law: Law, t: number) => {
  const [p, e, pHot, eHot] = pairs[law] as readonly [string, string, string, string];
  return t <= 50 ? [p, e] : [pHot, eHot];
};
const held = (law: Law, t: number, time: number): number =>
  injuryIntegral({
    law,
    history: [
      { time: seconds(0), temperature: celsius(t) },
      { time: seconds(time), temperature: celsius(t) },
    ],
  }).value.integral;

describe('mathjs at 40 digits', () => {
  test.each(laws)('%s at one temperature', (law) => {
    for (const t of [44, 46, 48, 49, 50, 52, 55, 60]) {
      const [p, e] = pair(law, t);
      const rate = big(`${p} * exp(-${e} / (${t} + 273.15))`);
      expect(Math.abs(held(law, t, 100) / (100 * rate) - 1)).toBeLessThan(1e-12);
    }
  });

  // T e^(-E/T) (1 - x e^x E1(x)) with x = E/T, the bracket by its asymptotic series: past the last digit for x above 100.
  const antiderivative = (e: string, t: number): string => {
    const x = `(${e} / (${t} + 273.15))`;
    const series = Array.from(
      { length: 25 },
      (_, n) => `${n % 2 === 0 ? '+' : '-'} ${n + 1}! / ${x}^${n + 1}`,
    ).join(' ');
    return `((${t} + 273.15) * exp(-${x}) * (${series}))`;
  };
  test.each(laws)('%s along a straight rise and fall, exact to 1e-9 and beyond', (law) => {
    for (const [from, to, time] of [
      [33, 48, 600],
      [50.5, 71, 20],
      [49.9, 20, 4000],
      [46, 46.001, 60],
    ] as const) {
      const [p, e] = pair(law, Math.max(from, to));
      const exact = big(
        `${p} * ${time} / (${to} - ${from}) * (${antiderivative(e as string, to)} - ${antiderivative(e as string, from)})`,
      );
      const got = injuryIntegral({
        law,
        history: [
          { time: seconds(0), temperature: celsius(from) },
          { time: seconds(time), temperature: celsius(to) },
        ],
      }).value.integral;
      expect(Math.abs(got / exact - 1), `${from} to ${to}`).toBeLessThan(1e-11);
    }
  });
});

/** Seconds at one temperature until 0.53 and 1, to the digits that were worked out by hand for each law. */
const worked: Readonly<Record<string, readonly (readonly [number, string, string])[]>> = {
  henriques: [
    [44, '8620', '16300'],
    [48, '453', '855'],
    [52, '25.6', '48.3'],
    [60, '0.10', '0.19'],
  ],
  'weaver-stoll': [
    [44, '2940', '5550'],
    [48, '75', '141'],
    [52, '5.0', '9.5'],
    [60, '0.28', '0.53'],
  ],
  takata: [
    [44, '3610', '6800'],
    [48, '506', '955'],
    [52, '40', '76'],
    [60, '0.11', '0.21'],
  ],
  'mehta-wong epidermis': [
    [44, '766', '1440'],
    [48, '88', '167'],
    [52, '10.7', '20.3'],
    [60, '0.19', '0.35'],
  ],
};
test.each(Object.entries(worked))('%s: times to the thresholds at one temperature', (law, lines) => {
  for (const [t, ...times] of lines)
    for (const [k, printed] of times.entries()) {
      const time = [0.53, 1].map((threshold) => threshold / held(law as Law, t, 1))[k] as number;
      const digits = printed.replace('.', '').replace(/^0+/, '').replace(/0+$/, '').length;
      const unit = 10 ** (Math.floor(Math.log10(Number(printed))) + 1 - Math.max(2, digits));
      expect(Math.abs(time - Number(printed)), `${t} °C: ${time} and ${printed}`).toBeLessThanOrEqual(
        0.55 * unit,
      );
    }
});

test('the two spellings of the oldest law differ about fivefold: 75 000 K, and 628 kJ/mol over 8.314 J/(mol K)', () => {
  for (const t of [44, 48, 52, 60]) {
    const inputs: Parameters<typeof injuryIntegral>[0] = {
      law: 'henriques',
      history: [
        { time: seconds(0), temperature: celsius(t) },
        { time: seconds(60), temperature: celsius(t) },
      ],
    };
    const other = { ...injuryIntegral.numbers, henriquesActivation: 6.28e5 / 8.314 };
    const ratio = injuryIntegral.compute(inputs).integral / injuryIntegral.compute(inputs, other).integral;
    expect(ratio).toBeCloseTo(Math.exp((6.28e5 / 8.314 - 75000) / (t + 273.15)), 9);
    expect(ratio).toBeGreaterThan(4.9);
    expect(ratio).toBeLessThan(5.6);
  }
});

test('long contacts are decided by the law alone, short ones by the skin', () => {
  const at = (law: Law, surface: number): number => {
    const { value } = contactTime({
      law,
      degree: 'second',
      surface: celsius(surface),
      start: celsius(34),
      epidermis: mm(0.08),
    });
    return value.kind === 'reached' ? value.time : Number.POSITIVE_INFINITY;
  };
  const spread = (surface: number): number => {
    const times = laws.slice(0, 4).map((law) => at(law, surface));
    return Math.max(...times) / Math.min(...times);
  };
  expect(spread(48)).toBeGreaterThan(5);
  expect(spread(65)).toBeLessThan(1.5);
  expect(at('henriques', 45) * held('henriques', 45, 1)).toBeLessThan(1.2);
});

test('every answer of these laws says that it is not about a person', () => {
  const history = [
    { time: seconds(0), temperature: celsius(40) },
    { time: seconds(9), temperature: celsius(41) },
  ];
  const both = [
    injuryIntegral({ law: 'takata', history }),
    contactTime({
      law: 'takata',
      degree: 'third',
      surface: celsius(44),
      start: celsius(34),
      epidermis: mm(0.1),
    }),
  ];
  for (const { cautions } of both) expect(cautions.map(({ code }) => code)).toContain('compares-laws');
});
