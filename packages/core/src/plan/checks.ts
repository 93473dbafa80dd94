import type { Published } from '../published.ts';
import type { Immobilisation } from './immobilisation.ts';

/** What a person looks at or asks, in the order of the work. Local protocol decides. */
export interface Checks {
  readonly before: readonly Published<string>[];
  readonly whileSetting: readonly Published<string>[];
  readonly after: readonly Published<string>[];
  /** When the treating clinician is told at once. */
  readonly call: readonly Published<string>[];
  /** What the person goes home with. */
  readonly tell: readonly Published<string>[];
}

const practice = (value: string): Published<string> => ({ value, status: 'common-practice' });
const read = (value: string, source: string, note?: string): Published<string> => ({
  value,
  source,
  status: 'read',
  ...(note !== undefined && { note }),
});

const before = [
  practice('order, side and person match'),
  practice('rings and bracelets are off; the skin is looked at'),
  read('circulation, movement and sensation are checked and written down', 'fpnotebook-casting'),
  read('the length is measured on the uninjured side', 'wikem-splinting'),
  read('joints are in position before padding goes on, and stay there', 'fpnotebook-casting'),
];

const whileSetting = [
  practice('hold still until it has set; mould with the palms, not the fingertips'),
  read('not on a pillow while it gives off heat', 'lavalette-1982-setting', 'abstract'),
  practice('not covered while it gives off heat'),
  read('on heat that hurts, or pressure: take it off at once', 'us-army-taskbook'),
].map((check) =>
  check.source === 'lavalette-1982-setting' ? { ...check, status: 'abstract-only' as const } : check,
);

const after = {
  all: [
    read('colour, warmth, swelling and pain; both sides compared', 'mcconnell-2002-neurovascular'),
    read('nail beds refill within 3 s', 'mcconnell-2002-neurovascular'),
    practice('sensation in each digit; every free joint moves'),
    read('one or two fingertips fit at each end', 'mcconnell-2002-neurovascular'),
    practice('no raw edge, no wrinkle felt through it'),
    read('all this again every 1 to 2 h for the first 24 h', 'mcconnell-2002-neurovascular'),
  ],
  arm: [practice('the elbow bends to 90° where it is left free')],
  leg: [practice('the toes move; nothing presses below the head of the fibula')],
  child: [read('for children one text says every 4 h for the first 48 h', 'nursekey-casts')],
  feared: [
    read(
      'where compartment syndrome is feared: hourly for 24 h, then 4-hourly to 48 h, hourly again on suspicion',
      'rcn-neurovascular',
    ),
  ],
};

const call = [
  practice('nail beds slow to refill'),
  read('pain out of proportion, or on passive movement of fingers or toes', 'boa-2014-compartment'),
  read('digits blue, white, cold or swelling; numbness', 'nhs-miltonkeynes-cast'),
  read('a burning spot, a blister-like pain', 'rphc-2019-slabs'),
  {
    value:
      'until the clinician comes, where compartment syndrome is suspected: limb at heart level, not raised',
    source: 'donaldson-2014-compartment',
    status: 'abstract-only',
    note: 'a nursing chart agrees; one teaching note says no elevation',
  },
] as const satisfies readonly Published<string>[];

const callForChild: readonly Published<string>[] = [
  {
    value: 'a child who grows agitated, anxious, or needs more pain relief',
    source: 'sabeh-2020-techniques',
    at: 'web page 8',
    status: 'read-secondary',
    note: 'citing Bae',
  },
];

const tell = [
  read('keep it raised above the heart for the first 24 to 48 h, unless told otherwise', 'fractureinfo-cast'),
  read('do not cover it or dry it with heat', 'nhs-miltonkeynes-cast'),
  practice('come back, or call, for any of the signs above, or if it is wet, soft, cracked, loose or smells'),
];

/** The checks for one kind of immobilisation, and for a child. */
export const checksFor = ({ limb }: Immobilisation, child: boolean): Checks => ({
  before,
  whileSetting,
  after: [...after.all, ...(child ? after.child : []), ...after.feared, ...after[limb]],
  call: child ? [...call, ...callForChild] : call,
  tell,
});
