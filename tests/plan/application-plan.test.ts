import { readdirSync } from 'node:fs';
import {
  applicationPlan,
  type Immobilisation,
  InputError,
  immobilisations,
  type Published,
  recheck,
} from 'swathe';
import { catalog } from 'swathe/catalog';
import { describe, expect, test } from 'vitest';
import { answersIn, casesFolder, orderOf } from './cases.ts';

type Json = Record<string, unknown>;
const cases = readdirSync(casesFolder).map((file) => file.replace('.json', ''));
const ankle = () => orderOf('posterior-ankle-slab') as Json & { stock: Json[]; wraps: Json[]; limb: Json[] };

/** The faults of an order that cannot be. */
function faultsOf(order: unknown) {
  try {
    applicationPlan.fromJson(order);
  } catch (error) {
    if (error instanceof InputError) return error.faults;
    throw error;
  }
  throw new Error('the order was not refused');
}

describe.each(cases)('%s', (name) => {
  const plan = applicationPlan.fromJson(orderOf(name));

  test('is plain JSON: nothing is lost on the way out and back', () => {
    expect(JSON.parse(JSON.stringify(plan))).toEqual(plan);
  });

  test('every number in it can be recomputed from its own record', () => {
    const answers = answersIn(JSON.parse(JSON.stringify(plan)));
    expect(answers.length).toBeGreaterThanOrEqual(5);
    for (const answer of answers) {
      const formula = catalog.find((f) => answer.by.startsWith(`${f.id}@`));
      expect(formula && recheck(answer, formula)).toEqual({ kind: 'holds' });
    }
  });

  test('defers to the clinician and to local protocol', () => {
    expect(plan.defers).toMatch(/clinician.*local protocol/);
    expect(JSON.stringify(plan)).not.toMatch(/\b(low risk|critical)\b/i);
  });
});

describe('what the stock cannot serve', () => {
  const lineFor = (order: Json, what: string) =>
    applicationPlan.fromJson(order).takeOff.value.lines.find((line) => line.what.startsWith(what));

  test('an empty trolley gives a reason for each line, and a caution', () => {
    const plan = applicationPlan.fromJson({ ...ankle(), stock: [] });
    expect(plan.takeOff.value.lines.map((l) => l.kind === 'cannot' && l.reason)).toEqual(
      plan.takeOff.value.lines.map(() => 'no such material'),
    );
    expect(plan.cautions.filter((c) => c.code === 'stock-cannot')).toHaveLength(
      plan.takeOff.value.lines.length,
    );
  });

  test('rolls too narrow, too short or too few each say so', () => {
    const order = ankle();
    const plaster = (width: number, length: number, onHand: number) => ({
      ...order,
      slab: { ...(order['slab'] as Json), width: { value: 15, unit: 'cm' } },
      stock: [
        {
          material: 'plaster',
          width: { value: width, unit: 'cm' },
          length: { value: length, unit: 'm' },
          onHand,
        },
      ],
    });
    expect(lineFor(plaster(10, 2.75, 9), 'slab')).toMatchObject({
      reason: 'no such width',
      wanted: 150,
      available: 100,
    });
    expect(lineFor(plaster(15, 0.5, 9), 'slab')).toMatchObject({
      reason: 'longer than a roll',
      wanted: 570,
      available: 500,
    });
    expect(lineFor(plaster(15, 2.75, 2), 'slab')).toMatchObject({
      reason: 'too few rolls',
      wanted: 5700,
      available: 4560,
    });
    expect(lineFor(plaster(20, 2.75, 9), 'slab')).toMatchObject({ kind: 'taken', width: 200 });
  });
});

describe('what cannot be is refused, and named', () => {
  test('a slab without its path, a cast without tape', () => {
    const { slab, ...without } = ankle();
    expect(slab).toBeDefined();
    expect(faultsOf(without)).toMatchObject([{ input: 'slab', fault: 'missing' }]);
    const cast = orderOf('short-leg-cast') as ReturnType<typeof ankle>;
    expect(faultsOf({ ...cast, wraps: cast.wraps.slice(0, 1) })).toMatchObject([
      { input: 'wraps', fault: 'joint' },
    ]);
  });

  test('segments that do not meet, names and landmarks that are not there', () => {
    const order = ankle();
    const [foot, leg] = order.limb;
    expect(
      faultsOf({ ...order, limb: [foot, { ...leg, from: 'heel', stations: [] }] }).length,
    ).toBeGreaterThan(0);
    const over = order.wraps.map((w) => ({ ...w, over: ['foot', 'shin'] }));
    expect(faultsOf({ ...order, wraps: over })[0]).toMatchObject({
      input: 'wraps.0.over.1',
      got: '"shin"',
      possible: 'foot, leg',
    });
    const covers = {
      ...(order['covers'] as Json),
      to: { landmark: 'patella', offset: { value: 0, unit: 'cm' } },
    };
    expect(faultsOf({ ...order, covers })[0]).toMatchObject({ got: 'patella' });
  });

  test('a wrap past the measured limb is told as that wrap’s fault', () => {
    const order = ankle();
    const wraps = order.wraps.map((w, n) => (n === 1 ? { ...w, beyond: { value: 19, unit: 'cm' } } : w));
    expect(faultsOf({ ...order, wraps })[0]).toMatchObject({ input: 'wraps.1.to', fault: 'joint' });
  });

  test('all faults at once, each in the unit it was given in', () => {
    const faults = faultsOf({ ...ankle(), dip: { value: 240, unit: '[degF]' }, room: 20, side: 'port' });
    expect(faults.map((f) => f.input).sort()).toEqual(['dip', 'room', 'side']);
    expect(faults.find((f) => f.input === 'dip')).toMatchObject({
      got: '240 [degF]',
      possible: '32 to 158 [degF]',
    });
  });
});

