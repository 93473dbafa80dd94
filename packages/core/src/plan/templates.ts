import type { Choice, Published } from '../published.ts';
import { inch, type Length, mm, percent, type Ratio, ratio, type Span, wholeUp } from '../quantity.ts';
import { elasticWidths, paddingBeyond, paddingOverlap } from './catalogue/general.ts';
import { type ImmobilisationId, immobilisations } from './catalogue/index.ts';
import type { Immobilisation, Landmark } from './immobilisation.ts';
import type { Order, PlaceOnLimb, Slab, Wrap } from './order.ts';
import { elasticLayers, type FinishId, type StockinetteRuleId } from './rules.ts';

/** Where a girth is usually taken: at a landmark, or part of the way along the segment from its distal end. */
export type GirthSpot = { readonly landmark: Landmark } & (
  | { readonly offset: Length }
  | { readonly share: Ratio }
);

/** A segment to measure. Its length and its girths are the person's own: none is ever filled in. */
export interface SegmentTemplate {
  readonly name: string;
  readonly from: Landmark;
  readonly to: Landmark;
  readonly girths: readonly GirthSpot[];
}

/** One wrap, every number with what it was taken from. */
export interface WrapTemplate {
  readonly layer: Wrap['layer'];
  readonly over: readonly string[];
  readonly from?: PlaceOnLimb;
  readonly to?: PlaceOnLimb;
  readonly beyond: Choice<Length, Span<Length>>;
  readonly width: Choice<Length, Span<Length>>;
  readonly overlap: Choice<Ratio, Span<Ratio>>;
  readonly passes: Choice<number, Span>;
  readonly startTurns: Choice<number, Span>;
  readonly endTurns: Choice<number, Span>;
  readonly extra: Choice<Wrap['extra'], Span>;
  readonly stretch: Choice<Ratio, Span<Ratio>>;
}

/**
 * What an order for one splint or cast starts from: where to measure, and the numbers of technique as published. Starting
 * points that a person confirms or changes, not advice; girths, lengths and stock are left to be measured.
 */
export interface OrderTemplate {
  readonly immobilisation: ImmobilisationId;
  readonly segments: readonly SegmentTemplate[];
  readonly covers: Order['covers'];
  readonly slab?: {
    readonly over: readonly string[];
    readonly finish: Readonly<Record<Slab['made'], FinishId>>;
  };
  readonly stockinette: readonly {
    readonly what: string;
    readonly over: readonly string[];
    readonly rule: StockinetteRuleId;
  }[];
  readonly wraps: readonly WrapTemplate[];
}

type Material = 'plaster' | 'fibreglass';

const at = (landmark: Landmark, offset: Length = mm(0)): PlaceOnLimb => ({ landmark, offset });
const part = (landmark: Landmark, share: number): GirthSpot => ({ landmark, share: ratio(share) });

// Girths are taken at the ends and where a straight line between two of them would miss the limb most: our choice.
const hand = (from: Landmark, past = mm(0)): SegmentTemplate => ({
  name: 'hand',
  from,
  to: 'wrist crease',
  girths: [at(from, past)],
});
const forearm = (to: Landmark, past = mm(0)): SegmentTemplate => ({
  name: 'forearm',
  from: 'wrist crease',
  to,
  girths: [at('wrist crease'), part('wrist crease', 0.5), at(to, past)],
});
const upperArm = (to: Landmark, past = mm(0)): SegmentTemplate => ({
  name: 'upper arm',
  from: 'elbow crease',
  to,
  girths: [part('elbow crease', 0.5), at(to, past)],
});
const bareUpperArm: SegmentTemplate = {
  ...upperArm('axilla'),
  girths: [at('elbow crease'), part('elbow crease', 0.5), at('axilla')],
};
const thumb = (from: Landmark): SegmentTemplate => ({
  name: 'thumb',
  from,
  to: 'base of the thumb',
  girths: [at(from), at('base of the thumb')],
});
const foot = (from: Landmark, past = mm(0)): SegmentTemplate => ({
  name: 'foot',
  from,
  to: 'lateral malleolus',
  girths: [at(from, past), part(from, 0.5), at('lateral malleolus')],
});
const leg = (to: Landmark): SegmentTemplate => ({
  name: 'leg',
  from: 'lateral malleolus',
  to,
  girths: [part('lateral malleolus', 1 / 6), part('lateral malleolus', 1 / 2), at(to)],
});
const thigh = (to: Landmark): SegmentTemplate => ({
  name: 'thigh',
  from: 'patella',
  to,
  girths: [part('patella', 0.5), at(to)],
});

