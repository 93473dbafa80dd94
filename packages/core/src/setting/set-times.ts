import type { Caution } from '../caution.ts';
import { type Constant, formula } from '../formula.ts';
import { choice, duration, either, group, kind, list, optional, temperature, text } from '../measure.ts';
import { celsius } from '../quantity.ts';
import { dipWater } from './dip-water.ts';

export const setting = choice('material, and how fast it sets', [
  'extra-fast plaster',
  'fast plaster',
  'slow plaster',
  'fibreglass',
]);
type Setting = 'extra-fast plaster' | 'fast plaster' | 'slow plaster' | 'fibreglass';

const stages = ['dip', 'work', 'set', 'firm', 'load'] as const;
const stage = choice('what is reached, or how long is dipped', stages);

interface Row extends Constant {
  readonly stage: (typeof stages)[number];
  readonly of: readonly Setting[];
}

const extraFast = ['extra-fast plaster'] as const;
const fast = ['fast plaster'] as const;
const slow = ['slow plaster'] as const;
const quick = [...extraFast, ...fast] as const;
const plaster = [...extraFast, ...fast, ...slow] as const;
const tape = ['fibreglass'] as const;

const dipped = { stage: 'dip', says: 'immersion' } as const;
const workFor = { stage: 'work', says: 'from dipping until it no longer takes to being worked' } as const;
const setBy = { stage: 'set', says: 'from dipping until it holds its shape: hold still until then' } as const;
const firmBy = { stage: 'firm', says: 'from dipping until firm enough to trim and to move' } as const;
const loadBy = { stage: 'load', says: 'from dipping until weight may come on it' } as const;

/** Every window that was read. Where sources disagree, all stand. */
const constants = {
  dipPlasterArmy: {
    ...dipped,
    of: plaster,
    printed: '5',
    unit: 's',
    source: 'us-army-1968-plaster',
    status: 'read',
  },
  dipPlasterChild: {
    ...dipped,
    of: plaster,
    printed: '5–10',
    unit: 's',
    source: 'ao-child-forearm',
    status: 'read',
  },
  dipPlasterReview: {
    ...dipped,
    of: plaster,
    printed: '10',
    unit: 's',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },
  dipTape: {
    ...dipped,
    of: tape,
    printed: '2–10',
    unit: 's',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },

  workTape: { ...workFor, of: tape, printed: '1.5–3.5', unit: 'min', status: 'common-practice' },

  setExtraFast: {
    ...setBy,
    of: extraFast,
    printed: '2–4',
    unit: 'min',
    source: 'swiontkowski-manual',
    at: 'ch. 7',
    status: 'read',
  },
  setFast: {
    ...setBy,
    of: fast,
    printed: '5–6',
    unit: 'min',
    source: 'swiontkowski-manual',
    at: 'ch. 7',
    status: 'read',
  },
  setSlow: {
    ...setBy,
    of: slow,
    printed: '10–18',
    unit: 'min',
    source: 'swiontkowski-manual',
    at: 'ch. 7',
    status: 'read',
  },
  setFastReview: {
    ...setBy,
    of: fast,
    printed: '4–8',
    unit: 'min',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },
  setSlowReview: {
    ...setBy,
    of: slow,
    printed: '30',
    unit: 'min',
    source: 'ekanayake-2023-revolution',
    at: 'table 2, upper end',
    status: 'read',
  },
  setFastHold: { ...setBy, of: fast, printed: '3–5', unit: 'min', status: 'common-practice' },
  setTape: {
    ...setBy,
    of: tape,
    printed: '3–5',
    unit: 'min',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },
  setTapeMould: { ...setBy, of: tape, printed: '5', unit: 'min', source: 'short-arm-slides', status: 'read' },

  firmPlaster: { ...firmBy, of: quick, printed: '15–20', unit: 'min', status: 'common-practice' },
  firmTape: {
    ...firmBy,
    of: tape,
    printed: '5–7',
    unit: 'min',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },

  loadPlasterReview: {
    ...loadBy,
    of: plaster,
    printed: '48–60',
    unit: 'h',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },
  loadPlasterDays: {
    ...loadBy,
    of: plaster,
    printed: '2–3',
    unit: 'd',
    source: 'fractureinfo-cast',
    status: 'read',
  },
  loadPlasterNavy: {
    ...loadBy,
    of: plaster,
    printed: '24–48',
    unit: 'h',
    source: 'us-navy-corpsman',
    at: 'as the time to dry',
    status: 'read',
  },
  loadTapeReview: {
    ...loadBy,
    of: tape,
    printed: '15–30',
    unit: 'min',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
  },
  loadTapeLeaflet: {
    ...loadBy,
    of: tape,
    printed: '30',
    unit: 'min',
    source: 'nhs-gloucestershire-cast',
    at: 'as the time to dry',
    status: 'read',
  },
  loadTapeHour: { ...loadBy, of: tape, printed: '1', unit: 'h', source: 'nhs-yeovil-cast', status: 'read' },
} as const satisfies Readonly<Record<string, Row>>;

