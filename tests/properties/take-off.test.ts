import fc from 'fast-check';
import { digits12, mm, takeOff, wholeDown } from 'swathe';
import { describe, expect, test } from 'vitest';
import { agrees, answered, manyRuns, runs } from '../generators.ts';

type Inputs = Parameters<typeof takeOff>[0];
type Value = ReturnType<typeof takeOff.compute>;
type Line = Value['lines'][number];
type Need = Inputs['needs'][number];
type Roll = Inputs['stock'][number];

const job = answered(takeOff) as unknown as fc.Arbitrary<Inputs>;
/** One line, made up in full: what is nearest is another question. */
const one = job.map(({ needs, stock }) => ({
  needs: needs.slice(0, 1).map(({ makeUp: _, ...need }) => need),
  stock,
}));
const given = { numRuns: manyRuns };

const isTaken = (line: Line) => line.kind === 'taken';
const sum = (numbers: readonly number[]): number => numbers.reduce((total, x) => total + x, 0);
const taken = (lines: Value['lines']) => lines.filter(isTaken);
const lengthsIn = (value: Value) => value.lines.flatMap((line) => (line.kind === 'taken' ? line.opened : []));

describe('the stock', () => {
  test('goes into what is taken and what is left, to the millimetre', () => {
    fc.assert(
      fc.property(job, (i) => {
        const { lines, left } = takeOff.compute(i);
        const used = sum(lines.map((line) => (line.kind === 'taken' ? line.length : 0)));
        const opened = sum(left.map((roll) => roll.length));
        expect(agrees(used + sum(left.map((roll) => roll.left)), opened, 1000 * opened)).toBe(true);
      }),
      given,
    );
  });

  test('is opened by one line each: rolls opened are the rolls that something was left on or that ran out', () => {
    fc.assert(
      fc.property(job, (i) => {
        const value = takeOff.compute(i);
        expect(value.rolls).toBe(sum(lengthsIn(value).map(({ rolls }) => rolls)));
        expect(value.left.length).toBe(value.rolls);
        for (const { length, left } of value.left) {
          expect(left).toBeGreaterThanOrEqual(0);
          expect(left).toBeLessThanOrEqual(length);
        }
      }),
      given,
    );
  });

  test('never gives more rolls of a kind than there are', () => {
    fc.assert(
      fc.property(job, (i) => {
        const key = (roll: { material: string; width: number; length: number }) =>
          [roll.material, roll.width, roll.length].join();
        for (const roll of takeOff.compute(i).left) {
          const there = i.stock.filter((s) => key(s) === key(roll));
          const gone = takeOff.compute(i).left.filter((r) => key(r) === key(roll));
          expect(gone.length).toBeLessThanOrEqual(sum(there.map(({ onHand }) => onHand)));
        }
      }),
      given,
    );
  });

  test('serves as many lines with as many rolls in whatever order it is listed', () => {
    fc.assert(
      fc.property(job, fc.infiniteStream(fc.nat()), (i, order) => {
        const keyed = i.stock.map((roll) => ({ roll, key: order.next().value as number }));
        const stock = keyed.sort((a, b) => a.key - b.key).map(({ roll }) => roll);
        const [a, b] = [takeOff.compute(i), takeOff.compute({ ...i, stock })];
        expect([b.rolls, taken(b.lines).length]).toEqual([a.rolls, taken(a.lines).length]);
      }),
      { numRuns: 3 * runs },
    );
  });

  test('and an odd length left over goes to the piece that just fits it, however it is listed', () => {
    const need = { what: 'strip', material: 'plaster', width: mm(100), joins: false, wider: false } as const;
    const needs = [
      { ...need, length: mm(100), pieces: 3 },
      { ...need, length: mm(50), pieces: 1 },
      { ...need, length: mm(60), pieces: 1 },
    ];
    // The first line leaves 60 and 50 mm; the strip of 50 mm must not be cut from the 60.
    const short: Roll = { material: 'plaster', width: mm(100), length: mm(160), onHand: 2 };
    const long: Roll = { material: 'plaster', width: mm(100), length: mm(250), onHand: 1 };
    for (const stock of [
      [short, long],
      [long, short],
    ])
      expect(takeOff.compute({ needs, stock }).rolls).toBe(2);
  });

  test('when there is more of it, still serves a line that it served before, with no more rolls', () => {
    fc.assert(
      fc.property(one, job, (i, { stock }) => {
        const [a, b] = [i, { ...i, stock: [...i.stock, ...stock] }].map((job) => takeOff.compute(job)) as [
          Value,
          Value,
        ];
        fc.pre(a.lines.every(isTaken));
        expect(b.lines).toEqual([expect.objectContaining({ kind: 'taken' })]);
        const sameWidth = digits12(widthOf(a)) === digits12(widthOf(b));
        if (sameWidth) expect(b.rolls).toBeLessThanOrEqual(a.rolls);
      }),
      { numRuns: 3 * runs },
    );
  });
});