const past = paddingBeyond.used[0];
const short = mm(-past);

/** What differs from type to type, and is no number of technique. */
interface Plan {
  readonly segments: readonly SegmentTemplate[];
  readonly finish?: FinishId;
  readonly stockinette?: StockinetteRuleId;
  /** Segments round which bandages go, and where they begin and end if not where the slab or cast does. */
  readonly over: readonly string[];
  readonly padTo?: { readonly over: readonly string[]; readonly to: PlaceOnLimb };
  readonly from?: PlaceOnLimb;
  readonly to?: PlaceOnLimb;
  /** What padding goes past each end of a slab by, unless the limb gives no room for it. */
  readonly beyond?: false;
  /** How far inside the padding the tape of a cast stops. */
  readonly inside?: Choice<Length, Span<Length>>;
  /** What the words beside a published width say of the part it is for; nothing where they say nothing. */
  readonly padding: string;
  readonly elastic?: string;
  readonly tape?: string;
}

const printed = <T>(value: T, source: string, note?: string): Published<T> => ({
  value,
  source,
  status: 'read',
  ...(note !== undefined && { note }),
});

const halfInch: Choice<Length, Span<Length>> = {
  used: inch(-0.5),
  because: 'the cast stops half an inch inside the edge of the padding',
  published: [printed([inch(-0.5), inch(-0.5)], 'us-army-taskbook', 'arm and leg')],
};
const oneInch = (source: string): Choice<Length, Span<Length>> => ({
  used: inch(-1),
  because: 'the cast stops an inch inside the edge of the padding',
  published: [printed([inch(-1), inch(-1)], source)],
});
const generalInside: Choice<Length, Span<Length>> = {
  used: short,
  because: 'no value for this type was read: padding goes past the plaster by 2 to 3 cm as a general rule',
  published: paddingBeyond.published.map((p) => ({ ...p, value: [mm(-p.value[1]), mm(-p.value[0])] })),
};

