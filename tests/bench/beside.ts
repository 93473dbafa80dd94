/** One thing of ours beside one that does the same, measured in the same run. */
export interface Row {
  readonly what: string;
  readonly peer: string;
  /** How many times as long the peer takes, or how many times as many bytes. */
  readonly ratio: number;
  readonly ours: number;
  readonly theirs: number;
  readonly unit: 'ms' | 'bytes';
  readonly note: string;
}

type Pair = readonly [ours: number, theirs: number];

const median = (of: readonly number[]): number => of.toSorted((a, b) => a - b)[of.length >> 1] as number;

/** Both by their medians, and the median of their ratios. */
export const row = (
  what: string,
  peer: string,
  pairs: readonly Pair[],
  note: string,
  unit: Row['unit'] = 'ms',
): Row => ({
  what,
  peer,
  ratio: median(pairs.map(([ours, theirs]) => theirs / ours)),
  ours: median(pairs.map(([ours]) => ours)),
  theirs: median(pairs.map(([, theirs]) => theirs)),
  unit,
  note,
});

/** In how many of them ours took less. */
export const ahead = (pairs: readonly Pair[]): string =>
  `${pairs.filter(([ours, theirs]) => ours < theirs).length} of ${pairs.length}`;

let kept: unknown;
/** Milliseconds that one takes, over so many. What they give is kept, or nothing would have to be worked out. */
function each(run: () => unknown, many: number): number {
  const start = performance.now();
  for (let n = 0; n < many; n++) kept = run();
  return (performance.now() - start) / many;
}

/** The median of so many. */
export function timed(run: () => unknown, times: number): number {
  const found = median(Array.from({ length: times }, () => each(run, 1)));
  if (kept === undefined) throw new Error('nothing was worked out');
  return found;
}

const roundMs = 30;
const allMs = 2000;
const [leastRounds, mostRounds] = [3, 41];

/** Both in turns, so that a machine whose speed drifts drifts for both. */
export function beside(ours: () => unknown, theirs: () => unknown): Pair[] {
  const warmed = [ours, theirs].map((run) => {
    const start = performance.now();
    let took = each(run, 1);
    while (performance.now() - start < 300) took = each(run, 1);
    return Math.max(1, Math.ceil(roundMs / took));
  }) as [number, number];
  const pairs: Pair[] = [];
  const start = performance.now();
  while (pairs.length < leastRounds || (performance.now() - start < allMs && pairs.length < mostRounds))
    pairs.push([each(ours, warmed[0]), each(theirs, warmed[1])]);
  return pairs;
}
