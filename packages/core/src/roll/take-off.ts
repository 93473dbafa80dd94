import type * as z from 'zod/mini';
import { formula, type Plain } from '../formula.ts';
import { choice, count, either, flag, group, kind, length, list, text } from '../measure.ts';
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
});

const taken = group({
  kind: kind('taken'),
  what: text('what it is for'),
  width: length('width of the rolls used'),
  length: length('length taken'),
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

/** Takes one line from the stock: what was taken and what remains, or why it cannot be and the stock as it was. */
function take(need: Need, stock: readonly Stock[]): readonly [Line, readonly Stock[]] {
  const refuse = (reason: Reason, wanted: number, available: number) =>
    [{ kind: 'cannot', what: need.what, reason, wanted, available }, stock] as const;

  const there = stock.filter((s) => s.material === need.material && s.closed + s.left.length > 0);
  if (there.length === 0) return refuse('no such material', need.width, 0);
  const narrow = (s: Stock): boolean => digits12(s.width) < digits12(need.width);
  const fits = (s: Stock): boolean => (need.wider ? !narrow(s) : digits12(s.width) === digits12(need.width));
  const width = Math.min(...there.filter(fits).map((s) => s.width));
  if (width === Number.POSITIVE_INFINITY)
    return refuse('no such width', need.width, Math.max(...there.map((s) => s.width)));
  const usable = there.filter((s) => digits12(s.width) === digits12(width));

  let pieces: number = need.pieces;
  let fromOpen = 0;
  const cut = (length: number): number => {
    const gone = Math.min(pieces, yieldOf(need, length)) * need.length;
    // A wrap that goes on takes the roll whole, to the last bit.
    const taken = need.joins && gone >= length * (1 - 1e-12) ? length : gone;
    pieces -= taken / need.length;
    return taken;
  };
  const work = usable.map((s) => {
    const left = s.left.map((length) => {
      const gone = cut(length);
      fromOpen += gone;
      return length - gone;
    });
    return { ...s, left, opened: 0 };
  });

  // A roll that finishes the line is the shortest that can; until then the longest, so that the fewest are opened.
  while (pieces > 1e-9) {
    const closed = work
      .filter((s) => s.closed > s.opened && yieldOf(need, s.length) > 0)
      .sort((a, b) => a.length - b.length);
    const next = closed.find((s) => yieldOf(need, s.length) >= pieces - 1e-9) ?? closed.at(-1);
    if (!next) {
      const longest = Math.max(...usable.map((s) => s.length));
      if (!need.joins && longest < need.length) return refuse('longer than a roll', need.length, longest);
      return refuse('too few rolls', need.pieces * need.length, (need.pieces - pieces) * need.length);
    }
    next.opened += 1;
    next.left.push(next.length - cut(next.length));
  }

  const opened = work.flatMap((s) => (s.opened > 0 ? [{ length: s.length, rolls: s.opened }] : []));
  const line = {
    kind: 'taken' as const,
    what: need.what,
    width,
    length: need.pieces * need.length,
    fromOpen,
    opened,
  };
  const rest = work.map(({ opened, ...s }) => ({ ...s, closed: s.closed - opened }));
  return [line, stock.map((s) => rest[usable.indexOf(s)] ?? s)];
}

/**
 * Rolls to open for a list of pieces and wraps, and what is left on them.
 *
 * Lines are taken in their order; each first uses what an earlier one left on open rolls. A line that the stock cannot
 * serve says why and takes nothing.
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