const plans: Readonly<Record<ImmobilisationId, Plan>> = {
  'thumb-spica-slab': {
    segments: [
      thumb('mid distal phalanx of the thumb'),
      hand('metacarpal heads', short),
      forearm('mid forearm', past),
    ],
    stockinette: '2 in past each end',
    over: ['hand', 'forearm'],
    from: at('metacarpal heads'),
    padding: 'forearm',
    elastic: 'forearm, lower leg, foot',
  },
  'volar-slab': {
    segments: [hand('distal palmar crease', short), forearm('mid forearm', past)],
    over: ['hand', 'forearm'],
    padding: '',
    elastic: 'volar',
  },
  'dorsal-slab': {
    segments: [hand('knuckles', short), forearm('olecranon')],
    finish: '5 cm past the distal end',
    over: ['hand', 'forearm'],
    padding: 'forearm',
    elastic: 'forearm, lower leg, foot',
  },
  'radial-gutter-slab': {
    segments: [
      { ...hand('index-finger distal joint', short), name: 'hand and fingers' },
      forearm('proximal third of the forearm', past),
    ],
    over: ['hand and fingers', 'forearm'],
    padding: 'forearm',
    elastic: 'forearm, lower leg, foot',
  },
  'ulnar-gutter-slab': {
    segments: [
      { ...hand('little-finger distal joint', short), name: 'hand and fingers' },
      forearm('proximal third of the forearm', past),
    ],
    over: ['hand and fingers', 'forearm'],
    padding: '',
    elastic: 'ulnar gutter',
  },
  'forearm-sugar-tong': {
    segments: [hand('metacarpal heads', short), forearm('elbow crease'), upperArm('mid upper arm', past)],
    over: ['hand', 'forearm'],
    // A note on the type: the padding goes up to the middle of the upper arm.
    padTo: { over: ['hand', 'forearm', 'upper arm'], to: at('mid upper arm') },
    to: at('elbow crease'),
    padding: '',
    elastic: 'sugar-tong',
  },
  'double-sugar-tong-forearm': {
    segments: [hand('proximal palmar crease', short), forearm('elbow crease', past)],
    over: ['hand', 'forearm'],
    to: at('elbow crease'),
    padding: 'forearm',
    elastic: 'forearm, lower leg, foot',
  },
  'double-sugar-tong-arm': {
    segments: [bareUpperArm],
    over: ['upper arm'],
    from: at('elbow crease'),
    beyond: false,
    padding: 'arm',
    elastic: 'elbow',
  },
  'long-arm-posterior-slab': {
    segments: [hand('metacarpal heads', short), forearm('elbow crease'), upperArm('mid upper arm', past)],
    finish: '5 cm past each end',
    stockinette: '5 cm past each end',
    over: ['hand', 'forearm', 'upper arm'],
    padding: '',
    elastic: 'long arm',
  },
  'coaptation-slab': {
    segments: [bareUpperArm],
    over: ['upper arm'],
    from: at('elbow crease'),
    to: at('axilla'),
    beyond: false,
    padding: '',
    elastic: 'coaptation',
  },
  'posterior-ankle-slab': {
    segments: [foot('metatarsal heads', short), leg('fibular head')],
    over: ['foot', 'leg'],
    padding: 'leg',
    elastic: 'forearm, lower leg, foot',
  },
  'stirrup-slab': {
    segments: [foot('metatarsal heads', short), leg('fibular head')],
    over: ['foot', 'leg'],
    from: at('metatarsal heads'),
    padding: 'leg',
    elastic: 'forearm, lower leg, foot',
  },
  'posterior-knee-slab': {
    segments: [
      { ...leg('patella'), girths: [at('lateral malleolus', short), ...leg('patella').girths] },
      thigh('gluteal fold'),
    ],
    over: ['leg', 'thigh'],
    beyond: false,
    padding: 'leg',
    elastic: 'thigh',
  },
  'short-arm-cast': {
    segments: [hand('distal palmar crease'), forearm('elbow crease')],
    stockinette: 'half as long again',
    over: ['hand', 'forearm'],
    inside: halfInch,
    padding: '',
    tape: 'adult man',
  },
  'long-arm-cast': {
    segments: [hand('distal palmar crease'), forearm('elbow crease'), upperArm('axilla')],
    stockinette: '1 in past each end',
    over: ['hand', 'forearm', 'upper arm'],
    inside: generalInside,
    padding: '',
    tape: 'tape, children',
  },
  'thumb-spica-cast': {
    segments: [
      thumb('thumb distal joint'),
      hand('metacarpal heads'),
      forearm('proximal third of the forearm'),
    ],
    over: ['hand', 'forearm'],
    from: at('metacarpal heads'),
    inside: oneInch('society-video-thumb'),
    padding: 'forearm',
    tape: 'lower arm',
  },
  'short-leg-cast': {
    segments: [foot('metatarsal heads'), leg('tibial tuberosity')],
    stockinette: '10 cm past each end',
    over: ['foot', 'leg'],
    inside: halfInch,
    padding: '',
    tape: '',
  },
  'long-leg-cast': {
    segments: [foot('base of the toes'), leg('patella'), thigh('proximal third of the thigh')],
    over: ['foot', 'leg', 'thigh'],
    inside: oneInch('us-army-taskbook'),
    padding: 'leg',
    tape: '',
  },
};

