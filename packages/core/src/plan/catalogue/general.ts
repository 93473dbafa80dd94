import { type Kind, rangeOf, rulesOf } from '../../layers/layers-wanted.ts';
import type { Choice, Published } from '../../published.ts';
import {
  type Angle,
  cm,
  degrees,
  inch,
  type Length,
  mm,
  percent,
  type Ratio,
  ratio,
  type Span,
} from '../../quantity.ts';
import type { Immobilisation, Joint, Landmark, Place } from '../immobilisation.ts';

/** A landmark, or a way from it: positive is proximal. */
export const place = (landmark: Landmark, least: Length = mm(0), most: Length = least): Place => ({
  landmark,
  offset: [least, most],
});

/** A general rule where nothing was read for the type itself. */
export const standIn = <T>(rule: Choice<T>, what: string): Choice<T> => ({
  ...rule,
  because: `none was read for this type, so the general rule for ${what} stands in: ${rule.because}`,
});

/** A bone under thin skin. Several of the texts read list them; which text names which was not kept. */
export const prominence = (value: string): Published<string> => ({ value, status: 'common-practice' });

export const slabShare: Choice<Span<Ratio>> = {
  used: [percent(50), percent(50)],
  because: 'a textbook and a surgical reference both say half; the others run from a third to seven tenths',
  published: [
    {
      value: [percent(50), percent(50)],
      source: 'pediatric-emergency-splints',
      at: 'p. 4456',
      status: 'read',
      note: 'about half, and never overlapping itself',
    },
    {
      value: [percent(50), percent(50)],
      source: 'ao-child-tibia',
      status: 'read',
      note: 'about half; posterior slabs of the leg in children',
    },
    {
      value: [ratio(0), ratio(2 / 3)],
      source: 'rphc-2019-slabs',
      status: 'read',
      note: 'a most; no least is given',
    },
    { value: [percent(60), percent(70)], source: 'emergency-physio-plastering', status: 'read' },
    {
      value: [percent(33), percent(40)],
      source: 'wikem-splinting',
      status: 'derived',
      note: 'the page says slightly more than the diameter, which is 1/pi = 0.318 of the girth; the range is our reading of slightly',
    },
  ],
};

export const wholeGirth: Choice<Span<Ratio>> = {
  used: [ratio(1), ratio(1)],
  because: 'a cast goes all the way round',
  published: [],
};

/** Numbers of layers, from the formula that keeps them. */
const layersOf = (kind: Kind): Choice<Span> => {
  const { row, because, rows } = rulesOf(kind);
  return {
    used: rangeOf(row),
    because,
    published: rows.map(([name, { printed, unit, says, of, ...rest }]) => ({
      value: rangeOf(name),
      ...rest,
    })),
  };
};

export const upperLimbSlab = /* @__PURE__ */ layersOf('arm slab');
export const lowerLimbSlab = /* @__PURE__ */ layersOf('leg slab');
export const childSlab = /* @__PURE__ */ layersOf('child slab');
export const fibreglassSlab = /* @__PURE__ */ layersOf('fibreglass slab');
export const circularPlaster = /* @__PURE__ */ layersOf('plaster cast');
export const circularFibreglass = /* @__PURE__ */ layersOf('fibreglass cast');
export const paddingLayers = /* @__PURE__ */ layersOf('padding');

export const extraPadding: Choice<Span> = {
  used: [2, 3],
  because: 'the only number read for bones in general',
  published: [
    {
      value: [2, 3],
      source: 'wikem-splinting',
      at: 'general procedure',
      status: 'read',
      note: 'on top of the padding',
    },
  ],
};

export const paddingOverlap: Choice<Span<Ratio>> = {
  used: [percent(50), percent(50)],
  because: 'nearly every text says half the width',
  published: [
    {
      value: [percent(50), percent(50)],
      source: 'pediatric-emergency-splints',
      at: 'p. 4456',
      status: 'read',
    },
    { value: [percent(50), percent(50)], source: 'fpnotebook-casting', status: 'read' },
    { value: [percent(50), percent(50)], source: 'sabeh-2020-techniques', status: 'read' },
    { value: [percent(50), percent(50)], source: 'brock-2001-shortleg', status: 'read' },
    {
      value: [ratio(1 / 3), ratio(1 / 3)],
      source: 'us-army-1968-plaster',
      at: 'short-arm cast',
      status: 'read',
    },
    { value: [percent(50), percent(50)], status: 'common-practice' },
  ],
};

