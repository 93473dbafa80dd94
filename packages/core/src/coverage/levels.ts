import { type Course, rootBetween } from './course.ts';

/** A band of circular turns, along the skin. */
export interface Cover {
  readonly from: number;
  readonly to: number;
  readonly turns: number;
}

/** Where round the limb a pass begins, in turns, and which way round it goes. */
export interface Phase {
  readonly at: number;
  readonly hand: 1 | -1;
}

/** A stretch of limb, along the skin, with the same fewest and most layers all along. */
export interface Band {
  readonly from: number;
  readonly to: number;
  readonly least: number;
  readonly most: number;
  readonly mean: number;
}

interface Wrap {
  readonly course: Course;
  /** Where the helix's centre line begins and ends. */
  readonly first: number;
  readonly last: number;
  readonly passes: number;
  /** Where each pass begins; where that is not known the bands hold for any. */
  readonly phases: readonly Phase[] | undefined;
  readonly covers: readonly Cover[];
  readonly start: number;
  readonly end: number;
  readonly seam: number;
}

type Level = Pick<Band, 'least' | 'most'>;
type Function = (s: number) => number;
const same = (a: Level, b: Level): boolean => a.least === b.least && a.most === b.most;

/** Parts into which a smooth piece is cut to look for a change of level; the change itself is then solved for. */
const looks = 6;
/** Share of a seam that is nothing but rounding. */
const sliver = 1e-6;

/** Gauss's places and weights for five points. */
const gauss = [
  [0, 128 / 225],
  [Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, (322 + 13 * Math.sqrt(70)) / 900],
  [Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, (322 - 13 * Math.sqrt(70)) / 900],
] as const;

const meanOver = (f: Function, from: number, to: number): number => {
  const [middle, half] = [(from + to) / 2, (to - from) / 2];
  return gauss.reduce((sum, [x, w]) => {
    const values = x === 0 ? f(middle) : f(middle - x * half) + f(middle + x * half);
    return sum + (w * values) / 2;
  }, 0);
};

/** Places where a smooth function passes a whole number. */
function crossings(f: Function, from: number, to: number): number[] {
  const places: number[] = [];
  const step = (to - from) / looks;
  let [a, fa] = [from, f(from)];
  for (let k = 1; k <= looks; k++) {
    const b = from + k * step;
    const fb = f(b);
    const sign = fb > fa ? 1 : -1;
    for (let n = Math.floor(Math.min(fa, fb)) + 1; n <= Math.ceil(Math.max(fa, fb)) - 1; n++)
      places.push(rootBetween((s) => sign * (f(s) - n), a, b));
    [a, fa] = [b, fb];
  }
  return places;
}

/** Fewest and most of a pass's layers where nothing is known of how passes lie to each other. */
function boundsOf(window: number, tolerance: number, passes: number): Level {
  // Turns closer than two seams leave no stripe wide enough to count: the nearest whole number stands for all.
  const seam = Math.min(tolerance, 0.5);
  const least = Math.max(0, Math.floor(window + seam));
  return { least: passes * least, most: passes * Math.max(least, Math.ceil(window - seam)) };
}

/** Fewest and most round the limb where each pass covers the turns from `low` to `high`, stripes under a seam left out. */
function levelRound(ends: readonly (readonly [low: number, high: number])[], tolerance: number): Level {
  const layersAt = (turn: number): number =>
    ends.reduce((sum, [low, high]) => sum + Math.floor(high - turn) + Math.floor(turn - low) + 1, 0);
  const edges = ends
    .flat()
    .map((e) => e - Math.floor(e))
    .sort((a, b) => a - b);
  const stripes = edges.map((e, n) => ({ from: e, to: edges[n + 1] ?? (edges[0] as number) + 1 }));
  const widest = Math.max(...stripes.map((s) => s.to - s.from));
  const layers = stripes
    .filter((s) => s.to - s.from >= Math.min(tolerance, widest))
    .map((s) => layersAt((s.from + s.to) / 2));
  return { least: Math.min(...layers), most: Math.max(...layers) };
}

/**
 * Bands of equal layers.
 *
 * At a place s along the limb a pass lies over it while its far edge has come to s and its near edge has not yet left it.
 * Counted in turns that window is D long, so that going round the limb there are floor(D) layers or one more, D on average.
 */
