import type * as z from 'zod/v4/core';
import { formula, type Plain } from '../formula.ts';
import { choice, count, either, flag, group, kind, length, list, optional, text } from '../measure.ts';
import { digits12, mm, wholeDown } from '../quantity.ts';

export const material = choice('what the roll is of', [
  'plaster',
  'fibreglass',
  'prefabricated slab',
  'padding',
  'stockinette',
  'elastic',
]);

export const roll = group({
  material,
  width: length('width of the roll', { symbol: 'W', possible: [mm(10), mm(500)] }),
  length: length('length of bandage on the roll', { symbol: 'L', possible: [mm(100), mm(100_000)] }),
  onHand: count('rolls on hand', { possible: [0, 10_000] }),
});

const need = group({
  what: text('what it is for'),
  material,
  width: length('width wanted', { symbol: 'w', possible: [mm(10), mm(500)] }),
  length: length('length of one piece', { symbol: 'l', possible: [mm(1), mm(200_000)] }),
  pieces: count('pieces', { symbol: 'n', possible: [1, 500] }),
  joins: flag('whether a piece may be made of several lengths, as a wrap may'),
  wider: flag('whether a wider roll may be trimmed'),
  makeUp: optional(
    choice('how rolls make up a joined length that is longer than one: in full if left out', [
      'in full',
      'nearest',
    ]),
  ),
});

const taken = group({
  kind: kind('taken'),
  what: text('what it is for'),
  width: length('width of the rolls used'),
  length: length('length taken'),
  short: length('length wanted beyond what is taken; none but where the nearest number of rolls is enough'),
  fromOpen: length('part of it from rolls that an earlier line opened'),
  opened: list(
    group({ length: length('length of bandage on the roll'), rolls: count('rolls opened') }),
    [0, 100],
  ),
});

const cannot = group({
  kind: kind('cannot'),
  what: text('what it is for'),
  reason: choice('why it cannot be had', [
    'no such material',
    'no such width',
    'longer than a roll',
    'too few rolls',
  ]),
  wanted: length('the width, or the length, that is wanted'),
  available: length('the widest, the longest, or all that there is'),
});

type Need = z.output<typeof need>;
type Line = Plain<z.output<typeof taken> | z.output<typeof cannot>>;
type Reason = z.output<typeof cannot>['reason'];

interface Stock {
  readonly material: Need['material'];
  readonly width: number;
  readonly length: number;
  readonly closed: number;
  /** What is left on each roll that was opened. */
  readonly left: readonly number[];
}

/** Pieces that a length yields: whole ones, but a wrap goes on from roll to roll. */
const yieldOf = (need: Need, length: number): number =>
  need.joins ? length / need.length : wholeDown(length / need.length);

type Taken = readonly [Line, readonly Stock[]];

const cannotBeHad = (
  { what }: Need,
  reason: Reason,
  wanted: number,
  available: number,
): Extract<Line, { kind: 'cannot' }> => ({ kind: 'cannot', what, reason, wanted, available });

/** Takes one line from rolls of one width, if they hold it. */
function takeFrom(need: Need, usable: readonly Stock[], stock: readonly Stock[]): Taken {
  let pieces: number = need.pieces;
  let fromOpen = 0;
  const cut = (length: number): number => {
    const count = Math.min(pieces, yieldOf(need, length));
    const gone = count * need.length;
    // What goes into a roll exactly leaves nothing on it, to the last bit.
    const taken = gone >= length * (1 - 1e-12) ? length : gone;
    pieces -= need.joins ? taken / need.length : count;
    return taken;
  };

  const work = usable.map((s) => ({ ...s, left: [...s.left], opened: 0 }));
  // The shortest left-over goes first, so that the order in which the stock is listed does not matter.
  const open = work.flatMap((s) => s.left.map((length, n) => ({ s, n, length })));
  for (const { s, n, length } of open.sort((a, b) => a.length - b.length)) {
    const gone = cut(length);
    fromOpen += gone;
    s.left[n] = length - gone;
  }

  // A roll that finishes the line is the shortest that can; until then the longest, so that the fewest are opened.
  while (pieces > 1e-9) {
    const closed = work.filter((s) => s.closed > s.opened).sort((a, b) => a.length - b.length);
    const next = closed.find((s) => yieldOf(need, s.length) >= pieces - 1e-9) ?? closed.at(-1);
    if (!next) {
      const longest = Math.max(...usable.map((s) => s.length));
      const held = (need.pieces - pieces) * need.length;
      const line =
        !need.joins && longest < need.length
          ? cannotBeHad(need, 'longer than a roll', need.length, longest)
          : cannotBeHad(need, 'too few rolls', need.pieces * need.length, held);
      return [line, stock];
    }
    next.opened += 1;
    next.left.push(next.length - cut(next.length));
  }

  const line = {
    kind: 'taken' as const,
    what: need.what,
    width: Math.min(...usable.map((s) => s.width)),
    length: need.pieces * need.length,
    short: 0,
    fromOpen,
    opened: work.flatMap((s) => (s.opened > 0 ? [{ length: s.length, rolls: s.opened }] : [])),
  };
  const rest = work.map(({ opened, ...s }) => ({ ...s, closed: s.closed - opened }));
  return [line, stock.map((s) => rest[usable.indexOf(s)] ?? s)];
}

