import { formula } from '../formula.ts';
import {
  amount,
  choice,
  count,
  duration,
  either,
  type Fields,
  flag,
  group,
  heatCapacity,
  kind,
  length,
  list,
  optional,
  share,
  temperature,
  temperatureDifference,
  type Values,
} from '../measure.ts';
import { celsius, minutes, mm, ratio, seconds } from '../quantity.ts';
import { type CastCase, type CastHistory, castHistory, plasterOf, startOf } from './cast-model.ts';
import { neutral } from './cast-parameters.ts';
import { supersaturation } from './supersaturation.ts';
import { peakOf, sampled, timeAbove } from './trace.ts';

/** What is bandaged: a limb, or a tube on a bench, so that published experiments can be run as they were done. */
const body = either([
  group({
    kind: kind('limb'),
    radius: length('radius of the limb', { possible: [mm(10), mm(200)] }),
    fat: optional(length('thickness of fat, where it is known', { possible: [mm(0.5), mm(40)] })),
    blood: choice('whether blood flows; none under a tourniquet', ['flows', 'none']),
  }),
  group({
    kind: kind('tube'),
    radius: length('outer radius of the tube', { possible: [mm(15), mm(200)] }),
    wall: length('thickness of its wall', { possible: [mm(0.5), mm(12)] }),
    of: choice('what it is made of', ['glass', 'plastic']),
    inside: choice('what is in it', ['air', 'still water', 'circulating water']),
    temperature: temperature('temperature of what is in it', {
      possible: [celsius(0), celsius(60)],
    }),
  }),
]);

/** What is told of one bandage, one body and one room. */
export const castInputs = {
  material: choice('plaster, and how fast it sets', ['extra-fast plaster', 'fast plaster', 'slow plaster']),
  plies: count('plies', { symbol: 'n', possible: [1, 60], tested: [6, 34] }),
  folded: flag('whether it is folded back on itself there, which doubles the plies'),
  dip: temperature('temperature of the dip water', { symbol: 'T_w', possible: [celsius(0), celsius(70)] }),
  room: temperature('temperature of the room', { symbol: 'T_a', possible: [celsius(0), celsius(50)] }),
  humidity: share('relative humidity of the room', { possible: [ratio(0), ratio(1)] }),
  paddingLayers: count('layers of padding', { possible: [0, 20] }),
  stockinette: flag('whether there is stockinette under it'),
  compression: share('how much moulding thins the padding', {
    possible: [ratio(0), ratio(0.9)],
  }),
  body,
  cover: choice('what lies over or under it while it sets', ['bare', 'elastic', 'blanket', 'pillow']),
  overwrap: optional(
    group({
      after: duration('how long after the plaster tape is laid over it', {
        possible: [seconds(0), minutes(60)],
      }),
      layers: count('layers of tape', { possible: [1, 12] }),
    }),
  ),
} satisfies Fields;

/** The same as the model has it: in metres, the fold counted in. */
export const caseOf = ({ folded, plies, body, ...given }: Values<typeof castInputs>): CastCase => ({
  ...given,
  plies: folded ? 2 * plies : plies,
  body:
    body.kind === 'limb'
      ? { ...body, radius: body.radius / 1000, fat: body.fat === undefined ? undefined : body.fat / 1000 }
      : { ...body, radius: body.radius / 1000, wall: body.wall / 1000 },
});

/** How long is followed, and the times at which curves are told. */
export const until = 3600;
export const times: readonly number[] = Array.from({ length: 61 }, (_, n) => n * 60);

/** Temperatures above which time is counted, °C. */
const levels = [40, 44, 47, 49] as const;

const passage = (where: string, sub: string) =>
  group({
    peak: temperature(`highest temperature ${where}`, { symbol: `T_${sub}` }),
    at: duration(`when it is reached ${where}`, { symbol: `t_${sub}` }),
    above40: duration(`time above 40 °C ${where}`),
    above44: duration(`time above 44 °C ${where}`),
    above47: duration(`time above 47 °C ${where}`),
    above49: duration(`time above 49 °C ${where}`),
  });