const widthOf = ({ lines: [line] }: Value): number => (line?.kind === 'taken' ? line.width : Number.NaN);

/** The fewest rolls that hold a line, over every choice of them; none where no choice does. */
function fewest(need: Need, lengths: readonly number[]): number | undefined {
  let best: number | undefined;
  for (let choice = 0; choice < 2 ** lengths.length; choice++) {
    const rolls = lengths.filter((_, n) => choice & (1 << n));
    const held = sum(
      rolls.map((length) => (need.joins ? length / need.length : wholeDown(length / need.length))),
    );
    if (held >= need.pieces - 1e-9 && (best === undefined || rolls.length < best)) best = rolls.length;
  }
  return best;
}

test('a single line opens the fewest rolls of its width that can hold it, and is refused where none can', () => {
  const small = one.map(({ needs, stock }) => ({
    needs,
    stock: stock.slice(0, 4).map((roll): Roll => ({ ...roll, onHand: Math.min(2, roll.onHand) })),
  }));
  let served = 0;
  fc.assert(
    fc.property(small, (i) => {
      const [need] = i.needs as [Need];
      const fits = (s: Roll) =>
        s.material === need.material &&
        (need.wider ? digits12(s.width) >= digits12(need.width) : digits12(s.width) === digits12(need.width));
      const value = takeOff.compute(i);
      const rollsOf = (width: number): number[] =>
        i.stock.flatMap((s) => (fits(s) && s.width === width ? Array<number>(s.onHand).fill(s.length) : []));
      const widths = [...new Set(i.stock.filter(fits).map((s) => s.width))].sort((a, b) => a - b);
      const possible = widths.flatMap((width) => fewest(need, rollsOf(width)) ?? []);
      if (value.lines[0]?.kind === 'taken') served += 1;
      expect(value.lines[0]?.kind).toBe(possible.length > 0 ? 'taken' : 'cannot');
      if (possible.length > 0) expect(value.rolls).toBe(possible[0]);
    }),
    given,
  );
  expect(served).toBeGreaterThan(runs / 10);
});

test('a line takes just its pieces, from rolls of its material and at least its width', () => {
  fc.assert(
    fc.property(job, (i) => {
      const { lines } = takeOff.compute(i);
      for (const [n, line] of lines.entries()) {
        const need = i.needs[n] as Need;
        expect(line.what).toBe(need.what);
        if (line.kind === 'cannot') continue;
        expect(agrees(line.length + line.short, need.pieces * need.length)).toBe(true);
        if (need.makeUp !== 'nearest') expect(line.short).toBe(0);
        expect(line.fromOpen).toBeLessThanOrEqual(line.length * (1 + 1e-9));
        if (need.wider) expect(digits12(line.width)).toBeGreaterThanOrEqual(digits12(need.width));
        else expect(digits12(line.width)).toBe(digits12(need.width));
        const held = sum(line.opened.map(({ length, rolls }) => length * rolls));
        expect(held + line.fromOpen).toBeGreaterThanOrEqual(line.length * (1 - 1e-9));
      }
    }),
    given,
  );
});

test('a line that cannot be had takes nothing: the rest comes out as if it were not there', () => {
  fc.assert(
    fc.property(job, (i) => {
      const value = takeOff.compute(i);
      const needs = i.needs.filter((_, n) => value.lines[n]?.kind === 'taken');
      const without = takeOff.compute({ ...i, needs });
      expect(without).toEqual({ ...value, lines: value.lines.filter(isTaken) });
    }),
    given,
  );
});

test('a length made up by the nearest number of rolls is off by half a roll at most, and by no more than any number of any roll', () => {
  const nearest = job.map(({ needs, stock }) => ({
    needs: needs.slice(0, 1).map((need): Need => ({ ...need, joins: true, makeUp: 'nearest' })),
    stock,
  }));
  let short = 0;
  fc.assert(
    fc.property(nearest, (i) => {
      const [need] = i.needs as [Need];
      const { lines, rolls, left } = takeOff.compute(i);
      const [line] = lines as [Line];
      if (line.kind === 'cannot') return;
      const wanted = need.pieces * need.length;
      const there = i.stock.filter(
        (s) => s.material === need.material && digits12(s.width) === digits12(line.width) && s.onHand > 0,
      );
      const longest = Math.max(...there.map((s) => s.length));
      if (digits12(wanted) <= digits12(longest)) {
        expect([line.short, rolls]).toEqual([0, 1]);
        return;
      }
      if (line.short > 0) short += 1;
      const off = Math.max(line.short, sum(left.map((roll) => roll.left)));
      for (const s of there)
        for (let n = 1; n <= s.onHand; n++)
          // What stock there is would have to hold the nearest of that length, too.
          if (Math.round(wanted / s.length) <= s.onHand)
            expect(off).toBeLessThanOrEqual(Math.abs(n * s.length - wanted) + 1e-6);
      expect(off).toBeLessThanOrEqual(longest / 2 + 1e-6);
    }),
    given,
  );
  expect(short).toBeGreaterThan(0);
});

