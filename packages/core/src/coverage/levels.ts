import { type Course, rootBetween } from './course.ts';

/** A band of circular turns, along the skin. */
export interface Cover {
  readonly from: number;
  readonly to: number;
  readonly turns: number;
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
  readonly covers: readonly Cover[];
  readonly start: number;
  readonly end: number;
  readonly seam: number;
}

type Level = Pick<Band, 'least' | 'most'>;
const same = (a: Level, b: Level): boolean => a.least === b.least && a.most === b.most;

/** The mean over two bands that adjoin. */
const meanOf = (a: Band, b: Band): number =>
  (a.mean * (a.to - a.from) + b.mean * (b.to - b.from)) / (b.to - a.from);

/** Parts into which a smooth piece is cut to look for a change of level; the change itself is then solved for. */
const looks = 8;
const narrowest = 1e-6;

/**
 * Bands of equal layers.
 *
 * At a place s along the limb a pass lies over it while its far edge has come to s and its near edge has not yet left it.
 * Counted in turns that window is D long, so that going round the limb there are floor(D) layers or one more, D on average.
 */
export function levelsOf({ course, first, last, passes, covers, start, end, seam }: Wrap): Band[] {
  const window = (s: number): number => {
    const from = Math.max(first, course.centreOfFarEdge(s));
    const to = Math.min(last, course.centreOfNearEdge(s));
    return to > from ? course.turns(from, to) : 0;
  };

  const centres = [first, last, ...course.knots];
  const edges = centres.flatMap((c) => [c - course.reach(c), c + course.reach(c)]);
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
    const levelAt = (s: number): Level => {
      const helical = window(s);
      // Turns closer than two seams leave no stripe wide enough to count: the nearest whole number stands for all.
      const tolerance = Math.min(seam / course.advance(s), 0.5);
      const least = Math.max(0, Math.floor(helical + tolerance));
      const most = Math.max(least, Math.ceil(helical - tolerance));
      return { least: circular + passes * least, most: circular + passes * most };
    };
    const meanOver = (from: number, to: number): number => {
      const h = (to - from) / (2 * looks);
      const weights = Array.from({ length: 2 * looks + 1 }, (_, k) =>
        k % (2 * looks) === 0 ? 1 : k % 2 ? 4 : 2,
      );
      return (
        circular + (passes * weights.reduce((sum, w, k) => sum + w * window(from + k * h), 0)) / (6 * looks)
      );
    };
    const changesBetween = (from: number, to: number): number[] => {
      const level = levelAt(from);
      if (to - from < narrowest || same(level, levelAt(to))) return [];
      const change = rootBetween((s) => (same(levelAt(s), level) ? -1 : 1), from, to);
      return [change, ...changesBetween(change + narrowest, to)];
    };
    const step = (high - low) / looks;
    const changes = Array.from({ length: looks }, (_, k) =>
      changesBetween(low + k * step, low + (k + 1) * step),
    ).flat();

    for (const [k, from] of [low, ...changes].entries()) {
      const to = changes[k] ?? high;
      const level = levelAt((from + to) / 2);
      bands.push({ from, to, ...level, mean: meanOver(from, to) });
    }
  }
  return bands.reduce<Band[]>((told, band) => {
    const before = told.at(-1);
    // Neither ends nor edges are laid to a seam's width, so a narrower band is not told apart from the one before.
    if (before && (band.to - band.from < seam || same(before, band)))
      told[told.length - 1] = { ...before, to: band.to, mean: meanOf(before, band) };
    else told.push(band);
    return told;
  }, []);
}
