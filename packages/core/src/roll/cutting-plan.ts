import { formula } from '../formula.ts';
import { choice, count, either, flag, group, kind, length, list, optional, text } from '../measure.ts';
import { digits12, mm } from '../quantity.ts';
import { fewestPatterns, fewestRolls, leastLost } from './cutting/levels.ts';
import {
  type Column,
  lostIn,
  type Problem,
  problemOf,
  roomBesideUse,
  roomOf,
  sum,
} from './cutting/problem.ts';

const piece = group({
  what: text('what it is for'),
  length: length('length of one piece', { symbol: 'l', possible: [mm(1), mm(100_000)] }),
  pieces: count('pieces', { symbol: 'n', possible: [1, 1000] }),
});

const roll = group({
  length: length('length of bandage on the roll', { symbol: 'L', possible: [mm(100), mm(100_000)] }),
  onHand: optional(count('rolls on hand; left out where there are enough', { possible: [0, 10_000] })),
});

const proven = flag('whether no plan can be better, which is proved; if not, the bound says how much better');

/** What a plan comes to in one respect, and how far it could be bettered. */
const counted = (says: string, symbol: string) =>
  group({ value: count(says, { symbol }), bound: count('the same of any other plan, at least'), proven });

const pattern = group({
  length: length('length of bandage on the roll'),
  rolls: count('rolls that are cut so', { symbol: 'x' }),
  pieces: list(
    group({
      length: length('length of one piece'),
      pieces: count('pieces of this length from one roll', { symbol: 'a' }),
      what: list(text('what pieces of this length are for'), [1, 100]),
    }),
    [1, 100],
  ),
  inCuts: length('length lost in cuts on one roll'),
  scrap: length('end of one roll that is too short to be of use'),
  offCut: length('off-cut of use on one roll'),
});

const planned = group({
  kind: kind('planned'),
  patterns: list(pattern, [1, 2000]),
  rolls: counted('rolls to open', 'r'),
  lost: group({
    value: length('length lost in cuts and short ends', { symbol: 'v' }),
    bound: length('the same of any other plan with as many rolls, at least'),
    proven,
  }),
  distinct: counted('distinct patterns', 'q'),
  opened: length('length of bandage on the rolls opened'),
  used: length('length of all pieces'),
  left: length('length of all off-cuts of use'),
});

const cannot = group({
  kind: kind('cannot'),
  reason: choice('why there is no plan', [
    'a piece is longer than a roll',
    'too few rolls',
    'none was found in the steps allowed',
  ]),
  wanted: length('the longest piece, or the length of all pieces with their cuts'),
  available: length('the longest roll, or the length of all rolls'),
});

/** Steps of the search at each level where none are given. */
const usualSteps = 10_000_000;

type Lines = readonly { readonly what: string; readonly length: number; readonly pieces: number }[];

/** Lengths as told, each once, the longest first. */
const distinctLengths = (entries: readonly { readonly length: number }[]): number[] =>
  [...new Set(entries.map((entry) => digits12(entry.length)))].sort((a, b) => b - a);

/** One pattern in words and millimetres. */
function told(problem: Problem, { roll, cut, times }: Column, rollLength: number, lines: Lines) {
  const lengths = distinctLengths(lines);
  const { unit, perCut } = problem;
  const used = cut.reduce((total, n, i) => total + n * ((problem.pieces[i] as number) + perCut), 0);
  const rest = (problem.rolls[roll] as number) - used;
  const isOfUse = used <= roomBesideUse(problem, roll);
  return {
    length: rollLength,
    rolls: times,
    pieces: cut.flatMap((pieces, i) => {
      const of = lengths[i] as number;
      const what = lines.filter((line) => digits12(line.length) === of).map((line) => line.what);
      return pieces > 0 ? [{ length: of, pieces, what: [...new Set(what)].sort() }] : [];
    }),
    // The last cut may fall on the end of the roll, or past it.
    inCuts: unit * (sum(cut) * perCut + Math.min(0, rest)),
    scrap: isOfUse ? 0 : unit * Math.max(0, rest),
    offCut: isOfUse ? unit * Math.max(0, rest) : 0,
  };
}

/** The same patterns in the same order, however they were found. */
const inOrder = (a: Column, b: Column): number =>
  a.roll - b.roll ||
  b.times - a.times ||
  (b.cut.find((n, i) => n !== a.cut[i]) ?? 0) - (a.cut.find((n, i) => n !== b.cut[i]) ?? 0);