const rows = Object.entries(constants) as unknown as readonly (readonly [keyof typeof constants, Row])[];

/**
 * How long to dip, until when to hold still, when it is firm and when it bears weight: ranges over all that is published.
 *
 * Colder or wetter lengthens all but the dip; warmer or drier shortens it. By how much is not published for bandages, so
 * where the dip water is told only the direction is.
 *
 * @throws InputError when the material is not one of the four classes, or no tap gives such water
 * @example
 * setTimes({ material: 'fast plaster' }).value.find((w) => w.stage === 'set') // 180 to 480 s
 */
export const setTimes = /* @__PURE__ */ formula({
  id: 'setting.set-times',
  revision: 1,
  basis: 'empirical',
  inputs: {
    material: setting,
    dip: optional(temperature('temperature of the dip water', { possible: [celsius(0), celsius(70)] })),
  },
  constants,
  output: list(
    either([
      group({
        kind: kind('window'),
        stage,
        least: duration('earliest that a source gives', { symbol: 't_0' }),
        most: duration('latest that a source gives', { symbol: 't_1' }),
        published: list(
          group({
            constant: text('which row'),
            least: duration('from', { symbol: 'a' }),
            most: duration('to', { symbol: 'b' }),
          }),
          [1, 20],
        ),
      }),
      group({ kind: kind('unstated'), stage, because: text('why there is no window') }),
    ]),
    [5, 5],
  ),
  sources: [
    'swiontkowski-manual',
    'ekanayake-2023-revolution',
    'us-army-1968-plaster',
    'ao-child-forearm',
    'short-arm-slides',
    'fractureinfo-cast',
    'us-navy-corpsman',
    'nhs-gloucestershire-cast',
    'nhs-yeovil-cast',
  ],
  compute: ({ material }, c) =>
    stages.map((stage) => {
      const published = rows.flatMap(([constant, row]) => {
        if (row.stage !== stage || !row.of.includes(material)) return [];
        const value = c[constant];
        const [least, most] = typeof value === 'number' ? [value, value] : value;
        return [{ constant, least, most }];
      });
      if (published.length === 0)
        return {
          kind: 'unstated' as const,
          stage,
          because: `no source that was read gives it for ${material}`,
        };
      return {
        kind: 'window' as const,
        stage,
        least: Math.min(...published.map((p) => p.least)),
        most: Math.max(...published.map((p) => p.most)),
        published,
      };
    }),
  cautions: ({ material, dip }): readonly Caution[] => {
    if (dip === undefined) return [];
    const of = material === 'fibreglass' ? 'fibreglass' : 'plaster';
    const { least, most, place } = dipWater.compute({ material: of, water: dip });
    if (place === 'within') return [];
    const sooner = place === 'above';
    const sources =
      of === 'fibreglass' ? ['raphael-2018-ice'] : ['conroy-2007-optimal', 'pediatric-emergency-splints'];
    return [
      {
        code: sooner ? 'sets-sooner' : 'sets-later',
        level: 'info',
        says: sooner
          ? 'Water warmer than advised: expect the early ends of these times, or sooner, and less time to work.'
          : 'Water colder than advised: expect the late ends of these times, or later, and hold longer.',
        because: `water ${dip} °C, advised ${least} to ${most} °C`,
        sources,
      },
      ...(material === 'slow plaster'
        ? [
            {
              code: 'plain-plaster-hardly-shifts',
              level: 'info' as const,
              says: 'Some commercial plasters were found to set at nearly the same speed from 0 to 40 °C.',
              because: 'plaster and water mixed in a flask, several makes',
              sources: ['ridge-1959-temperature'],
            },
          ]
        : []),
    ];
  },
});
