import { type Constant, formula, numberOf } from '../formula.ts';
import { choice, count, group, list, optional, text } from '../measure.ts';
import type { Span } from '../quantity.ts';

export const ageBand = choice('age', ['infant', 'child', 'adolescent', 'adult', 'older adult']);

const kinds = [
  'arm slab',
  'leg slab',
  'child slab',
  'fibreglass slab',
  'plaster cast',
  'fibreglass cast',
  'padding',
] as const;
/** What sources tell apart when they give a number of layers. */
export type Kind = (typeof kinds)[number];

interface Row extends Constant {
  readonly of: readonly Kind[];
  /** What the source says it of, where that is narrower or wider. */
  readonly note?: string;
}

const onArm = { of: ['arm slab'], says: 'plies of a plaster slab on an arm', unit: '1' } as const;
const onLeg = { of: ['leg slab'], says: 'plies of a plaster slab on a leg', unit: '1' } as const;
const plasterCast = { of: ['plaster cast'], says: 'layers of a plaster cast', unit: '1' } as const;
const tapeCast = { of: ['fibreglass cast'], says: 'layers of a fibreglass cast', unit: '1' } as const;
const padded = { of: ['padding'], says: 'layers of padding', unit: '1' } as const;

/** Every number of layers that was read. Where sources disagree, all stand. */
const constants = {
  armVolar: { ...onArm, printed: '8–10', source: 'baecher-2022-volar', at: 'technique', status: 'read' },
  armUlnar: { ...onArm, printed: '8–10', source: 'patel-2021-ulnar', at: 'technique', status: 'read' },
  armRadial: { ...onArm, printed: '8–10', source: 'mccullough-2016-radial', at: 'technique', status: 'read' },
  armLong: { ...onArm, printed: '8–10', source: 'wikism-longarm', status: 'read' },
  armGutter: { ...onArm, printed: '8–10', source: 'wikism-ulnar', status: 'read' },
  armAdult: {
    ...onArm,
    printed: '8–10',
    source: 'closed-reduction-casting',
    at: 'fig. 13',
    status: 'read',
    note: 'adults',
  },
  armWiki: {
    ...onArm,
    printed: '6–10',
    source: 'wikem-splinting',
    status: 'read-secondary',
    note: 'the page cites Boyd 2009, Principles',
  },
  armNotebook: { ...onArm, printed: '10', source: 'fpnotebook-casting', status: 'read', note: 'arms' },
  armPosterior: {
    ...onArm,
    printed: '10',
    source: 'jacobson-2019-longarm',
    at: 'technique',
    status: 'read',
    note: 'about 10',
  },
  armReview: { ...onArm, printed: '10', source: 'sabeh-2020-techniques', status: 'read', note: 'splints' },
  armForearm: {
    ...onArm,
    printed: '6–8',
    source: 'uk-mod-2025-plaster',
    at: 'materials',
    status: 'read',
    note: 'forearm backslab',
  },
  armEmergency: {
    ...onArm,
    printed: '10',
    source: 'pediatric-emergency-splints',
    at: 'p. 4456',
    status: 'read',
    note: 'the upper number; the lower one is lost in the scan',
  },

  legNotebook: { ...onLeg, printed: '12–15', source: 'fpnotebook-casting', status: 'read' },
  legWiki: { ...onLeg, printed: '12–15', source: 'wikem-splinting', status: 'read' },
  legEmergency: {
    ...onLeg,
    printed: '12–14',
    source: 'pediatric-emergency-splints',
    at: 'p. 4456',
    status: 'read',
    note: 'with some weight bearing',
  },
  legShort: { ...onLeg, printed: '10–15', source: 'wikism-ankle', status: 'read', note: 'lower extremity' },
  legAnkle: { ...onLeg, printed: '8–10', source: 'msd-2025-ankle', status: 'read', note: 'posterior ankle' },
  legBelowKnee: {
    ...onLeg,
    printed: '10–12',
    source: 'uk-mod-2025-plaster',
    at: 'materials',
    status: 'read',
    note: 'below the knee',
  },
  legAboveKnee: {
    ...onLeg,
    printed: '12–15',
    source: 'uk-mod-2025-plaster',
    at: 'materials',
    status: 'read',
    note: 'above the knee',
  },
  legPure: {
    ...onLeg,
    printed: '10–12',
    source: 'bandaging-leg',
    status: 'read',
    note: 'lower leg, pure plaster',
  },
  legReinforced: {
    ...onLeg,
    printed: '5–6',
    source: 'bandaging-leg',
    status: 'read',
    note: 'lower leg, reinforced or fast plaster bandage',
  },

  childSlab: {
    of: ['child slab'],
    says: 'plies of a plaster slab on a child',
    unit: '1',
    printed: '6',
    source: 'closed-reduction-casting',
    at: 'fig. 13',
    status: 'read',
  },
  anySlab: {
    of: ['arm slab', 'leg slab', 'child slab'],
    says: 'plies of a plaster slab',
    unit: '1',
    printed: '5–10',
    source: 'rphc-2019-slabs',
    status: 'read',
    note: 'any slab, by age and size',
  },

  castNavy: { ...plasterCast, printed: '4–5', source: 'us-navy-corpsman', status: 'read' },
  castArmy: { ...plasterCast, printed: '4–5', source: 'us-army-1968-plaster', status: 'read' },
  castLong: {
    ...plasterCast,
    printed: '5',
    source: 'ebmg-lower',
    status: 'read',
    note: 'long leg, with a sole slab of 4 to 5',
  },
  castShort: { ...plasterCast, printed: '4–6', source: 'wikism-shortleg', status: 'read', note: 'short leg' },
  castPhysio: { ...plasterCast, printed: '6–8', source: 'emergency-physio-plastering', status: 'read' },
  plasterReview: {
    of: ['arm slab', 'leg slab', 'plaster cast'],
    says: 'layers of plaster',
    unit: '1',
    printed: '5–12',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
    note: 'plaster 10 cm wide, any limb, splint or cast',
  },

  tapeLeg: {
    ...tapeCast,
    printed: '3–4',
    source: 'sabeh-2020-techniques',
    status: 'read',
    note: 'short leg; one finishing layer besides',
  },
  tapeArm: { ...tapeCast, printed: '2–3', source: 'short-arm-slides', status: 'read', note: 'short arm' },
  tapeShort: { ...tapeCast, printed: '2–4', source: 'wikism-shortleg', status: 'read', note: 'short leg' },
  tapeReview: {
    of: ['fibreglass slab', 'fibreglass cast'],
    says: 'layers of fibreglass',
    unit: '1',
    printed: '3–6',
    source: 'ekanayake-2023-revolution',
    at: 'table 2',
    status: 'read',
    note: '10 cm wide, splint or cast',
  },

  padWiki: { ...padded, printed: '2–3', source: 'wikem-splinting', status: 'read' },
  padReview: {
    ...padded,
    printed: '2–3',
    source: 'sabeh-2020-techniques',
    at: 'long-arm cast',
    status: 'read',
    note: 'more than 4 makes the cast loose',
  },
  padOver: {
    ...padded,
    printed: '2',
    source: 'emergency-physio-plastering',
    status: 'read',
    note: 'over stockinette',
  },
  padBare: {
    ...padded,
    printed: '2–3',
    source: 'emergency-physio-plastering',
    status: 'read',
    note: 'without stockinette',
  },
  padPass: {
    ...padded,
    printed: '2',
    source: 'ao-child-forearm',
    status: 'derived',
    note: 'the page says one pass with half overlap, which lays two',
  },
  padChild: {
    ...padded,
    printed: '3–5',
    source: 'childrens-casting',
    at: 'general principles',
    status: 'read',
    note: 'children',
  },
  padWrist: { ...padded, printed: '3', source: 'us-army-1968-plaster', status: 'read', note: 'at the wrist' },
  padLong: { ...padded, printed: '2', source: 'ebmg-lower', status: 'read', note: 'long leg' },
  padEnds: {
    ...padded,
    printed: '4',
    source: 'sabeh-2020-techniques',
    at: 'short-leg cast',
    status: 'read',
    note: 'at the two ends, forefoot and tibial tubercle',
  },
  padHeat: {
    ...padded,
    printed: '2',
    source: 'everson-2021-padding',
    status: 'abstract-only',
    note: 'a least: from two layers up the skin warmed significantly less',
  },
  padTrade: { ...padded, printed: '2–4', status: 'common-practice' },
} as const satisfies Readonly<Record<string, Row>>;

