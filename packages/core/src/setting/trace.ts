/** A quantity and its slope at the times of a march's own steps; between them a cubic through both. */
export interface Trace {
  readonly time: readonly number[];
  readonly value: readonly number[];
  readonly slope: readonly number[];
}

export interface Peak {
  readonly value: number;
  readonly time: number;
}

/** Coefficients of 1, x, x², x³ over one step, x from 0 to 1. */
type Cubic = readonly [number, number, number, number];

function cubicOf({ time, value, slope }: Trace, n: number): Cubic {
  const length = (time[n + 1] as number) - (time[n] as number);
  const [v0, v1] = [value[n] as number, value[n + 1] as number];
  const [s0, s1] = [(slope[n] as number) * length, (slope[n + 1] as number) * length];
  return [v0, s0, 3 * (v1 - v0) - 2 * s0 - s1, 2 * (v0 - v1) + s0 + s1];
}

const at = ([a, b, c, d]: Cubic, x: number): number => a + x * (b + x * (c + x * d));

/** Where a cubic that rises at its start and falls at its end turns. */
function turnOf([, b, c, d]: Cubic): number {
  const root = Math.sqrt(c * c - 3 * d * b);
  // The form that loses no digits, whichever way the cubic bends.
  return c < 0 ? b / (root - c) : -(c + root) / (3 * d);
}

/** The highest value and when it is reached. */
export function peakOf(trace: Trace): Peak {
  const { time, value, slope } = trace;
  let best = 0;
  for (let n = 1; n < value.length; n++) if ((value[n] as number) > (value[best] as number)) best = n;
  let peak: Peak = { value: value[best] as number, time: time[best] as number };
  for (let n = 0; n < value.length - 1; n++) {
    if (!((slope[n] as number) > 0 && (slope[n + 1] as number) < 0)) continue;
    const cubic = cubicOf(trace, n);
    const x = turnOf(cubic);
    const top = at(cubic, x);
    const start = time[n] as number;
    if (top > peak.value) peak = { value: top, time: start + x * ((time[n + 1] as number) - start) };
  }
  return peak;
}

const parts = 16;

/** How long it stands above a level: straight lines between sixteenths of a step. */
export function timeAbove(trace: Trace, level: number): number {
  let total = 0;
  for (let n = 0; n < trace.time.length - 1; n++) {
    const part = ((trace.time[n + 1] as number) - (trace.time[n] as number)) / parts;
    const cubic = cubicOf(trace, n);
    let before = cubic[0] - level;
    for (let k = 1; k <= parts; k++) {
      const after = at(cubic, k / parts) - level;
      const [low, high] = before < after ? [before, after] : [after, before];
      if (high > 0) total += low >= 0 ? part : (high / (high - low)) * part;
      before = after;
    }
  }
  return total;
}

/** Its values at times that rise. */
export function sampled(trace: Trace, times: readonly number[]): number[] {
  const { time } = trace;
  const last = time.length - 1;
  let n = 0;
  let cubic = cubicOf(trace, n);
  return times.map((t) => {
    let next = n;
    while (next < last - 1 && t > (time[next + 1] as number)) next++;
    if (next !== n) cubic = cubicOf(trace, next);
    n = next;
    const length = (time[n + 1] ?? Number.NaN) - (time[n] as number);
    return length > 0 ? at(cubic, (t - (time[n] as number)) / length) : cubic[0];
  });
}

/** Times with each stretch between them cut into equal parts. */
export const cut = (times: readonly number[], parts: number): number[] => [
  ...times.slice(0, 1),
  ...times.slice(1).flatMap((to, n) => {
    const from = times[n] as number;
    return Array.from({ length: parts }, (_, k) =>
      k === parts - 1 ? to : from + ((to - from) * (k + 1)) / parts,
    );
  }),
];