export function passageOf(history: CastHistory, where: 'interface' | 'skin' | 'basal') {
  const { value, time } = peakOf(history[where]);
  const [above40, above44, above47, above49] = levels.map((level) =>
    value > level ? timeAbove(history[where], level) : 0,
  ) as [number, number, number, number];
  return { peak: value, at: time, above40, above44, above47, above49 };
}

const curve = (says: string) => list(temperature(says, { symbol: 'T' }), [times.length, times.length]);

/**
 * Temperatures under a setting plaster bandage in its first hour: one course, from neutral values of all that is not told.
 *
 * Heat of setting, conduction through padding and tissue, blood flow, and the loss to the room by convection, radiation and
 * evaporation, in one dimension. A single course says nothing of how uncertain it is: see setting.temperature-band.
 *
 * @throws InputError when there is no ply, no such limb, or no tap gives such water
 * @example
 * temperatureHistory({
 *   material: 'fast plaster', plies: 8, folded: false, dip: celsius(24), room: celsius(22), humidity: percent(50),
 *   paddingLayers: 3, stockinette: true, compression: percent(0), cover: 'bare',
 *   body: { kind: 'limb', radius: mm(40), blood: 'flows' },
 * }).value.interface.peak // 35…
 */
export const temperatureHistory = /* @__PURE__ */ formula({
  id: 'setting.temperature-history',
  revision: 1,
  basis: 'numerical',
  inputs: castInputs,
  constants: neutral,
  steps: {
    start: temperature('temperature at which the plaster is laid on', { symbol: 'T_0' }),
    supersaturation: amount('how far hemihydrate dissolves beyond gypsum at that temperature', {
      symbol: 'S',
    }),
    thickness: length('thickness of the plaster', { symbol: 'd' }),
    capacity: heatCapacity('heat capacity of the wet plaster', { symbol: 'C' }),
  },
  output: group({
    interface: passage('between plaster and padding', 'p'),
    skin: passage('on the skin, or on the tube', 's'),
    basal: passage('in the basal layer of the skin, or on the tube', 'b'),
    outside: group({
      peak: temperature('highest temperature on the outside', { symbol: 'T_x' }),
      at: duration('when it is reached on the outside', { symbol: 't_x' }),
    }),
    across: temperatureDifference('by how much the outside’s peak is below the one under the plaster'),
    lead: duration('how long before it the outside peaks'),
    converted: share('share of the plaster that has set by the end', { symbol: 'a' }),
    curve: group({
      time: list(duration('time since it was laid on', { symbol: 't' }), [times.length, times.length]),
      interface: curve('between plaster and padding'),
      skin: curve('on the skin'),
      basal: curve('in the basal layer'),
      outside: curve('on the outside'),
    }),
  }),
  sources: [
    'llnl-thermodynamic',
    'en-12524-table',
    'jos3-parameters',
    'itis-tissue-quotes',
    'jiang-2002-skin',
  ],
  compute: (inputs, c, step) => {
    const given = caseOf(inputs);
    const start = startOf(given, c);
    const { thickness, capacity } = plasterOf(given, c);
    step('start', start);
    step(
      'supersaturation',
      supersaturation.compute({ hemihydrate: 'beta', temperature: celsius(start) }).supersaturation,
    );
    step('thickness', thickness * 1000);
    step('capacity', capacity);
    const history = castHistory(given, c, until, { cells: 16, tolerance: 0.05 });
    const under = passageOf(history, 'interface');
    const outside = peakOf(history.outside);
    return {
      interface: under,
      skin: passageOf(history, 'skin'),
      basal: passageOf(history, 'basal'),
      outside: { peak: outside.value, at: outside.time },
      across: under.peak - outside.value,
      lead: under.at - outside.time,
      converted: history.conversion.value.at(-1) as number,
      curve: {
        time: times,
        interface: sampled(history.interface, times),
        skin: sampled(history.skin, times),
        basal: sampled(history.basal, times),
        outside: sampled(history.outside, times),
      },
    };
  },
});