type Name = keyof typeof constants;

/** The row whose range is used where nobody orders another, and why it of all. */
const defaults: Readonly<Record<Kind, { readonly row: Name; readonly because: string }>> = {
  'arm slab': { row: 'armVolar', because: 'the number most procedure texts give for an adult arm' },
  'leg slab': {
    row: 'legNotebook',
    because:
      'the range given most often for a leg; a textbook gives 12 to 14, but texts on ankle slabs give fewer',
  },
  'child slab': { row: 'childSlab', because: 'the only number read for a child' },
  'fibreglass slab': {
    row: 'tapeReview',
    because:
      'no number for a fibreglass slab was read; the one range given for fibreglass of any shape stands in',
  },
  'plaster cast': {
    row: 'castNavy',
    because: 'two government manuals agree, and the 5 of a national guideline lies within',
  },
  'fibreglass cast': {
    row: 'tapeLeg',
    because: 'from the one peer-reviewed text on technique, which adds a finishing layer',
  },
  padding: {
    row: 'padWiki',
    because: 'given most often; two is also the least that was found to lower the heat at the skin',
  },
};

const rows = Object.entries(constants) as unknown as readonly (readonly [Name, Row])[];

/** The rows that say something of a kind, and its default. */
export const rulesOf = (kind: Kind) => ({
  ...defaults[kind],
  rows: rows.filter(([, { of }]) => of.includes(kind)),
});

