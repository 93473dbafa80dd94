import { formula } from '../formula.ts';
import { amount, choice, duration, either, group, kind, length, temperature } from '../measure.ts';
import { celsius, mm } from '../quantity.ts';
import { type ColumnLayer, gridOf } from './column.ts';
import { branchesOf, comparesLaws, integralOver, law, lawConstants } from './injury-laws.ts';
import { march } from './march.ts';
import { cut, sampled } from './trace.ts';

const set = {
  source: 'jiang-2002-skin',
  at: 'properties of the skin model',
  status: 'read-secondary',
} as const;
const thick = { ...set, unit: 'mm' } as const;
const conducts = { ...set, unit: 'W/(m.K)' } as const;
const holds = { ...set, unit: 'J/(kg.K)' } as const;
const weighs = { ...set, unit: 'kg/m3' } as const;

const constants = {
  ...lawConstants,
  epidermisConductivity: { ...conducts, printed: '0.24', says: 'conductivity of the epidermis' },
  epidermisHeat: { ...holds, printed: '3590', says: 'heat capacity of the epidermis' },
  epidermisDensity: { ...weighs, printed: '1200', says: 'density of the epidermis' },
  dermisThickness: { ...thick, printed: '2', says: 'thickness of the dermis' },
  dermisConductivity: { ...conducts, printed: '0.45', says: 'conductivity of the dermis' },
  dermisHeat: { ...holds, printed: '3300', says: 'heat capacity of the dermis' },
  dermisDensity: { ...weighs, printed: '1200', says: 'density of the dermis' },
  fatThickness: { ...thick, printed: '10', says: 'thickness of the fat' },
  fatConductivity: { ...conducts, printed: '0.19', says: 'conductivity of the fat' },
  fatHeat: { ...holds, printed: '2500', says: 'heat capacity of the fat' },
  fatDensity: { ...weighs, printed: '1000', says: 'density of the fat' },
  innerThickness: { ...thick, printed: '30', says: 'thickness of the tissue within' },
  innerConductivity: { ...conducts, printed: '0.5', says: 'conductivity of the tissue within' },
  innerHeat: { ...holds, printed: '4000', says: 'heat capacity of the tissue within' },
  innerDensity: { ...weighs, printed: '1000', says: 'density of the tissue within' },
  perfusion: {
    ...set,
    unit: '/s',
    printed: '0.00125',
    says: 'volume of blood per volume of tissue and second, under the epidermis',
  },
  bloodHeat: { ...holds, printed: '3770', says: 'heat capacity of blood' },
  bloodDensity: { ...weighs, printed: '1060', says: 'density of blood' },
  blood: { ...set, unit: 'Cel', printed: '34', says: 'temperature of the blood that comes to it' },
  core: { ...set, unit: 'Cel', printed: '37', says: 'temperature of the core' },
} as const;

/** Longest time that is looked at: a day. */
const horizon = 86_400;
/** Largest error of a step on the plain mesh, in kelvin. */
const accuracy = 3e-3;
/** Parts of a step between which temperature is taken to go straight. */
const parts = 8;

/**
 * Time after which a law of injury reaches a threshold at the basal layer, under a skin surface held at one temperature.
 *
 * It exists to set the laws against the published table of times and temperatures, whose surface was held like this. It is
 * no time for a person: the laws and the table disagree with each other manifold, and no plan uses it.
 *
 * @throws InputError when the surface is not warmer than the skin was
 * @example
 * contactTime({ law: 'henriques', degree: 'second', surface: celsius(50), start: celsius(34), epidermis: mm(0.08) }).value.kind // 'reached'
 */
