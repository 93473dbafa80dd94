import { applicationPlan } from 'swathe';
import { describe, expect, test } from 'vitest';
import { orderOf } from './cases.ts';

type Json = Record<string, unknown>;
const planOf = (name: string, more: Json = {}) => applicationPlan.fromJson({ ...orderOf(name), ...more });
const celsius = (value: number) => ({ value, unit: 'Cel' });

describe('heat of a plaster slab', () => {
  const { heat, slab, cautions } = planOf('posterior-ankle-slab');
  const { band } = heat;

  test('is worked for the slab as planned, where the limb is thinnest and the padding thinnest', () => {
    expect(band?.from).toMatchObject({
      material: 'fast plaster',
      plies: slab?.plies.used,
      dip: celsius(23),
      room: celsius(19),
      stockinette: true,
      cover: 'elastic',
    });
    const girths = (orderOf('posterior-ankle-slab')['limb'] as { stations: { girth: { value: number } }[] }[])
      .flatMap((s) => s.stations)
      .map((s) => s.girth.value * 10);
    const radius = Math.min(...girths) / (2 * Math.PI);
    expect(band?.from).toMatchObject({ body: { radius: { value: expect.closeTo(radius, 9), unit: 'mm' } } });
  });

  test('gives its upper end to the cautions', () => {
    expect(heat.caution.from).toMatchObject({
      band: {
        skin: celsius(band?.value.skin.peak.most ?? 0),
        above49: { value: band?.value.interface.above49.most, unit: 's' },
      },
    });
    expect(heat.caution.value.class).toBe('no trigger met');
    expect(cautions.map((c) => c.code)).toContain('many-plies');
  });

  test('says what would lower it, each worked again', () => {
    expect(heat.lower.map((l) => l.change)).toEqual([
      'one ply less',
      'water 4 K cooler',
      'without the elastic wrap while it sets',
    ]);
    for (const { interface: under, skin } of heat.lower) {
      expect(under[1]).toBeLessThan(band?.value.interface.peak.most ?? 0);
      expect(skin[1]).toBeLessThan(band?.value.skin.peak.most ?? 0);
    }
  });

  test('a pillow, many plies and warm water raise it, and taking the pillow away lowers the class of heat it adds', () => {
    const hot = planOf('posterior-ankle-slab', { cover: 'pillow', dip: celsius(40) });
    expect(hot.heat.caution.value.class).not.toBe('no trigger met');
    const codes = hot.cautions.map((c) => c.code);
    expect(codes).toContain('many-plies-covered');
    expect(codes.filter((code) => code === 'dip-above-limit')).toHaveLength(1);
    expect(hot.heat.band?.value.interface.peak.most).toBeGreaterThan(
      (band?.value.interface.peak.most ?? 0) + 5,
    );
    const open = hot.heat.lower.find((l) => l.change.includes('pillow'));
    expect(open?.caution.value.triggers.map((t) => t.code)).not.toContain('many-plies-covered');
    expect(open?.interface[1]).toBeLessThan((hot.heat.band?.value.interface.peak.most ?? 0) - 5);
  });

  test('thick, hot and covered is high: the upper end of the band passes the limits', () => {
    const order = orderOf('posterior-ankle-slab');
    const { heat } = planOf('posterior-ankle-slab', {
      slab: { ...(order['slab'] as Json), plies: 24 },
      cover: 'pillow',
      dip: celsius(50),
    });
    expect(heat.caution.value.class).toBe('high');
    expect(heat.caution.value.triggers.map((t) => t.code)).toEqual(
      expect.arrayContaining(['band-skin-hot', 'band-under-cast-hot']),
    );
  });
});

test('fibreglass has an upper bound and no temperature; a prefabricated slab has neither', () => {
  const { heat } = planOf('short-leg-cast');
  expect(heat.band).toBeUndefined();
  expect(heat.without).toContain('fibreglass');
  expect(heat.caution.value.bound).toMatchObject({ kind: 'no heat lost' });
  const order = orderOf('posterior-ankle-slab');
  const slab = { ...(order['slab'] as Json), made: 'prefabricated', finish: 'cut as measured' };
  const stock = [
    {
      material: 'prefabricated slab',
      width: { value: 12.5, unit: 'cm' },
      length: { value: 4.5, unit: 'm' },
      onHand: 1,
    },
  ];
  const made = planOf('posterior-ankle-slab', { slab, stock });
  expect(made.heat.band).toBeUndefined();
  expect(made.heat.without).toContain('prefabricated');
});

test('a cast of plaster counts its layers at the thickest place', () => {
  const plan = planOf('short-leg-cast', { material: 'fast plaster' });
  const tape = plan.wraps.find((w) => w.layer === 'tape');
  expect(plan.heat.band?.from).toMatchObject({ plies: tape?.map.value.most });
});

test('a child, or someone who cannot say that it burns, raises the class', () => {
  const child = planOf('child-volar-slab');
  expect(child.heat.caution.value.class).toBe('raised');
  const order = orderOf('posterior-ankle-slab');
  const asleep = planOf('posterior-ankle-slab', {
    person: { ...(order['person'] as Json), reducedSensation: true },
  });
  expect(asleep.heat.caution.value.triggers.map((t) => t.code)).toContain('cannot-report-pain');
});

