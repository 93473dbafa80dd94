import { type Problem, sizesOf } from './problem.ts';

/** Fewest rolls, longest first, that are as long as all pieces with their cuts. */
export function byMaterial(problem: Problem): number {
  const { demand, rolls, stock, perCut, slack } = problem;
  let rest = sizesOf(problem).reduce((total, size, i) => total + size * (demand[i] as number), 0);
  let count = 0;
  for (const [t, length] of rolls.entries()) {
    const room = length + perCut + slack;
    const needed = Math.ceil(rest / room);
    if (needed <= (stock[t] as number)) return count + Math.max(0, needed);
    count += stock[t] as number;
    rest -= (stock[t] as number) * room;
  }
  return Number.POSITIVE_INFINITY;
}

/**
 * Martello and Toth's bound L2, as if every roll were of the longest length. For a threshold: pieces that leave less
 * than it stand alone, no two of those longer than half a roll share one, and the shorter ones from the threshold up go
 * into what those leave or need rolls of their own.
 */
export function byHalves(problem: Problem): number {
  const { demand, rolls, perCut, slack } = problem;
  const room = (rolls[0] as number) + perCut + slack;
  const sizes = sizesOf(problem);
  let most = 0;
  for (const threshold of [0, ...sizes]) {
    let large = 0;
    let left = 0;
    let small = 0;
    for (const [i, size] of sizes.entries()) {
      const n = demand[i] as number;
      if (2 * size > room) {
        large += n;
        if (size + threshold <= room) left += n * (room - size);
      } else if (size >= threshold) small += n * size;
    }
    most = Math.max(most, large + Math.max(0, Math.ceil((small - left) / room)));
  }
  return most;
}
