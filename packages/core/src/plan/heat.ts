import type { Choice } from '../published.ts';
import { type Length, mm, percent, type Ratio, type Span, type Temperature } from '../quantity.ts';
import { heatCaution } from '../setting/heat-caution.ts';
import { temperatureBand } from '../setting/temperature-band.ts';
import { runOver, within } from './limb.ts';
import type { Order } from './order.ts';
import type { SlabPlan } from './slab.ts';
import type { WrapPlan } from './wrap.ts';

type Band = ReturnType<typeof temperatureBand>;
type BandInputs = Parameters<typeof temperatureBand>[0];
type CautionInputs = Parameters<typeof heatCaution>[0];

/** The same job with one thing changed, worked again. */
export interface Alternative {
  readonly change: string;
  readonly caution: ReturnType<typeof heatCaution>;
  /** Highest temperatures within which nine in ten courses lie. */
  readonly interface: Span<Temperature>;
  readonly skin: Span<Temperature>;
}

/** Heat of setting: the class of caution, and for plaster the band of temperatures and what would lower it. */
export interface HeatPlan {
  readonly caution: ReturnType<typeof heatCaution>;
  readonly band?: Band;
  /** Why there is no band. */
  readonly without?: string;
  /** What the order does not say. */
  readonly humidity: Choice<Ratio>;
  readonly lower: readonly Alternative[];
}

const draws = 48;
const cooler = 4;

const humidity: Choice<Ratio> = {
  used: percent(50),
  because: 'not asked for: a middling room; drier air cools more, damper air less',
  published: [],
};

const covers = { elastic: 'the elastic wrap', blanket: 'the blanket', pillow: 'the pillow' } as const;

/** Layers of plaster or tape, all that lies at the thickest place. */
function pliesOf(slab: SlabPlan | undefined, wraps: readonly WrapPlan[]): number {
  const wound = wraps.filter((w) => w.layer === 'tape').map((w) => w.map.value.most);
  return (slab?.plies.used ?? 0) + Math.max(0, ...wound);
}

/** Where the limb is thinnest under what sets: there is least tissue to take up the heat. */
function thinnest(order: Order, wraps: readonly WrapPlan[]): Length {
  const over = order.slab?.over ?? wraps.filter((w) => w.layer === 'tape').flatMap((w) => w.over);
  const girths = [...new Set(over)].flatMap((name) =>
    runOver(order.limb, [name], 'limb').stations.map((station) => station.girth),
  );
  return Math.min(...girths) as Length;
}

const peaks = (band: Band, where: 'interface' | 'skin'): Span<Temperature> => [
  band.value[where].peak.least,
  band.value[where].peak.most,
];

/** The band, and the caution with the band's upper end in it. */
function worked(inputs: BandInputs, rules: Omit<CautionInputs, 'band'>) {
  const band = within('heat', () => temperatureBand(inputs));
  const { skin, interface: under } = band.value;
  return {
    band,
    caution: heatCaution({
      ...rules,
      band: { skin: skin.peak.most, above49: under.above49.most },
    }),
  };
}

export function planHeat(order: Order, slab: SlabPlan | undefined, wraps: readonly WrapPlan[]): HeatPlan {
  const plies = pliesOf(slab, wraps);
  const rules: Omit<CautionInputs, 'band'> = {
    material: order.material,
    plies,
    folded: false,
    dip: order.dip,
    usedWater: false,
    // An elastic wrap that holds the slab is in the temperatures; as a trigger it counts where the order says so.
    cover: order.cover ?? 'bare',
    overwrap: 'none',
    age: order.person.ageBand,
    reducedSensation: order.person.reducedSensation,
  };
  if (order.material === 'fibreglass')
    return {
      caution: heatCaution(rules),
      without: 'fibreglass: its heat of curing is known too poorly',
      humidity,
      lower: [],
    };
  if (slab?.made === 'prefabricated')
    return {
      caution: heatCaution(rules),
      without: 'a prefabricated slab: how much plaster is in it was not told',
      humidity,
      lower: [],
    };
  const padding = wraps.filter((w) => w.layer === 'padding').map((w) => w.map.value.least);
  const cover = order.cover ?? (wraps.some((w) => w.layer === 'elastic') ? 'elastic' : 'bare');
  const inputs: BandInputs = {
    material: order.material,
    plies,
    folded: false,
    dip: order.dip,
    room: order.room,
    humidity: humidity.used,
    // The thinnest padding anywhere, since that is where it gets hottest.
    paddingLayers: padding.length > 0 ? Math.min(...padding) : 0,
    stockinette: order.stockinette.length > 0,
    compression: percent(0),
    body: { kind: 'limb', radius: mm(thinnest(order, wraps) / (2 * Math.PI)), blood: 'flows' },
    cover,
    seed: 1,
    samples: draws,
  };
  const changes: readonly (readonly [string, Partial<BandInputs & CautionInputs>])[] = [
    ...(plies > 1 ? [['one ply less', { plies: plies - 1 }] as const] : []),
    ...(order.dip >= cooler
      ? [[`water ${cooler} K cooler`, { dip: (order.dip - cooler) as Temperature }] as const]
      : []),
    ...(cover === 'bare' ? [] : [[`without ${covers[cover]} while it sets`, { cover: 'bare' }] as const]),
  ];
  return {
    ...worked(inputs, rules),
    humidity,
    lower: changes.map(([change, by]) => {
      const { band, caution } = worked({ ...inputs, ...by }, { ...rules, ...by });
      return { change, caution, interface: peaks(band, 'interface'), skin: peaks(band, 'skin') };
    }),
  };
}