describe('the heat of a job is worked from the order', () => {
  const ankle = orderOf('posterior-ankle-slab') as Json & { slab: Json; wraps: Json[]; limb: Json[] };
  const from = (more: Json, name = 'posterior-ankle-slab') => planOf(name, more).heat.band?.from;

  test('plies of the slab and of the tape lie on each other', () => {
    const cast = planOf('short-leg-cast', {
      material: 'fast plaster',
      slab: { ...ankle.slab, plies: 4 },
    });
    const tape = cast.wraps.find((w) => w.layer === 'tape');
    expect(cast.heat.band?.from).toMatchObject({ plies: 4 + (tape?.map.value.most ?? 0) });
    expect(cast.heat.caution.from).toMatchObject({ plies: 4 + (tape?.map.value.most ?? 0) });
  });

  test('padding counts where it is thinnest, and none is none', () => {
    const { heat, wraps } = planOf('posterior-ankle-slab');
    const [padding] = wraps;
    expect(padding?.map.value.least).toBeGreaterThan(0);
    expect(padding?.map.value.most).toBeGreaterThan(padding?.map.value.least ?? 0);
    expect(heat.band?.from).toMatchObject({ paddingLayers: padding?.map.value.least });
    const twice = planOf('posterior-ankle-slab', {
      wraps: [{ ...ankle.wraps[0], passes: 2, startTurns: 4, endTurns: 4 }, ...ankle.wraps],
    });
    expect(twice.heat.band?.from).toMatchObject({ paddingLayers: padding?.map.value.least });
    const bare = { wraps: ankle.wraps.slice(1), stockinette: [] };
    expect(from(bare)).toMatchObject({ paddingLayers: 0, stockinette: false, cover: 'elastic' });
  });

  test('a cast is worked where the limb under its tape is thinnest, and is bare', () => {
    const plan = planOf('short-leg-cast', { material: 'fast plaster', dip: celsius(4) });
    const girths = (plan.order.limb as unknown as { stations: { girth: number }[] }[]).flatMap((s) =>
      s.stations.map((station) => station.girth),
    );
    const radius = Math.min(...girths) / (2 * Math.PI);
    expect(plan.heat.band?.from).toMatchObject({
      cover: 'bare',
      dip: celsius(4),
      body: { radius: { value: expect.closeTo(radius, 9), unit: 'mm' } },
    });
    // Nothing covers it, so nothing can be taken off.
    expect(plan.heat.lower.map((l) => l.change)).toEqual(['one ply less', 'water 4 K cooler']);
    const plies = plan.wraps.find((w) => w.layer === 'tape')?.map.value.most ?? 0;
    expect(plan.heat.lower[0]?.caution.from).toMatchObject({ plies: plies - 1, dip: celsius(4) });
    expect(plan.heat.lower[1]?.caution.from).toMatchObject({ plies, dip: celsius(0) });
  });

  test('a cast is worked where the tape goes, though padding goes where the limb is thinner', () => {
    const { wraps } = orderOf('short-leg-cast') as { wraps: Json[] };
    const place = (landmark: string) => ({ landmark, offset: { value: 0, unit: 'cm' } });
    const ends = { over: ['foot'], from: place('metatarsal heads'), to: place('lateral malleolus') };
    const plan = planOf('short-leg-cast', {
      material: 'fast plaster',
      wraps: wraps.map((w) => (w['layer'] === 'tape' ? { ...w, ...ends } : w)),
    });
    const least = (names: readonly string[]): number =>
      Math.min(
        ...plan.order.limb
          .filter(({ name }) => names.includes(name))
          .flatMap((s) => s.stations.map(({ girth }) => girth)),
      );
    expect(least(['foot'])).toBeGreaterThan(least(['foot', 'leg']));
    const radius = { value: expect.closeTo(least(['foot']) / (2 * Math.PI), 9), unit: 'mm' };
    expect(plan.heat.band?.from).toMatchObject({ body: { radius } });
  });

  test('one ply cannot be one less, and water near freezing not 4 K cooler', () => {
    const { heat } = planOf('posterior-ankle-slab', {
      slab: { ...ankle.slab, plies: 1 },
      dip: celsius(3),
      cover: 'blanket',
    });
    expect(heat.lower.map((l) => l.change)).toEqual(['without the blanket while it sets']);
    expect(heat.caution.from).toMatchObject({ cover: 'blanket', plies: 1 });
    expect(heat.lower[0]?.caution.from).toMatchObject({ cover: 'bare', plies: 1 });
    const [open] = heat.lower;
    expect(open?.interface[0]).toBeLessThanOrEqual(open?.interface[1] ?? 0);
    expect(open?.skin[0]).toBeLessThanOrEqual(open?.skin[1] ?? 0);
    expect(open?.skin[1]).toBeLessThanOrEqual(heat.band?.value.skin.peak.most ?? 0);
  });

  test('an elastic wrap is in the temperatures, and as a trigger only where the order says so', () => {
    const { heat } = planOf('posterior-ankle-slab');
    expect(heat.band?.from).toMatchObject({ cover: 'elastic', folded: false, stockinette: true });
    expect(heat.caution.from).toMatchObject({ cover: 'bare', folded: false, usedWater: false });
    const said = planOf('posterior-ankle-slab', { cover: 'elastic' }).heat;
    expect(said.caution.from).toMatchObject({ cover: 'elastic' });
  });

  test('where there is no band nothing is said to lower it', () => {
    const fibreglass = planOf('short-leg-cast').heat;
    expect(fibreglass.lower).toEqual([]);
    expect(fibreglass.humidity.used).toBe(0.5);
    const made = planOf('posterior-ankle-slab', {
      slab: { ...ankle.slab, made: 'prefabricated', finish: 'cut as measured' },
    }).heat;
    expect(made.lower).toEqual([]);
    expect(made.caution.from).toMatchObject({ plies: 1, folded: false, usedWater: false });
    expect(fibreglass.caution.from).toMatchObject({ folded: false, usedWater: false });
  });
});
