import {
  hold,
  type ImmobilisationId,
  immobilisations,
  isCode,
  type OrderTemplate,
  orderTemplate,
  type WrapTemplate,
} from 'swathe';
import { valueAt, withAt } from '../client/data.ts';
import { isTold as isAnyTold, type Told } from '../client/units.ts';

/** JSON as an order is told in, any part of it still missing. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };
export type Part = Json | undefined;
export type Fields = { readonly [key: string]: Json };
export type Units = 'cm' | 'in';

export interface State {
  readonly units: Units;
  readonly order: Fields;
  /** Whether a person has looked over the numbers of technique. */
  readonly confirmed: boolean;
}

const isFields = (x: Part): x is Fields => typeof x === 'object' && x !== null && !Array.isArray(x);

export const isTold = (x: Part): x is Fields & Told => isAnyTold(x) && isCode(x.unit);

/** The value in the unit held, or nothing where it is no number yet. */
export const heldOf = (x: Part): number | undefined =>
  isTold(x) && typeof x.value === 'number' ? hold(x.value, x.unit) : undefined;

export const get = valueAt as (from: Part, path: string) => Part;

export const listAt = (from: Part, path: string): readonly Json[] => {
  const found = get(from, path);
  return Array.isArray(found) ? (found as readonly Json[]) : [];
};

/** Version of what stands in an address, so that a later one is not misread. */
const version = '1';

const toBase64 = (text: string): string => {
  let bytes = '';
  for (const byte of new TextEncoder().encode(text)) bytes += String.fromCharCode(byte);
  return btoa(bytes).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
};

const fromBase64 = (text: string): string => {
  const bytes = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return new TextDecoder('utf-8', { fatal: true }).decode(Uint8Array.from(bytes, (c) => c.charCodeAt(0)));
};

/** Everything entered, as the part of an address that no server sees. */
export function encode({ order, units, confirmed }: State): string {
  if (Object.keys(order).length === 0) return '';
  return `${version}.${toBase64(JSON.stringify({ o: order, u: units, ...(confirmed && { c: 1 }) }))}`;
}

export const empty: State = { units: 'cm', order: {}, confirmed: false };

