import type { Highs } from 'highs';
import { cuttingPlan, mm } from 'swathe';
import { greaterEq, lessEq, type Model } from 'yalps';

/** Pieces to cut, and rolls to cut them from. */
export interface List {
  readonly pieces: readonly (readonly [length: number, pieces: number])[];
  readonly rolls: readonly (readonly [length: number, onHand: number])[];
  readonly perCut: number;
  readonly leastUseful: number;
}

export const planOf = ({ pieces, rolls, perCut, leastUseful }: List, steps?: number) =>
  cuttingPlan({
    pieces: pieces.map(([length, n]) => ({ what: `${length} mm`, length: mm(length), pieces: n })),
    rolls: rolls.map(([length, onHand]) => ({ length: mm(length), onHand })),
    perCut: mm(perCut),
    leastUseful: mm(leastUseful),
    ...(steps === undefined ? {} : { steps }),
  }).value;

/** What is cut from one roll, and what of it is lost. */
interface Pattern {
  readonly roll: number;
  readonly cut: readonly number[];
  readonly lost: number;
}

/** What a roll loses: its cuts, or all but its pieces where no off-cut of use is left; nothing where they do not fit. */
export function lostOn(list: List, roll: number, cut: readonly number[]): number | undefined {
  const [length] = list.rolls[roll] as readonly [number, number];
  const pieces = cut.reduce((sum, n, i) => sum + n * (list.pieces[i]?.[0] as number), 0);
  const cuts = cut.reduce((sum, n) => sum + n, 0) * list.perCut;
  const rest = length - pieces - cuts;
  if (rest < -list.perCut - 1e-6) return undefined;
  return rest >= list.leastUseful - 1e-6 ? cuts : Math.max(0, length - pieces);
}

/** Every pattern, not only those that fill a roll. */
export function patternsOf(list: List): Pattern[] {
  const found: Pattern[] = [];
  for (const roll of list.rolls.keys()) {
    const grow = (cut: readonly number[]): void => {
      const lost = lostOn(list, roll, cut);
      if (lost === undefined) return;
      const next = list.pieces[cut.length];
      if (!next) {
        if (cut.some((n) => n > 0)) found.push({ roll, cut, lost });
        return;
      }
      for (let n = 0; n <= next[1]; n++) grow([...cut, n]);
    };
    grow([]);
  }
  return found;
}

export const terms = (of: readonly (readonly [by: number, name: string])[]): string =>
  of
    .filter(([by]) => by !== 0)
    .map(([by, name]) => `${by} ${name}`)
    .join(' + ') || '0 x0';

export const limits = (list: List, patterns: readonly Pattern[]): string[] => [
  ...list.pieces.map(
    ([, wanted], i) => `${terms(patterns.map(({ cut }, p) => [cut[i] as number, `x${p}`]))} = ${wanted}`,
  ),
  ...list.rolls.map(
    ([, onHand], t) => `${terms(patterns.map(({ roll }, p) => [roll === t ? 1 : 0, `x${p}`]))} <= ${onHand}`,
  ),
];

export const model = (
  aim: string,
  rows: readonly string[],
  whole: readonly string[],
  flags: readonly string[] = [],
) =>
  [
    'Minimize',
    aim,
    'Subject To',
    ...rows,
    ...(whole.length > 0 ? ['General', whole.join('\n')] : []),
    ...(flags.length > 0 ? ['Binary', flags.join('\n')] : []),
    'End',
  ].join('\n');

/** The least that HiGHS proves, or nothing where there is no plan. */
export function least(highs: Highs, text: string): number | undefined {
  const { Status, ObjectiveValue } = highs.solve(text, { mip_rel_gap: 0, mip_abs_gap: 1e-6 });
  if (Status === 'Infeasible') return undefined;
  if (Status !== 'Optimal') throw new Error(Status);
  return ObjectiveValue;
}

/** Fewest rolls: how often each pattern is cut. */
export function fewestRolls(list: List, patterns = patternsOf(list)): string {
  const all = patterns.map((_, p) => `x${p}`);
  return model(terms(all.map((name) => [1, name])), limits(list, patterns), all);
}

