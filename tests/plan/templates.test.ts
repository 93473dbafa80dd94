import {
  applicationPlan,
  type Immobilisation,
  type ImmobilisationId,
  immobilisations,
  type Order,
  type OrderTemplate,
  orderTemplate,
  type Span,
} from 'swathe';
import { describe, expect, test } from 'vitest';
import {
  elasticWidths,
  extraPadding,
  paddingBeyond,
  paddingOverlap,
} from '../../packages/core/src/plan/catalogue/general.ts';
import { elasticLayers } from '../../packages/core/src/plan/rules.ts';

// An invented adult. Lengths and girths in mm.
const lengths: Readonly<Record<string, number>> = {
  thumb: 70,
  hand: 95,
  'hand and fingers': 150,
  forearm: 250,
  'upper arm': 300,
  foot: 150,
  leg: 360,
  thigh: 400,
};
const girths: Readonly<Record<string, number>> = {
  thumb: 66,
  hand: 195,
  'hand and fingers': 200,
  forearm: 220,
  'upper arm': 300,
  foot: 250,
  leg: 300,
  thigh: 480,
};

/** The order that a template becomes once the limb is measured. */
function orderFrom(template: OrderTemplate, material: Order['material']): Order {
  return {
    immobilisation: template.immobilisation,
    side: 'left',
    person: { ageBand: 'adult', reducedSensation: false },
    material,
    limb: template.segments.map(({ name, from, to, girths: spots }) => ({
      name,
      from,
      to,
      length: lengths[name],
      stations: spots.map((spot, n) => ({
        landmark: spot.landmark,
        offset: 'offset' in spot ? spot.offset : spot.share * (lengths[name] as number),
        girth: (girths[name] as number) + n,
      })),
    })),
    covers: template.covers,
    ...(template.slab && {
      slab: { made: 'layered', finish: template.slab.finish.layered, over: template.slab.over, path: 400 },
    }),
    stockinette: template.stockinette.map(({ what, rule }) => ({ what, rule, width: 75, path: 400 })),
    wraps: template.wraps.map(({ layer, over, from, to, ...numbers }) => ({
      layer,
      over,
      ...(from && { from }),
      ...(to && { to }),
      beyond: numbers.beyond.used,
      width: numbers.width.used,
      overlap: numbers.overlap.used,
      passes: numbers.passes.used,
      startTurns: numbers.startTurns.used,
      endTurns: numbers.endTurns.used,
      extra: numbers.extra.used,
      stretch: numbers.stretch.used,
    })),
    stock: [],
    room: 21,
    dip: 22,
  } as unknown as Order;
}

const kinds = (['plaster', 'fibreglass'] as const).flatMap((material) =>
  (Object.keys(immobilisations) as ImmobilisationId[]).map((id) => ({ id, material })),
);

describe.each(kinds)('$id in $material', ({ id, material }) => {
  const type: Immobilisation = immobilisations[id];
  const template = orderTemplate(id, material);

  test('gives a plan once the limb is measured, with no zone of too few layers', () => {
    const order = orderFrom(template, material === 'plaster' ? 'fast plaster' : 'fibreglass');
    const plan = applicationPlan(order);
    expect(plan.wraps.length).toBeGreaterThanOrEqual(2);
    expect(plan.cautions.map((c) => c.code)).not.toContain('thin-zone');
  });

  test('covers what the catalogue says, at an end of each of its ranges', () => {
    for (const end of ['from', 'to'] as const) {
      expect(template.covers[end].landmark).toBe(type[end].used.landmark);
      expect(type[end].used.offset).toContain(template.covers[end].offset);
    }
  });

  test('takes each number of technique from the catalogue', () => {
    const isEnd = (n: number, spans: readonly { readonly value: Span }[]) =>
      expect(spans.flatMap(({ value }) => value)).toContain(n);
    for (const wrap of template.wraps) {
      const { layer, width, overlap, beyond, passes, startTurns, extra } = wrap;
      isEnd(width.used, { padding: type.padding.widths, tape: type.widths, elastic: elasticWidths }[layer]);
      isEnd(overlap.used, paddingOverlap.published);
      const [least] = { padding: type.padding.layers, tape: type.layers[material], elastic: elasticLayers }[
        layer
      ].used;
      // Half over lays two a pass: a fact of the trade, and of geometry.
      expect(passes.used).toBe(Math.ceil(least / 2));
      if (id !== 'thumb-spica-cast' || layer !== 'padding') expect(startTurns.used).toBe(least);
      for (const { turns } of extra.used) expect(extraPadding.used).toContain(turns);
      if (layer === 'padding' && beyond.used !== 0) expect(beyond.used).toBe(paddingBeyond.used[0]);
      if (layer === 'tape' && !wrap.over.includes('thumb'))
        expect([-12.7, -25.4, -paddingBeyond.used[0]], 'inside the padding').toContain(beyond.used);
    }
  });

  test('what it says a source gives, the catalogue says too', () => {
    const known = JSON.stringify([type, elasticWidths, paddingBeyond, paddingOverlap, elasticLayers]);
    for (const wrap of template.wraps)
      for (const part of [
        wrap.width,
        wrap.overlap,
        wrap.beyond,
        wrap.passes,
        wrap.startTurns,
        wrap.extra,
        wrap.stretch,
      ]) {
        expect(part.because.length).toBeGreaterThan(3);
        for (const { source } of part.published)
          if (source !== undefined) expect(known).toContain(`"${source}"`);
      }
  });
});

test('a template holds no girth, no length of a limb and no roll', () => {
  for (const { id, material } of kinds) {
    const keys = new Set<string>();
    JSON.stringify(orderTemplate(id, material), (key, value) => {
      keys.add(key);
      return value;
    });
    for (const key of ['girth', 'length', 'path', 'stock', 'dip', 'room', 'ageBand'])
      expect(keys, `${id}: ${key}`).not.toContain(key);
  }
});
