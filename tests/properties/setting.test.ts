import fc from 'fast-check';
import { celsius, conduction, contactTime, equivalentMinutes, injuryIntegral, mm, seconds } from 'swathe';
import { describe, expect, test } from 'vitest';
import { between, fewRuns, inputsOf, runs } from '../generators.ts';

type Column = Parameters<typeof conduction>[0];
const columns = inputsOf(conduction) as unknown as fc.Arbitrary<Column>;
type End = Column['inner'];

const temperaturesOf = ({ probes, inner, outer }: ReturnType<typeof conduction.compute>): number[] =>
  [...probes, inner, outer].map(({ temperature }) => temperature);

describe('heat through layers', () => {
  test('what is stored is what came in and was made, to a part in 10⁹', () => {
    fc.assert(
      fc.property(columns, (column) => {
        const { energy, inner, outer } = conduction.compute(column);
        // Heat that has nowhere to go soon passes what the inputs may be, and there digits are lost.
        fc.pre([inner, outer].every(({ temperature }) => Math.abs(temperature) < 2000));
        expect(energy.imbalance).toBeLessThan(1e-9);
      }),
      { numRuns: fewRuns },
    );
  });

  test('all temperatures raised by as much raise the answer by as much', () => {
    const raisedEnd = (end: End, by: number): End =>
      end.kind === 'fixed'
        ? { ...end, temperature: celsius(end.temperature + by) }
        : end.kind === 'convective'
          ? { ...end, ambient: celsius(end.ambient + by) }
          : end;
    fc.assert(
      fc.property(columns, between(-30, 60), (column, by) => {
        const raised: Column = {
          ...column,
          layers: column.layers.map((l) => ({
            ...l,
            start: celsius(l.start + by),
            perfusion:
              l.perfusion.kind === 'blood'
                ? { ...l.perfusion, temperature: celsius(l.perfusion.temperature + by) }
                : l.perfusion,
          })),
          inner: raisedEnd(column.inner, by),
          outer: raisedEnd(column.outer, by),
        };
        const [a, b] = [conduction.compute(column), conduction.compute(raised)];
        const off = temperaturesOf(a).map((t, n) => (temperaturesOf(b)[n] ?? 0) - t - by);
        expect(Math.max(...off.map(Math.abs), 0)).toBeLessThan(
          1e-8 * Math.max(1, ...temperaturesOf(a).map(Math.abs)),
        );
      }),
      { numRuns: fewRuns },
    );
  });

  test('a slab turned round gives the answer turned round', () => {
    fc.assert(
      fc.property(columns, (column) => {
        // Of two places that lie too near each other for a cell between, the inner one gets the face.
        const slab: Column = { ...column, shape: { kind: 'slab' }, probes: column.probes.slice(0, 1) };
        const depth = slab.layers.reduce((sum, { thickness }) => sum + thickness, 0);
        const back = slab.layers.toReversed();
        const turned: Column = {
          ...slab,
          // A contact belongs to the layer within it.
          layers: back
            .map((l, n) => ({ ...l, contact: back[n + 1]?.contact ?? l.contact }))
            .map((l, n) => (n === back.length - 1 ? { ...l, contact: mm(0) as never } : l)),
          inner: slab.outer,
          outer: slab.inner,
          probes: slab.probes.map((p) => mm(Math.max(0, depth - p))),
        };
        const [a, b] = [slab, turned].map((c) => conduction.compute(c)) as [
          ReturnType<typeof conduction.compute>,
          ReturnType<typeof conduction.compute>,
        ];
        const off = (x = 0, y = 0): number => Math.abs(x - y) / Math.max(1, Math.abs(x));
        expect(off(a.inner.temperature, b.outer.temperature)).toBeLessThan(1e-8);
        expect(off(a.probes[0]?.temperature, b.probes[0]?.temperature)).toBeLessThan(1e-8);
        expect(off(a.energy.stored, b.energy.stored)).toBeLessThan(1e-8);
      }),
      { numRuns: fewRuns },
    );
  });

  test('nothing is hotter or colder than all that it began with and lies beside', () => {
    fc.assert(
      fc.property(columns, (column) => {
        const endOf = (end: End): number[] =>
          end.kind === 'fixed' ? [end.temperature] : end.kind === 'convective' ? [end.ambient] : [];
        const tame = (end: End): End => (end.kind === 'flux' ? { kind: 'insulated' } : end);
        const still: Column = {
          ...column,
          layers: column.layers.map((l) => ({ ...l, source: (0 * l.source) as typeof l.source })),
          inner: tame(column.inner),
          outer: tame(column.outer),
        };
        const all = still.layers.flatMap((l) =>
          l.perfusion.kind === 'blood' ? [l.start, l.perfusion.temperature] : [l.start],
        );
        const there = [...all, ...endOf(still.inner), ...endOf(still.outer)];
        const { probes, inner, outer } = conduction.compute(still);
        for (const { temperature, uncertainty } of [...probes, inner, outer]) {
          expect(temperature).toBeLessThanOrEqual(Math.max(...there) + uncertainty + 1e-4);
          expect(temperature).toBeGreaterThanOrEqual(Math.min(...there) - uncertainty - 1e-4);
        }
      }),
      { numRuns: fewRuns },
    );
  });
});

