/** Steps that a search may still take. It counts work, not time, so that an answer is the same on every machine. */
export interface Budget {
  left: number;
}

/** The best contents of every capacity up to a largest one. */
export interface Knapsack {
  /** The best value within a capacity. */
  within(capacity: number): number;
  /** How many of each item give it. */
  contents(capacity: number): number[];
}

/**
 * Bounded knapsack over sizes that need not be whole: the list of contents of which none is both larger and worth less
 * than another.
 */
export function knapsack(
  sizes: readonly number[],
  values: ArrayLike<number>,
  copies: ArrayLike<number>,
  capacity: number,
  budget: Budget,
): Knapsack {
  // Contents as a forest: each is another and one more item.
  const size = [0];
  const value = [0];
  const parent = [-1];
  const item = [-1];
  let front = [0];
  const tolerance = 1e-12 * capacity;
  budget.left -= 20 + sizes.length;

  for (let i = 0; i < sizes.length; i++) {
    const s = sizes[i] as number;
    const v = values[i] as number;
    const most = copies[i] as number;
    if (v <= 1e-12 || s > capacity) continue;
    let growing = front;
    for (let copy = 0; copy < most && growing.length > 0; copy++) {
      const merged: number[] = [];
      const grown: number[] = [];
      let p = 0;
      let q = 0;
      let top = -1;
      while (p < front.length || q < growing.length) {
        const old = front[p];
        const from = growing[q];
        const withItem = from === undefined ? Number.POSITIVE_INFINITY : (size[from] as number) + s;
        if (old !== undefined && (size[old] as number) <= withItem + tolerance) {
          p++;
          const worth = value[old] as number;
          if (worth > top) {
            top = worth;
            merged.push(old);
          }
          continue;
        }
        if (from === undefined || withItem > capacity) {
          q = growing.length;
          continue;
        }
        q++;
        const worth = (value[from] as number) + v;
        if (worth > top + 1e-12) {
          top = worth;
          const node = size.length;
          size.push(withItem);
          value.push(worth);
          parent.push(from);
          item.push(i);
          merged.push(node);
          grown.push(node);
        }
      }
      budget.left -= 2 + merged.length;
      front = merged;
      growing = grown;
    }
  }

  const last = (most: number): number => {
    let [low, high] = [0, front.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((size[front[middle] as number] as number) <= most) low = middle;
      else high = middle - 1;
    }
    return front[low] as number;
  };
  return {
    within: (most) => value[last(most)] as number,
    contents: (most) => {
      const counts = Array<number>(sizes.length).fill(0);
      for (let node = last(most); (item[node] as number) >= 0; node = parent[node] as number)
        counts[item[node] as number] = (counts[item[node] as number] as number) + 1;
      return counts;
    },
  };
}
