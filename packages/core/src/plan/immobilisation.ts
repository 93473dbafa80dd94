import type { Choice, Published } from '../published.ts';
import type { Angle, Length, Ratio, Span } from '../quantity.ts';

/** A place on the limb that a finger finds. */
export const landmarks = [
  'thumb tip',
  'thumb distal joint',
  'base of the thumb',
  'fingertips',
  'little-finger distal joint',
  'index-finger distal joint',
  'mid distal phalanx of the ring and little fingers',
  'mid distal phalanx of the thumb',
  'knuckles',
  'metacarpal heads',
  'distal palmar crease',
  'proximal palmar crease',
  'wrist crease',
  'ulnar styloid',
  'radial styloid',
  'mid forearm',
  'proximal third of the forearm',
  'elbow crease',
  'olecranon',
  'mid upper arm',
  'deltoid insertion',
  'axilla',
  'acromion',
  'toe tips',
  'base of the toes',
  'metatarsal heads',
  'heel',
  'medial malleolus',
  'lateral malleolus',
  'mid calf',
  'tibial tuberosity',
  'fibular head',
  'patella',
  'proximal third of the thigh',
  'greater trochanter',
  'gluteal fold',
  'groin',
] as const;
/** The name of such a place. */
export type Landmark = (typeof landmarks)[number];

/** A landmark and how far from it, as a range: positive is proximal, nearer the trunk. */
export interface Place {
  readonly landmark: Landmark;
  readonly offset: Span<Length>;
}

/** An angle that the treating clinician's order may overrule; extension and flexion as the name says. */
export type Joint =
  | 'wrist extension'
  | 'knuckle (MCP) flexion'
  | 'finger (IP) flexion'
  | 'elbow flexion'
  | 'knee flexion'
  | 'ankle, foot to shin';

/** One kind of splint or cast as the literature describes it: what a plan is drawn from. */
export interface Immobilisation<Id extends string = string> {
  readonly id: Id;
  readonly name: string;
  /** A slab covers part of the girth and is held by an elastic bandage; a cast goes all the way round. */
  readonly kind: 'slab' | 'cast';
  readonly limb: 'arm' | 'leg';
  /** The distal end. */
  readonly from: Choice<Place>;
  /** The proximal end, or the other end of a slab that goes round a joint and back. */
  readonly to: Choice<Place>;
  /** The way a slab's length is measured between the two. */
  readonly path: string;
  /** What must stay free to move, and what must stay in sight or clear of pressure. */
  readonly free: readonly Published<string>[];
  readonly joints: Readonly<Partial<Record<Joint, Choice<Span<Angle>>>>>;
  /** Posture that no single angle says, such as the thumb's. */
  readonly posture: readonly Published<string>[];
  /** Share of the girth that a slab covers; a cast's is 1. */
  readonly share: Choice<Span<Ratio>>;
  /** Widths of slab or tape that sources name for this type. */
  readonly widths: readonly Published<Span<Length>>[];
  readonly layers: {
    readonly plaster: Choice<Span>;
    readonly fibreglass: Choice<Span>;
  };
  readonly padding: {
    readonly layers: Choice<Span>;
    /** Bones under thin skin that get more. */
    readonly prominences: readonly Published<string>[];
    readonly extra: Choice<Span>;
    readonly widths: readonly Published<Span<Length>>[];
  };
  /** What this type does not do, or where it goes wrong. */
  readonly notes: readonly Published<string>[];
}
