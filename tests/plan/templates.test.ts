import {
  applicationPlan,
  type Immobilisation,
  type ImmobilisationId,
  immobilisations,
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
import { orderFrom } from './cases.ts';

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
