import {
  applicationPlan,
  InputError,
  immobilisations,
  mm,
  type Order,
  orderTemplate,
  type Plan,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import { runOver, within } from '../../packages/core/src/plan/limb.ts';
import { planSlab } from '../../packages/core/src/plan/slab.ts';
import { orderFrom } from './cases.ts';

type Limb = Order['limb'];
const station = (landmark: string, offset: number, girth: number) => ({ landmark, offset, girth });
/** A leg that gets thinner to the ankle and thicker again. All in mm. */
const limb = [
  {
    name: 'foot',
    from: 'metatarsal heads',
    to: 'lateral malleolus',
    length: 150,
    // Not told in order.
    stations: [
      station('lateral malleolus', 0, 260),
      station('metatarsal heads', 0, 240),
      station('metatarsal heads', 90, 250),
    ],
  },
  {
    name: 'leg',
    from: 'lateral malleolus',
    to: 'fibular head',
    length: 360,
    stations: [
      station('lateral malleolus', 0, 260),
      station('fibular head', -160, 350),
      station('lateral malleolus', 70, 220),
      station('fibular head', 0, 350),
    ],
  },
] as unknown as Limb;

function refused(work: () => unknown): InputError {
  try {
    work();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error('not refused');
}

describe('segments laid end to end', () => {
  test('have the girths of each in order, one that both tell once', () => {
    expect(runOver(limb, ['foot', 'leg'], 'here').stations).toEqual([
      { at: 0, girth: 240 },
      { at: 90, girth: 250 },
      { at: 150, girth: 260 },
      { at: 220, girth: 220 },
      { at: 350, girth: 350 },
      { at: 510, girth: 350 },
    ]);
    expect(runOver(limb, ['leg'], 'here').stations[0]).toEqual({ at: 0, girth: 260 });
  });

  test('know how far along a landmark lies', () => {
    const run = runOver(limb, ['foot', 'leg'], 'here');
    const at = (landmark: string, offset: number) => run.at(station(landmark, offset, 0) as never);
    expect(at('metatarsal heads', 10)).toBe(10);
    expect(at('lateral malleolus', -20)).toBe(130);
    expect(at('fibular head', 0)).toBe(510);
    expect(runOver(limb, ['leg'], 'here').at(station('fibular head', -5, 0) as never)).toBe(355);
  });

  test('are refused where they cannot be, each with what could have been', () => {
    const [foot, leg] = limb as [Limb[number], Limb[number]];
    const faults = (of: unknown, over: readonly string[]) =>
      refused(() => runOver(of as Limb, over, 'here')).faults;
    expect(faults(limb, ['foot', 'shin'])).toEqual([
      { input: 'here.1', fault: 'choice', got: '"shin"', possible: 'foot, leg' },
    ]);
    expect(faults(limb, ['leg', 'foot'])).toEqual([
      {
        input: 'here.1',
        fault: 'joint',
        got: 'foot from metatarsal heads',
        possible: 'a segment that begins at fibular head',
      },
    ]);
    const lost = { ...leg, stations: [station('patella', 0, 300)] };
    expect(faults([foot, lost], ['foot', 'leg'])).toEqual([
      {
        input: 'limb.1.stations.0.landmark',
        fault: 'choice',
        got: 'patella',
        possible: 'lateral malleolus, fibular head',
      },
    ]);
    // Two girths at one place, whether of one segment or of two, and one that lies within the other segment.
    const twice = { ...foot, stations: [...foot.stations, station('metatarsal heads', 0, 241)] };
    expect(faults([twice, leg], ['foot'])).toMatchObject([
      { input: 'limb.0.stations', got: 'girths of 240 and 241 mm at, or across, one place of foot' },
    ]);
    const other = { ...leg, stations: [station('lateral malleolus', 0, 261)] };
    expect(faults([foot, other], ['foot', 'leg'])).toMatchObject([
      { input: 'limb.1.stations', fault: 'joint' },
    ]);
    const across = { ...leg, stations: [station('lateral malleolus', -10, 250)] };
    expect(faults([foot, across], ['foot', 'leg'])).toMatchObject([{ input: 'limb.1.stations' }]);
    const run = runOver(limb, ['foot'], 'here');
    expect(refused(() => run.at(station('fibular head', 0, 0) as never)).faults).toEqual([
      {
        input: 'here',
        fault: 'choice',
        got: 'fibular head',
        possible: 'metatarsal heads, lateral malleolus',
      },
    ]);
  });

  test('tell what a formula refuses as their own, and what is no refusal as it is', () => {
    const fault = { input: 'width', fault: 'joint', got: '1', possible: '2' } as const;
    const error = refused(() =>
      within('wraps.2', () => {
        throw new InputError('coverage.helix', [fault]);
      }),
    );
    expect(error.faults).toEqual([{ ...fault, input: 'wraps.2.width' }]);
    expect(error.by).toBe('plan, coverage.helix');
    expect(() =>
      within('wraps.2', () => {
        throw new RangeError('no refusal');
      }),
    ).toThrow(RangeError);
    expect(within('here', () => 3)).toBe(3);
  });
});

describe('a slab', () => {
  const type = {
    ...immobilisations['posterior-ankle-slab'],
    share: { used: [0.5, 0.6], because: 'x', published: [] },
  };
  /** A limb as thick everywhere, and a trolley of these widths. */
  const order = (
    widths: readonly (readonly [width: number, onHand: number, material?: string])[],
    more: object = {},
  ) =>
    ({
      material: 'fast plaster',
      person: { ageBand: 'adult', reducedSensation: false },
      limb: [
        { ...limb[1], stations: [station('lateral malleolus', 0, 240), station('fibular head', 0, 240)] },
      ],
      stock: widths.map(([width, onHand, material = 'plaster']) => ({
        material,
        width,
        onHand,
        length: 2750,
      })),
      ...more,
    }) as unknown as Order;
  const slab = { made: 'layered', path: 400, finish: 'cut as measured', over: ['leg'] } as const;
  const made = (of: Order, more: object = {}) =>
    planSlab(of, { ...slab, ...more } as unknown as NonNullable<Order['slab']>, type as never);

  test('is as wide as the share wanted, or as the stock comes nearest to it', () => {
    // By hand: 55 % of 240 mm is 132 mm.
    expect(made(order([])).width.used).toBeCloseTo(132, 9);
    expect(
      made(
        order([
          [100, 1],
          [125, 1],
          [150, 1],
        ]),
      ).width.used,
    ).toBe(125);
    expect(
      made(
        order([
          [150, 1],
          [125, 0],
          [100, 1],
        ]),
      ).width.used,
    ).toBe(150);
    expect(
      made(
        order([
          [130, 1, 'fibreglass'],
          [150, 1],
          [132, 1, 'padding'],
        ]),
      ).width.used,
    ).toBe(150);
    expect(
      made(
        order([
          [130, 1, 'prefabricated slab'],
          [150, 1],
        ]),
        { made: 'prefabricated' },
      ).width.used,
    ).toBe(130);
    expect(
      made(
        order(
          [
            [130, 1, 'fibreglass'],
            [125, 1],
          ],
          { material: 'fibreglass' },
        ),
      ).width.used,
    ).toBe(130);
    expect(made(order([]), { width: 90 }).width).toMatchObject({ used: 90, because: 'as ordered' });
    expect(made(order([])).width.because).toMatch(/^the stocked width nearest to the share wanted/);
  });

  test('stays a shallow bowl where the limb is thinnest, if a stocked width does', () => {
    // By hand: mean girth 225 mm, 55 % of it 123.75 mm; two thirds of the thinnest, 150 mm, is 100 mm.
    const thin = {
      ...limb[1],
      stations: [station('lateral malleolus', 0, 150), station('fibular head', 0, 300)],
    };
    const of = (...widths: number[]) =>
      made(
        order(
          widths.map((width) => [width, 1]),
          { limb: [thin] },
        ),
      ).width.used;
    expect(of(75, 100, 125)).toBe(100);
    expect(of(75, 101, 125)).toBe(75);
    expect(of(150, 125)).toBe(125);
    expect(of()).toBeCloseTo(123.75, 9);
  });

  test('covers the share that its width makes of the girth', () => {
    const { share } = made(order([]), { width: 90 });
    expect(share.value).toMatchObject({ mean: 90 / 240, atNarrowest: 90 / 240, atWidest: 90 / 240 });
  });

  test('is cut by its finish', () => {
    const cut = (finish: string) => made(order([]), { finish }).cut.value;
    expect(cut('cut as measured')).toBe(400);
    expect(cut('padding folded over the edge')).toBe(410);
    expect(cut('5 cm past the distal end')).toBe(450);
    expect(cut('cut longer, edge folded back')).toBe(425);
    expect(made(order([])).rule.name).toBe('cut as measured');
  });

  test('has the fewest plies of its range, a child’s of plaster its own, or those ordered', () => {
    const person = (ageBand: string) => ({ person: { ageBand, reducedSensation: false } });
    const plies = (of: Order, more: object = {}) => made(of, more).plies.used;
    const adult = type.layers.plaster.used[0];
    expect(plies(order([]))).toBe(adult);
    for (const band of ['infant', 'child']) {
      // By hand, as in by-hand.md: six for a child.
      expect(plies(order([], person(band)))).toBe(6);
      expect(plies(order([], { ...person(band), material: 'fibreglass' }))).toBe(
        type.layers.fibreglass.used[0],
      );
      expect(plies(order([], person(band)), { made: 'prefabricated' })).toBe(1);
    }
    for (const band of ['adolescent', 'older adult']) expect(plies(order([], person(band)))).toBe(adult);
    expect(plies(order([]), { plies: 9 })).toBe(9);
    expect(plies(order([]), { made: 'prefabricated', plies: 9 })).toBe(1);
    expect(made(order([]), { made: 'prefabricated' }).plies.published).toEqual([]);
  });
});

/** Without heat to be worked out a plan takes no time. */
const fibreglass = (id: keyof typeof immobilisations, more: Partial<Order> = {}): Order => ({
  ...orderFrom(orderTemplate(id, 'fibreglass'), 'fibreglass'),
  ...more,
});
const at = (landmark: string, offset: number) => ({ landmark, offset }) as unknown as Order['covers']['from'];
const covers = { from: at('metatarsal heads', 20), to: at('fibular head', -50) };
const slabOrder = (more: Partial<Order> = {}) => {
  const order = fibreglass('posterior-ankle-slab', more);
  return { ...order, limb, covers, ...more };
};
const wrapsWith = (more: object): Order => {
  const order = slabOrder();
  return { ...order, wraps: order.wraps.map((wrap) => ({ ...wrap, ...more })) };
};

describe('a wrap', () => {
  test('runs where the order covers, or where it says itself, and beyond', () => {
    const [padding] = applicationPlan({ ...wrapsWith({ beyond: mm(15) }), covers }).wraps;
    expect(padding?.map.from).toMatchObject({ from: { value: 5 }, to: { value: 475 } });
    expect(padding?.from).toEqual(at('metatarsal heads', 5));
    expect(padding?.to).toEqual(at('fibular head', -35));
    const own = { from: at('metatarsal heads', 40), to: at('lateral malleolus', 30), beyond: mm(-10) };
    const [short] = applicationPlan({ ...wrapsWith(own), covers }).wraps;
    expect(short?.map.from).toMatchObject({ from: { value: 50 }, to: { value: 170 } });
    expect(short?.from).toEqual(at('metatarsal heads', 50));
    expect(short?.to).toEqual(at('lateral malleolus', 20));
  });

  test('takes off the roll what it lays, the less the more it is stretched', () => {
    const eights = [
      { ...at('lateral malleolus', 0), figures: 2, riseDistal: mm(60), riseProximal: mm(70) },
      { ...at('lateral malleolus', 10), figures: 1, riseDistal: mm(50), riseProximal: mm(60) },
    ];
    for (const stretch of [0, 0.4]) {
      const { wraps } = applicationPlan({ ...wrapsWith({ stretch, eights }), covers });
      for (const { map, offRoll, eights } of wraps) {
        expect(eights).toHaveLength(2);
        const laid = map.value.length + eights.reduce((sum, { value }) => sum + value.length, 0);
        expect(offRoll).toBeCloseTo(laid / (1 + stretch), 9);
      }
    }
    const [one] = applicationPlan({ ...wrapsWith({ eights }), covers }).wraps;
    // On straight lines between the girths: 60 mm before the bone and 70 mm past it, then 50 and 60 mm about 10 mm past it.
    expect(one?.eights[0]?.from).toMatchObject({ below: { value: 250 }, above: { value: 220 } });
    expect(one?.eights[1]?.from).toMatchObject({
      below: { value: expect.closeTo(250 + 10 * (20 / 60), 9) },
      above: { value: 220 },
      riseAbove: { value: 60 },
      riseBelow: { value: 50 },
    });
    expect(applicationPlan({ ...wrapsWith({}), covers }).wraps[0]?.eights).toEqual([]);
  });

  test('has the layers wanted of what it is', () => {
    const of = (order: Order) =>
      applicationPlan(order).wraps.map(({ layer, wanted }) => [layer, wanted.used]);
    const { padding, layers } = immobilisations['short-leg-cast'];
    expect(of(fibreglass('short-leg-cast'))).toEqual([
      // Past four layers of padding a cast is loose.
      ['padding', [padding.layers.used[0], 4]],
      ['tape', layers.fibreglass.used],
    ]);
    const slab = of(slabOrder());
    expect(slab[1]).toEqual(['elastic', [1, 6]]);
    const thick = of(fibreglass('coaptation-slab'));
    expect(thick[0]).toEqual(['padding', [5, 5]]);
    const map = applicationPlan(fibreglass('short-leg-cast')).wraps[1]?.map.from;
    expect(map).toMatchObject({
      wanted: { least: layers.fibreglass.used[0], most: layers.fibreglass.used[1] },
    });
  });

  test('builds up, and presses where the limb is thinnest, if it is told how thick and how tight', () => {
    const told = { thickness: mm(0.8), tension: 20 };
    const { wraps } = applicationPlan({ ...wrapsWith(told), covers });
    for (const { map, builtUp, pressure, width } of wraps) {
      const layers = map.value.most;
      // Mean girth by trapezoids: 490 cm² over 510 mm, as lengths times mean girths.
      const mean = (90 * 245 + 60 * 255 + 70 * 240 + 130 * 285 + 160 * 350) / 510;
      expect(builtUp?.value.thickness).toBeCloseTo(0.8 * layers, 9);
      expect(builtUp?.value.outerGirth).toBeCloseTo(mean + 2 * Math.PI * 0.8 * layers, 6);
      expect(pressure?.from).toMatchObject({
        layers,
        girth: { value: 220 },
        width: { value: width },
        thickness: { value: 0.8 },
        tension: { value: 20 },
      });
    }
    const [without] = applicationPlan({ ...wrapsWith({}), covers }).wraps;
    expect(without).not.toHaveProperty('builtUp');
    expect(without).not.toHaveProperty('pressure');
    const [tight] = applicationPlan({ ...wrapsWith({ tension: 20 }), covers }).wraps;
    expect(tight).not.toHaveProperty('builtUp');
    expect(tight?.pressure?.from).toMatchObject({ thickness: { value: 0 } });
  });

  test('tells extra turns from layers that nobody ordered', () => {
    const extra = [{ ...at('lateral malleolus', 0), turns: 5 }];
    const thick = (more: object) =>
      applicationPlan({ ...wrapsWith({ width: mm(50), startTurns: 2, endTurns: 2, ...more }), covers });
    const ordered = thick({ extra });
    expect(ordered.wraps[0]?.thick.length).toBeGreaterThan(0);
    for (const { from, to, ordered: is } of ordered.wraps[0]?.thick ?? []) {
      expect(is).toBe(from < 175 && to > 125);
    }
    const codes = (plan: Plan) => plan.cautions.filter((c) => c.code === 'thick-zone');
    expect(codes(ordered)).toEqual([]);
    // The ends are thick as well, and nobody ordered that: 50 mm at each, and 25 mm to each side of the bone at 150 mm.
    const ends = thick({ extra, startTurns: 8, endTurns: 7 });
    const zones = ends.wraps[0]?.thick ?? [];
    for (const { from, to, ordered: is } of zones) expect(is).toBe(from < 175 && to > 125);
    expect(new Set(zones.map(({ ordered: is }) => is)).size).toBe(2);
    const mosts = zones.filter(({ ordered: is }) => !is).map((zone) => zone.most);
    expect(new Set(mosts).size).toBeGreaterThan(1);
    expect(codes(ends)[0]?.because).toContain(`up to ${Math.max(...mosts)}, `);
    const named = ends.wraps[0]?.wanted.published.flatMap(({ source }) => source ?? []);
    expect(codes(ends)[0]?.sources).toEqual([...new Set(named)]);
    // The same where they lie close to the ends, a width of bandage apart.
    const near = [
      { ...at('metatarsal heads', 110), turns: 5 },
      { ...at('fibular head', -150), turns: 5 },
    ];
    const beside = thick({ extra: near, startTurns: 8, endTurns: 7 }).wraps[0]?.thick ?? [];
    const isNear = (from: number, to: number) => (from < 135 && to > 85) || (from < 385 && to > 335);
    for (const { from, to, ordered: is } of beside) expect(is).toBe(isNear(from, to));
    expect(beside.map(({ ordered: is }) => is)).toEqual([false, true, true, false]);
    const many = thick({ passes: 4, extra: [] });
    expect(many.wraps[0]?.thick.every(({ ordered: is }) => !is)).toBe(true);
    const [padding] = codes(many);
    const most = Math.max(...(many.wraps[0]?.thick.map((zone) => zone.most) ?? []));
    expect(padding?.because).toBe(`padding over foot and leg: up to ${most}, wanted at most 4`);
    expect(padding?.sources.length).toBeGreaterThan(0);
    expect(new Set(padding?.sources).size).toBe(padding?.sources.length);
    expect(thick({ passes: 1, extra: [], startTurns: 2, endTurns: 2 }).wraps[0]?.thick).toEqual([]);
  });

  test('says where it is thin, and how thin', () => {
    const plan = applicationPlan({ ...wrapsWith({ startTurns: 0, endTurns: 0 }), covers });
    const thin = plan.cautions.filter((c) => c.code === 'thin-zone');
    const [padding] = plan.wraps;
    expect(thin[0]).toMatchObject({
      level: 'warning',
      because: `padding over foot and leg: down to ${padding?.map.value.least}, wanted ${padding?.wanted.used[0]}`,
    });
    expect(thin[0]?.sources.length).toBeGreaterThan(0);
    const none = applicationPlan({ ...wrapsWith({ startTurns: 2, endTurns: 2 }), covers });
    expect(none.cautions.map((c) => c.code)).not.toContain('thin-zone');
  });
});

describe('what is taken from the trolley', () => {
  const needs = (order: Order) =>
    (applicationPlan(order).takeOff.from as unknown as { needs: Record<string, unknown>[] }).needs;

  test('is every tube, the slab ply by ply, and every wrap', () => {
    const order = slabOrder();
    const plan = applicationPlan(order);
    const lines = needs(order);
    expect(lines).toHaveLength(order.stockinette.length + 1 + order.wraps.length);
    expect(lines[0]).toMatchObject({
      what: 'stockinette, foot and leg',
      material: 'stockinette',
      width: { value: 75 },
      length: { value: plan.stockinette[0]?.cut.value },
      pieces: 1,
      joins: false,
      wider: false,
    });
    expect(lines[1]).toMatchObject({
      what: `slab, ${plan.slab?.plies.used} plies`,
      material: 'fibreglass',
      width: { value: plan.slab?.width.used },
      length: { value: plan.slab?.cut.value },
      pieces: plan.slab?.plies.used,
      joins: false,
      wider: true,
    });
    for (const [n, wrap] of plan.wraps.entries())
      expect(lines[n + 2]).toMatchObject({
        what: `${wrap.layer}, foot and leg`,
        material: wrap.layer,
        width: { value: wrap.width },
        length: { value: wrap.offRoll },
        pieces: 1,
        joins: true,
        wider: false,
      });
    const [, made] = needs({
      ...order,
      slab: { ...order.slab, made: 'prefabricated' } as Order['slab'],
    } as Order);
    expect(made).toMatchObject({ what: 'slab', material: 'prefabricated slab', pieces: 1 });
    const cast = needs(fibreglass('short-leg-cast'));
    expect(cast.map(({ material }) => material)).toEqual(['stockinette', 'padding', 'fibreglass']);
  });

  test('is told where it cannot be, in whole millimetres', () => {
    const plan = applicationPlan(slabOrder());
    const told = plan.cautions.filter((c) => c.code === 'stock-cannot');
    expect(told).toHaveLength(plan.takeOff.value.lines.length);
    for (const [n, line] of plan.takeOff.value.lines.entries()) {
      if (line.kind !== 'cannot') throw new Error('taken from an empty trolley');
      expect(told[n]).toMatchObject({
        level: 'warning',
        says: `The stock cannot serve this: ${line.what}.`,
        because: `no such material: wanted ${Math.ceil(line.wanted)} mm, there is 0 mm`,
        sources: [],
      });
    }
  });
});

test('what the trolley has is no caution', () => {
  const order = slabOrder();
  const stock = [{ material: 'stockinette', width: 75, length: 10_000, onHand: 1 }];
  const plan = applicationPlan({ ...order, stock } as unknown as Order);
  const kinds = plan.takeOff.value.lines.map(({ kind }) => kind);
  expect(kinds).toEqual(['taken', 'cannot', 'cannot', 'cannot']);
  expect(plan.cautions.filter((c) => c.code === 'stock-cannot')).toHaveLength(3);
  for (const { code } of plan.cautions) expect(code).toBeTypeOf('string');
});

describe('a plan', () => {
  test('has what its order asks for, by the rule that it names', () => {
    const order = slabOrder();
    const rule = {
      ...order,
      stockinette: [{ ...order.stockinette[0], rule: 'half as long again' }],
    } as Order;
    const [tube] = applicationPlan(rule).stockinette;
    expect(tube).toMatchObject({ cut: { value: 600 }, rule: { name: 'half as long again', times: 1.5 } });
    expect(applicationPlan(order).stockinette[0]?.cut.value).toBe(480);
    const cast = applicationPlan(fibreglass('short-leg-cast'));
    expect(cast).not.toHaveProperty('slab');
    expect(cast.type.id).toBe('short-leg-cast');
    const both = applicationPlan({ ...fibreglass('short-leg-cast'), slab: slabOrder().slab } as Order);
    expect(both.slab?.cut.value).toBe(410);
    const path = {
      ...order,
      stockinette: [{ ...order.stockinette[0], path: 2500, rule: '10 cm past each end' }],
    };
    expect(applicationPlan(path as Order).stockinette[0]?.cut.value).toBe(2700);
  });

  test('is refused without its slab, or its tape', () => {
    const { slab, ...without } = slabOrder();
    expect(slab).toBeDefined();
    expect(refused(() => applicationPlan(without as Order)).faults).toMatchObject([
      { input: 'slab', fault: 'missing', possible: expect.stringContaining('slab') },
    ]);
    const cast = fibreglass('short-leg-cast');
    const wraps = cast.wraps.filter(({ layer }) => layer !== 'tape');
    expect(refused(() => applicationPlan({ ...cast, wraps })).faults).toMatchObject([
      { input: 'wraps', fault: 'joint', got: 'no wrap of tape' },
    ]);
  });

  test('has its cautions: of its type, its slab, its bandages, its water', () => {
    const codes = (order: Order) => applicationPlan(order).cautions.map((c) => c.code);
    expect(codes(fibreglass('short-leg-cast'))).toContain('cast-while-swelling');
    expect(codes(slabOrder())).not.toContain('cast-while-swelling');
    const order = slabOrder();
    expect(codes({ ...order, slab: { ...order.slab, width: mm(190) } } as Order)).toContain(
      'slab-covers-too-much',
    );
    expect(codes(order)).not.toContain('slab-covers-too-much');
    expect(codes(wrapsWith({ tension: 60 }))).toContain('pressure-above-capillary');
    expect(codes(wrapsWith({ tension: 1 }))).not.toContain('pressure-above-capillary');
    for (const id of ['short-leg-cast', 'volar-slab'] as const)
      for (const code of codes(fibreglass(id))) expect(code).toBeTypeOf('string');
    const child = { ...order, person: { ...order.person, ageBand: 'child' } } as Order;
    expect(codes(child)).toContain('skin-more-sensitive');
    expect(codes(order)).not.toContain('skin-more-sensitive');
    const hot = codes({ ...order, dip: 45 } as Order);
    expect(hot.filter((code) => code === 'dip-above-limit')).toHaveLength(1);
    expect(codes(order)).not.toContain('dip-above-limit');
  });

  test('has checks for an arm or a leg, and for a child', () => {
    const values = (order: Order) => {
      const { after, call, before, tell, whileSetting } = applicationPlan(order).checks;
      for (const list of [before, whileSetting, after, call, tell])
        expect(list.length).toBeGreaterThanOrEqual(3);
      return { after: after.map((c) => c.value), call: call.map((c) => c.value) };
    };
    const leg = values(slabOrder());
    const arm = values(fibreglass('volar-slab'));
    const toes = 'the toes move; nothing presses below the head of the fibula';
    const elbow = 'the elbow bends to 90° where it is left free';
    expect([leg.after.includes(toes), leg.after.includes(elbow)]).toEqual([true, false]);
    expect([arm.after.includes(toes), arm.after.includes(elbow)]).toEqual([false, true]);
    const order = slabOrder();
    const child = values({ ...order, person: { ...order.person, ageBand: 'child' } });
    const only = (of: readonly string[], without: readonly string[]) =>
      of.filter((value) => !without.includes(value));
    expect(only(child.after, leg.after)).toEqual(['for children one text says every 4 h for the first 48 h']);
    expect(only(child.call, leg.call)).toEqual([
      'a child who grows agitated, anxious, or needs more pain relief',
    ]);
    expect(only(leg.after, child.after)).toEqual([]);
    expect(only(leg.call, child.call)).toEqual([]);
    for (const { because } of applicationPlan(order).cautions) expect(because.length).toBeGreaterThan(0);
  });
});