type Injury = Parameters<typeof injuryIntegral>[0];
type Moments = Injury['history'];
const injuries = inputsOf(injuryIntegral) as unknown as fc.Arbitrary<Injury>;
const measures = [
  {
    name: 'the integral',
    of: (law: Injury['law'], history: Moments) => injuryIntegral.compute({ law, history }).integral,
  },
  {
    name: 'equivalent time',
    of: (_: Injury['law'], history: Moments) => equivalentMinutes.compute({ history }),
  },
];
const same = (a: number, b: number): void =>
  expect(Math.abs(a - b), `${a} and ${b}`).toBeLessThanOrEqual(
    1e-9 * Math.max(Math.abs(a), Math.abs(b)) + 1e-250,
  );

describe.each(measures)('$name', ({ of }) => {
  test('adds up over a history cut anywhere', () => {
    fc.assert(
      fc.property(injuries, between(0.01, 0.99), fc.nat(), ({ law, history }, share, pick) => {
        const n = pick % (history.length - 1);
        const [a, b] = [history[n], history[n + 1]] as [Moments[number], Moments[number]];
        const cut = {
          time: seconds(a.time + share * (b.time - a.time)),
          temperature: celsius(a.temperature + share * (b.temperature - a.temperature)),
        };
        const [first, rest] = [history.slice(0, n + 1), history.slice(n + 1)];
        const parts = of(law, [...first, cut]) + of(law, [cut, ...rest]);
        // A cut is rounded in its last digit, and the rate goes up by as much as a part in 10¹² with it.
        same(parts, of(law, history));
        same(of(law, [...first, cut, ...rest]), of(law, history));
      }),
      { numRuns: runs },
    );
  });

  test('never falls as time goes on, and rises with temperature', () => {
    fc.assert(
      fc.property(injuries, between(0.001, 20), between(0, 100), ({ law, history }, by, last) => {
        const whole = of(law, history);
        const end = history.at(-1) as Moments[number];
        const longer = [...history, { time: seconds(end.time + 60), temperature: celsius(last) }];
        expect(of(law, longer)).toBeGreaterThanOrEqual(whole);
        const warmer = history.map((m) => ({ ...m, temperature: celsius(m.temperature + by) }));
        expect(of(law, warmer)).toBeGreaterThan(whole);
        expect(whole).toBeGreaterThan(0);
      }),
      { numRuns: runs },
    );
  });

  test('is the same backwards, and twice as much at half the pace', () => {
    fc.assert(
      fc.property(injuries, ({ law, history }) => {
        const end = (history.at(-1) as Moments[number]).time;
        const whole = of(law, history);
        same(
          of(
            law,
            history.toReversed().map((m) => ({ ...m, time: seconds(end - m.time) })),
          ),
          whole,
        );
        same(
          of(
            law,
            history.map((m) => ({ ...m, time: seconds(2 * m.time) })),
          ),
          2 * whole,
        );
      }),
      { numRuns: runs },
    );
  });
});

test('contact: a warmer surface and a lower degree are reached no later', () => {
  const law = fc.constantFrom<Injury['law']>('henriques', 'weaver-stoll', 'takata', 'mehta-wong epidermis');
  fc.assert(
    fc.property(law, between(44, 90), between(0.2, 5), between(0.05, 0.2), (law, surface, by, epidermis) => {
      const at = (degree: 'first' | 'second' | 'third', t: number): number => {
        const answer = contactTime.compute({
          law,
          degree,
          surface: celsius(t),
          start: celsius(34),
          epidermis: mm(epidermis),
        });
        return answer.kind === 'reached' ? answer.time : Number.POSITIVE_INFINITY;
      };
      expect(at('second', surface + by)).toBeLessThan(at('second', surface));
      expect(at('first', surface)).toBeLessThan(at('second', surface));
      expect(at('second', surface)).toBeLessThan(at('third', surface));
    }),
    { numRuns: Math.ceil(fewRuns / 3) },
  );
});

test('equivalent minutes: a ramp that begins at 43 °C goes by the base of the side on which it runs', () => {
  const ramp = (from: number, to: number): number =>
    equivalentMinutes({
      history: [
        { time: seconds(0), temperature: celsius(from) },
        { time: seconds(60), temperature: celsius(to) },
      ],
    }).value;
  // The mean of 2^x for x from 0 to 2, and of 4^-x.
  const [above, below] = [60 * (3 / (2 * Math.LN2)), 60 * (15 / 16 / (2 * Math.log(4)))];
  for (const [got, wanted] of [
    [ramp(43, 45), above],
    [ramp(45, 43), above],
    [ramp(43, 41), below],
    [ramp(41, 43), below],
  ] as const)
    expect(Math.abs(got - wanted)).toBeLessThan(1e-9 * wanted);
});
