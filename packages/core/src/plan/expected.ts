import type { Caution } from '../caution.ts';
import { type Length, mm, type Span, years } from '../quantity.ts';
import { expectedSegment, type Measured } from '../segment/expected-segment.ts';
import type { Landmark } from './immobilisation.ts';
import type { Order } from './order.ts';

/** A girth of the order beside what is usual for the person. */
export interface Expected {
  readonly segment: string;
  readonly landmark: Landmark;
  readonly offset: Length;
  readonly girth: Length;
  readonly measure: Measured;
  readonly answer: ReturnType<typeof expectedSegment>;
}

interface Site {
  readonly at: readonly Landmark[];
  readonly offset: Span;
  readonly measure: Measured;
}

const beside = [mm(-10), mm(10)] as const;

/**
 * Where a girth of an order is the girth of a survey: the same place, as near as a tape is laid. The wrist at the styloid of
 * the radius, the hand round the knuckles, the ball of the foot over the heads of the metatarsals, the thigh at its fold, the
 * leg at its thinnest, which is a few centimetres above the ankle bones.
 *
 * Not compared: a calf or forearm at a distance from a joint, since the surveys took the thickest place, wherever it was;
 * the ulnar styloid, where the wrist is thicker; and the lengths of segments, which here run from crease to crease or from
 * ankle bone to knee cap, and in the surveys between points of bone that lie elsewhere.
 */
const sites: readonly Site[] = [
  { at: ['wrist crease', 'radial styloid'], offset: beside, measure: 'wrist girth' },
  { at: ['knuckles', 'metacarpal heads'], offset: beside, measure: 'hand girth' },
  { at: ['metatarsal heads'], offset: beside, measure: 'ball-of-foot girth' },
  { at: ['lateral malleolus', 'medial malleolus'], offset: [mm(20), mm(60)], measure: 'ankle girth' },
  { at: ['gluteal fold'], offset: beside, measure: 'thigh girth' },
];

/** Age says only which survey is used: any age within the band says the same. */
const ages = {
  infant: years(1),
  child: years(8),
  adolescent: years(15),
  adult: years(40),
  'older adult': years(70),
} as const satisfies Record<Order['person']['ageBand'], unknown>;

/** The girths of an order that a survey knows, each beside what is usual; none without a stature. */
export function expectedIn({ person, limb }: Order): readonly Expected[] {
  const { ageBand, sex = 'unstated', stature, weight } = person;
  if (stature === undefined) return [];
  return limb.flatMap(({ name, stations }) =>
    stations.flatMap(({ landmark, offset, girth }): Expected[] => {
      const site = sites.find(
        ({ at, offset: [least, most] }) => at.includes(landmark) && offset >= least && offset <= most,
      );
      if (!site) return [];
      const { measure } = site;
      const answer = expectedSegment({
        measure,
        sex,
        age: ages[ageBand],
        stature,
        ...(weight !== undefined && { weight }),
        measured: girth,
      });
      return [{ segment: name, landmark, offset, girth, measure, answer }];
    }),
  );
}

/** What the surveys make of the girths, each with the place it is said of. */
export const ofExpected = (expected: readonly Expected[]): Caution[] =>
  expected.flatMap(({ segment, landmark, answer }) =>
    answer.cautions.map((c) => ({ ...c, because: `${segment}, at the ${landmark}: ${c.because}` })),
  );
