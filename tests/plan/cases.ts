import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Answer, Order, OrderTemplate } from 'swathe';

export const casesFolder = join(import.meta.dirname, '../../packages/cli/cases');

/** The order of one of the demo's invented cases, as JSON gives it. */
export const orderOf = (name: string): Record<string, unknown> =>
  JSON.parse(readFileSync(join(casesFolder, `${name}.json`), 'utf8')).order;

/** Every answer inside a plan, wherever it stands, in its order. */
export function answersIn(value: unknown): Answer[] {
  if (typeof value !== 'object' || value === null) return [];
  if ('by' in value && 'from' in value) return [value as Answer];
  return Object.values(value).flatMap(answersIn);
}

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
export function orderFrom(template: OrderTemplate, material: Order['material']): Order {
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
