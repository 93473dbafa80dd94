import { byHalves, byMaterial } from './bounds.ts';
import type { Budget } from './knapsack.ts';
import { bestFit, fillRolls } from './pack.ts';
import { inPatterns } from './patterns.ts';
import {
  type Column,
  columnOf,
  gathered,
  lostIn,
  type Problem,
  rollsIn,
  roomOf,
  sizesOf,
  sum,
} from './problem.ts';
import { Relaxation } from './relaxation.ts';
import { type Found, Search, type Searched } from './search.ts';

type Reached = Searched & { readonly best: Found };

/** The longest so many rolls of a stock. */
function longest(stock: readonly number[], many: number): number[] {
  let left = many;
  return stock.map((n) => {
    const taken = Math.min(n, left);
    left -= taken;
    return taken;
  });
}

/** The fewest rolls: two bounds and two quick packings, and a search where they do not meet. */
export function fewestRolls(problem: Problem, budget: Budget): Searched {
  const known = Math.max(byMaterial(problem), byHalves(problem));
  if (known === Number.POSITIVE_INFINITY) return { best: undefined, bound: known, proven: true };
  const found = (plan: readonly Column[] | undefined): Found | undefined =>
    plan && { cost: rollsIn(plan), plan };
  let best = found(bestFit(problem, problem.demand));
  if (!best || best.cost > known) {
    const filled = found(fillRolls(problem, budget));
    if (filled && (!best || filled.cost < best.cost)) best = filled;
  }
  // What so few rolls can hold, the longest so few can.
  const stock = longest(problem.stock, best ? best.cost - 1 : sum(problem.stock));
  const relaxation = new Relaxation(problem, 'rolls', budget);
  return new Search(relaxation, best).run({ demand: problem.demand, stock }, known);
}

/** The same cuts, the longest first, each from the roll that loses least; nothing where one finds none. */
function onOtherRolls(problem: Problem, plan: readonly Column[]): Column[] | undefined {
  const sizes = sizesOf(problem);
  const used = (cut: readonly number[]): number =>
    cut.reduce((total, n, i) => total + n * (sizes[i] as number), 0);
  const left = [...problem.stock];
  const cuts = plan.flatMap(({ cut, times }) => Array.from({ length: times }, () => cut));
  const moved: Column[] = [];
  for (const cut of cuts.sort((a, b) => used(b) - used(a))) {
    const found = [...left.keys()].flatMap((roll) =>
      (left[roll] as number) > 0 ? (columnOf(problem, roll, cut, 1) ?? []) : [],
    );
    const [best] = found.sort((a, b) => a.lost - b.lost);
    if (!best) return undefined;
    left[best.roll] = (left[best.roll] as number) - 1;
    moved.push(best);
  }
  return gathered(moved);
}

/** Every way to take so many rolls from a stock. */
function* selections(stock: readonly number[], many: number): Generator<readonly number[]> {
  const [first, ...rest] = stock;
  if (first !== undefined)
    for (let n = Math.min(first, many); n >= 0; n--)
      for (const others of selections(rest, many - n)) yield [n, ...others];
  else if (many === 0) yield [];
}

/** Selections of rolls that are looked at one by one; where there are more, all together. */
const selectionsMost = 400;

function selectionsOf(stock: readonly number[], many: number): readonly (readonly number[])[] {
  const found: (readonly number[])[] = [];
  for (const selection of selections(stock, many)) {
    if (found.length === selectionsMost) return [stock];
    found.push(selection);
  }
  return found;
}

/** With as many rolls as a plan has, the least lost. */
export function leastLost(problem: Problem, plan: readonly Column[], budget: Budget): Reached {
  const { demand, pieces, perCut } = problem;
  const rolls = rollsIn(plan);
  const relaxation = new Relaxation(problem, 'lost', budget);
  const other = onOtherRolls(problem, plan);
  const start = other && lostIn(other) < lostIn(plan) ? other : plan;
  let best: Found = { cost: lostIn(start), plan: start };

  const selected = selectionsOf(problem.stock, rolls);
  const over = (lengths: readonly number[], counts: readonly number[]): number =>
    lengths.reduce((total, length, i) => total + length * (counts[i] as number), 0);
  const wanted = over(pieces, demand);
  // Every piece is freed by a cut, but the last of each roll may end with it.
  const cuts = Math.max(0, sum(demand) - rolls) * perCut;
  const isNoneOfUse = problem.useful > (problem.rolls[0] as number);
  const knownOf = (stock: readonly number[]): number =>
    isNoneOfUse && sum(stock) === rolls ? over(problem.rolls, stock) - wanted : cuts;
  const roomIn = (stock: readonly number[]): number =>
    over(
      problem.rolls.map((_, t) => roomOf(problem, t)),
      stock,
    );

  let open = Number.POSITIVE_INFINITY;
  const candidates = selected
    .filter((stock) => roomIn(stock) >= over(sizesOf(problem), demand))
    .map((stock) => ({ stock, known: knownOf(stock) }))
    .sort((a, b) => a.known - b.known);
  for (const { stock, known } of candidates) {
    if (known > best.cost - relaxation.least) continue;
    if (isNoneOfUse && sum(stock) === rolls) {
      // All of these rolls but the pieces is lost, however they are cut: it is left to see whether they hold them.
      const packed = fewestRolls({ ...problem, stock }, budget);
      if (packed.best) best = { cost: lostIn(packed.best.plan), plan: packed.best.plan };
      else if (!packed.proven) open = Math.min(open, known);
    } else {
      const searched = new Search(relaxation, best).run({ demand, stock, rolls }, known);
      best = searched.best ?? best;
      if (!searched.proven) open = Math.min(open, searched.bound);
    }
  }
  const proven = open > best.cost - relaxation.least;
  return { best: { ...best, plan: gathered(best.plan) }, bound: proven ? best.cost : open, proven };
}

/** With as many rolls as a plan has and no more lost, the fewest distinct patterns. */
export function fewestPatterns(problem: Problem, plan: readonly Column[], budget: Budget): Reached {
  const rolls = rollsIn(plan);
  const lost = lostIn(plan);
  // A quarter of the steps to try one number after the other, which is quick where it is small.
  const trying = { left: budget.left / 4 };
  let known = 1;
  for (; known < plan.length; known++) {
    const found = inPatterns(problem, rolls, known, lost, trying);
    if (found) return { best: { cost: known, plan: found }, bound: known, proven: true };
    if (trying.left < 0) break;
  }
  budget.left *= 3 / 4;
  const best = { cost: plan.length, plan };
  const relaxation = new Relaxation(problem, 'patterns', budget);
  const searched = new Search(relaxation, best).run(
    { demand: problem.demand, stock: problem.stock, rolls, lost },
    known,
  );
  const distinct = gathered((searched.best as Found).plan);
  const proven = searched.proven || distinct.length <= searched.bound;
  const bound = proven ? distinct.length : searched.bound;
  return { best: { cost: distinct.length, plan: distinct }, bound, proven };
}