/** How far padding reaches beyond each end of the plaster. */
export const paddingBeyond: Choice<Span<Length>> = {
  used: [cm(2), cm(3)],
  because: 'three procedure texts agree; a society manual gives the same figures in inches',
  published: [
    { value: [cm(2), cm(3)], source: 'baecher-2022-volar', status: 'read' },
    { value: [cm(2), cm(3)], source: 'patel-2021-ulnar', status: 'read' },
    { value: [cm(2), cm(3)], source: 'mccullough-2016-radial', status: 'read' },
    { value: [cm(2), cm(3)], source: 'fpnotebook-casting', status: 'read' },
    { value: [inch(2), inch(3)], source: 'society-casting', at: 'manual, p. 156', status: 'read' },
  ],
};

/** How far stockinette reaches beyond each end of the plaster. */
export const stockinetteBeyond: Choice<Span<Length>> = {
  used: [cm(4), cm(6)],
  because:
    'three procedure texts lay padding 2 to 3 cm beyond the plaster and stockinette as much beyond the padding',
  published: [
    {
      value: [cm(4), cm(6)],
      source: 'baecher-2022-volar',
      status: 'derived',
      note: 'twice 2 to 3 cm; the ulnar and radial gutter pages say the same',
    },
    { value: [cm(10), cm(10)], source: 'fpnotebook-casting', status: 'read' },
    { value: [cm(10), cm(10)], source: 'boyd-2009-principles', status: 'from-memory' },
    { value: [cm(5), cm(5)], source: 'uk-mod-2025-plaster', at: 'materials', status: 'read' },
    { value: [inch(2), inch(2)], source: 'wikem-splinting', status: 'read' },
    { value: [inch(2), inch(2)], source: 'wikism-thumb', status: 'read' },
    { value: [inch(2), inch(3)], source: 'society-casting', status: 'read' },
    { value: [cm(5), cm(10)], source: 'wikism-shortleg', status: 'read', note: 'short-leg cast' },
    {
      value: [inch(1), inch(1)],
      source: 'sabeh-2020-techniques',
      status: 'read',
      note: 'long-arm cast, children',
    },
  ],
};

/** What a slab is cut longer by at each end, since it shortens when wet. */
export const wetShrinkage: Choice<Span<Length>> = {
  used: [mm(5), mm(5)],
  because: 'three procedure texts agree',
  published: [
    { value: [mm(5), mm(5)], source: 'baecher-2022-volar', at: 'technique', status: 'read' },
    { value: [mm(5), mm(5)], source: 'patel-2021-ulnar', at: 'technique', status: 'read' },
    { value: [mm(5), mm(5)], source: 'mccullough-2016-radial', at: 'technique', status: 'read' },
    { value: [cm(1), cm(2)], source: 'boyd-2009-principles', status: 'from-memory' },
  ],
};

export const armWidths: readonly Published<Span<Length>>[] = [
  {
    value: [cm(7.5), cm(7.5)],
    source: 'queens-casts',
    at: 'step 2',
    status: 'read',
    note: 'plaster or fibreglass',
  },
  { value: [cm(5), cm(5)], source: 'rphc-2019-slabs', status: 'read', note: 'plaster, hand' },
  { value: [cm(7.5), cm(7.5)], source: 'rphc-2019-slabs', status: 'read', note: 'plaster, lower arm' },
  { value: [cm(10), cm(10)], source: 'rphc-2019-slabs', status: 'read', note: 'plaster, upper arm' },
  {
    value: [inch(2), inch(4)],
    source: 'fpnotebook-casting',
    at: 'preparation',
    status: 'read',
    note: 'fibreglass',
  },
  {
    value: [inch(2), inch(2)],
    source: 'fpnotebook-casting',
    at: 'preparation',
    status: 'read',
    note: 'fibreglass, hand',
  },
];

export const legWidths: readonly Published<Span<Length>>[] = [
  { value: [cm(10), cm(15)], source: 'queens-casts', at: 'step 2', status: 'read', note: 'lower leg' },
  { value: [cm(20), cm(20)], source: 'queens-casts', at: 'step 2', status: 'read', note: 'thigh' },
  { value: [cm(10), cm(10)], source: 'rphc-2019-slabs', status: 'read', note: 'plaster' },
  {
    value: [inch(3), inch(3)],
    source: 'fpnotebook-casting',
    at: 'preparation',
    status: 'read',
    note: 'fibreglass, foot',
  },
  {
    value: [inch(4), inch(6)],
    source: 'fpnotebook-casting',
    at: 'preparation',
    status: 'read',
    note: 'fibreglass, leg',
  },
];

export const armPaddingWidths: readonly Published<Span<Length>>[] = [
  { value: [cm(5), cm(5)], source: 'habrat-2024-ulnar', status: 'read', note: 'hand' },
  { value: [cm(7.5), cm(7.5)], source: 'habrat-2024-volar', status: 'read', note: 'forearm' },
  {
    value: [inch(2), inch(2)],
    source: 'fpnotebook-casting',
    at: 'preparation',
    status: 'read',
    note: 'hand',
  },
  { value: [inch(2), inch(4)], source: 'fpnotebook-casting', at: 'preparation', status: 'read', note: 'arm' },
  { value: [mm(50), mm(50)], status: 'common-practice' },
  { value: [mm(75), mm(75)], status: 'common-practice' },
];