const none: Choice<Length, Span<Length>> = {
  used: mm(0),
  because: 'as far as the slab or cast itself',
  published: [],
};
const noRoom: Choice<Length, Span<Length>> = {
  used: mm(0),
  because: 'the limb gives no room to measure further',
  published: paddingBeyond.published,
};
const beyondSlab: Choice<Length, Span<Length>> = {
  ...paddingBeyond,
  used: past,
  because: `the least of what is published: ${paddingBeyond.because}`,
};
const halfOver: Choice<Ratio, Span<Ratio>> = { ...paddingOverlap, used: paddingOverlap.used[0] };
/** Tape and plaster bandage: the same texts, for the same turns. */
const tapeOver: Choice<Ratio, Span<Ratio>> = {
  ...halfOver,
  because: `as for padding: ${paddingOverlap.because}`,
};
const elasticOver: Choice<Ratio, Span<Ratio>> = {
  used: percent(50),
  because: 'each turn over half the width',
  published: elasticLayers.published.map((p) => ({ ...p, value: [percent(50), percent(50)] })),
};
const unstretched: Choice<Ratio, Span<Ratio>> = {
  used: ratio(0),
  because: 'how far it is stretched was not read anywhere; unstretched takes the most bandage',
  published: [],
};

/** The narrowest of the widths that are named for a part and do not name another material. */
function widthNamed(
  published: readonly Published<Span<Length>>[],
  words: string,
  material?: Material,
): Choice<Length, Span<Length>> {
  const other = material === 'plaster' ? 'fibreglass' : 'plaster';
  const of = published.filter(
    ({ note = '' }) => material === undefined || note.includes(material) || !note.includes(other),
  );
  const named = of.find(({ note = '' }) => words !== '' && note.includes(words)) ?? of[0] ?? published[0];
  if (!named) throw new RangeError(`no width is published for ${words}`);
  const { value, note } = named;
  return {
    used: value[0],
    because: `the narrowest published for ${note ?? 'this type'}`,
    published: of,
  };
}

/** As many as lay the fewest layers wanted; the turns at the ends lie alone, so they are that many. */
function turnsFor({ used: [least], published }: Choice<Span>, overlap: Ratio) {
  const passes = Math.max(1, wholeUp(least * (1 - overlap)));
  const ends = { used: least, because: 'the fewest layers wanted, since no pass lies over them', published };
  return {
    passes: {
      used: passes,
      because: `${least} layers are wanted, and each pass lays ${1 / (1 - overlap)}`,
      published,
    },
    startTurns: ends,
    endTurns: ends,
  };
}

/** Joints with bone under thin skin, where the extra padding that sources ask for is laid. */
const bony: readonly Landmark[] = ['wrist crease', 'elbow crease', 'lateral malleolus', 'patella'];

function extraOver(type: Immobilisation, run: readonly SegmentTemplate[]): WrapTemplate['extra'] {
  const [first] = run;
  const places = [...(first?.name === 'leg' ? [first.from] : []), ...run.slice(0, -1).map((s) => s.to)];
  const turns = type.padding.extra.used[0];
  return {
    used: places.filter((place) => bony.includes(place)).map((place) => ({ ...at(place), turns })),
    because: `extra over bone under thin skin: ${type.padding.extra.because}`,
    published: type.padding.extra.published,
  };
}
const noExtra: WrapTemplate['extra'] = { used: [], because: 'none', published: [] };

