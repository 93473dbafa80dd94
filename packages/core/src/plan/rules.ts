import type { Choice, Published } from '../published.ts';
import { cm, inch, type Length, mm, type Span } from '../quantity.ts';
import { stockinetteBeyond, wetShrinkage } from './catalogue/general.ts';

/** How a length is cut from a measured path. */
export interface CutRule {
  readonly times: number;
  readonly distal: Length;
  readonly proximal: Length;
  /** What is done with the edge. */
  readonly says: string;
  readonly published: readonly Published<string>[];
}

const inWords = <T>(published: readonly Published<T>[], value: string, only: (p: Published<T>) => boolean) =>
  published.filter(only).map((p): Published<string> => ({ ...p, value }));

/** Edges of a slab: of plies off a roll, then of a prefabricated slab. */
export const finishes = {
  'padding folded over the edge': {
    times: 1,
    distal: mm(5),
    proximal: mm(5),
    says: 'stockinette and padding are folded over the wet edge; 5 mm at each end for what plaster shortens by when wet',
    published: inWords(wetShrinkage.published, '5 mm at each end', ({ status }) => status === 'read'),
  },
  '5 cm past the distal end': {
    times: 1,
    distal: cm(5),
    proximal: mm(0),
    says: 'cut 5 cm past the knuckles, for a dorsal slab',
    published: [{ value: '5 cm past the knuckles', source: 'otmanage-2017-slab', status: 'read' }],
  },
  '5 cm past each end': {
    times: 1,
    distal: cm(5),
    proximal: cm(5),
    says: 'as long as the stockinette template of a long-arm slab; the plaster is cut a little shorter, by how much is not said',
    published: [
      {
        value: 'template 5 cm longer at each side',
        source: 'jacobson-2019-longarm',
        at: 'technique',
        status: 'read',
      },
    ],
  },
  '1 cm past each end': {
    times: 1,
    distal: cm(1),
    proximal: cm(1),
    says: 'the least of a general allowance of 1 to 2 cm at each end',
    published: inWords(
      wetShrinkage.published,
      '1 to 2 cm at each end',
      ({ status }) => status === 'from-memory',
    ),
  },
  '2 cm past each end': {
    times: 1,
    distal: cm(2),
    proximal: cm(2),
    says: 'the most of a general allowance of 1 to 2 cm at each end',
    published: inWords(
      wetShrinkage.published,
      '1 to 2 cm at each end',
      ({ status }) => status === 'from-memory',
    ),
  },
  'cut as measured': {
    times: 1,
    distal: mm(0),
    proximal: mm(0),
    says: 'no allowance',
    published: [{ value: 'no allowance', status: 'common-practice' }],
  },
  'own padding pulled over the edge': {
    times: 1,
    distal: mm(0),
    proximal: mm(0),
    says: 'the slab’s own padding is pulled over the raw edge; no raw fibre may stand out',
    published: [{ value: 'cut as measured', status: 'common-practice' }],
  },
  'cut longer, edge folded back': {
    times: 1,
    distal: mm(12.5),
    proximal: mm(12.5),
    says: '25 mm longer in all, shared between the ends; no raw fibre may stand out',
    published: [{ value: '25 mm longer', status: 'common-practice' }],
  },
  'core trimmed back': {
    times: 1,
    distal: mm(0),
    proximal: mm(0),
    says: 'the core is trimmed back 6 mm inside its padding at each end; no raw fibre may stand out',
    published: [{ value: 'core trimmed back 6 mm', status: 'common-practice' }],
  },
} as const satisfies Readonly<Record<string, CutRule>>;
export type FinishId = keyof typeof finishes;

const past = (each: Length, says: string) => ({
  times: 1,
  distal: each,
  proximal: each,
  says,
});
/** What is published of one length at each end: that length alone, or as an end of a range, which is then told. */
const beyondBy = (each: Length, value: string, range = value) => [
  ...inWords(stockinetteBeyond.published, value, ({ value: [a, b] }) => a === each && b === each),
  ...inWords(
    stockinetteBeyond.published,
    range,
    ({ value: [a, b] }) => a !== b && (a === each || b === each),
  ),
];

/** Stockinette. Sources disagree widely; each rule is one of theirs. */
export const stockinetteRules = {
  'half as long again': {
    times: 1.5,
    distal: mm(0),
    proximal: mm(0),
    says: 'one and a half times the path',
    published: [
      { value: '1.5 times the plaster', source: 'bandaging-cast', status: 'read' },
      { value: 'slab length plus half', status: 'common-practice' },
    ],
  },
  '10 cm past each end': {
    ...past(cm(10), '10 cm past each end'),
    published: beyondBy(cm(10), '10 cm past each end', '5 to 10 cm past each end'),
  },
  '6 cm past each end': {
    ...past(cm(6), '3 cm past padding that reaches 3 cm past the plaster'),
    published: beyondBy(cm(6), '6 cm past each end', '4 to 6 cm past each end'),
  },
  '5 cm past each end': {
    ...past(cm(5), '5 cm past each end'),
    published: [
      ...beyondBy(cm(5), '5 cm past each end', '5 to 10 cm past each end'),
      {
        value: '5 cm at each side, as a template for a long-arm slab',
        source: 'jacobson-2019-longarm',
        at: 'technique',
        status: 'read',
      },
    ],
  },
  '4 cm past each end': {
    ...past(cm(4), '2 cm past padding that reaches 2 cm past the plaster'),
    published: beyondBy(cm(4), '4 cm past each end', '4 to 6 cm past each end'),
  },
  '3 in past each end': {
    ...past(inch(3), '3 in past each end'),
    published: beyondBy(inch(3), '3 in past each end', '2 to 3 in past each end'),
  },
  '2 in past each end': {
    ...past(inch(2), '2 in past each end'),
    published: beyondBy(inch(2), '2 in past each end', '2 to 3 in past each end'),
  },
  '1 in past each end': {
    ...past(inch(1), '1 in past each end'),
    published: beyondBy(inch(1), '1 in past each end'),
  },
  'as measured': {
    ...past(mm(0), 'no allowance'),
    published: [{ value: 'no allowance', status: 'common-practice' }],
  },
} as const satisfies Readonly<Record<string, CutRule>>;
export type StockinetteRuleId = keyof typeof stockinetteRules;

/** Layers of elastic over a slab. */
export const elasticLayers: Choice<Span> = {
  used: [1, 6],
  because: 'no number is published; half-width overlap lays two, and end turns add to them',
  published: [
    { value: [2, 2], source: 'msd-2025-ankle', status: 'derived', note: 'each turn over half the width' },
  ],
};

/** Padding past which a cast is loose. Extra over prominences is not counted against it. */
export const paddingLimit: Choice<number> = {
  used: 4,
  because: 'the one published limit, and common practice',
  published: [
    { value: 4, source: 'sabeh-2020-techniques', at: 'long-arm cast', status: 'read' },
    { value: 4, status: 'common-practice' },
  ],
};
