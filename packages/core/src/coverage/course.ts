import { intervals, type Station, slant } from '../segment/profile.ts';

/** What is kept the same from turn to turn. */
export type Lay =
  /** Distance between turns, square to the edge: the same overlap on a taper as on a cylinder. */
  | { readonly keeps: 'spacing'; readonly spacing: number }
  /** Advance along the skin per turn. */
  | { readonly keeps: 'advance'; readonly advance: number }
  /** Lead angle from the circumference, as its sine: what a tape does that is never steered. */
  | { readonly keeps: 'angle'; readonly sine: number };

/** The way of a bandage's centre line along a limb. Places are along the skin, from the first station. */
export interface Course {
  /** Whether the bandage can be wound so at all: its edges stay in order all along. */
  readonly follows: boolean;
  /** Where one piece of limb meets the next. */
  readonly knots: readonly number[];
  alongSkin(x: number): number;
  alongAxis(s: number): number;
  girth(s: number): number;
  /** Advance along the skin per turn. */
  advance(s: number): number;
  /** Turns from the first station. */
  turns(s: number): number;
  /** Length of centre line from one place to another. */
  length(from: number, to: number): number;
  /** Half the bandage's width along the skin, where its centre is at s. */
  reach(s: number): number;
  /** The centre line's place when the far, or the near, edge is at s. */
  centreOfFarEdge(s: number): number;
  centreOfNearEdge(s: number): number;
}

/** Below this relative change of girth the closed forms lose digits and the integrand is as good as a parabola. */
const nearlyCylinder = 1e-3;

/** Cosine of the lead angle at a girth, and how fast its inverse falls as the girth grows. */
function cosineOf(lay: Lay): readonly [cosine: (c: number) => number, fall: (c: number) => number] {
  if (lay.keeps === 'angle') {
    const cosine = Math.sqrt(1 - lay.sine * lay.sine);
    return [() => cosine, () => 0];
  }
  if (lay.keeps === 'advance') {
    const p = lay.advance;
    const cosine = (c: number): number => c / Math.sqrt(c * c + p * p);
    return [cosine, (c) => ((p * p) / (c * c * c)) * cosine(c)];
  }
  const q = lay.spacing;
  const cosine = (c: number): number => Math.sqrt(1 - (q / c) * (q / c));
  return [cosine, (c) => (q * q) / (c * c * c) / cosine(c) ** 3];
}

/** Turns and centre line per length along the skin, and their primitives over the girth where it changes. */
function ratesOf(lay: Lay, cosine: (c: number) => number) {
  if (lay.keeps === 'angle') {
    const tangent = lay.sine / cosine(1);
    return {
      turns: (c: number) => 1 / (c * tangent),
      turnsOver: (c: number) => Math.log(c) / tangent,
      length: () => 1 / lay.sine,
      lengthOver: (c: number) => c / lay.sine,
    };
  }
  if (lay.keeps === 'advance') {
    const p = lay.advance;
    return {
      turns: () => 1 / p,
      turnsOver: (c: number) => c / p,
      length: (c: number) => Math.sqrt(1 + (c / p) * (c / p)),
      lengthOver: (c: number) => (c * Math.sqrt(1 + (c / p) * (c / p)) + p * Math.asinh(c / p)) / 2,
    };
  }
  const q = lay.spacing;
  return {
    turns: (c: number) => cosine(c) / q,
    turnsOver: (c: number) => (Math.sqrt(c * c - q * q) - q * Math.acos(q / c)) / q,
    // One turn lays its spacing times its length on the skin, at any angle.
    length: (c: number) => c / q,
    lengthOver: (c: number) => (c * c) / (2 * q),
  };
}

