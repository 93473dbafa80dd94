import type { Budget } from './knapsack.ts';
import { type Column, columnOf, lostOn, type Problem, roomOf, sizesOf } from './problem.ts';

/** Rolls of one length that are cut alike. */
interface Batch {
  readonly times: number;
  readonly roll: number;
}

/** Every way to share rolls among so many batches, the largest batch first. */
function* batchings(
  rolls: number,
  many: number,
  stock: readonly number[],
  last: Batch = { times: rolls, roll: 0 },
): Generator<readonly Batch[]> {
  if (many === 0) {
    if (rolls === 0) yield [];
    return;
  }
  for (let times = Math.min(rolls - many + 1, last.times); times * many >= rolls; times--)
    for (let roll = times === last.times ? last.roll : 0; roll < stock.length; roll++) {
      if ((stock[roll] as number) < times) continue;
      const batch = { times, roll };
      const left = stock.map((n, t) => (t === roll ? n - times : n));
      for (const rest of batchings(rolls - times, many - 1, left, batch)) yield [batch, ...rest];
    }
}

const divisorOf = (a: number, b: number): number => (b === 0 ? a : divisorOf(b, a % b));

/**
 * A plan of just these batches: length by length, every way in which they can give the pieces asked for. A batch gives
 * each piece as often as it has rolls, or a multiple of that, so there are few.
 */
function cutInBatches(
  problem: Problem,
  batches: readonly Batch[],
  lostMost: number,
  budget: Budget,
): Column[] | undefined {
  const { demand } = problem;
  const sizes = sizesOf(problem);
  const room = batches.map(({ roll }) => roomOf(problem, roll));
  const cuts = batches.map(() => sizes.map(() => 0));
  // What is left for the batches from one on is a multiple of this.
  const divisor = batches.map((_, k) => batches.slice(k).reduce((d, { times }) => divisorOf(d, times), 0));

  /** What is lost on rolls into which none of the pieces from `i` on fits. */
  const lostBefore = (i: number): number => {
    const least = i < sizes.length ? (sizes.at(-1) as number) : Number.POSITIVE_INFINITY;
    return batches.reduce((total, { roll, times }, k) => {
      const isFull = (room[k] as number) < least;
      return total + (isFull ? times * (lostOn(problem, roll, cuts[k] as number[]) ?? 0) : 0);
    }, 0);
  };

  /** Piece `i` from the batches `k` on. `tied`: like the batch before and cut alike so far, so they may be swapped. */
  const give = (i: number, k: number, left: number, tied: readonly boolean[]): boolean => {
    budget.left -= 1;
    if (budget.left < 0) return false;
    if (k === batches.length) {
      if (left > 0 || lostBefore(i + 1) > lostMost + problem.slack) return false;
      if (i + 1 === sizes.length) return true;
      const still = tied.map((is, b) => is && cuts[b - 1]?.[i] === cuts[b]?.[i]);
      return give(i + 1, 0, demand[i + 1] as number, still);
    }
    if (left % (divisor[k] as number) !== 0) return false;
    const { times } = batches[k] as Batch;
    const size = sizes[i] as number;
    const cut = cuts[k] as number[];
    const before = room[k] as number;
    let others = 0;
    for (let b = k + 1; b < batches.length; b++)
      others += (batches[b] as Batch).times * Math.floor((room[b] as number) / size);
    const tie = tied[k] ? (cuts[k - 1]?.[i] as number) : Number.POSITIVE_INFINITY;
    for (let n = Math.min(Math.floor(before / size), Math.floor(left / times), tie); n >= 0; n--) {
      if (left - n * times > others) break;
      cut[i] = n;
      room[k] = before - n * size;
      if (give(i, k + 1, left - n * times, tied)) return true;
      if (budget.left < 0) return false;
    }
    cut[i] = 0;
    room[k] = before;
    return false;
  };
  const alike = batches.map(({ times, roll }, k) => {
    const before = batches[k - 1];
    return before?.times === times && before.roll === roll;
  });
  if (!give(0, 0, demand[0] as number, alike)) return undefined;
  return batches.flatMap(({ roll, times }, k) => columnOf(problem, roll, cuts[k] as number[], times) ?? []);
}

/** A plan of just so many rolls and patterns; none where there is none, or where the steps run out first. */
export function inPatterns(
  problem: Problem,
  rolls: number,
  patterns: number,
  lostMost: number,
  budget: Budget,
): Column[] | undefined {
  const wanted = sizesOf(problem).reduce((total, size, i) => total + size * (problem.demand[i] as number), 0);
  for (const batches of batchings(rolls, patterns, problem.stock)) {
    budget.left -= 1;
    const there = batches.reduce((total, { roll, times }) => total + times * roomOf(problem, roll), 0);
    const plan = there < wanted ? undefined : cutInBatches(problem, batches, lostMost, budget);
    if (plan || budget.left < 0) return plan;
  }
  return undefined;
}
