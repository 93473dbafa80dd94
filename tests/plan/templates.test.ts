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

describe.each(kinds)('a template for $id in $material', ({ id, material }) => {
  const type: Immobilisation = immobilisations[id];
  const of = () => orderTemplate(id, material);
  const isThumb = (over: readonly string[]) => over.includes('thumb');

  test('wraps padding first, then what holds or sets, the thumb by itself', () => {
    const { wraps, segments, stockinette, slab } = of();
    const hasThumb = segments.some(({ name }) => name === 'thumb');
    expect(hasThumb).toBe(id.startsWith('thumb'));
    const layers = type.kind === 'slab' ? ['padding', 'elastic'] : ['padding', 'tape'];
    const withThumb = type.kind === 'slab' ? ['padding'] : ['padding', 'tape'];
    const told = layers.flatMap((layer) => [
      `${layer}: limb`,
      ...(hasThumb && withThumb.includes(layer) ? [`${layer}: thumb`] : []),
    ]);
    expect(wraps.map(({ layer, over }) => `${layer}: ${isThumb(over) ? 'thumb' : 'limb'}`)).toEqual(told);
    for (const { over, from, to, beyond, extra } of wraps.filter((wrap) => isThumb(wrap.over))) {
      const thumb = segments.find(({ name }) => name === 'thumb');
      expect([over, from, to]).toEqual([
        ['thumb'],
        { landmark: thumb?.from, offset: 0 },
        { landmark: thumb?.to, offset: 0 },
      ]);
      expect([beyond.used, extra.used]).toEqual([0, []]);
    }
    expect(stockinette.map(({ what, rule }) => (what === 'thumb' ? rule : what))).toEqual([
      segments
        .filter(({ name }) => name !== 'thumb' && (name !== 'upper arm' || id !== 'forearm-sugar-tong'))
        .map(({ name }) => name)
        .join(' and '),
      ...(hasThumb ? ['as measured'] : []),
    ]);
    for (const { what, over } of stockinette) expect(what).toBe(over.join(' and '));
    expect(slab === undefined).toBe(type.kind === 'cast');
  });

  test('lays as many turns at the ends as layers are wanted, three where a text says three', () => {
    for (const { layer, startTurns, endTurns, passes, overlap } of of().wraps) {
      const [least] = { padding: type.padding.layers, tape: type.layers[material], elastic: elasticLayers }[
        layer
      ].used;
      const ends = id === 'thumb-spica-cast' && layer === 'padding' ? 3 : least;
      expect([startTurns.used, endTurns.used]).toEqual([ends, ends]);
      expect(overlap.used).toBe(0.5);
      expect(passes.used).toBe(Math.ceil(least / 2));
      if (ends !== least)
        expect(startTurns.published).toStrictEqual([
          { value: [3, 3], source: 'society-video-thumb', status: 'read' },
        ]);
      expect(passes.because).toBe(`${least} layers are wanted, and each pass lays 2`);
    }
  });

  test('puts extra padding over the bony joints that are wrapped, and nothing else over anything', () => {
    // Where bone lies under thin skin: the wrist, the elbow, the ankle and the knee.
    const joints: Readonly<Record<string, readonly string[]>> = {
      'hand and forearm': ['wrist crease'],
      'hand and fingers and forearm': ['wrist crease'],
      'hand and forearm and upper arm': ['wrist crease', 'elbow crease'],
      'upper arm': [],
      'foot and leg': ['lateral malleolus'],
      'foot and leg and thigh': ['lateral malleolus', 'patella'],
      'leg and thigh': ['lateral malleolus', 'patella'],
    };
    const [padding, ...rest] = of().wraps;
    const at = joints[padding?.over.join(' and ') ?? ''] as readonly string[];
    expect(padding?.extra.used).toEqual(at.map((landmark) => ({ landmark, offset: 0, turns: 2 })));
    for (const { extra } of rest) expect(extra.used).toEqual([]);
  });

  test('is as wide as the narrowest published for the part, and of no other material', () => {
    // What a text may call the part that is wrapped; nothing where widths are for the type alone.
    const parts: Readonly<Record<string, RegExp>> = {
      thumb: /hand/,
      'upper arm': /forearm|elbow|coaptation|this type/,
      'hand and forearm': /forearm|lower arm|volar|sugar-tong|man|this type|plaster or fibreglass/,
      'hand and fingers and forearm': /forearm|ulnar gutter|this type/,
      'hand and forearm and upper arm': /long arm|children|this type/,
      'foot and leg': /\bleg|two rolls|this type/,
      'leg and thigh': /leg|thigh/,
      'foot and leg and thigh': /leg|^.*(plaster|fibreglass)$/,
    };
    const other = material === 'plaster' ? 'fibreglass' : 'plaster';
    for (const { layer, over, width } of of().wraps) {
      expect(width.because).toMatch(parts[over.join(' and ')] as RegExp);
      expect(width.published.map(({ value }) => value[0])).toContain(width.used);
      const notes = width.published.map(({ note = '' }) => note);
      if (layer === 'tape')
        for (const note of notes) expect(note.includes(other) && !note.includes(material)).toBe(false);
      else if (layer === 'padding') expect(width.published).toEqual(type.padding.widths);
      else expect(width.published).toEqual(elasticWidths);
      const named = width.published.find(
        ({ note, value }) =>
          value[0] === width.used && width.because === `the narrowest published for ${note ?? 'this type'}`,
      );
      expect(named).toBeDefined();
    }
  });

  test('pads past a slab, unless the limb gives no room, and tapes short of the padding', () => {
    const noRoom = ['double-sugar-tong-arm', 'coaptation-slab', 'posterior-knee-slab'];
    for (const { layer, over, beyond } of of().wraps) {
      const isPast = layer === 'padding' && type.kind === 'slab' && !isThumb(over) && !noRoom.includes(id);
      const isShort = layer === 'tape' && !isThumb(over);
      expect(Math.sign(beyond.used)).toBe(isPast ? 1 : isShort ? -1 : 0);
    }
    // How far it is stretched was read nowhere.
    for (const { stretch } of of().wraps) expect([stretch.used, stretch.published]).toEqual([0, []]);
  });

  test('wraps from where it covers, or from where the limb it runs over begins', () => {
    const { wraps, covers, segments } = of();
    for (const { over, from, to } of wraps) {
      const run = segments.filter(({ name }) => over.includes(name));
      const places = run.flatMap((s) => [s.from, s.to]);
      expect(places).toContain((from ?? covers.from).landmark);
      expect(places).toContain((to ?? covers.to).landmark);
      if (from) expect(places).toContain(from.landmark);
    }
  });
});
