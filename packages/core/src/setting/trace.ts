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

interface Piece {
  readonly start: number;
  readonly length: number;
  /** Coefficients of 1, x, x², x³ over the piece, x from 0 to 1. */
  readonly of: readonly [number, number, number, number];
}

function pieceOf({ time, value, slope }: Trace, n: number): Piece {
  const start = time[n] as number;
  const length = (time[n + 1] as number) - start;
  const [v0, v1] = [value[n] as number, value[n + 1] as number];
  const [s0, s1] = [(slope[n] as number) * length, (slope[n + 1] as number) * length];
  return { start, length, of: [v0, s0, 3 * (v1 - v0) - 2 * s0 - s1, 2 * (v0 - v1) + s0 + s1] };
}

const at = ([a, b, c, d]: Piece['of'], x: number): number => a + x * (b + x * (c + x * d));

/** Places within a piece at which its cubic turns. */
function turnsOf([, b, c, d]: Piece['of']): number[] {
  const root = c * c - 3 * d * b;
  if (root < 0) return [];
  // The form that loses no digits; where the cubic is a parabola the second is its vertex.
  const q = -(c + (c < 0 ? -1 : 1) * Math.sqrt(root));
  return [q / (3 * d), b / q].filter((x) => x > 0 && x < 1);
}

const pieces = (trace: Trace): Piece[] => trace.time.slice(1).map((_, n) => pieceOf(trace, n));

/** The highest value and when it is reached. */
export function peakOf(trace: Trace): Peak {
  let peak: Peak = { value: trace.value[0] as number, time: trace.time[0] as number };
  for (const { start, length, of } of pieces(trace))
    for (const x of [...turnsOf(of), 1]) {
      const value = at(of, x);
      if (value > peak.value) peak = { value, time: start + x * length };
    }
  return peak;
}

const parts = 16;

/** How long it stands above a level: straight lines between sixteenths of a step. */
export function timeAbove(trace: Trace, level: number): number {
  let total = 0;
  for (const { length, of } of pieces(trace)) {
    let before = of[0] - level;
    for (let k = 1; k <= parts; k++) {
      const after = at(of, k / parts) - level;
      const [low, high] = before < after ? [before, after] : [after, before];
      if (low >= 0) total += high > 0 ? length / parts : 0;
      else if (high > 0) total += ((high / (high - low)) * length) / parts;
      before = after;
    }
  }
  return total;
}

/** Its values at times that rise. */
export function sampled(trace: Trace, times: readonly number[]): number[] {
  const { time, value } = trace;
  const last = time.length - 1;
  let n = 0;
  return times.map((t) => {
    while (n < last - 1 && t > (time[n + 1] as number)) n++;
    if (last === 0) return value[0] as number;
    const { start, length, of } = pieceOf(trace, n);
    return length === 0 ? (of[0] as number) : at(of, (t - start) / length);
  });
}
