/**
 * A column of cells that exchange heat with their neighbours, in SI units, per square metre of a slab or per radian and
 * metre of a cylinder. All that a cell does by itself comes through `local`.
 */
export interface Cells {
  /** Heat capacity of each cell, J/K. */
  readonly capacity: Float64Array;
  /** Conductance between a cell and the next, W/K; one fewer than cells. */
  readonly conductance: Float64Array;
  /** Heat into a cell by itself, W, and its change with temperature: boundaries, perfusion, metabolism, sources. */
  local(cell: number, temperature: number, time: number, out: Local): void;
  /** Whether heat goes straight with temperature, at all times alike, and nothing reacts: one step of Newton's is exact. */
  readonly linear?: boolean;
  readonly reaction?: Reaction;
}

/** Filled by `local`, so that the innermost loop makes no objects. */
export interface Local {
  heat: number;
  slope: number;
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

export interface State {
  readonly time: number;
  readonly temperature: Float64Array;
  readonly conversion: Float64Array;
}

export interface Marched extends State {
  readonly steps: number;
  readonly refused: number;
}

// TR-BDF2 as a singly diagonal Runge-Kutta method: second order, L-stable, with a third-order companion for the error.
const gamma = 2 - Math.SQRT2;
const d = gamma / 2;
const w = Math.SQRT2 / 4;
const companion = [(1 - w) / 3 - w, (3 * w + 1) / 3 - w, d / 3 - d] as const;

/** Rungs to the octave: step lengths come off a ladder, so that a last-bit difference does not move them. */
const rungs = 4;
const newtonSteps = 12;

/** Heat and conversion would not settle: the column is not one that the method can follow. */
export class NotSettled extends Error {
  override readonly name = 'NotSettled';
}

/** How a march is made, where it is not left to itself. */
export interface Course {
  /** Times to step to, the start left out, in place of steps chosen by their error. */
  readonly times?: readonly number[];
  /**
   * Called for each stage of each step taken: over the whole march, seconds times any heat flow at these temperatures
   * add up to what that flow brought, to the last digits.
   */
  readonly tally?: (seconds: number, time: number, temperature: Float64Array) => void;
}

/** Stages of a column whose heat goes straight with temperature: the matrix is factored once for each step length. */
function straightOf(
  { capacity, conductance, local }: Cells,
  time: number,
  { base, right }: { readonly base: Float64Array; readonly right: Float64Array },
) {
  const n = capacity.length;
  const array = () => new Float64Array(n);
  const [heat, slope, ratio, upper, inverse] = [array(), array(), array(), array(), array()];
  const own: Local = { heat: 0, slope: 0 };
  for (let i = 0; i < n; i++) {
    local(i, 0, time, own);
    heat[i] = own.heat;
    slope[i] = own.slope;
  }
  let factored = Number.NaN;
  const factor = (hd: number): void => {
    factored = hd;
    for (let i = 0; i < n; i++) {
      const g = hd / capacity[i]!;
      const before = i > 0 ? g * conductance[i - 1]! : 0;
      const after = i < n - 1 ? g * conductance[i]! : 0;
      upper[i] = -after;
      ratio[i] = i > 0 ? -before * inverse[i - 1]! : 0;
      inverse[i] = 1 / (1 - g * slope[i]! + before + after - (i > 0 ? ratio[i]! * upper[i - 1]! : 0));
    }
  };
  const substitute = (): void => {
    for (let i = 1; i < n; i++) right[i]! -= ratio[i]! * right[i - 1]!;
    right[n - 1]! *= inverse[n - 1]!;
    for (let i = n - 2; i >= 0; i--) right[i] = (right[i]! - upper[i]! * right[i + 1]!) * inverse[i]!;
  };
  const settle = (T: Float64Array, hd: number): boolean => {
    if (hd !== factored) factor(hd);
    let flow = 0;
    for (let i = 0; i < n; i++) {
      const next = i < n - 1 ? conductance[i]! * (T[i + 1]! - T[i]!) : 0;
      right[i] = base[i]! - T[i]! + (hd * (heat[i]! + slope[i]! * T[i]! + next - flow)) / capacity[i]!;
      flow = next;
    }
    substitute();
    let sum = 0;
    for (let i = 0; i < n; i++) {
      T[i]! += right[i]!;
      sum += T[i]!;
    }
    return Number.isFinite(sum);
  };
  return { settle, substitute };
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
  { times, tally }: Course = {},
): Marched {
  const { capacity, conductance, reaction, local, linear = false } = cells;
  const n = capacity.length;
  const array = () => new Float64Array(n);
  let temperature = Float64Array.from(start.temperature);
  let conversion = Float64Array.from(start.conversion);
  let [t2, t3] = [array(), array()];
  let [a2, a3] = [array(), array()];
  let [k1, k3] = [array(), array()];
  let [c1, c3] = [array(), array()];
  const [k2, c2] = [array(), array()];
  const [base, baseA] = [array(), array()];
  const [lower, diagonal, upper, right] = [array(), array(), array(), array()];
  const [rightA, pivotA, slopeA] = [array(), array(), array()];
  const own: Local = { heat: 0, slope: 0 };
  const react: Rate = { rate: 0, byTemperature: 0, byConversion: 0 };
  const first = reaction?.first ?? 0;
  const end = reaction?.end ?? 0;

  /** Rates of change at a state. */
  const slopes = (
    T: Float64Array,
    a: Float64Array,
    time: number,
    dT: Float64Array,
    da: Float64Array,
  ): void => {
    for (let i = 0; i < n; i++) {
      local.call(cells, i, T[i]!, time, own);
      let heat = own.heat;
      if (i > 0) heat += conductance[i - 1]! * (T[i - 1]! - T[i]!);
      if (i < n - 1) heat += conductance[i]! * (T[i + 1]! - T[i]!);
      if (reaction && i >= first && i < end) {
        reaction.rate(T[i]!, a[i]!, react);
        da[i] = react.rate;
        heat += reaction.heat[i]! * react.rate;
      }
      dT[i] = heat / capacity[i]!;
    }
  };

  /** Solves the tridiagonal system in place: `right` becomes the answer. */
  const eliminate = (): void => {
    for (let i = 1; i < n; i++) {
      const m = lower[i]! / diagonal[i - 1]!;
      diagonal[i]! -= m * upper[i - 1]!;
      right[i]! -= m * right[i - 1]!;
    }
    right[n - 1]! /= diagonal[n - 1]!;
    for (let i = n - 2; i >= 0; i--) right[i] = (right[i]! - upper[i]! * right[i + 1]!) / diagonal[i]!;
  };

  /**
   * Sets up (1 - hd J) x = r at a state, the conversions eliminated cell by cell. `residual` gives r for temperature and
   * for conversion; the heat and rates found on the way are at hand to it.
   */
  const solve = (
    T: Float64Array,
    a: Float64Array,
    time: number,
    hd: number,
    residual: (i: number, dT: number, da: number) => void,
  ): void => {
    for (let i = 0; i < n; i++) {
      local.call(cells, i, T[i]!, time, own);
      const g = hd / capacity[i]!;
      let heat = own.heat;
      let diag = 1 - g * own.slope;
      if (i > 0) {
        const c = conductance[i - 1]!;
        heat += c * (T[i - 1]! - T[i]!);
        lower[i] = -g * c;
        diag += g * c;
      }
      if (i < n - 1) {
        const c = conductance[i]!;
        heat += c * (T[i + 1]! - T[i]!);
        upper[i] = -g * c;
        diag += g * c;
      }
      let rate = 0;
      const reacts = reaction !== undefined && i >= first && i < end;
      if (reacts) {
        reaction.rate(T[i]!, a[i]!, react);
        rate = react.rate;
        heat += reaction.heat[i]! * rate;
      }
      residual(i, heat / capacity[i]!, rate);
      if (reacts) {
        pivotA[i] = 1 - hd * react.byConversion;
        slopeA[i] = hd * react.byTemperature;
        const coupling = (g * reaction.heat[i]! * react.byConversion) / pivotA[i]!;
        diag -= g * reaction.heat[i]! * react.byTemperature + coupling * slopeA[i]!;
        right[i]! += coupling * rightA[i]!;
      }
      diagonal[i] = diag;
    }
    eliminate();
    for (let i = first; i < end; i++) rightA[i] = (rightA[i]! + slopeA[i]! * right[i]!) / pivotA[i]!;
  };

  /** Newton for one stage from the guess in T and a; whether it settled. */
  const settle = (T: Float64Array, a: Float64Array, time: number, hd: number): boolean => {
    let before = Number.POSITIVE_INFINITY;
    for (let k = 0; k < newtonSteps; k++) {
      solve(T, a, time, hd, (i, dT, da) => {
        right[i] = base[i]! + hd * dT - T[i]!;
        rightA[i] = baseA[i]! + hd * da - a[i]!;
      });
      let moved = 0;
      for (let i = 0; i < n; i++) {
        T[i]! += right[i]!;
        moved = Math.max(moved, Math.abs(right[i]!));
      }
      for (let i = first; i < end; i++) {
        a[i]! += rightA[i]!;
        moved = Math.max(moved, 100 * Math.abs(rightA[i]!));
      }
      // Quadratic: once a correction is this small the next would be below the last bit.
      if (moved < 1e-7) return true;
      if (!(moved < 2 * before)) return false;
      before = moved;
    }
    return false;
  };

  const straight = linear ? straightOf(cells, start.time, { base, right }) : undefined;
  const stage = (T: Float64Array, a: Float64Array, time: number, hd: number): boolean =>
    straight ? straight.settle(T, hd) : settle(T, a, time, hd);

  let time = start.time;
  let rung = Math.floor(rungs * Math.log2(Math.max((until - time) * 1e-6, 1e-9)));
  let [steps, refused] = [0, 0];
  slopes(temperature, conversion, time, k1, c1);
  each?.({ time, temperature, conversion }, k1);
  while (time < until) {
    const left = until - time;
    const wish = 2 ** (rung / rungs);
    const next = times?.[steps];
    const free = wish >= left * (1 - 1e-12) ? left : Math.min(wish, left / 2);
    const h = next === undefined ? free : next - time;
    const hd = h * d;

    for (let i = 0; i < n; i++) {
      base[i] = temperature[i]! + hd * k1[i]!;
      // A guess by slope may lie so far off that coming back costs digits; where one step is exact none is needed.
      t2[i] = linear ? temperature[i]! : temperature[i]! + gamma * h * k1[i]!;
      baseA[i] = conversion[i]! + hd * c1[i]!;
      a2[i] = conversion[i]! + gamma * h * c1[i]!;
    }
    let fine = stage(t2, a2, time + gamma * h, hd);
    if (fine) {
      for (let i = 0; i < n; i++) {
        k2[i] = (t2[i]! - base[i]!) / hd;
        c2[i] = (a2[i]! - baseA[i]!) / hd;
        base[i] = temperature[i]! + w * h * (k1[i]! + k2[i]!);
        baseA[i] = conversion[i]! + w * h * (c1[i]! + c2[i]!);
        t3[i] = linear ? t2[i]! : t2[i]! + (1 - gamma) * h * k2[i]!;
        a3[i] = a2[i]! + (1 - gamma) * h * c2[i]!;
      }
      fine = stage(t3, a3, time + h, hd);
    }
    let error = Number.POSITIVE_INFINITY;
    if (fine) {
      for (let i = 0; i < n; i++) {
        k3[i] = (t3[i]! - base[i]!) / hd;
        c3[i] = (a3[i]! - baseA[i]!) / hd;
      }
    }
    if (fine && next !== undefined) error = 0;
    else if (fine) {
      const [e1, e2, e3] = companion;
      const mismatch = (i: number): void => {
        right[i] = h * (e1 * k1[i]! + e2 * k2[i]! + e3 * k3[i]!);
        rightA[i] = h * (e1 * c1[i]! + e2 * c2[i]! + e3 * c3[i]!);
      };
      if (straight) {
        for (let i = 0; i < n; i++) mismatch(i);
        straight.substitute();
      } else solve(t3, a3, time + h, hd, mismatch);
      error = 0;
      for (let i = 0; i < n; i++) error = Math.max(error, Math.abs(right[i]!));
      for (let i = first; i < end; i++) error = Math.max(error, 100 * Math.abs(rightA[i]!));
      error /= tolerance;
    }
    if (!(error <= 1)) {
      if (next !== undefined) throw new NotSettled(`the step to ${next} s is too long`);
      refused += 1;
      rung =
        Math.floor(rungs * Math.log2(h)) -
        (fine ? Math.max(1, Math.ceil((rungs * Math.log2(error)) / 3)) : 2 * rungs);
      if (!(2 ** (rung / rungs) > 1e-14 * time + 1e-200))
        throw new NotSettled(`no step is short enough at ${time} s`);
      continue;
    }
    tally?.(w * h, time, temperature);
    tally?.(w * h, time + gamma * h, t2);
    tally?.(d * h, time + h, t3);
    time = next ?? (h === left ? until : time + h);
    steps += 1;
    [temperature, t3] = [t3, temperature];
    [conversion, a3] = [a3, conversion];
    [k1, k3] = [k3, k1];
    [c1, c3] = [c3, c1];
    each?.({ time, temperature, conversion }, k1);
    const growth = error === 0 ? 2 * rungs : Math.floor((rungs * Math.log2(0.7 / error)) / 3);
    if (h >= wish) rung += Math.min(growth, 2 * rungs);
    else if (growth < 0) rung += growth;
  }
  return { time, temperature, conversion, steps, refused };
}