function wrapsOf(type: Immobilisation, plan: Plan, material: Material): readonly WrapTemplate[] {
  const named = (over: readonly string[]) => plan.segments.filter(({ name }) => over.includes(name));
  const ends = { ...(plan.from && { from: plan.from }), ...(plan.to && { to: plan.to }) };
  const slab = type.kind === 'slab';
  const padOver = plan.padTo?.over ?? plan.over;
  // Past the far end of padding that goes further than the slab there is nothing to cover.
  const padEnds = plan.padTo ? { ...ends, to: plan.padTo.to } : ends;
  const padding: WrapTemplate = {
    layer: 'padding',
    over: padOver,
    ...padEnds,
    beyond: slab ? (plan.beyond === false ? noRoom : beyondSlab) : none,
    width: widthNamed(type.padding.widths, plan.padding),
    overlap: halfOver,
    ...turnsFor(type.padding.layers, halfOver.used),
    extra: extraOver(type, named(padOver)),
    stretch: { used: ratio(0), because: 'padding is not stretched', published: [] },
  };
  const tape: WrapTemplate = {
    layer: 'tape',
    over: plan.over,
    ...ends,
    beyond: plan.inside ?? none,
    width: widthNamed(type.widths, plan.tape ?? '', material),
    overlap: tapeOver,
    ...turnsFor(type.layers[material], tapeOver.used),
    extra: noExtra,
    stretch: { ...unstretched, because: 'none is published; unstretched takes the most tape' },
  };
  const elastic: WrapTemplate = {
    layer: 'elastic',
    over: plan.over,
    ...ends,
    beyond: none,
    width: widthNamed(elasticWidths, plan.elastic ?? ''),
    overlap: elasticOver,
    ...turnsFor(elasticLayers, elasticOver.used),
    extra: noExtra,
    stretch: unstretched,
  };
  const onThumb = (wrap: WrapTemplate, widths: readonly Published<Span<Length>>[]): WrapTemplate[] => {
    const thumb = plan.segments.find(({ name }) => name === 'thumb');
    if (!thumb) return [];
    return [
      {
        ...wrap,
        over: [thumb.name],
        from: at(thumb.from),
        to: at(thumb.to),
        beyond: none,
        width: widthNamed(widths, 'hand', wrap.layer === 'tape' ? material : undefined),
        extra: noExtra,
      },
    ];
  };
  const thrice = (wrap: WrapTemplate): WrapTemplate => {
    if (type.id !== 'thumb-spica-cast') return wrap;
    const turns = {
      used: 3,
      because: 'three turns on the thumb and three at each end',
      published: [printed<Span>([3, 3], 'society-video-thumb')],
    };
    return { ...wrap, startTurns: turns, endTurns: turns };
  };
  return [
    ...[padding, ...onThumb(padding, type.padding.widths)].map(thrice),
    ...(slab ? [elastic] : [tape, ...onThumb(tape, type.widths)]),
  ];
}

/**
 * What an order for a splint or cast starts from: where to measure, and numbers of technique as published, for a person to
 * confirm or change. It holds no girth, no length of a limb and no stock.
 *
 * @example
 * orderTemplate('volar-slab', 'plaster').wraps[0].overlap.used // 0.5
 */
export function orderTemplate(id: ImmobilisationId, material: Material): OrderTemplate {
  const type: Immobilisation = immobilisations[id];
  const plan = plans[id];
  const { segments, over, finish = 'padding folded over the edge' } = plan;
  const tube = plan.stockinette ?? '4 cm past each end';
  const ends = (['from', 'to'] as const).map((end) => at(type[end].used.landmark, type[end].used.offset[0]));
  return {
    immobilisation: id,
    segments,
    covers: { from: ends[0] as PlaceOnLimb, to: ends[1] as PlaceOnLimb },
    ...(type.kind === 'slab' && {
      slab: { over, finish: { layered: finish, prefabricated: 'own padding pulled over the edge' } },
    }),
    stockinette: [
      { what: over.join(' and '), over, rule: tube },
      ...segments
        .filter(({ name }) => name === 'thumb')
        .map(({ name }) => ({ what: name, over: [name], rule: 'as measured' as const })),
    ],
    wraps: wrapsOf(type, plan, material),
  };
}