/** The same for yalps. */
export const fewestRollsForYalps = (list: List, patterns = patternsOf(list)): Model => ({
  direction: 'minimize',
  objective: 'rolls',
  constraints: {
    ...Object.fromEntries(list.pieces.map(([length, n]) => [`piece ${length}`, greaterEq(n)])),
    ...Object.fromEntries(list.rolls.map(([length, onHand]) => [`roll ${length}`, lessEq(onHand)])),
  },
  variables: Object.fromEntries(
    patterns.map(({ roll, cut }, p) => [
      `${p}`,
      {
        rolls: 1,
        [`roll ${list.rolls[roll]?.[0]}`]: 1,
        ...Object.fromEntries(cut.map((n, i) => [`piece ${list.pieces[i]?.[0]}`, n])),
      },
    ]),
  ),
  integers: true,
});

/** Least lost, with so many rolls. */
export function leastLost(list: List, rolls: number, patterns = patternsOf(list)): string {
  const all = patterns.map((_, p) => `x${p}`);
  const rows = [...limits(list, patterns), `${terms(all.map((name) => [1, name]))} = ${rolls}`];
  return model(terms(patterns.map(({ lost }, p) => [lost, `x${p}`])), rows, all);
}

/** Fewest patterns, with so many rolls and no more lost. */
export function fewestPatterns(list: List, rolls: number, lost: number, patterns = patternsOf(list)): string {
  const all = patterns.map((_, p) => `x${p}`);
  const used = patterns.map((_, p) => `y${p}`);
  const rows = [
    ...limits(list, patterns),
    `${terms(all.map((name) => [1, name]))} = ${rolls}`,
    `${terms(patterns.map((pattern, p) => [pattern.lost, `x${p}`]))} <= ${lost + 1e-6}`,
    ...all.map((name, p) => `${name} - ${rolls} y${p} <= 0`),
  ];
  return model(terms(used.map((name) => [1, name])), rows, all, used);
}

/** Fewest bins of whole items, as paths through the places in a bin: an item goes from where one ends to where the next begins. */
export function arcFlow(items: readonly number[], capacity: number): string {
  const counts = new Map<number, number>();
  for (const item of items) counts.set(item, (counts.get(item) ?? 0) + 1);
  const sizes = [...counts].sort(([a], [b]) => b - a);
  const reached = new Set([0]);
  const arcs: { from: number; to: number; size: number; name: string }[] = [];
  const seen = new Set<string>();
  // In order of size, so that the same contents are one path.
  for (const [size, n] of sizes)
    for (let start of [...reached].sort((a, b) => a - b))
      for (let k = 0; k < n && start + size <= capacity; k++, start += size) {
        const name = `a${start}_${size}`;
        if (!seen.has(name)) arcs.push({ from: start, to: start + size, size, name });
        seen.add(name);
        reached.add(start + size);
      }
  const ends = [...reached].filter((at) => at > 0).sort((a, b) => a - b);
  const rows = [
    ...ends.map((at) => {
      const into = arcs.filter(({ to }) => to === at).map(({ name }) => `+ ${name}`);
      const out = arcs.filter(({ from }) => from === at).map(({ name }) => `- ${name}`);
      return `${[...into, ...out].join(' ')} - e${at} = 0`;
    }),
    `${ends.map((at) => `e${at}`).join(' + ')} - z = 0`,
    ...sizes.map(([size, n]) => {
      const of = arcs.filter((arc) => arc.size === size).map(({ name }) => name);
      return `${of.join(' + ')} = ${n}`;
    }),
  ];
  return model('z', rows, [...arcs.map(({ name }) => name), 'z']);
}