describe('by hand', () => {
  const rolls = (length: number, onHand: number, width = 100) =>
    ({ material: 'plaster', width, length, onHand }) as const;
  const pieces = (length: number, pieces: number, more: object = {}) =>
    ({
      what: 'slab',
      material: 'plaster',
      width: 100,
      length,
      pieces,
      joins: false,
      wider: false,
      ...more,
    }) as const;
  const wrap = (length: number, more: object = {}) =>
    pieces(length, 1, { what: 'wrap', joins: true, makeUp: 'nearest', ...more });
  const linesOf = (needs: readonly object[], stock: readonly object[]) =>
    takeOff({ needs, stock } as unknown as Inputs).value.lines.map((line) =>
      line.kind === 'taken'
        ? line.opened.map((o) => `${o.rolls} of ${o.length}`).join(', ') || 'none'
        : `${line.reason}: ${line.available} of ${line.wanted}`,
    );
  /** Whichever way round the stock is listed. */
  const either = (needs: readonly object[], stock: readonly object[]) => {
    const found = [linesOf(needs, stock), linesOf(needs, stock.toReversed())];
    expect(found[1]).toEqual(found[0]);
    return found[0];
  };

  test('the nearest number of rolls: of two as near the longer, of two as long the fewer rolls', () => {
    // 5 m lies a metre from one roll of 4 m and from two of 3 m.
    expect(either([wrap(5000)], [rolls(4000, 9), rolls(3000, 9)])).toEqual(['2 of 3000']);
    // 11 m lies a metre from two rolls of 6 m and from three of 4 m.
    expect(either([wrap(11_000)], [rolls(6000, 9), rolls(4000, 9)])).toEqual(['2 of 6000']);
    expect(either([wrap(6100)], [rolls(3000, 9), rolls(4000, 9)])).toEqual(['2 of 3000']);
    // It is asked for only where no roll is long enough.
    expect(either([wrap(4000)], [rolls(3000, 9), rolls(6000, 9)])).toEqual(['1 of 6000']);
  });

  test('the nearest number of rolls is not there', () => {
    expect(either([wrap(11_000)], [rolls(6000, 1), rolls(4000, 1)])).toEqual([
      'too few rolls: 6000 of 11000',
    ]);
    expect(linesOf([wrap(11_000), wrap(11_000)], [rolls(6000, 3)])).toEqual([
      '2 of 6000',
      'too few rolls: 6000 of 11000',
    ]);
  });

  test('what finishes a line is the shortest roll that can, and no roll is named that stays closed', () => {
    expect(either([pieces(1000, 1)], [rolls(1000, 2), rolls(3000, 2)])).toEqual(['1 of 1000']);
    expect(linesOf([pieces(1000, 4)], [rolls(1000, 2), rolls(3000, 2)])).toEqual(['1 of 1000, 1 of 3000']);
  });

  test('too few: what there is, in whole pieces; a piece as long as a roll is not longer than it', () => {
    expect(linesOf([pieces(300, 10)], [rolls(1000, 1)])).toEqual(['too few rolls: 900 of 3000']);
    expect(linesOf([pieces(1000, 3)], [rolls(1000, 2)])).toEqual(['too few rolls: 2000 of 3000']);
    expect(either([pieces(1000, 1)], [rolls(500, 2), rolls(800, 2)])).toEqual([
      'longer than a roll: 800 of 1000',
    ]);
    expect(linesOf([pieces(300, 5)], [rolls(1000, 1), rolls(200, 9)])).toEqual([
      'too few rolls: 900 of 1500',
    ]);
  });

  test('rolls that are all gone are no such material, opened ones still are', () => {
    expect(linesOf([pieces(300, 1)], [rolls(1000, 0)])).toEqual(['no such material: 0 of 100']);
    const two = [pieces(600, 1), pieces(300, 1), pieces(300, 1)];
    expect(linesOf(two, [rolls(1000, 1)])).toEqual(['1 of 1000', 'none', 'too few rolls: 0 of 300']);
  });

  test('of the widths that fit the one that comes nearest gives the reason; where none fits, the widest there is', () => {
    const need = pieces(1000, 5, { joins: true, wider: true, width: 75 });
    for (const [narrow, wide] of [
      [1000, 2000],
      [2000, 1000],
    ] as const)
      expect(either([need], [rolls(narrow, 1, 80), rolls(wide, 1, 100)])).toEqual([
        'too few rolls: 2000 of 5000',
      ]);
    expect(either([pieces(300, 1)], [rolls(1000, 1, 50), rolls(1000, 1, 60)])).toEqual([
      'no such width: 60 of 100',
    ]);
  });
});
