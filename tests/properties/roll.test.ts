import fc from 'fast-check';
import { cuttingPlan, effectiveThickness, lengthLeft, mm, takeOff, woundDiameter, woundLength } from 'swathe';
import { describe, expect, test } from 'vitest';
import { agrees, answered, between } from '../generators.ts';

/** Sums cost microseconds: many runs. */
const many = { numRuns: Number(process.env['FC_RUNS'] ?? 1000) };
/** A search costs milliseconds, a hard one more. */
const few = { numRuns: Math.ceil(many.numRuns / 5) };

const rollOf = fc
  .record({ outer: between(4, 500), part: between(0, 0.95), thickness: between(0.02, 20) })
  .map(({ outer, part, thickness }) => ({
    outer: mm(outer),
    core: mm(Math.min(300, outer * part)),
    thickness: mm(thickness),
  }));

describe('a wound roll', () => {
  test('has the diameter from which its length was found', () => {
    fc.assert(
      fc.property(rollOf, (roll) => {
        const { length } = woundLength.compute(roll);
        const { core, thickness } = roll;
        expect(agrees(woundDiameter.compute({ length: mm(length), core, thickness }), roll.outer)).toBe(true);
      }),
      many,
    );
  });

  test('has the thickness from which its length was found', () => {
    fc.assert(
      fc.property(rollOf, ({ outer, core, thickness }) => {
        const { length } = woundLength.compute({ outer, core, thickness });
        const found = effectiveThickness.compute({ outer, core, length: mm(length) });
        expect(agrees(found, thickness)).toBe(true);
      }),
      many,
    );
  });

  test('has the length from which its diameter was found, to what the squares leave of it', () => {
    fc.assert(
      fc.property(between(1, 200_000), rollOf, (length, { core, thickness }) => {
        const outer = mm(woundDiameter.compute({ length: mm(length), core, thickness }));
        const found = woundLength.compute({ outer, core, thickness }).length;
        // The core's square is added and taken off again.
        expect(agrees(found, length, (core * core) / thickness)).toBe(true);
      }),
      many,
    );
  });

  test('has left what its diameter says, by rule or by tape, whatever its thickness', () => {
    fc.assert(
      fc.property(rollOf, between(0.001, 0.999), fc.boolean(), (roll, part, byTape) => {
        const { outer, core, thickness } = roll;
        const lengthNew = mm(woundLength.compute(roll).length);
        const length = part * lengthNew;
        const diameter = mm(woundDiameter.compute({ length: mm(length), core, thickness }));
        const now = byTape
          ? { kind: 'girth' as const, girth: mm(Math.PI * diameter) }
          : { kind: 'diameter' as const, diameter };
        const left = lengthLeft.compute({ now, core, outerNew: outer, lengthNew });
        expect(agrees(left.length, length, (outer * outer) / thickness)).toBe(true);
        expect(agrees(left.share, part, outer / (outer - core))).toBe(true);
      }),
      many,
    );
  });

  test('has less left than its depth says: the outer turns are the long ones', () => {
    fc.assert(
      fc.property(rollOf, between(0.01, 0.99), ({ outer, core }, part) => {
        const now = { kind: 'diameter' as const, diameter: mm(core + part * (outer - core)) };
        const { share } = lengthLeft.compute({ now, core, outerNew: outer, lengthNew: mm(1000) });
        expect(share).toBeLessThan(part);
      }),
      many,
    );
  });
});

type Inputs = Parameters<typeof cuttingPlan>[0];
type Value = ReturnType<typeof cuttingPlan.compute>;
type Plan = Extract<Value, { kind: 'planned' }>;

const list = answered(cuttingPlan) as unknown as fc.Arbitrary<Inputs>;
const sum = (numbers: readonly number[]): number => numbers.reduce((total, x) => total + x, 0);
/** Enough steps to prove nearly every generated list. */
const enough = (i: Inputs): Inputs => ({ ...i, steps: 300_000 });
const isPlan = (value: Value): value is Plan => value.kind === 'planned';
const levels = ({ rolls, lost, distinct }: Plan) => [rolls, lost, distinct];

