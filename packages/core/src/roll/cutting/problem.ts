import { digits12 } from '../../quantity.ts';

/** Pieces to cut and rolls to cut them from, each length once, the longest first, told in one unit of length. */
export interface Problem {
  readonly pieces: readonly number[];
  readonly demand: readonly number[];
  readonly rolls: readonly number[];
  readonly stock: readonly number[];
  /** Lost at each cut. */
  readonly perCut: number;
  /** Shortest off-cut that is of use; longer than any roll where none is. */
  readonly useful: number;
  /** Length of one unit, in mm. */
  readonly unit: number;
  /** Whether every length is a whole number of units. */
  readonly whole: boolean;
  /** Shortfall that is none: lengths that only differ in how they were reckoned. */
  readonly slack: number;
}

/** What is cut from a roll, and how many rolls are cut so. */
export interface Column {
  /** Index of the roll's length. */
  readonly roll: number;
  /** Pieces of each length. */
  readonly cut: readonly number[];
  readonly times: number;
  /** Lost on one such roll. */
  readonly lost: number;
}

export const sum = (numbers: readonly number[]): number => numbers.reduce((total, x) => total + x, 0);

/** The nearest whole number: within the tolerance of `commonUnit`, the one meant. */
const nearest = (x: number): number => Math.floor(x + 0.5);

/**
 * The longest length of which all are whole multiples, by Euclid's algorithm on numbers known to 12 digits; none where
 * there is none worth counting in. Counted in it, lengths add up exactly and a bound can be raised to a whole number.
 */
function commonUnit(lengths: readonly number[], most: number): number | undefined {
  let unit = 0;
  for (const length of lengths) {
    let [a, b] = [unit, length];
    while (b > 1e-5 * most) [a, b] = [b, a - b * Math.floor(a / b + 1e-7)];
    unit = a;
  }
  // Taking remainders wears down the last digits: the longest length gives them back.
  const exact = most / nearest(most / unit);
  const isWhole = (length: number): boolean =>
    Math.abs(length - exact * nearest(length / exact)) <= 1e-11 * most;
  return lengths.every(isWhole) ? exact : undefined;
}

type Counted = readonly (readonly [length: number, count: number])[];

/** Equal lengths as one, none of which there is none, the longest first. */
function merged(entries: Counted): Map<number, number> {
  const counts = new Map<number, number>();
  for (const [length, count] of entries) {
    const key = digits12(length);
    counts.set(key, (counts.get(key) ?? 0) + count);
  }
  return new Map([...counts].filter(([, count]) => count > 0).sort(([a], [b]) => b - a));
}

/** The problem in its one form, in whatever order it was told. */
export function problemOf(pieces: Counted, rolls: Counted, perCut: number, leastUseful: number): Problem {
  const demand = merged(pieces);
  const stock = merged(rolls);
  const total = sum([...demand.values()]);
  const longest = Math.max(0, ...stock.keys());
  const isOfUse = leastUseful <= longest;
  const lengths = [...stock.keys(), ...demand.keys(), perCut, ...(isOfUse ? [leastUseful] : [])];
  const common = commonUnit(lengths, longest);
  const counted = (length: number): number => (common ? nearest(length / common) : length);
  return {
    pieces: [...demand.keys()].map(counted),
    demand: [...demand.values()],
    rolls: [...stock.keys()].map(counted),
    // More rolls than pieces are never opened.
    stock: [...stock.values()].map((n) => Math.min(n, total)),
    perCut: counted(perCut),
    useful: isOfUse ? counted(leastUseful) : 2 * counted(longest),
    unit: common ?? 1,
    whole: common !== undefined,
    slack: common ? 0 : 1e-9 * longest,
  };
}

/** Sizes that pieces take with the cut that frees them. A roll has room for one more cut: the last may fall past its end. */
export const sizesOf = ({ pieces, perCut }: Problem): number[] => pieces.map((length) => length + perCut);

/** Most that a roll has room for. */
export const roomOf = ({ rolls, perCut, slack }: Problem, roll: number): number =>
  (rolls[roll] as number) + perCut + slack;

/** Most that a roll has room for if an off-cut of use is to be left. */
export const roomBesideUse = ({ rolls, useful, slack }: Problem, roll: number): number =>
  (rolls[roll] as number) - useful + slack;

/**
 * What is lost on a roll: its cuts where an off-cut of use is left, or else all but its pieces; nothing to tell where
 * they do not fit.
 */
export function lostOn(problem: Problem, roll: number, cut: readonly number[]): number | undefined {
  const { pieces, rolls, perCut } = problem;
  let length = 0;
  let count = 0;
  for (let i = 0; i < cut.length; i++) {
    const n = cut[i] as number;
    length += n * (pieces[i] as number);
    count += n;
  }
  const used = length + count * perCut;
  if (used > roomOf(problem, roll)) return undefined;
  if (used <= roomBesideUse(problem, roll)) return count * perCut;
  return Math.max(0, (rolls[roll] as number) - length);
}

/** A column, where its pieces fit on its roll. */
export function columnOf(
  problem: Problem,
  roll: number,
  cut: readonly number[],
  times: number,
): Column | undefined {
  const lost = lostOn(problem, roll, cut);
  return lost === undefined ? undefined : { roll, cut, times, lost };
}

/** Columns with each pattern once. */
export function gathered(plan: readonly Column[]): Column[] {
  const found = new Map<string, Column>();
  for (const column of plan) {
    const key = `${column.roll}:${column.cut.join()}`;
    found.set(key, { ...column, times: column.times + (found.get(key)?.times ?? 0) });
  }
  return [...found.values()];
}

export const rollsIn = (plan: readonly Column[]): number => sum(plan.map(({ times }) => times));
export const lostIn = (plan: readonly Column[]): number => sum(plan.map(({ times, lost }) => times * lost));
