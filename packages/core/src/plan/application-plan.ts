import { type Caution, defers } from '../caution.ts';
import type { Answer } from '../formula.ts';
import { checked, type Fault, InputError, readJson } from '../input.ts';
import type { Length } from '../quantity.ts';
import { takeOff } from '../roll/take-off.ts';
import { cutLength } from '../segment/cut-length.ts';
import { dipWater } from '../setting/dip-water.ts';
import { setTimes } from '../setting/set-times.ts';
import { immobilisations } from './catalogue/index.ts';
import { cautionsOf } from './cautions.ts';
import { type Checks, checksFor } from './checks.ts';
import { type Expected, expectedIn, ofExpected } from './expected.ts';
import { type HeatPlan, planHeat } from './heat.ts';
import type { Immobilisation } from './immobilisation.ts';
import { within } from './limb.ts';
import { type Order, order as orderSchema } from './order.ts';
import { type CutRule, stockinetteRules } from './rules.ts';
import { isChild, materialOf, planSlab, type SlabPlan } from './slab.ts';
import { planWrap, type WrapPlan } from './wrap.ts';

/** One tube of stockinette: the rule by which it is cut, and its length. */
export interface StockinettePlan {
  readonly what: string;
  readonly width: Length;
  readonly rule: CutRule & { readonly name: string };
  readonly cut: Answer<Length>;
}

/** Everything a person needs to apply one splint or cast, each number with its basis. Plain JSON. */
export interface Plan {
  readonly order: Order;
  /** What the literature says of this type: places, positions, what stays free. */
  readonly type: Immobilisation;
  /** The girths that a survey knows, beside what is usual for such a person; none where no stature was told. */
  readonly expected: readonly Expected[];
  readonly slab?: SlabPlan;
  readonly stockinette: readonly StockinettePlan[];
  readonly wraps: readonly WrapPlan[];
  readonly takeOff: ReturnType<typeof takeOff>;
  readonly water: ReturnType<typeof dipWater>;
  readonly timeline: ReturnType<typeof setTimes>;
  readonly heat: HeatPlan;
  readonly cautions: readonly Caution[];
  readonly checks: Checks;
  readonly defers: string;
}

type Needs = Parameters<typeof takeOff>[0]['needs'];

/** What the order lacks, or has too much of, for the type that it names. */
function mismatches(order: Order, type: Immobilisation): Fault[] {
  const taped = order.wraps.some((w) => w.layer === 'tape');
  if (type.kind === 'slab' && order.slab === undefined)
    return [{ input: 'slab', fault: 'missing', got: 'nothing', possible: `a slab, for a ${type.name}` }];
  if (type.kind === 'cast' && !taped)
    return [
      {
        input: 'wraps',
        fault: 'joint',
        got: 'no wrap of tape',
        possible: `tape or plaster bandage, for a ${type.name}`,
      },
    ];
  return [];
}

function needsOf(
  order: Order,
  slab: SlabPlan | undefined,
  tubes: readonly StockinettePlan[],
  wraps: readonly WrapPlan[],
): Needs {
  const material = materialOf(order);
  return [
    ...tubes.map(({ what, width, cut }) => ({
      what: `stockinette, ${what}`,
      material: 'stockinette' as const,
      width,
      length: cut.value,
      pieces: 1,
      joins: false,
      wider: false,
    })),
    ...(slab
      ? [
          {
            what: slab.made === 'layered' ? `slab, ${slab.plies.used} plies` : 'slab',
            material: slab.made === 'layered' ? material : ('prefabricated slab' as const),
            width: slab.width.used,
            length: slab.cut.value,
            pieces: slab.plies.used,
            joins: false,
            wider: true,
          },
        ]
      : []),
    ...wraps.map(({ layer, over, width, offRoll }) => ({
      what: `${layer}, ${over.join(' and ')}`,
      material: layer === 'tape' ? material : layer,
      width,
      length: offRoll,
      pieces: 1,
      joins: true,
      wider: false,
    })),
  ];
}

function plan(order: Order): Plan {
  const type = immobilisations[order.immobilisation];
  const faults = mismatches(order, type);
  if (faults.length > 0) throw new InputError('plan', faults);

  const slab = order.slab && planSlab(order, order.slab, type);
  const stockinette = order.stockinette.map(({ what, width, path, rule: name }, n): StockinettePlan => {
    const rule = stockinetteRules[name];
    const { times, distal, proximal } = rule;
    return {
      what,
      width,
      rule: { ...rule, name },
      cut: within(`stockinette.${n}`, () => cutLength({ path, times, distal, proximal })),
    };
  });
  const wraps = order.wraps.map((wrap, n) => planWrap(order, wrap, type, n));
  const rolls = takeOff({ needs: needsOf(order, slab, stockinette, wraps), stock: order.stock });
  const expected = expectedIn(order);
  const water = dipWater({ material: materialOf(order), water: order.dip });
  const heat = planHeat(order, slab, wraps);
  return {
    order,
    type,
    expected,
    ...(slab && { slab }),
    stockinette,
    wraps,
    takeOff: rolls,
    water,
    timeline: setTimes({ material: order.material, dip: order.dip }),
    heat,
    cautions: [
      ...water.cautions,
      // What the water itself led to stands above.
      ...heat.caution.cautions.filter(({ code }) => code !== 'dip-above-limit'),
      ...cautionsOf(type, slab, wraps, rolls.value.lines),
      ...ofExpected(expected),
    ],
    checks: checksFor(type, isChild(order)),
    defers,
  };
}

/**
 * The plan for applying one splint or cast: cut list, rolls, layer maps, water, timeline, cautions and checks.
 *
 * @throws InputError when the order cannot be: every fault at once, each with what would have been possible
 */
export const applicationPlan: {
  (order: Order): Plan;
  /** The same from JSON, quantities as `{ value, unit }` in UCUM. */
  fromJson(json: unknown): Plan;
} = Object.assign((order: Order) => plan(checked('plan', orderSchema, order)), {
  fromJson: (json: unknown) => plan(readJson('plan', orderSchema, json)),
});
