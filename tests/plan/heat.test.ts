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