/** Worse, the same or better than another in rolls, then in what is lost, then in patterns. */
function compared(a: Plan, b: Plan): number {
  if (a.rolls.value !== b.rolls.value) return a.rolls.value - b.rolls.value;
  if (!agrees(a.lost.value, b.lost.value, 1e4)) return a.lost.value - b.lost.value;
  return a.distinct.value - b.distinct.value;
}

describe('a cutting plan', () => {
  test('gives every piece, and what is opened is pieces, cuts, scrap and off-cuts', () => {
    let plans = 0;
    fc.assert(
      fc.property(list, (i) => {
        const value = cuttingPlan.compute(i);
        if (!isPlan(value)) return;
        plans += 1;
        const over = (of: (pattern: Plan['patterns'][number]) => number): number =>
          sum(value.patterns.map((pattern) => pattern.rolls * of(pattern)));
        const pieces = over(({ pieces }) => sum(pieces.map((p) => p.length * p.pieces)));
        const lost = over(({ inCuts, scrap }) => inCuts + scrap);
        const left = over(({ offCut }) => offCut);
        expect(agrees(pieces + lost + left, value.opened, 100 * value.opened)).toBe(true);
        expect(agrees(pieces, value.used, 10 * value.used)).toBe(true);
        expect(agrees(lost, value.lost.value, 100 * value.opened)).toBe(true);
        expect(agrees(left, value.left, 100 * value.opened)).toBe(true);
        for (const length of new Set(i.pieces.map((line) => line.length))) {
          const wanted = sum(i.pieces.filter((line) => line.length === length).map((line) => line.pieces));
          const cut = over(({ pieces }) =>
            sum(pieces.filter((p) => Math.abs(p.length - length) < 1e-6).map((p) => p.pieces)),
          );
          expect(cut).toBe(wanted);
        }
        for (const { offCut, scrap, inCuts, pieces } of value.patterns) {
          expect(offCut === 0 || offCut > i.leastUseful - 1e-5).toBe(true);
          expect(scrap < i.leastUseful + 1e-5).toBe(true);
          expect(inCuts).toBeLessThanOrEqual(i.perCut * sum(pieces.map((p) => p.pieces)) + 1e-9);
        }
      }),
      few,
    );
    expect(plans).toBeGreaterThan(few.numRuns / 2);
  });

  test('opens no more rolls of a length than there are', () => {
    fc.assert(
      fc.property(list, (i) => {
        const value = cuttingPlan.compute(i);
        if (!isPlan(value)) return;
        for (const length of new Set(value.patterns.map((pattern) => pattern.length))) {
          const there = i.rolls.filter((roll) => Math.abs(roll.length - length) < 1e-6);
          const opened = sum(value.patterns.flatMap((p) => (p.length === length ? [p.rolls] : [])));
          expect(opened).toBeLessThanOrEqual(
            sum(there.map(({ onHand = Number.POSITIVE_INFINITY }) => onHand)),
          );
        }
      }),
      few,
    );
  });

  test('is proved where it reaches its bound, and nowhere else', () => {
    let proved = 0;
    let open = 0;
    fc.assert(
      fc.property(list, (i) => {
        const value = cuttingPlan.compute(i);
        if (!isPlan(value)) return;
        for (const { value: got, bound, proven } of levels(value)) {
          expect(bound).toBeLessThanOrEqual(got);
          expect(proven).toBe(bound === got);
          if (proven) proved += 1;
          else open += 1;
        }
      }),
      few,
    );
    expect(proved).toBeGreaterThan(open);
  });

  test('is the same in whatever order pieces and rolls are told, and however they are split into lines', () => {
    const shuffled = <T>(of: readonly T[], keys: readonly number[]): T[] =>
      of
        .map((x, n) => [keys[n % keys.length] as number, x] as const)
        .sort(([a], [b]) => a - b)
        .map(([, x]) => x);
    fc.assert(
      fc.property(list, fc.array(fc.nat(), { minLength: 7, maxLength: 7 }), (i, keys) => {
        const pieces = i.pieces.flatMap((line) =>
          line.pieces > 1
            ? [
                { ...line, pieces: 1 },
                { ...line, pieces: line.pieces - 1 },
              ]
            : [line],
        );
        const other = { ...i, pieces: shuffled(pieces, keys), rolls: shuffled(i.rolls, keys) };
        const [a, b] = [cuttingPlan.compute(i), cuttingPlan.compute(other)];
        if (isPlan(a) && isPlan(b)) {
          // Their total is added up in another order.
          expect(agrees(a.used, b.used, 10 * a.used)).toBe(true);
          expect({ ...b, used: a.used }).toEqual(a);
        } else expect(b.kind).toBe(a.kind);
      }),
      few,
    );
  });

  test('grows with its lengths', () => {
    fc.assert(
      fc.property(list, fc.constantFrom(0.5, 0.9, 1.5, 2.54), (i, by) => {
        const grown = {
          ...i,
          pieces: i.pieces.map((line) => ({ ...line, length: mm(line.length * by) })),
          rolls: i.rolls.map((roll) => ({ ...roll, length: mm(roll.length * by) })),
          perCut: mm(i.perCut * by),
          leastUseful: mm(Math.min(200_000, i.leastUseful * by)),
        };
        const [a, b] = [enough(i), enough(grown)].map((x) => cuttingPlan.compute(x)) as [Value, Value];
        expect(b.kind).toBe(a.kind);
        if (!isPlan(a) || !isPlan(b)) return;
        expect(b.rolls).toEqual(a.rolls);
        if (!a.lost.proven || !b.lost.proven) return;
        expect(Math.abs(b.lost.value - a.lost.value * by) < 1e-6 * b.opened).toBe(true);
        if (a.distinct.proven && b.distinct.proven) expect(b.distinct.value).toBe(a.distinct.value);
      }),
      few,
    );
  });

  test('is never worse for more stock', () => {
    fc.assert(
      fc.property(list, list, (i, { rolls }) => {
        const more = { ...i, rolls: [...i.rolls, ...rolls] };
        const [a, b] = [enough(i), enough(more)].map((x) => cuttingPlan.compute(x)) as [Value, Value];
        if (!isPlan(a)) return;
        expect(b.kind).toBe('planned');
        if (isPlan(b) && levels(b).every(({ proven }) => proven))
          expect(compared(b, a)).toBeLessThanOrEqual(0);
      }),
      few,
    );
  });

  test('is never better for longer cuts, or for a piece more', () => {
    fc.assert(
      fc.property(list, fc.constantFrom(1, 3, 20), fc.boolean(), (i, by, longer) => {
        const [first, ...rest] = i.pieces;
        if (!first) return;
        const other = longer
          ? { ...i, perCut: mm(i.perCut + by) }
          : { ...i, pieces: [{ ...first, pieces: first.pieces + by }, ...rest] };
        const [a, b] = [enough(i), enough(other)].map((x) => cuttingPlan.compute(x)) as [Value, Value];
        if (isPlan(b)) expect(a.kind).toBe('planned');
        if (isPlan(a) && isPlan(b) && a.rolls.proven)
          expect(b.rolls.value).toBeGreaterThanOrEqual(a.rolls.value);
      }),
      few,
    );
  });

  test('opens no more rolls than the take-off, which serves line by line', () => {
    const of = { material: 'plaster', width: mm(100) } as const;
    let fewer = 0;
    fc.assert(
      fc.property(list, (i) => {
        const all = sum(i.pieces.map((line) => line.pieces));
        const taken = takeOff.compute({
          needs: i.pieces.map((line) => ({ ...of, ...line, joins: false, wider: false })),
          stock: i.rolls.map(({ length, onHand = all }) => ({ ...of, length, onHand })),
        });
        if (taken.lines.some((line) => line.kind === 'cannot')) return;
        const plan = cuttingPlan.compute(enough({ ...i, perCut: mm(0) }));
        expect(plan.kind).toBe('planned');
        if (!isPlan(plan) || !plan.rolls.proven) return;
        expect(plan.rolls.value).toBeLessThanOrEqual(taken.rolls);
        if (plan.rolls.value < taken.rolls) fewer += 1;
      }),
      few,
    );
    expect(fewer).toBeGreaterThan(0);
  });
});