describe('cautions fire for a reason, and not without one', () => {
  const codes = (order: unknown) => applicationPlan.fromJson(order).cautions.map((c) => c.code);
  const person = (more: Json) => ({ ...ankle(), person: { ...(ankle()['person'] as Json), ...more } });

  test('hot water, a child, an older adult, reduced sensation', () => {
    expect(codes({ ...ankle(), dip: { value: 30, unit: 'Cel' } })).toContain('dip-above-limit');
    expect(codes(person({ ageBand: 'child' }))).toContain('skin-more-sensitive');
    expect(codes(person({ ageBand: 'older adult' }))).toContain('skin-more-sensitive');
    expect(codes(person({ reducedSensation: true }))).toContain('cannot-report-pain');
    expect(codes(ankle())).toEqual(['many-plies']);
  });

  test('one turn at the ends leaves them thin, and the plan says where', () => {
    const order = ankle();
    const wraps = order.wraps.map((w) => ({ ...w, startTurns: 1, endTurns: 1 }));
    const plan = applicationPlan.fromJson({ ...order, wraps });
    expect(plan.cautions.map((c) => c.code)).toContain('thin-zone');
    expect(plan.wraps[0]?.map.value.thin[0]).toMatchObject({ least: 1 });
  });

  test('extra turns over a bone are not told as too thick', () => {
    const [padding] = applicationPlan.fromJson(orderOf('thumb-spica-slab')).wraps;
    expect(padding?.thick).toMatchObject([{ ordered: true, most: 6 }]);
    expect(codes(orderOf('thumb-spica-slab'))).not.toContain('thick-zone');
  });
});

describe.each<Immobilisation>(Object.values(immobilisations))('$id', (type) => {
  const choices = [
    type.from,
    type.to,
    type.share,
    type.layers.plaster,
    type.layers.fibreglass,
    type.padding.layers,
    type.padding.extra,
    ...Object.values(type.joints),
  ];

  test('each value says why it is used, and what else is published', () => {
    for (const { because } of choices) expect(because.length).toBeGreaterThan(10);
    const published: readonly Published<unknown>[] = choices.flatMap(
      (c): readonly Published<unknown>[] => c.published,
    );
    const sourced = published.filter((p) => p.status !== 'common-practice' && p.status !== 'from-memory');
    expect(sourced.length).toBeGreaterThan(0);
    for (const { source } of sourced) expect(source).toBeTypeOf('string');
  });

  test('ranges run from least to most', () => {
    const spans = [
      type.share,
      type.layers.plaster,
      type.layers.fibreglass,
      type.padding.layers,
      ...Object.values(type.joints),
    ];
    for (const { used, published } of spans)
      for (const [least, most] of [used, ...published.map((p) => p.value)])
        expect(least).toBeLessThanOrEqual(most);
  });
});

describe('figures of eight', () => {
  const withEights = (eights?: Json[]) => {
    const order = ankle();
    const wraps = order.wraps.map((w, n) => (n === 0 ? { ...w, eights } : w));
    return applicationPlan.fromJson({
      ...order,
      wraps: eights ? wraps : wraps.map(({ eights: _, ...w }: Json) => w),
    });
  };
  const eight = {
    landmark: 'lateral malleolus',
    offset: { value: 0, unit: 'cm' },
    figures: 2,
    riseDistal: { value: 6, unit: 'cm' },
    riseProximal: { value: 7, unit: 'cm' },
  };

  test('add their length to the wrap, at the girths that they go round', () => {
    const [without, one] = [withEights().wraps[0], withEights([eight]).wraps[0]];
    // By hand: girth 33 − 6/9 × 7.8 = 27.8 behind the foot, 22.8 above the ankle; √(22.8² + 14²) + √(27.8² + 12²), twice.
    const byHand = 20 * (Math.sqrt(22.8 ** 2 + 14 ** 2) + Math.sqrt(27.8 ** 2 + 12 ** 2));
    expect((one?.offRoll ?? 0) - (without?.offRoll ?? 0)).toBeCloseTo(byHand, 6);
  });

  test('past the measured limb they are refused as that wrap’s fault', () => {
    const order = ankle();
    const far = { ...eight, riseProximal: { value: 50, unit: 'cm' } };
    const faults = faultsOf({ ...order, wraps: [{ ...order.wraps[0], eights: [far] }] });
    expect(faults[0]?.input).toMatch(/^wraps\.0\./);
  });
});