/**
 * Takes a length longer than any roll of this width as the number of whole rolls of one length that comes nearest to it:
 * of two as near, the longer; of two as long, the fewer rolls.
 */
function takeNearest(need: Need, usable: readonly Stock[], stock: readonly Stock[]): Taken {
  const wanted = need.pieces * need.length;
  const found = usable
    .flatMap((s) => {
      const many = wholeDown(wanted / s.length + 0.5);
      return s.closed >= many ? [{ s, many, total: many * s.length }] : [];
    })
    .sort(
      (a, b) =>
        Math.abs(a.total - wanted) - Math.abs(b.total - wanted) || b.total - a.total || a.many - b.many,
    );
  const [best] = found;
  if (!best) {
    const held = Math.max(...usable.map((s) => s.closed * s.length));
    return [cannotBeHad(need, 'too few rolls', wanted, held), stock];
  }
  const { s, many, total } = best;
  const line = {
    kind: 'taken' as const,
    what: need.what,
    width: s.width,
    length: Math.min(wanted, total),
    short: Math.max(0, wanted - total),
    fromOpen: 0,
    opened: [{ length: s.length, rolls: many }],
  };
  const left = Array.from({ length: many }, (_, n) => (n < many - 1 ? 0 : Math.max(0, total - wanted)));
  const rest = { ...s, closed: s.closed - many, left: [...s.left, ...left] };
  return [line, stock.map((other) => (other === s ? rest : other))];
}

/** Takes one line from the stock: what was taken and what remains, or why it cannot be and the stock as it was. */
function take(need: Need, stock: readonly Stock[]): Taken {
  const there = stock.filter((s) => s.material === need.material && s.closed + s.left.length > 0);
  if (there.length === 0) return [cannotBeHad(need, 'no such material', need.width, 0), stock];
  const wanted = digits12(need.width);
  const fits = (width: number): boolean => (need.wider ? width >= wanted : width === wanted);
  const widths = [...new Set(there.map((s) => digits12(s.width)))].filter(fits).sort((a, b) => a - b);

  // The narrowest width that holds the whole line; where none does, the reason of the one that comes nearest.
  let nearest: Extract<Line, { kind: 'cannot' }> | undefined;
  for (const width of widths) {
    const usable = there.filter((s) => digits12(s.width) === width);
    const longest = Math.max(...usable.map((s) => s.length));
    const isLonger = need.makeUp === 'nearest' && digits12(need.pieces * need.length) > digits12(longest);
    const [line, rest] = (isLonger ? takeNearest : takeFrom)(need, usable, stock);
    if (line.kind === 'taken') return [line, rest];
    if (!nearest || line.available > nearest.available) nearest = line;
  }
  const widest = Math.max(...there.map((s) => s.width));
  return [nearest ?? cannotBeHad(need, 'no such width', need.width, widest), stock];
}

/**
 * Rolls to open for a list of pieces and wraps, and what is left on them.
 *
 * Lines are taken in their order; each first uses what an earlier one left on open rolls, the shortest first. Where a
 * wider roll may be trimmed, the narrowest width that holds the whole line is used. A line that the stock cannot serve
 * says why and takes nothing. A length longer than a roll is made up in full, or, where the line says so, by the number of
 * whole rolls that comes nearest: then it says by how much it is short.
 *
 * @throws InputError when a need or a roll cannot be
 * @example
 * takeOff({
 *   needs: [{ what: 'slab', material: 'plaster', width: cm(10), length: cm(34), pieces: 8, joins: false, wider: true }],
 *   stock: [{ material: 'plaster', width: cm(10), length: metres(2.75), onHand: 6 }],
 * }).value.rolls // 1
 */
export const takeOff = /* @__PURE__ */ formula({
  id: 'roll.take-off',
  revision: 1,
  basis: 'numerical',
  inputs: { needs: list(need, [1, 100]), stock: list(roll, [0, 200]) },
  joint: [
    {
      input: 'needs',
      possible: 'the nearest number of rolls only for what may be joined',
      breach: ({ needs }) => {
        const n = needs.findIndex(({ makeUp, joins }) => makeUp === 'nearest' && !joins);
        return n < 0 ? undefined : `line ${n + 1}, which may not be joined`;
      },
    },
  ],
  output: group({
    lines: list(either([taken, cannot]), [1, 100]),
    rolls: count('rolls to open', { symbol: 'r' }),
    left: list(
      group({
        material,
        width: length('width of the roll'),
        length: length('length of bandage it had'),
        left: length('length left on it'),
      }),
      [0, 10_000],
    ),
  }),
  sources: ['derivation.cutting', 'drug-tariff-bandages'],
  compute: ({ needs, stock }) => {
    let now: readonly Stock[] = stock.map(({ onHand, ...s }) => ({ ...s, closed: onHand, left: [] }));
    const lines = needs.map((need) => {
      const [line, rest] = take(need, now);
      now = rest;
      return line;
    });
    const left = now.flatMap((s) =>
      s.left.map((left) => ({ material: s.material, width: s.width, length: s.length, left })),
    );
    return { lines, rolls: left.length, left };
  },
});
