import { intervals, type Station, slant } from '../segment/profile.ts';

interface Piece {
  /** Start and end along the skin. */
  readonly s0: number;
  readonly s1: number;
  readonly x0: number;
  readonly x1: number;
  readonly c0: number;
  /** Change of girth per length along the skin. */
  readonly slope: number;
}

/** The way of a bandage's centre line along a limb, wound so that turns keep their distance square to the edge. */
export interface Course {
  /** Whether the bandage can be wound so at all: its edges stay in order all along. */
  readonly follows: boolean;
  /** Where one piece of limb meets the next, along the skin. */
  readonly knots: readonly number[];
  alongSkin(x: number): number;
  alongAxis(s: number): number;
  girth(s: number): number;
  /** Advance along the skin per turn. */
  advance(s: number): number;
  /** Turns from one place to another. */
  turns(from: number, to: number): number;
  /** Skin between one place and another. */
  area(from: number, to: number): number;
  /** Half the bandage's width along the skin, where its centre is at s. */
  reach(s: number): number;
  /** The centre line's place when the far (near) edge is at s. */
  centreOfFarEdge(s: number): number;
  centreOfNearEdge(s: number): number;
}

/** Root of a rising function between two places, to the last bit. */
export function rootBetween(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  for (let n = 0; n < 200; n++) {
    const m = (a + b) / 2;
    if (m <= a || m >= b) break;
    if (f(m) < 0) a = m;
    else b = m;
  }
  return (a + b) / 2;
}

/** Below this relative change of girth the closed form loses digits and the integrand is as good as a parabola. */
const nearlyCylinder = 1e-3;

/**
 * Course at spacing q square to the edge: sin α = q / C, so that one turn advances q / cos α along the skin and the
 * bandage laid between two places is the skin between them divided by q.
 */
export function courseAlong(stations: readonly Station[], width: number, q: number): Course {
  const pieces: Piece[] = [];
  for (const pair of intervals(stations)) {
    const [a, b] = pair;
    const s0 = pieces.at(-1)?.s1 ?? 0;
    const s = slant(pair);
    pieces.push({ s0, s1: s0 + s, x0: a.at, x1: b.at, c0: a.girth, slope: (b.girth - a.girth) / s });
  }
  const last = pieces.at(-1) as Piece;
  const pieceAt = (s: number): Piece => pieces.find((p) => s < p.s1) ?? last;
  // Past the measured limb its end girth goes on: a centre line sought from an edge may be looked for there.
  const girthOn = (p: Piece, s: number): number =>
    p.c0 + p.slope * (Math.min(Math.max(s, 0), last.s1) - p.s0);
  const girth = (s: number): number => girthOn(pieceAt(s), s);
  const cosine = (c: number): number => Math.sqrt(1 - (q / c) * (q / c));
  const reach = (s: number): number => width / (2 * cosine(girth(s)));

  const turnsOn = (p: Piece, from: number, to: number): number => {
    const [c1, c2] = [girthOn(p, from), girthOn(p, to)];
    const perLength = (c: number): number => cosine(c) / q;
    if (Math.abs(c2 - c1) < nearlyCylinder * c1)
      return ((to - from) * (perLength(c1) + 4 * perLength((c1 + c2) / 2) + perLength(c2))) / 6;
    const primitive = (c: number): number => Math.sqrt(c * c - q * q) - q * Math.acos(q / c);
    return (primitive(c2) - primitive(c1)) / (p.slope * q);
  };
  const areaOn = (p: Piece, from: number, to: number): number =>
    ((to - from) * (girthOn(p, from) + girthOn(p, to))) / 2;

  const integrate = (
    on: (p: Piece, from: number, to: number) => number,
    from: number,
    to: number,
  ): number => {
    return pieces.reduce((sum, p) => {
      const [low, high] = [Math.max(from, p.s0), Math.min(to, p.s1)];
      return high > low ? sum + on(p, low, high) : sum;
    }, 0);
  };

  /** How fast the reach changes with place: beyond 1 one edge would overtake the centre. */
  const steepness = (p: Piece, s: number): number => {
    const c = girthOn(p, s);
    const k = cosine(c);
    return ((width / 2) * ((q * q) / (c * c * c)) * Math.abs(p.slope)) / (k * k * k);
  };
  // At a lead angle past 60° the edge would begin a whole width from the centre, outside the wrap.
  const follows = pieces.every((p) =>
    [p.s0, p.s1].every((s) => girthOn(p, s) > q && cosine(girthOn(p, s)) >= 0.5 && steepness(p, s) < 1),
  );

  const skinOf = (p: Piece, x: number): number => p.s0 + ((x - p.x0) * (p.s1 - p.s0)) / (p.x1 - p.x0);
  const axisOf = (p: Piece, s: number): number => p.x0 + ((s - p.s0) * (p.x1 - p.x0)) / (p.s1 - p.s0);
  return {
    follows,
    knots: [0, ...pieces.map((p) => p.s1)],
    alongSkin: (x) => skinOf(pieces.find((p) => x < p.x1) ?? last, x),
    alongAxis: (s) => axisOf(pieceAt(s), s),
    girth,
    advance: (s) => q / cosine(girth(s)),
    turns: (from, to) => integrate(turnsOn, from, to),
    area: (from, to) => integrate(areaOn, from, to),
    reach,
    centreOfFarEdge: (s) => rootBetween((c) => c + reach(c) - s, s - width, s),
    centreOfNearEdge: (s) => rootBetween((c) => c - reach(c) - s, s, s + width),
  };
}
