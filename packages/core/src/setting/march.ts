import { wholeDown } from '../quantity.ts';

/**
 * A column of cells that exchange heat with their neighbours, in SI units, per square metre of a slab or per radian and
 * metre of a cylinder. All that a cell does by itself comes through `local`.
 */
export interface Cells {
  /** Heat capacity of each cell, J/K. */
  readonly capacity: Float64Array;
  /** Conductance between a cell and the next, W/K; one fewer than cells. */
  readonly conductance: Float64Array;
  /** Heat into a cell by itself, and how it changes: boundaries, perfusion, metabolism, sources. */
  local(cell: number, temperature: number, time: number, out: Local): void;
  readonly reaction?: Reaction;
}

/** Filled by `local`, so that the innermost loop makes no objects. */
export interface Local {
  /** W. */
  heat: number;
  /** Its change with the cell's temperature, W/K. */
  slope: number;
  /** Its change with time while the temperature stays, W/s. */
  drift: number;
}

/** A reaction in the cells from `first` to before `end`. */
export interface Reaction {
  readonly first: number;
  readonly end: number;
  /** Heat that a cell gives from no conversion to full conversion, J. */
  readonly heat: Float64Array;
  /** Rate of conversion, 1/s, and its changes with temperature and with conversion. */
  rate(temperature: number, conversion: number, out: Rate): void;
}

export interface Rate {
  rate: number;
  byTemperature: number;
  byConversion: number;
}

/** Its arrays are the march's own while it runs: copy what is to be kept. */
export interface State {
  readonly time: number;
  readonly temperature: Float64Array;
  readonly conversion: Float64Array;
}

export interface Marched extends State {
  readonly steps: number;
  readonly refused: number;
}

/** What a march is asked to add up: each sum is what the steps themselves see, so that balances close to the last digits. */
export interface Account {
  /** Temperature of each cell over time, K.s. */
  readonly held: Float64Array;
  /** Heat into each cell by itself, J. */
  readonly brought: Float64Array;
}

/** How a march is made, where it is not left to itself. */
export interface Course {
  /** Times to step to, the start left out, in place of steps chosen by their error. */
  readonly times?: readonly number[];
  readonly account?: Account;
}

/** Seconds below which no step is tried. */
const shortest = 1e-200;

/** Heat and conversion would not settle: the column is not one that the method can follow. */
export class NotSettled extends Error {
  override readonly name = 'NotSettled';
}

/*
 * RODASP, a linearly implicit method for heat and chemistry: fourth order, L-stable, with a third-order companion for the
 * error, and one matrix a step. G. Steinebach, Preprint 1741, TH Darmstadt 1995; the digits are those of E. Hairer's and
 * G. Wanner's programs. In the notation of their book a stage takes place at α, and γ, a and c bind it to those before.
 */
const diagonal = 0.25;
const stages = [
  { alpha: 0, gamma: 0.25, a: [], c: [] },
  { alpha: 0.75, gamma: -0.5, a: [3], c: [-12] },
  {
    alpha: 0.21,
    gamma: -0.023504,
    a: [1.831036793486759, 0.4955183967433795],
    c: [-8.791795173947035, -2.207865586973518],
  },
  {
    alpha: 0.63,
    gamma: -0.0362,
    a: [2.304376582692669, -0.05249275245743001, -1.176798761832782],
    c: [10.81793056857153, 6.780270611428266, 19.5348594464241],
  },
  {
    alpha: 1,
    gamma: 0,
    a: [-7.170454962423024, -4.741636671481785, -16.31002631330971, -1.062004044111401],
    c: [34.19095006749676, 15.49671153725963, 54.7476087596413, 14.16005392148534],
  },
  {
    alpha: 1,
    gamma: 0,
    a: [-7.170454962423024, -4.741636671481785, -16.31002631330971, -1.062004044111401, 1],
    c: [34.62605830930532, 15.30084976114473, 56.99955578662667, 18.40807009793095, -5.714285714285717],
  },
] as const satisfies readonly {
  readonly alpha: number;
  readonly gamma: number;
  readonly a: readonly number[];
  readonly c: readonly number[];
}[];
const last = stages.length - 1;
/** Power of the step with which its error grows. */
const power = 4;

/** Rungs to the octave: step lengths come off a ladder, so that a last-bit difference does not move them. */
const rungs = 4;
const octaves = 3;

/** Adds to `sum` the vectors before one, each by its share. */
function add(sum: Float64Array, vectors: readonly Float64Array[], shares: readonly number[], times: number) {
  for (const [j, share] of shares.entries()) {
    const [vector, factor] = [vectors[j]!, share * times];
    for (let i = 0; i < sum.length; i++) sum[i]! += factor * vector[i]!;
  }
}