const spanOf = (value: number | Span): Span => (typeof value === 'number' ? [value, value] : value);

/** What a row prints, as a span. */
export const rangeOf = (row: Name): Span => spanOf(numberOf(constants[row]));

const kindOf = (material: string, use: string, limb: string, age: string): Kind => {
  if (material === 'padding') return 'padding';
  if (material === 'fibreglass') return use === 'slab' ? 'fibreglass slab' : 'fibreglass cast';
  if (use === 'cast') return 'plaster cast';
  if (age === 'infant' || age === 'child') return 'child slab';
  return limb === 'arm' ? 'arm slab' : 'leg slab';
};

/**
 * How many layers of plaster, fibreglass or padding: every published range that applies, and the one used where nobody orders
 * another.
 *
 * @throws InputError when material, use, limb or age is not one of those listed
 * @example
 * layersWanted({ material: 'plaster', use: 'slab', limb: 'leg', age: 'adult' }).value.used.least // 12
 */
export const layersWanted = /* @__PURE__ */ formula({
  id: 'layers.layers-wanted',
  revision: 1,
  basis: 'empirical',
  inputs: {
    material: choice('material', ['plaster', 'fibreglass', 'padding']),
    use: choice('what it is laid for', ['slab', 'cast']),
    limb: choice('limb', ['arm', 'leg']),
    age: ageBand,
  },
  constants,
  output: group({
    used: group({
      least: count('fewest layers of the range used', { symbol: 'n_0' }),
      most: count('most layers of the range used', { symbol: 'n_1' }),
      constant: text('which row the range is'),
      because: text('why that row'),
    }),
    least: count('fewest layers that a source gives', { symbol: 'n_{\\mathrm{min}}' }),
    most: count('most layers that a source gives', { symbol: 'n_{\\mathrm{max}}' }),
    published: list(
      group({
        constant: text('which row'),
        source: text('its source, or that it is common practice'),
        least: count('from', { symbol: 'a' }),
        most: count('to', { symbol: 'b' }),
        note: optional(text('what the source says it of')),
      }),
      [1, 20],
    ),
  }),
  sources: [
    'baecher-2022-volar',
    'patel-2021-ulnar',
    'mccullough-2016-radial',
    'wikism-longarm',
    'wikism-ulnar',
    'closed-reduction-casting',
    'wikem-splinting',
    'fpnotebook-casting',
    'jacobson-2019-longarm',
    'sabeh-2020-techniques',
    'uk-mod-2025-plaster',
    'pediatric-emergency-splints',
    'wikism-ankle',
    'msd-2025-ankle',
    'bandaging-leg',
    'rphc-2019-slabs',
    'us-navy-corpsman',
    'us-army-1968-plaster',
    'ebmg-lower',
    'wikism-shortleg',
    'emergency-physio-plastering',
    'ekanayake-2023-revolution',
    'short-arm-slides',
    'ao-child-forearm',
    'childrens-casting',
    'everson-2021-padding',
  ],
  compute: ({ material, use, limb, age }, c) => {
    const { row, because, rows } = rulesOf(kindOf(material, use, limb, age));
    const [least, most] = spanOf(c[row]);
    const published = rows.map(([constant, { source = 'common practice', note }]) => {
      const [least, most] = spanOf(c[constant]);
      return { constant, source, least, most, ...(note !== undefined && { note }) };
    });
    return {
      used: { least, most, constant: row, because },
      least: Math.min(...published.map((p) => p.least)),
      most: Math.max(...published.map((p) => p.most)),
      published,
    };
  },
});
