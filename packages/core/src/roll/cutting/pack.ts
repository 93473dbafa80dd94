import { type Budget, knapsack } from './knapsack.ts';
import { type Column, columnOf, gathered, type Problem, roomOf, sizesOf } from './problem.ts';

/** Rolls in the order in which they are opened: the longest first. */
function* inOrder({ rolls, stock }: Problem): Generator<number, undefined> {
  for (const t of rolls.keys()) for (let n = stock[t] as number; n > 0; n--) yield t;
  return undefined;
}

interface Opened {
  readonly roll: number;
  readonly cut: number[];
}

const planOf = (problem: Problem, opened: readonly Opened[]): Column[] =>
  gathered(opened.flatMap(({ roll, cut }) => columnOf(problem, roll, cut, 1) ?? []));

/** The longest piece first, each into the roll that it fits best; nothing where they do not all find one. */
export function bestFit(problem: Problem, demand: readonly number[]): Column[] | undefined {
  const next = inOrder(problem);
  const opened: Opened[] = [];
  const room: number[] = [];
  for (const [i, size] of sizesOf(problem).entries()) {
    for (let n = demand[i] as number; n > 0; n--) {
      let best = -1;
      for (let k = 0; k < room.length; k++)
        if ((room[k] as number) >= size && (best < 0 || (room[k] as number) < (room[best] as number)))
          best = k;
      if (best < 0) {
        const roll = next.next().value;
        if (roll === undefined || roomOf(problem, roll) < size) return undefined;
        best = opened.length;
        opened.push({ roll, cut: problem.pieces.map(() => 0) });
        room.push(roomOf(problem, roll));
      }
      room[best] = (room[best] as number) - size;
      const { cut } = opened[best] as Opened;
      cut[i] = (cut[i] as number) + 1;
    }
  }
  return planOf(problem, opened);
}

/** Roll by roll: the longest piece that is left, and with it what fills the roll best. */
export function fillRolls(problem: Problem, budget: Budget): Column[] | undefined {
  const sizes = sizesOf(problem);
  const left = [...problem.demand];
  const opened: Opened[] = [];
  for (const roll of inOrder(problem)) {
    const first = left.findIndex((n) => n > 0);
    if (first < 0) break;
    const room = roomOf(problem, roll) - (sizes[first] as number);
    if (room < 0) return undefined;
    left[first] = (left[first] as number) - 1;
    const cut = knapsack(sizes, sizes, left, room, budget).contents(room);
    for (const [i, n] of cut.entries()) left[i] = (left[i] as number) - n;
    cut[first] = (cut[first] as number) + 1;
    opened.push({ roll, cut });
  }
  return left.some((n) => n > 0) ? undefined : planOf(problem, opened);
}