/**
 * Marches a column in time with steps chosen so that each one's error stays below `tolerance`, in kelvin, and in
 * hundredths of full conversion.
 *
 * @throws NotSettled where no step is short enough
 */
export function march(
  cells: Cells,
  start: State,
  until: number,
  tolerance: number,
  each?: (state: State, slope: Float64Array) => void,
  { times, account }: Course = {},
): Marched {
  const { capacity, conductance, reaction } = cells;
  const n = capacity.length;
  const first = reaction?.first ?? 0;
  const reacting = (reaction?.end ?? 0) - first;
  const array = (): Float64Array => new Float64Array(n);
  const arrays = (): Float64Array[] => stages.map(array);
  const short = (): Float64Array => new Float64Array(reacting);

  const share = capacity.map((c) => 1 / c);
  const [before, after] = [array(), array()];
  for (let i = 0; i < n - 1; i++) {
    after[i] = conductance[i]! * share[i]!;
    before[i + 1] = conductance[i]! * share[i + 1]!;
  }
  const warming = short();
  for (let k = 0; k < reacting; k++) warming[k] = reaction!.heat[first + k]! * share[first + k]!;

  const temperature = Float64Array.from(start.temperature);
  const conversion = Float64Array.from(start.conversion);
  const converted = conversion.subarray(first, first + reacting);
  // Rates at the state, and how they change with it.
  const [rateT, rateA] = [array(), short()];
  const [slope, drift, byT, byA] = [array(), array(), short(), short()];
  // Increments of the stages, and what they start from.
  const [u, v] = [arrays(), stages.map(short)];
  const [T, a] = [array(), short()];
  const [factor, upper, inverse] = [array(), array(), array()];
  const [coupling, open] = [short(), short()];
  const course = array();
  const own: Local = { heat: 0, slope: 0, drift: 0 };
  const react: Rate = { rate: 0, byTemperature: 0, byConversion: 0 };
  const [heats, w, q] = account ? [array(), arrays(), arrays()] : [];

  /** Rates of change at a state; at the step's own the changes of them too. */
  const rates = (
    T: Float64Array,
    a: Float64Array,
    time: number,
    dT: Float64Array,
    da: Float64Array,
    linearise: boolean,
  ): void => {
    for (let i = 0; i < n; i++) {
      cells.local(i, T[i]!, time, own);
      let rise = own.heat * share[i]!;
      if (i > 0) rise += before[i]! * (T[i - 1]! - T[i]!);
      if (i < n - 1) rise += after[i]! * (T[i + 1]! - T[i]!);
      dT[i] = rise;
      if (heats) heats[i] = own.heat;
      if (linearise) {
        slope[i] = own.slope * share[i]!;
        drift[i] = own.drift * share[i]!;
      }
    }
    for (let k = 0; k < reacting; k++) {
      reaction!.rate(T[first + k]!, a[k]!, react);
      da[k] = react.rate;
      dT[first + k]! += warming[k]! * react.rate;
      if (linearise) {
        byT[k] = react.byTemperature;
        byA[k] = react.byConversion;
      }
    }
  };

  /** Factors 1/(γh) - J, conversions eliminated cell by cell: what is left is tridiagonal. */
  const factorise = (h: number): void => {
    const whole = 1 / (diagonal * h);
    for (let i = 0; i < n; i++) inverse[i] = whole - slope[i]! + before[i]! + after[i]!;
    for (let k = 0; k < reacting; k++) {
      open[k] = 1 / (whole - byA[k]!);
      coupling[k] = warming[k]! * byA[k]! * open[k]!;
      inverse[first + k]! -= (warming[k]! + coupling[k]!) * byT[k]!;
    }
    for (let i = 0; i < n; i++) {
      factor[i] = i > 0 ? before[i]! * inverse[i - 1]! : 0;
      inverse[i] = 1 / (inverse[i]! - (i > 0 ? factor[i]! * after[i - 1]! : 0));
      upper[i] = after[i]! * inverse[i]!;
    }
  };

  /** Solves for a stage in place. */
  const substitute = (u: Float64Array, v: Float64Array): void => {
    for (let k = 0; k < reacting; k++) u[first + k]! += coupling[k]! * v[k]!;
    for (let i = 1; i < n; i++) u[i]! += factor[i]! * u[i - 1]!;
    u[n - 1]! *= inverse[n - 1]!;
    for (let i = n - 2; i >= 0; i--) u[i] = u[i]! * inverse[i]! + upper[i]! * u[i + 1]!;
    for (let k = 0; k < reacting; k++) v[k] = (v[k]! + byT[k]! * u[first + k]!) * open[k]!;
  };

  /** Sums of a stage go the way of its temperatures. */
  const sum = (s: number, h: number): void => {
    const { gamma, c } = stages[s]!;
    const [ws, qs] = [w![s]!, q![s]!];
    for (let i = 0; i < n; i++) {
      ws[i] = T[i]! + u[s]![i]!;
      qs[i] = heats![i]! + (slope[i]! * u[s]![i]! + gamma * h * drift[i]!) * capacity[i]!;
    }
    add(ws, w!, c, 1 / h);
    add(qs, q!, c, 1 / h);
    for (let i = 0; i < n; i++) {
      ws[i]! *= diagonal * h;
      qs[i]! *= diagonal * h;
    }
  };

  /** One step: increments of all stages; the last one is the error, and its size is returned. */
  const step = (time: number, h: number): number => {
    factorise(h);
    for (const [s, { alpha, gamma, a: way, c }] of stages.entries()) {
      const [us, vs] = [u[s]!, v[s]!];
      T.set(temperature);
      a.set(converted);
      add(T, u, way, 1);
      add(a, v, way, 1);
      if (s > 0 || account) rates(T, a, time + alpha * h, us, vs, false);
      else {
        us.set(rateT);
        vs.set(rateA);
      }
      add(us, u, c, 1 / h);
      add(vs, v, c, 1 / h);
      if (gamma !== 0) for (let i = 0; i < n; i++) us[i]! += gamma * h * drift[i]!;
      substitute(us, vs);
      if (account) sum(s, h);
    }
    let error = 0;
    for (let i = 0; i < n; i++) error = Math.max(error, Math.abs(u[last]![i]!));
    for (let k = 0; k < reacting; k++) error = Math.max(error, 100 * Math.abs(v[last]![k]!));
    return error;
  };

  /**
   * Slope at the step's end, from what the last stage solved for. The rates there are the same but for rounding: they are
   * small differences of large heat flows, and what is flat would peak at another moment on another machine.
   */
  const slopeAt = (h: number): void => {
    for (let i = 0; i < n; i++) course[i] = u[last]![i]! / (diagonal * h);
    add(course, u, stages[last]!.c, -1 / h);
  };

  let time = start.time;
  let rung = Math.floor(rungs * Math.log2(Math.max((until - time) * 1e-6, 1e-9)));
  let [steps, refused] = [0, 0];
  rates(temperature, converted, time, rateT, rateA, true);
  each?.({ time, temperature, conversion }, rateT);
  // In less than the shortest step nothing moves, and what is divided by it is no number.
  while (until - time > shortest) {
    const left = until - time;
    const wish = 2 ** (rung / rungs);
    const next = times?.[steps];
    const free = wish >= left * (1 - 1e-12) ? left : Math.min(wish, left / 2);
    const h = next === undefined ? free : next - time;
    const size = step(time, h);
    const finite = Number.isFinite(size);
    const error = size / tolerance;
    if (!(finite && (next !== undefined || error <= 1))) {
      if (next !== undefined) throw new NotSettled(`the step to ${next} s is too long`);
      refused += 1;
      rung =
        wholeDown(rungs * Math.log2(h)) -
        (finite ? Math.max(1, Math.ceil((rungs * Math.log2(error)) / power)) : 2 * rungs);
      if (!(2 ** (rung / rungs) > 1e-14 * time + shortest))
        throw new NotSettled(`no step is short enough at ${time} s`);
      continue;
    }
    // The last stage started from the others' sum.
    for (let i = 0; i < n; i++) temperature[i] = T[i]! + u[last]![i]!;
    for (let k = 0; k < reacting; k++) converted[k] = a[k]! + v[last]![k]!;
    if (account) {
      const weights = [...stages[last]!.a, 1];
      add(account.held, w!, weights, 1);
      add(account.brought, q!, weights, 1);
    }
    time = next ?? (h === left ? until : time + h);
    steps += 1;
    rates(temperature, converted, time, rateT, rateA, true);
    if (each) {
      slopeAt(h);
      each({ time, temperature, conversion }, course);
    }
    const growth = error === 0 ? octaves * rungs : Math.floor((rungs * Math.log2(0.7 / error)) / power);
    if (h >= wish) rung += Math.min(growth, octaves * rungs);
    else if (growth < 0) rung += growth;
  }
  return { time, temperature, conversion, steps, refused };
}
