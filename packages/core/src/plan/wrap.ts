import { figureOfEight } from '../coverage/figure-of-eight.ts';
import { layerMap } from '../coverage/layer-map.ts';
import type { Answer } from '../formula.ts';
import { buildUp } from '../layers/build-up.ts';
import { underBandage } from '../pressure/under-bandage.ts';
import type { Choice } from '../published.ts';
import { type Length, type Pressure, percent, type Span } from '../quantity.ts';
import { girthAt } from '../segment/girth-at.ts';
import { girthProfile } from '../segment/girth-profile.ts';
import type { Immobilisation } from './immobilisation.ts';
import { runOver, within } from './limb.ts';
import type { Order, PlaceOnLimb, Wrap } from './order.ts';
import { elasticLayers, paddingLimit } from './rules.ts';
import { materialOf } from './slab.ts';

type LayerMap = ReturnType<typeof layerMap>['value'];

/** A stretch of limb with more layers than wanted, and whether the order's extra turns put them there. */
export type ThickZone = LayerMap['thick'][number] & { readonly ordered: boolean };

/** One wrap of a plan: the length off the roll and the layers it lays. */
export interface WrapPlan {
  readonly layer: Wrap['layer'];
  readonly over: readonly string[];
  readonly from: PlaceOnLimb;
  readonly to: PlaceOnLimb;
  readonly width: Length;
  readonly wanted: Choice<Span>;
  readonly map: Answer<LayerMap>;
  readonly thick: readonly ThickZone[];
  readonly eights: readonly ReturnType<typeof figureOfEight>[];
  /** All of it as it comes off the roll: turns and figures of eight. */
  readonly offRoll: Length;
  readonly builtUp?: ReturnType<typeof buildUp>;
  readonly pressure?: Answer<Pressure>;
}

/** How many layers are wanted of what is wrapped. */
function wantedOf(order: Order, wrap: Wrap, type: Immobilisation): Choice<Span> {
  if (wrap.layer === 'elastic') return elasticLayers;
  if (wrap.layer === 'tape') return type.layers[materialOf(order)];
  const { used, because, published } = type.padding.layers;
  const most = Math.max(used[1], paddingLimit.used);
  return { used: [used[0], most], because: `${because}; up to ${most}: ${paddingLimit.because}`, published };
}

/** Layers along the limb, turns and length of one wrap. */
export function planWrap(order: Order, wrap: Wrap, type: Immobilisation, n: number): WrapPlan {
  const path = `wraps.${n}`;
  const run = runOver(order.limb, wrap.over, `${path}.over`);
  const [from, to] = [wrap.from ?? order.covers.from, wrap.to ?? order.covers.to];
  const wanted = wantedOf(order, wrap, type);
  const extra = wrap.extra.map(({ turns, ...place }) => ({ at: run.at(place), turns }));
  const map = within(path, () =>
    layerMap({
      stations: [...run.stations],
      from: (run.at(from) - wrap.beyond) as Length,
      to: (run.at(to) + wrap.beyond) as Length,
      width: wrap.width,
      overlap: wrap.overlap,
      keeps: 'overlap',
      passes: wrap.passes,
      startTurns: wrap.startTurns,
      endTurns: wrap.endTurns,
      extra,
      stretch: wrap.stretch,
      wanted: { least: wanted.used[0], most: wanted.used[1] },
    }),
  );
  const thick = map.value.thick.map((zone) => ({
    ...zone,
    ordered: extra.some((e) => e.at + wrap.width / 2 > zone.from && e.at - wrap.width / 2 < zone.to),
  }));
  const girthAround = (at: number): Length =>
    girthAt({ stations: [...run.stations], at: at as Length }).value;
  const eights = (wrap.eights ?? []).map(({ landmark, offset, figures, riseDistal, riseProximal }) => {
    const crossing = run.at({ landmark, offset });
    return within(path, () =>
      figureOfEight({
        above: girthAround(crossing + riseProximal),
        below: girthAround(crossing - riseDistal),
        riseAbove: riseProximal,
        riseBelow: riseDistal,
        width: wrap.width,
        overlap: wrap.overlap,
        figures,
      }),
    );
  });
  const laid = eights.reduce<number>((sum, { value }) => sum + value.length, map.value.length);
  const girth = girthProfile({ stations: [...run.stations] }).value.meanGirth;
  const { thickness, tension } = wrap;
  return {
    layer: wrap.layer,
    over: wrap.over,
    from: { ...from, offset: (from.offset - wrap.beyond) as Length },
    to: { ...to, offset: (to.offset + wrap.beyond) as Length },
    width: wrap.width,
    wanted,
    map,
    thick,
    eights,
    offRoll: (laid / (1 + wrap.stretch)) as Length,
    ...(thickness !== undefined && {
      builtUp: within(path, () =>
        buildUp({ girth, layers: map.value.most, thickness, compression: percent(0) }),
      ),
    }),
    ...(tension !== undefined && {
      pressure: within(path, () =>
        underBandage({
          tension,
          layers: Math.max(1, map.value.most),
          // Where the limb is thinnest the same tension presses most.
          girth: Math.min(...run.stations.map((s) => s.girth)) as Length,
          width: wrap.width,
          thickness: thickness ?? (0 as Length),
        }),
      ),
    }),
  };
}