/** Whole numbers below another by a linear congruential generator: the same on every machine. */
export function dice(seed: number): (n: number) => number {
  let last = seed;
  return (n) => {
    last = (last * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((last / 2_147_483_648) * n);
  };
}

/** Lists such as a cast room has: a few lengths of slab, strut and strip, up to 40 pieces, rolls of two lengths. */
export function castRoomLists(many: number, lengths: number): List[] {
  const upTo = dice(20_251_125);
  return Array.from({ length: many }, () => {
    const kinds = 2 + upTo(lengths - 1);
    const pieces = new Map<number, number>();
    let left = 40;
    for (let k = 0; k < kinds && left > 0; k++) {
      const n = Math.min(left, 1 + upTo(12));
      left -= n;
      const length = 150 + 10 * upTo(86);
      pieces.set(length, (pieces.get(length) ?? 0) + n);
    }
    const rolls: [number, number][] = [[2750, upTo(2) === 0 ? 40 : 3 + upTo(10)]];
    if (upTo(2) === 0) rolls.push([4570, 1 + upTo(4)]);
    return {
      pieces: [...pieces],
      rolls,
      perCut: [0, 0, 5][upTo(3)] as number,
      leastUseful: [0, 200, 300, 5000][upTo(4)] as number,
    };
  });
}

/** Lists of few pieces and few rolls, the longest first, of which every plan can be told. */
export function smallLists(many: number, seed = 1): List[] {
  const upTo = dice(seed);
  const longestFirst = (of: Map<number, number>): [number, number][] => [...of].sort(([a], [b]) => b - a);
  return Array.from({ length: many }, () => {
    const pieces = new Map<number, number>();
    const kinds = 1 + upTo(4);
    for (let k = 0; k < kinds; k++) pieces.set(60 + 20 * upTo(22), 1 + upTo(kinds < 3 ? 7 : 4));
    const rolls = new Map<number, number>();
    for (let k = 1 + upTo(3); k > 0; k--) rolls.set(400 + 50 * upTo(13), upTo(3) === 0 ? 9 : 1 + upTo(4));
    return {
      pieces: longestFirst(pieces),
      rolls: longestFirst(rolls),
      perCut: [0, 0, 4, 30][upTo(4)] as number,
      leastUseful: [0, 80, 200, 5000][upTo(4)] as number,
    };
  });
}

/** Lists whose rolls are nearly as long as each other, so that it matters which are opened; no off-cut is of use. */
export function closeLists(many: number, seed = 3): List[] {
  const upTo = dice(seed);
  return Array.from({ length: many }, () => {
    const pieces = new Map<number, number>();
    for (let k = 0; k < 3; k++) pieces.set(210 + 10 * upTo(32), 1 + upTo(3));
    const by = [1, 10][upTo(2)] as number;
    return {
      pieces: [...pieces].sort(([a], [b]) => b - a),
      rolls: [1000, 1000 - by, 1000 - 3 * by].map((length) => [length, 1 + upTo(2)] as const),
      perCut: 0,
      leastUseful: 5000,
    };
  });
}

/** What a plan comes to. */
export type Costs = readonly [rolls: number, lost: number, patterns: number];

/** Fewest rolls, then least lost, then fewest patterns, by trying every pattern every number of times. */
export function bestOfAll(list: List, patterns = patternsOf(list)): Costs | undefined {
  const known = new Map<string, Costs | undefined>();
  const best = (p: number, wanted: readonly number[], stock: readonly number[]): Costs | undefined => {
    if (wanted.every((n) => n === 0)) return [0, 0, 0];
    const pattern = patterns[p];
    if (!pattern) return undefined;
    const key = `${p}:${wanted}:${stock}`;
    if (known.has(key)) return known.get(key);
    let least: Costs | undefined;
    for (let times = 0; times <= (stock[pattern.roll] as number); times++) {
      const left = wanted.map((n, i) => n - times * (pattern.cut[i] as number));
      if (left.some((n) => n < 0)) break;
      const rest = best(
        p + 1,
        left,
        stock.map((n, t) => (t === pattern.roll ? n - times : n)),
      );
      if (!rest) continue;
      const all: Costs = [rest[0] + times, rest[1] + times * pattern.lost, rest[2] + (times > 0 ? 1 : 0)];
      const differs = all.findIndex((cost, k) => Math.abs(cost - (least?.[k] ?? -1)) > 1e-6);
      if (!least || (differs >= 0 && (all[differs] as number) < (least[differs] as number))) least = all;
    }
    known.set(key, least);
    return least;
  };
  return best(
    0,
    list.pieces.map(([, n]) => n),
    list.rolls.map(([, n]) => n),
  );
}