export const contactTime = /* @__PURE__ */ formula({
  id: 'setting.contact-time',
  revision: 1,
  basis: 'empirical',
  inputs: {
    law,
    degree: choice('degree whose threshold is looked for', ['first', 'second', 'third']),
    surface: temperature('temperature at which the surface of the skin is held', {
      possible: [celsius(42), celsius(100)],
      tested: [celsius(44), celsius(68.3)],
    }),
    start: temperature('temperature of the skin at the start, the same all through', {
      possible: [celsius(10), celsius(41)],
    }),
    epidermis: length('thickness of the epidermis', { possible: [mm(0.02), mm(1)] }),
  },
  constants,
  steps: { threshold: amount('integral that is looked for', { symbol: '\\Omega' }) },
  output: either([
    group({
      kind: kind('reached'),
      time: duration('time to the threshold', { symbol: 't' }),
      uncertainty: duration('difference of it between the two meshes'),
      basal: temperature('temperature of the basal layer then', { symbol: 'T_b' }),
    }),
    group({
      kind: kind('not reached'),
      within: duration('time that was looked at'),
    }),
  ]),
  sources: ['heylmun-2020-exposure', 'jiang-2002-skin'],
  compute: ({ law, degree, surface, start, epidermis }, c, step) => {
    const branches = branchesOf(law, c);
    const thresholds = { first: c.firstDegree, second: c.secondDegree, third: c.thirdDegree };
    const threshold = step('threshold', thresholds[degree]);
    const blood = c.perfusion * c.bloodHeat * c.bloodDensity;
    const layer = (
      thickness: number,
      conductivity: number,
      heat: number,
      density: number,
      cells: number,
      blood: number,
    ): ColumnLayer => ({
      thickness: thickness / 1000,
      conductivity,
      capacity: heat * density,
      cells,
      source: 0,
      blood,
      arterial: c.blood,
      contact: 0,
    });
    const depth = epidermis / 1000;
    const columnOf = (fine: number) =>
      gridOf({
        radius: undefined,
        layers: [
          layer(epidermis, c.epidermisConductivity, c.epidermisHeat, c.epidermisDensity, 4 * fine, 0),
          layer(c.dermisThickness / 8, c.dermisConductivity, c.dermisHeat, c.dermisDensity, 6 * fine, blood),
          layer(
            (c.dermisThickness * 7) / 8,
            c.dermisConductivity,
            c.dermisHeat,
            c.dermisDensity,
            10 * fine,
            blood,
          ),
          layer(c.fatThickness, c.fatConductivity, c.fatHeat, c.fatDensity, 10 * fine, blood),
          layer(c.innerThickness, c.innerConductivity, c.innerHeat, c.innerDensity, 8 * fine, blood),
        ],
        inner: { fixed: surface },
        outer: { fixed: c.core },
      });

    /** The moment at which the threshold is reached on one mesh, with the march's own steps or over given times. */
    const reach = (fine: number, until: number, over?: readonly number[]) => {
      const grid = columnOf(fine);
      const n = grid.capacity.length;
      const trace = { time: [] as number[], value: [] as number[], slope: [] as number[] };
      const still = {
        time: 0,
        temperature: new Float64Array(n).fill(start),
        conversion: new Float64Array(n),
      };
      march(
        grid,
        still,
        until,
        accuracy,
        ({ time, temperature }, slope) => {
          trace.time.push(time);
          trace.value.push(grid.at(depth, temperature));
          trace.slope.push(grid.at(depth, slope));
        },
        over ? { times: over } : {},
      );
      const times = cut(trace.time, parts);
      const temperatures = sampled(trace, times);
      let integral = 0;
      for (let n = 1; n < times.length; n++) {
        const [from, to] = [times[n - 1] as number, times[n] as number];
        const [before, after] = [temperatures[n - 1] as number, temperatures[n] as number];
        const upTo = (share: number): number =>
          integralOver(branches, c.knee, share * (to - from), before, before + share * (after - before));
        const more = upTo(1);
        if (integral + more >= threshold) {
          let [low, high] = [0, 1];
          for (let k = 0; k < 50; k++) {
            const middle = (low + high) / 2;
            if (integral + upTo(middle) >= threshold) high = middle;
            else low = middle;
          }
          const reached = { time: from + high * (to - from), basal: before + high * (after - before) };
          return { reached, times: trace.time };
        }
        integral += more;
      }
      return { reached: undefined, times: trace.time };
    };

    // The basal layer is never warmer than the surface, so it takes at least this long.
    const hottest = Math.max(surface, start);
    const soonest = threshold / integralOver(branches, c.knee, 1, hottest, hottest);
    for (let until = 2 * soonest + 10; soonest < horizon; until *= 4) {
      const whole = Math.min(until, horizon);
      const plain = reach(1, whole);
      const fine = plain.reached && reach(2, whole, cut(plain.times, 2).slice(1));
      if (plain.reached && fine?.reached) {
        const [a, b] = [plain.reached, fine.reached];
        return {
          kind: 'reached' as const,
          time: b.time + (b.time - a.time) / 3,
          uncertainty: Math.abs(b.time - a.time),
          basal: b.basal + (b.basal - a.basal) / 3,
        };
      }
      if (whole === horizon) break;
    }
    return { kind: 'not reached' as const, within: horizon };
  },
  cautions: () => [comparesLaws],
});