export function levelsOf({ course, first, last, passes, phases, covers, start, end, seam }: Wrap): Band[] {
  const [turnsFirst, turnsLast] = [course.turns(first), course.turns(last)];
  const clip = (turns: number): number => Math.min(Math.max(turns, turnsFirst), turnsLast) - turnsFirst;
  const opens: Function = (s) => clip(course.turns(course.centreOfFarEdge(s)));
  const closes: Function = (s) => clip(course.turns(course.centreOfNearEdge(s)));
  const window: Function = (s) => closes(s) - opens(s);
  const tolerance: Function = (s) => seam / course.advance(s);

  /** The window of each pass as seen going round the limb one way. */
  const rounds = phases?.map(({ at, hand }): readonly [Function, Function] =>
    hand === 1
      ? [(s) => opens(s) - at, (s) => closes(s) - at]
      : [(s) => at - closes(s), (s) => at - opens(s)],
  );
  const levelOf = (s: number): Level => {
    const any = boundsOf(window(s), tolerance(s), passes);
    if (!rounds) return any;
    const known = levelRound(
      rounds.map(([low, high]) => [low(s), high(s)]),
      tolerance(s),
    );
    // Where turns lie so close that no stripe is as wide as a seam, what holds for any placing is all there is to say.
    const within = (layers: number): number => Math.min(Math.max(layers, any.least), any.most);
    return { least: within(known.least), most: within(known.most) };
  };
  /** What passes a whole number where a level may change. */
  const changing: Function[] = rounds
    ? rounds.flat().flatMap((a, _, all) =>
        all
          .filter((b) => b !== a)
          .map(
            (b): Function =>
              (s) =>
                a(s) - b(s) + tolerance(s),
          ),
      )
    : [(s) => window(s) + tolerance(s), (s) => window(s) - tolerance(s)];

  const centres = [first, last, ...course.knots];
  const edges = centres.flatMap((c) => [c - course.reach(c), c + course.reach(c)]);
  const narrowest = sliver * seam;
  const inner = [...edges, ...covers.flatMap(({ from, to }) => [from, to])].sort((a, b) => a - b);
  const places = [start];
  for (const s of inner) if (s > (places.at(-1) as number) + narrowest && s < end - narrowest) places.push(s);
  places.push(end);

  const bands: Band[] = [];
  for (const [n, low] of places.entries()) {
    const high = places[n + 1];
    if (high === undefined) break;
    const middle = (low + high) / 2;
    const circular = covers.reduce((sum, c) => (c.from < middle && middle < c.to ? sum + c.turns : sum), 0);
    const changes = changing
      .flatMap((f) => crossings(f, low, high))
      .filter((s) => s < high - narrowest)
      .sort((a, b) => a - b);
    let from = low;
    for (const to of [...changes, high]) {
      if (to - from < narrowest) continue;
      const { least, most } = levelOf((from + to) / 2);
      const mean = circular + passes * meanOver(window, from, to);
      bands.push({ from, to, least: circular + least, most: circular + most, mean });
      from = to;
    }
  }
  return joined(bands, seam);
}

/** Each band that is `part` of the one before, taken into it. */
function taken(bands: readonly Band[], part: (before: Band, band: Band) => boolean): Band[] {
  const told: Band[] = [];
  for (const band of bands) {
    const before = told.at(-1);
    if (before && part(before, band)) {
      const mean =
        (before.mean * (before.to - before.from) + band.mean * (band.to - band.from)) /
        (band.to - before.from);
      told[told.length - 1] = { ...before, to: band.to, mean };
    } else told.push(band);
  }
  return told;
}

/**
 * Neither ends nor edges are laid to a seam's width, so a band no wider is not told apart from the one before, unless it is
 * only a piece of one that is wider. Where two passes cross, the band that parts them is one seam wide but for rounding,
 * which must not decide.
 */
function joined(bands: readonly Band[], seam: number): Band[] {
  const isNarrow = ({ from, to }: Band): boolean => to - from <= seam * (1 + 1e-9);
  const whole = taken(bands, (before, band) => same(before, band) && isNarrow(before) && isNarrow(band));
  return taken(whole, (before, band) => same(before, band) || isNarrow(band));
}