/**
 * Cuts of a list of pieces from rolls of several lengths: fewest rolls, then least lost, then fewest patterns to set out.
 *
 * The search is exact. For each of the three it gives the value, a bound, and whether no plan can be better; the second
 * among plans with as many rolls, the third among those with no more lost besides. It counts its steps, not time: where
 * they run out it says so, and the same list gives the same plan everywhere and in any order. Each cut takes its
 * allowance but for one at the end of a roll, which takes what is there. An end shorter than is of use is lost.
 *
 * @throws InputError when a piece or a roll cannot be, or there are more than 2000 pieces
 * @example
 * cuttingPlan({
 *   pieces: [
 *     { what: 'back slab', length: cm(80), pieces: 10 },
 *     { what: 'side strut', length: cm(55), pieces: 8 },
 *   ],
 *   rolls: [{ length: metres(2.75) }],
 *   perCut: mm(0),
 *   leastUseful: cm(30),
 * }).value.rolls.value // 5
 */
export const cuttingPlan = /* @__PURE__ */ formula({
  id: 'roll.cutting-plan',
  revision: 1,
  basis: 'numerical',
  inputs: {
    pieces: list(piece, [1, 100]),
    rolls: list(roll, [0, 50]),
    perCut: length('length lost at each cut', { symbol: 'k', possible: [mm(0), mm(100)] }),
    leastUseful: length('shortest off-cut that is of use', { symbol: 'u', possible: [mm(0), mm(200_000)] }),
    steps: optional(
      count('steps allowed to the search for each of the three; 10 million if left out', {
        possible: [1000, 100_000_000],
      }),
    ),
  },
  joint: [
    {
      input: 'pieces',
      possible: 'at most 2000 pieces in all',
      breach: ({ pieces }) => {
        const all = sum(pieces.map((line) => line.pieces));
        return all > 2000 ? `${all} pieces` : undefined;
      },
    },
  ],
  output: either([planned, cannot]),
  sources: ['derivation.cutting', 'martello-toth-1990', 'gilmore-gomory-1961'],
  compute: ({ pieces, rolls, perCut, leastUseful, steps = usualSteps }) => {
    const all = sum(pieces.map((line) => line.pieces));
    const stock = rolls.map(({ length, onHand = all }) => ({ length, onHand: Math.min(all, onHand) }));
    const there = stock.filter(({ onHand }) => onHand > 0);
    const problem = problemOf(
      pieces.map((line) => [line.length, line.pieces]),
      there.map(({ length, onHand }) => [length, onHand]),
      perCut,
      leastUseful,
    );
    const lengths = distinctLengths(there);
    const [longestPiece = 0, longestRoll = 0] = [distinctLengths(pieces)[0], lengths[0]];
    const used = sum(pieces.map((line) => line.length * line.pieces));
    if (lengths.length > 0 && (problem.pieces[0] as number) + problem.perCut > roomOf(problem, 0))
      return {
        kind: 'cannot' as const,
        reason: 'a piece is longer than a roll' as const,
        wanted: longestPiece,
        available: longestRoll,
      };

    const first = fewestRolls(problem, { left: steps });
    if (!first.best)
      return {
        kind: 'cannot' as const,
        reason: first.proven ? ('too few rolls' as const) : ('none was found in the steps allowed' as const),
        wanted: used + all * perCut,
        available: sum(there.map(({ length, onHand }) => length * onHand)),
      };
    const second = leastLost(problem, first.best.plan, { left: steps });
    const third = fewestPatterns(problem, second.best.plan, { left: steps });
    // Where the second search ran out of steps, the third may have come upon less.
    const lost = lostIn(third.best.plan);
    const isLeast = second.proven || lost <= second.bound;
    const patterns = third.best.plan
      .toSorted(inOrder)
      .map((column) => told(problem, column, lengths[column.roll] as number, pieces));
    return {
      kind: 'planned' as const,
      patterns,
      rolls: { value: first.best.cost, bound: first.bound, proven: first.proven },
      lost: {
        value: problem.unit * lost,
        bound: problem.unit * (isLeast ? lost : second.bound),
        proven: isLeast,
      },
      distinct: { value: third.best.cost, bound: third.bound, proven: third.proven },
      opened: sum(patterns.map(({ length, rolls }) => length * rolls)),
      used,
      left: sum(patterns.map(({ offCut, rolls }) => offCut * rolls)),
    };
  },
});
