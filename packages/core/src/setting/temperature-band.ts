import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { formula } from '../formula.ts';
import { amount, count, duration, group, list, temperature, text } from '../measure.ts';
import type { Span } from '../quantity.ts';
import { type CastCase, castHistory } from './cast-model.ts';
import { type CastNumbers, ranges, rateOf, type Varied } from './cast-parameters.ts';
import { caseOf, castInputs, passageOf, temperatureHistory, times, until } from './temperature-history.ts';
import { sampled } from './trace.ts';

/** Parameters that vary by factors rather than by sums, and are drawn so. */
const byFactor: readonly Varied[] = ['rateSlow', 'rateFast', 'rateExtraFast', 'skinPerfusion'];

/** The parameters that this case feels at all. */
function feltBy({ material, cover, body, paddingLayers, overwrap }: CastCase): Varied[] {
  const felt: Readonly<Partial<Record<Varied, boolean>>> = {
    rateSlow: rateOf[material] === 'rateSlow',
    rateFast: rateOf[material] === 'rateFast',
    rateExtraFast: rateOf[material] === 'rateExtraFast',
    elasticResistance: cover === 'elastic',
    blanketResistance: cover === 'blanket',
    pillowResistance: cover === 'pillow',
    paddingThickness: paddingLayers > 0,
    core: body.kind === 'limb',
    fatThickness: body.kind === 'limb' && body.fat === undefined,
    skinPerfusion: body.kind === 'limb' && body.blood === 'flows',
    resinHeat: overwrap !== undefined,
    resinPerLayer: overwrap !== undefined,
  };
  return (Object.keys(ranges) as Varied[]).filter((name) => felt[name] ?? true);
}

/** A Latin hypercube: each parameter's range cut into as many strata as there are samples, each used once, in a drawn order. */
function strata(names: readonly Varied[], samples: number, seed: number): Record<Varied, number[]> {
  const generator = xoroshiro128plus(seed);
  const column = (): number[] => {
    const order = Array.from({ length: samples }, (_, n) => n);
    for (let n = samples - 1; n > 0; n--) {
      const other = uniformInt(generator, 0, n);
      [order[n], order[other]] = [order[other] as number, order[n] as number];
    }
    return order.map((n) => (n + uniformFloat64(generator)) / samples);
  };
  return Object.fromEntries(names.map((name) => [name, column()])) as Record<Varied, number[]>;
}

const between = ([least, most]: Span, share: number, name: Varied): number =>
  byFactor.includes(name) ? least * (most / least) ** share : least + share * (most - least);

/** Least, middle and most: 5th, 50th and 95th in a hundred, straight between the ordered values. */
function spread(values: readonly number[]): { least: number; middle: number; most: number } {
  const ordered = [...values].sort((a, b) => a - b);
  const at = (share: number): number => {
    const place = share * (ordered.length - 1);
    const below = Math.floor(place);
    const [low, high] = [
      ordered[below] as number,
      ordered[Math.min(below + 1, ordered.length - 1)] as number,
    ];
    return low + (place - below) * (high - low);
  };
  return { least: at(0.05), middle: at(0.5), most: at(0.95) };
}

/** Ranks from least to most, equal values sharing theirs. */
function ranksOf(values: readonly number[]): number[] {
  const order = values.map((_, n) => n).sort((a, b) => (values[a] as number) - (values[b] as number));
  const ranks = new Array<number>(values.length);
  for (let n = 0; n < order.length; ) {
    let end = n;
    while (end < order.length && values[order[end] as number] === values[order[n] as number]) end++;
    for (let k = n; k < end; k++) ranks[order[k] as number] = (n + end - 1) / 2;
    n = end;
  }
  return ranks;
}

/** Spearman's correlation: of ranks, so that a bent relation counts as much as a straight one. None with what never moves. */
function rankCorrelation(a: readonly number[], b: readonly number[]): number {
  const [x, y] = [ranksOf(a), ranksOf(b)];
  const middle = (a.length - 1) / 2;
  let [xy, xx, yy] = [0, 0, 0];
  for (const [n, rank] of x.entries()) {
    const [dx, dy] = [rank - middle, (y[n] as number) - middle];
    xy += dx * dy;
    xx += dx * dx;
    yy += dy * dy;
  }
  return xx * yy === 0 ? 0 : xy / Math.sqrt(xx * yy);
}

const hot = (where: string, sub: string) =>
  group({
    least: temperature(`5 % of peaks ${where} are below`, { symbol: `T_{${sub},5}` }),
    middle: temperature(`half of peaks ${where} are below`, { symbol: `T_${sub}` }),
    most: temperature(`95 % of peaks ${where} are below`, { symbol: `T_{${sub},95}` }),
  });