/** Course of a bandage along a limb whose girths change straight from station to station. */
export function courseAlong(stations: readonly Station[], width: number, lay: Lay): Course {
  const x = stations.map((s) => s.at);
  const c = stations.map((s) => s.girth);
  const s = [0];
  for (const pair of intervals(stations)) s.push((s.at(-1) as number) + slant(pair));
  const slope = s.slice(1).map((end, k) => (at(c, k + 1) - at(c, k)) / (end - at(s, k)));
  const last = slope.length - 1;

  const [cosine, fall] = cosineOf(lay);
  const rates = ratesOf(lay, cosine);
  const pieceOf = (places: readonly number[], place: number): number => {
    let [low, high] = [0, last];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (place < at(places, middle + 1)) high = middle;
      else low = middle + 1;
    }
    return low;
  };
  // Past the measured limb its end girth goes on: a centre line sought from an edge may be looked for there.
  const within = (place: number): number => Math.min(Math.max(place, 0), at(s, last + 1));
  const girthOn = (k: number, place: number): number => at(c, k) + at(slope, k) * (within(place) - at(s, k));
  const girth = (place: number): number => girthOn(pieceOf(s, place), place);
  const reach = (place: number): number => width / (2 * cosine(girth(place)));

  const over = (
    k: number,
    to: number,
    rate: (c: number) => number,
    primitive: (c: number) => number,
  ): number => {
    const [c0, c1] = [at(c, k), girthOn(k, to)];
    const h = to - at(s, k);
    if (Math.abs(c1 - c0) < nearlyCylinder * c0)
      return (h * (rate(c0) + 4 * rate((c0 + c1) / 2) + rate(c1))) / 6;
    return (primitive(c1) - primitive(c0)) / at(slope, k);
  };
  const summed = (
    rate: (c: number) => number,
    primitive: (c: number) => number,
  ): ((place: number) => number) => {
    const before = [0];
    for (const k of slope.keys()) before.push(at(before, k) + over(k, at(s, k + 1), rate, primitive));
    return (place) => {
      const k = pieceOf(s, place);
      return at(before, k) + over(k, place, rate, primitive);
    };
  };
  // At a lead angle past 60° the edge would begin a whole width from the centre, outside the wrap.
  const follows =
    c.every((girth) => cosine(girth) >= 0.5) &&
    slope.every((m, k) => [at(c, k), at(c, k + 1)].every((c) => (width / 2) * fall(c) * Math.abs(m) < 1));
  const turns = summed(rates.turns, rates.turnsOver);
  const length = summed(rates.length, rates.lengthOver);

  /** place + side · reach(place) = edge. The reach hardly changes along a limb; where it does, the place is searched for. */
  const centreOf = (edge: number, side: 1 | -1): number => {
    let place = edge;
    for (let n = 0; n < 16; n++) {
      const before = place;
      place = edge - side * reach(before);
      if (Math.abs(place - before) < 1e-11) return place;
    }
    const [low, high] = side === 1 ? [edge - width, edge] : [edge, edge + width];
    return rootBetween((p) => p + side * reach(p) - edge, low, high);
  };

  return {
    follows,
    knots: s,
    alongSkin: (place) => {
      const k = pieceOf(x, place);
      return at(s, k) + ((place - at(x, k)) * (at(s, k + 1) - at(s, k))) / (at(x, k + 1) - at(x, k));
    },
    alongAxis: (place) => {
      const k = pieceOf(s, place);
      return at(x, k) + ((place - at(s, k)) * (at(x, k + 1) - at(x, k))) / (at(s, k + 1) - at(s, k));
    },
    girth,
    advance: (place) => 1 / rates.turns(girth(place)),
    turns,
    length: (from, to) => length(to) - length(from),
    reach,
    centreOfFarEdge: (edge) => centreOf(edge, 1),
    centreOfNearEdge: (edge) => centreOf(edge, -1),
  };
}

const at = (list: readonly number[], k: number): number => list[k] as number;

/** Root of a function that rises from below zero to above, by false position that halves a stuck end. */
export function rootBetween(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  let [fa, fb] = [f(a), f(b)];
  for (let n = 0; n < 100 && b - a > 1e-11; n++) {
    // Every third step halves, so that a crooked function costs no more than bisection would.
    const m = n % 3 === 2 ? (a + b) / 2 : b - (fb * (b - a)) / (fb - fa);
    const fm = f(m);
    if (fm === 0) return m;
    if (fm < 0) {
      [a, fa] = [m, fm];
      fb /= 2;
    } else {
      [b, fb] = [m, fm];
      fa /= 2;
    }
  }
  return (a + b) / 2;
}
