import { slabShare } from '../coverage/slab-share.ts';
import type { Answer } from '../formula.ts';
import type { Choice } from '../published.ts';
import type { Length, Ratio, Span } from '../quantity.ts';
import { cutLength } from '../segment/cut-length.ts';
import type { Station } from '../segment/profile.ts';
import { childSlab } from './catalogue/general.ts';
import type { Immobilisation } from './immobilisation.ts';
import { runOver, within } from './limb.ts';
import type { Order, Slab } from './order.ts';
import { type CutRule, finishes } from './rules.ts';

/** Plaster or fibreglass, whatever its speed. */
export const materialOf = (order: Order): 'plaster' | 'fibreglass' =>
  order.material === 'fibreglass' ? 'fibreglass' : 'plaster';

export const isChild = ({ person }: Order): boolean =>
  person.ageBand === 'infant' || person.ageBand === 'child';

/** The slab of a plan: its share of the girth, width, plies and the length to cut. */
export interface SlabPlan {
  readonly made: Slab['made'];
  readonly cut: Answer<Length>;
  readonly rule: CutRule & { readonly name: string };
  readonly width: Choice<Length, Span<Ratio>>;
  readonly share: ReturnType<typeof slabShare>;
  readonly plies: Choice<number, Span>;
}

/** The stocked width nearest to the share wanted, but within a shallow bowl where the limb is thinnest if one is. */
function widthFrom(order: Order, slab: Slab, stations: readonly Station[], share: Span<Ratio>): Length {
  const one = slabShare({ stations: [...stations], width: 100 as Length }).value;
  const wanted = (((share[0] + share[1]) / 2) * 100) / one.mean;
  const widest = (slabShare.numbers.bowl * 100) / one.atNarrowest;
  const material = slab.made === 'prefabricated' ? 'prefabricated slab' : materialOf(order);
  const stocked = order.stock.filter((r) => r.material === material && r.onHand > 0).map((r) => r.width);
  const bowls = stocked.filter((w) => w <= widest);
  const from = bowls.length > 0 ? bowls : stocked;
  return (from.sort((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted))[0] ?? wanted) as Length;
}

/** Length, width and plies of the slab. */
export function planSlab(order: Order, slab: Slab, type: Immobilisation): SlabPlan {
  const { stations } = runOver(order.limb, slab.over, 'slab.over');
  const rule = finishes[slab.finish];
  const cut = within('slab', () =>
    cutLength({ path: slab.path, times: rule.times, distal: rule.distal, proximal: rule.proximal }),
  );
  const width = slab.width ?? widthFrom(order, slab, stations, type.share.used);
  const layers =
    slab.made === 'layered' && isChild(order) && materialOf(order) === 'plaster'
      ? childSlab
      : type.layers[materialOf(order)];
  const plies: Choice<number, Span> =
    slab.made === 'prefabricated'
      ? { used: 1, because: 'a prefabricated slab is one piece', published: [] }
      : slab.plies !== undefined
        ? { ...layers, used: slab.plies, because: 'as ordered' }
        : {
            ...layers,
            used: layers.used[0],
            because: `the fewest of ${layers.used.join(' to ')}, since heat and weight rise with each ply: ${layers.because}`,
          };
  return {
    made: slab.made,
    cut,
    rule: { ...rule, name: slab.finish },
    width: {
      used: width,
      because:
        slab.width === undefined
          ? `the stocked width nearest to the share wanted: ${type.share.because}`
          : 'as ordered',
      published: type.share.published,
    },
    share: within('slab', () => slabShare({ stations: [...stations], width })),
    plies,
  };
}