const long = (what: string) =>
  group({
    least: duration(`${what}: 5 % of cases are below`),
    middle: duration(`${what}: half of cases are below`),
    most: duration(`${what}: 95 % of cases are below`),
  });
const passage = (where: string, sub: string) =>
  group({
    peak: hot(where, sub),
    at: long(`time of the peak ${where}`),
    above40: long(`time above 40 °C ${where}`),
    above44: long(`time above 44 °C ${where}`),
    above47: long(`time above 47 °C ${where}`),
    above49: long(`time above 49 °C ${where}`),
  });
const curve = (where: string) => {
  const line = (share: string) => list(temperature(`${share} of courses ${where} are below`), [61, 61]);
  return group({ least: line('5 %'), middle: line('half'), most: line('95 %') });
};

/**
 * The band within which nine in ten courses under a setting plaster bandage lie, and what makes it wide.
 *
 * The same model as setting.temperature-history, run with all that is known only within ranges drawn from those ranges. The
 * same seed gives the same draws. It is a band of what is not known of the parameters; the model's own error is not in it.
 *
 * @throws InputError when there is no ply, no such limb, or no tap gives such water
 * @example
 * temperatureBand({
 *   material: 'fast plaster', plies: 8, folded: false, dip: celsius(24), room: celsius(22), humidity: percent(50),
 *   paddingLayers: 3, stockinette: true, compression: percent(0), cover: 'bare',
 *   body: { kind: 'limb', radius: mm(40), blood: 'flows' }, seed: 1, samples: 64,
 * }).value.interface.peak.most // 40…
 */
export const temperatureBand = /* @__PURE__ */ formula({
  id: 'setting.temperature-band',
  revision: 1,
  basis: 'numerical',
  inputs: {
    ...castInputs,
    seed: count('seed of the draws', { possible: [0, 2_147_483_647] }),
    samples: count('draws', { symbol: 'N', possible: [8, 256] }),
  },
  constants: ranges,
  output: group({
    interface: passage('between plaster and padding', 'p'),
    skin: passage('on the skin, or on the tube', 's'),
    basal: passage('in the basal layer, or on the tube', 'b'),
    curve: group({
      time: list(duration('time since it was laid on', { symbol: 't' }), [61, 61]),
      interface: curve('between plaster and padding'),
      skin: curve('on the skin'),
      basal: curve('in the basal layer'),
    }),
    drivers: list(
      group({
        constant: text('which parameter'),
        onInterface: amount('its rank correlation with the peak between plaster and padding'),
        onSkin: amount('its rank correlation with the peak on the skin'),
      }),
      [8, 30],
    ),
  }),
  sources: [...temperatureHistory.sources],
  compute: ({ seed, samples, ...inputs }, c) => {
    const given = caseOf(inputs);
    const names = feltBy(given);
    const shares = strata(names, samples, seed);
    const drawn = names.map((name) => shares[name].map((share) => between(c[name], share, name)));
    const histories = Array.from({ length: samples }, (_, n) => {
      const values = Object.fromEntries(names.map((name, k) => [name, drawn[k]?.[n]]));
      const numbers = { ...temperatureHistory.numbers, ...values } as CastNumbers;
      return castHistory(given, numbers, until, { cells: 12, tolerance: 0.2 });
    });
    const all = {
      interface: histories.map((history) => passageOf(history, 'interface')),
      skin: histories.map((history) => passageOf(history, 'skin')),
      basal: histories.map((history) => passageOf(history, 'basal')),
    };
    const passages = (where: keyof typeof all) => {
      const of = (what: keyof (typeof all)['skin'][number]) =>
        spread(all[where].map((passage) => passage[what]));
      return {
        peak: of('peak'),
        at: of('at'),
        above40: of('above40'),
        above44: of('above44'),
        above47: of('above47'),
        above49: of('above49'),
      };
    };
    const curves = (where: keyof typeof all) => {
      const courses = histories.map((history) => sampled(history[where], times));
      const lines = times.map((_, n) => spread(courses.map((course) => course[n] as number)));
      return {
        least: lines.map((l) => l.least),
        middle: lines.map((l) => l.middle),
        most: lines.map((l) => l.most),
      };
    };
    const [onInterface, onSkin] = [all.interface.map((p) => p.peak), all.skin.map((p) => p.peak)];
    const drivers = names
      .map((constant, k) => ({
        constant,
        onInterface: rankCorrelation(drawn[k] as number[], onInterface),
        onSkin: rankCorrelation(drawn[k] as number[], onSkin),
      }))
      .sort((a, b) => Math.abs(b.onInterface) - Math.abs(a.onInterface));
    return {
      interface: passages('interface'),
      skin: passages('skin'),
      basal: passages('basal'),
      curve: { time: times, interface: curves('interface'), skin: curves('skin'), basal: curves('basal') },
      drivers,
    };
  },
});