/** What an address holds, or in plain words why it cannot be read. */
export function decode(fragment: string): State | { readonly why: string } {
  const text = fragment.replace(/^#/, '');
  if (text === '') return empty;
  const [, told, body] = /^(\d+)\.([\w-]*)$/.exec(text) ?? [];
  if (told === undefined || body === undefined)
    return { why: 'what follows the # is not the record of an order' };
  if (told !== version)
    return { why: `it was made by version ${told} of this page, and this is version ${version}` };
  let json: Part;
  try {
    json = JSON.parse(fromBase64(body)) as Json;
  } catch {
    return { why: 'part of it is missing or changed: copy the whole link' };
  }
  const order = get(json, 'o');
  if (!isFields(order)) return { why: 'it holds no order' };
  return { order, units: get(json, 'u') === 'in' ? 'in' : 'cm', confirmed: get(json, 'c') === 1 };
}

export const typeOf = (order: Fields) => {
  const id = order['immobilisation'];
  return typeof id === 'string' && Object.hasOwn(immobilisations, id)
    ? immobilisations[id as ImmobilisationId]
    : undefined;
};

export function templateOf(order: Fields): OrderTemplate | undefined {
  const type = typeOf(order);
  const material = order['material'];
  if (!type || typeof material !== 'string') return undefined;
  return orderTemplate(type.id, material === 'fibreglass' ? 'fibreglass' : 'plaster');
}

/** A length in the unit in which it is a round number: rolls are named in inches or in centimetres. */
function named(mm: number): Fields {
  const inches = mm / 12.7;
  return mm !== 0 && Math.abs(inches - Math.round(inches)) < 1e-9
    ? { value: Math.round(inches) / 2, unit: '[in_i]' }
    : { value: mm / 10, unit: 'cm' };
}

const place = ({ landmark, offset }: { landmark: string; offset: number }): Fields => ({
  landmark,
  offset: named(offset),
});

/** The published width that goes by the same name in the person's own unit, as 10 cm does for 4 in, where there is one. */
function widthOf({ width }: WrapTemplate, units: Units): Fields {
  const inUnit = (mm: number): boolean => (named(mm)['unit'] === '[in_i]') === (units === 'in');
  const own = width.published
    .map(({ value }) => value[0])
    .find((mm) => inUnit(mm) && Math.abs(mm / width.used - 1) < 0.05);
  return named(inUnit(width.used) ? width.used : (own ?? width.used));
}

function wrapFrom(wrap: WrapTemplate, units: Units): Fields {
  return {
    layer: wrap.layer,
    over: wrap.over,
    ...(wrap.from && { from: place(wrap.from) }),
    ...(wrap.to && { to: place(wrap.to) }),
    beyond: named(wrap.beyond.used),
    width: widthOf(wrap, units),
    overlap: { value: wrap.overlap.used * 100, unit: '%' },
    passes: wrap.passes.used,
    startTurns: wrap.startTurns.used,
    endTurns: wrap.endTurns.used,
    extra: wrap.extra.used.map(({ turns, ...at }) => ({ ...place(at), turns })),
    stretch: { value: wrap.stretch.used * 100, unit: '%' },
  };
}

/** What the trolley is asked for: one roll a material and width of the wraps, its length and number not yet known. */
function rolls(template: OrderTemplate, wraps: readonly Fields[], material: string): readonly Fields[] {
  const of = material === 'fibreglass' ? 'fibreglass' : 'plaster';
  const wanted: Fields[] = [
    ...(template.slab ? [{ material: of }] : []),
    ...wraps.map((wrap) => ({
      material: wrap['layer'] === 'tape' ? of : (wrap['layer'] as string),
      width: wrap['width'] as Json,
    })),
  ];
  const seen = new Set<string>();
  const once = wanted.filter((roll) => {
    const key = JSON.stringify(roll);
    return !seen.has(key) && seen.add(key);
  });
  return [...once, ...template.stockinette.map(() => ({ material: 'stockinette' }))];
}

/** Whether a choice makes the technique start anew: none yet, another type, or tape instead of plaster. */
export const restarts = (before: Fields, after: Fields): boolean =>
  get(after, 'wraps') === undefined ||
  before['immobilisation'] !== after['immobilisation'] ||
  (before['material'] === 'fibreglass') !== (after['material'] === 'fibreglass');

/** A slab that is made differently has other edges, and comes off another roll. */
export function remade(order: Fields): Fields {
  const finish = templateOf(order)?.slab?.finish;
  const made = get(order, 'slab.made');
  if (!finish || (made !== 'layered' && made !== 'prefabricated')) return order;
  const { plies, ...slab } = order['slab'] as Fields;
  const stock = listAt(order, 'stock');
  const wanted = 'prefabricated slab';
  const has = stock.some((roll) => get(roll, 'material') === wanted);
  return {
    ...order,
    slab: { ...slab, finish: finish[made] },
    stock: made === 'prefabricated' && !has ? [{ material: wanted }, ...stock] : stock,
  };
}

/** Starts an order from its template: places and technique. Nothing measured is filled in; what was told before stays. */
export function startFrom(state: State, kept: Fields): State {
  const template = templateOf(kept);
  if (!template) return { ...state, order: kept };
  const wraps = template.wraps.map((wrap) => wrapFrom(wrap, state.units));
  const told = listAt(kept, 'stock').filter((roll) => get(roll, 'length') !== undefined);
  const of = kept['material'] as string;
  const asked = rolls(template, wraps, of).filter(
    (roll) => !told.some((t) => get(t, 'material') === roll['material'] && roll['material'] !== undefined),
  );
  const made = get(kept, 'slab.made') ?? 'layered';
  const path = get(kept, 'slab.path');
  const ends = (segments: readonly unknown[]): string =>
    JSON.stringify(segments.map((s) => ['name', 'from', 'to'].map((key) => (s as Fields)[key])));
  const limb = listAt(kept, 'limb');
  const sameLimb = limb.length > 0 && ends(limb) === ends(template.segments);
  const sameType = same(get(state.order, 'immobilisation'), get(kept, 'immobilisation'));
  const order: Fields = {
    ...kept,
    limb: sameLimb
      ? limb
      : template.segments.map(({ name, from, to, girths }) => ({
          name,
          from,
          to,
          stations: girths.map((spot) =>
            'offset' in spot ? place(spot) : ({ landmark: spot.landmark } as Fields),
          ),
        })),
    covers: { from: place(template.covers.from), to: place(template.covers.to) },
    ...(template.slab && {
      slab: {
        made,
        finish: template.slab.finish[made as 'layered'],
        over: template.slab.over,
        ...(sameType && path !== undefined && { path }),
      },
    }),
    stockinette: template.stockinette.map(({ what, rule }) => ({ what, rule })),
    wraps,
    stock: [...told, ...asked],
  };
  const { slab, ...cast } = order;
  // Lengths of stockinette follow from a limb that stays.
  return { ...state, order: follow({}, template.slab ? order : cast), confirmed: false };
}

/** How far along a segment a girth is taken, to a whole centimetre or half inch. */
function suggested(length: Part, share: number): Fields | undefined {
  if (!isTold(length) || typeof length.value !== 'number') return undefined;
  const inches = length.unit === '[in_i]';
  const [per, step]: readonly [number, number] = inches ? [25.4, 0.5] : [10, 1];
  const mm = hold(length.value, length.unit) * share;
  return { value: Math.round(mm / per / step) * step, unit: inches ? '[in_i]' : 'cm' };
}

const same = (a: Part, b: Part): boolean => JSON.stringify(a) === JSON.stringify(b);

/** What follows from a segment's length, unless a person has said otherwise: places of girths, lengths of stockinette. */
export function follow(before: Fields, after: Fields): Fields {
  const template = templateOf(after);
  if (!template) return after;
  let order = after;
  for (const [n, { name, girths }] of template.segments.entries()) {
    if (get(order, `limb.${n}.name`) !== name) return order;
    const [was, is] = [get(before, `limb.${n}.length`), get(order, `limb.${n}.length`)];
    for (const [k, spot] of girths.entries()) {
      if ('offset' in spot) continue;
      const path = `limb.${n}.stations.${k}`;
      if (get(order, path) === undefined) continue;
      const told = get(order, `${path}.offset`);
      if (told === undefined || same(told, suggested(was, spot.share)))
        order = withAt(order, `${path}.offset`, suggested(is, spot.share));
    }
  }
  for (const [n, { over }] of template.stockinette.entries()) {
    if (get(order, `stockinette.${n}`) === undefined) continue;
    const sum = (of: Fields): Fields | undefined => {
      const lengths = over.map((name) => {
        const k = listAt(of, 'limb').findIndex((s) => get(s, 'name') === name);
        return get(of, `limb.${k}.length`);
      });
      const held = lengths.map(heldOf);
      if (held.some((mm) => mm === undefined)) return undefined;
      const [first] = lengths;
      const inches = isTold(first) && first.unit === '[in_i]';
      const mm = held.reduce<number>((all, one) => all + (one as number), 0);
      return { value: Number((mm / (inches ? 25.4 : 10)).toPrecision(12)), unit: inches ? '[in_i]' : 'cm' };
    };
    const told = get(order, `stockinette.${n}.path`);
    if (told === undefined || same(told, sum(before)))
      order = withAt(order, `stockinette.${n}.path`, sum(order));
  }
  return order;
}

/** When a roll's width is changed, so are the wraps that were to be made from it, if no other roll has their width. */
export function followRoll(before: Fields, after: Fields, n: number): Fields {
  const [old, now] = [get(before, `stock.${n}.width`), get(after, `stock.${n}.width`)];
  const material = get(after, `stock.${n}.material`);
  if (now === undefined) return after;
  if (material === 'stockinette') {
    const tubes = listAt(after, 'stock').filter((roll) => get(roll, 'material') === material);
    const k = tubes.indexOf(get(after, `stock.${n}`) as Json);
    const tube = get(after, `stockinette.${k}`);
    const width = get(tube, 'width');
    return tube !== undefined && (width === undefined || same(width, old))
      ? withAt(after, `stockinette.${k}.width`, now)
      : after;
  }
  const others = listAt(after, 'stock').some(
    (roll, k) => k !== n && get(roll, 'material') === material && same(get(roll, 'width'), old),
  );
  if (others) return after;
  let order = after;
  for (const [k, wrap] of listAt(order, 'wraps').entries()) {
    const layer = get(wrap, 'layer');
    const of = layer === 'tape' ? (after['material'] === 'fibreglass' ? 'fibreglass' : 'plaster') : layer;
    if (of === material && same(get(wrap, 'width'), old)) order = withAt(order, `wraps.${k}.width`, now);
  }
  return order;
}

/** The order as it is judged: rolls of which neither length nor number is told are not on the trolley. */
export function judged(order: Fields): Fields {
  const stock = listAt(order, 'stock').filter(
    (roll) => get(roll, 'length') !== undefined || get(roll, 'onHand') !== undefined,
  );
  return { ...order, stock };
}