export const legPaddingWidths: readonly Published<Span<Length>>[] = [
  {
    value: [inch(3), inch(3)],
    source: 'fpnotebook-casting',
    at: 'preparation',
    status: 'read',
    note: 'foot',
  },
  { value: [inch(4), inch(6)], source: 'fpnotebook-casting', at: 'preparation', status: 'read', note: 'leg' },
];

/** Width of the elastic bandage over a slab. */
export const elasticWidths: readonly Published<Span<Length>>[] = [
  { value: [inch(2), inch(2)], source: 'us-army-bandaging', status: 'read', note: 'hand' },
  {
    value: [inch(3), inch(3)],
    source: 'us-army-bandaging',
    status: 'read',
    note: 'forearm, lower leg, foot',
  },
  { value: [inch(4), inch(6)], source: 'us-army-bandaging', status: 'read', note: 'thigh' },
  { value: [cm(5), cm(5)], source: 'habrat-2024-ulnar', status: 'read', note: 'ulnar gutter' },
  { value: [cm(7.5), cm(10)], source: 'habrat-2024-volar', status: 'read', note: 'volar' },
  { value: [cm(7.5), cm(10)], source: 'habrat-2024-sugartong', status: 'read', note: 'sugar-tong' },
  { value: [cm(10), cm(10)], source: 'habrat-2024-longarm', status: 'read', note: 'long arm' },
  { value: [cm(7.5), cm(10)], source: 'medscape-elbow', status: 'read', note: 'elbow' },
  { value: [inch(4), inch(4)], source: 'xiong-2021-coaptation', status: 'read', note: 'coaptation' },
];

type Joints = Readonly<Partial<Record<Joint, Choice<Span<Angle>>>>>;

/** The hand's position of function: the default where the order names no other. */
export const positionOfFunction: Joints = {
  'wrist extension': {
    used: [degrees(25), degrees(25)],
    because: 'the only page read that gives angles',
    published: [{ value: [degrees(25), degrees(25)], source: 'fpnotebook-position', status: 'read' }],
  },
  'knuckle (MCP) flexion': {
    used: [degrees(45), degrees(70)],
    because: 'the only page read that gives angles; it names 60 within the range',
    published: [
      { value: [degrees(45), degrees(70)], source: 'fpnotebook-position', status: 'read', note: '60 named' },
    ],
  },
  'finger (IP) flexion': {
    used: [degrees(5), degrees(10)],
    because: 'the only page read that gives angles',
    published: [
      { value: [degrees(5), degrees(10)], source: 'fpnotebook-position', status: 'read' },
      {
        value: [degrees(10), degrees(10)],
        source: 'fpnotebook-position',
        status: 'read',
        note: 'another version of the page',
      },
    ],
  },
};

const bothNotes: Immobilisation['notes'] = [
  {
    value: 'a joint moved after the padding is on wrinkles it in the crease',
    source: 'fpnotebook-casting',
    status: 'read',
  },
  {
    value: 'wrinkles are pressure points: stretch or part-tear the padding, or wrap again',
    source: 'pediatric-emergency-splints',
    at: 'p. 4456',
    status: 'read',
  },
  { value: 'wrinkles are pressure points', status: 'common-practice' },
];

/** True of every slab. */
export const slabNotes: Immobilisation['notes'] = [
  ...bothNotes,
  { value: 'the length is measured on the uninjured side', source: 'wikem-splinting', status: 'read' },
  { value: 'the slab is a little shorter than the padding', source: 'msd-2025-ankle', status: 'read' },
  {
    value:
      'too long a slab is cut, not folded back: 10 to 15 layers folded make a spot of 20 to 30, which runs hotter',
    source: 'childrens-immobilization',
    at: 'passage on heat',
    status: 'read',
  },
];

/** True of every cast. */
export const castNotes: Immobilisation['notes'] = [
  ...bothNotes,
  {
    value:
      'a splint comes first while the limb swells: a cast usually follows after 2 to 14 days, unless there is little swelling',
    source: 'stulberg-shortarm',
    at: 'introduction',
    status: 'read',
  },
  { value: 'no cast all the way round early on', source: 'uk-mod-2025-plaster', at: 'scope', status: 'read' },
  {
    value: 'the tape is as wide as the palm for an arm, as the foot for a leg',
    source: 'emergency-physio-plastering',
    status: 'read',
  },
  { value: 'no elastic tubular bandage underneath', source: 'emergency-physio-plastering', status: 'read' },
  {
    value: 'the same number of layers bears less on a thicker limb',
    source: 'sprenkle-2023-core',
    status: 'abstract-only',
    note: 'tubes of 60 and 100 mm',
  },
];
