import type { AnyFormula, Constant } from 'swathe';
import { catalog } from 'swathe/catalog';
import { choicesOf, rules, standsIn, types } from './catalogue.ts';
import { rowsOf } from './checks.ts';
import { formulaHref, href } from './href.ts';
import { unitWord } from './show.ts';
import { sources } from './sources.ts';

/** What nobody could tell this project, or what it has not found out. */
interface Gap {
  readonly says: string;
  /** Ids of the formulas that it touches. */
  readonly of: readonly string[];
}

export const gaps: readonly { readonly id: string; readonly title: string; readonly gaps: readonly Gap[] }[] =
  [
    {
      id: 'people',
      title: 'People',
      gaps: [
        {
          says: 'Nothing here has been tried on patients. The checks hold the formulas against published values, not against care.',
          of: [],
        },
        {
          says: 'No survey of swollen or injured limbs was found: the girths that are expected are those of well people.',
          of: ['segment.expected-segment'],
        },
        {
          says: 'The adults surveyed are soldiers of 17 to 58 years, the children are those of 1977. Below two years no spread of sizes is published, and above 58 only the adults’ line is drawn on.',
          of: ['segment.expected-segment', 'segment.stature-for-age'],
        },
        {
          says: 'The soldiers were not measured round the elbow or the knee, and their forearms and upper arms were flexed. A relaxed forearm is found by a share taken from two other groups.',
          of: ['segment.expected-segment'],
        },
        {
          says: 'Children and old people are said to be hurt by less heat than others. By how much was not to be found, so a caution is given and no temperature is shifted.',
          of: ['setting.heat-caution', 'setting.temperature-history'],
        },
        {
          says: 'How exactly hands keep an overlap, a stretch or a number of turns is not published. Everything is worked for a bandage laid as planned.',
          of: ['coverage.helix', 'coverage.layer-map', 'coverage.overlap-for'],
        },
      ],
    },
    {
      id: 'materials',
      title: 'Materials',
      gaps: [
        {
          says: 'How much plaster a square metre of bandage carries, and how thick a wet ply is, could not be read anywhere. Both are assumed from common rolls: weigh your own.',
          of: ['layers.cast-mass', 'setting.temperature-history'],
        },
        {
          says: 'How much water a squeezed bandage keeps, how much of it dries off as it sets, and how well a wet cast conducts heat are assumed.',
          of: ['layers.cast-mass', 'setting.temperature-history', 'setting.temperature-band'],
        },
        {
          says: 'How fast the plaster of a bandage takes up water is not settled: several laws fit the measurements of others equally well. How far warmth speeds it is assumed: one note finds that it hardly does.',
          of: ['setting.temperature-history'],
        },
        {
          says: 'No modulus, no strength and no thickness of a ply of plaster or fibreglass could be read. So stiffness is given as ratios, and nothing here says whether a splint or cast is strong enough.',
          of: ['layers.slab-stiffness', 'layers.curved-slab', 'layers.added-plies'],
        },
        {
          says: 'National standards set limits for mass, plaster content and setting time of plaster bandages. They exist and were not read.',
          of: ['layers.cast-mass', 'setting.set-times'],
        },
        {
          says: 'By how much warmer or colder water moves a bandage’s setting time is not published as numbers; only the direction is.',
          of: ['setting.set-times'],
        },
        {
          says: 'How many rolls are really used, and how many are wasted, is not known: no count from practice was found.',
          of: ['roll.take-off', 'roll.cutting-plan'],
        },
        {
          says: 'Widths of rolls were read, most of their lengths were not. A count of rolls means little without them, so the length has to be given.',
          of: ['roll.take-off'],
        },
        {
          says: 'No number of layers for a fibreglass slab was read. A range for fibreglass of any shape stands in.',
          of: ['layers.layers-wanted'],
        },
      ],
    },
    {
      id: 'heat',
      title: 'Heat',
      gaps: [
        {
          says: 'The model of heat was never held against temperatures on a patient’s skin. Of the hottest published experiments it falls short by up to 8 K, and its band holds only doubt about its inputs, not its own error.',
          of: ['setting.temperature-history', 'setting.temperature-band'],
        },
        {
          says: 'Of the experiments on casts only abstracts or parts were to be had, and none of their tables. Plies, padding, room and what lay under the cast had to be guessed for many check rows.',
          of: ['setting.temperature-history', 'setting.temperature-band'],
        },
        {
          says: 'One experiment concludes that tape laid over plaster some minutes later leaves it less hot than tape laid at once. The model finds the contrary; the caution follows the experiment.',
          of: ['setting.temperature-history', 'setting.heat-caution'],
        },
        {
          says: 'Skin’s own numbers are second-hand and differ between sources. The old measurements behind the laws of burning were seen only as others quote them, and of the standards on hot surfaces no table was read.',
          of: ['setting.temperature-history', 'setting.injury-integral', 'setting.contact-time'],
        },
        {
          says: 'The heat that a resin tape gives as it hardens is known only within a factor of more than two.',
          of: ['setting.heat-caution', 'setting.temperature-history'],
        },
        {
          says: 'Laws of burning differ from each other three- to sevenfold just where it matters. That is why no time to a burn is given.',
          of: ['setting.injury-integral', 'setting.contact-time'],
        },
        {
          says: 'After the first hour, over bone without padding, at edges, on fingers and toes, and under blisters or on badly supplied skin, the model does not hold.',
          of: ['setting.temperature-history'],
        },
      ],
    },
    {
      id: 'pressure',
      title: 'Pressure',
      gaps: [
        {
          says: 'Published comparisons found measured pressures far from the law. No better rule was found that needs no measurement on the limb.',
          of: ['pressure.under-bandage'],
        },
        {
          says: 'From what pressure harm begins is not known well enough to draw a line here. Nor is it worked out how swelling raises the pressure in a stiff cast.',
          of: ['pressure.under-bandage'],
        },
      ],
    },
    {
      id: 'technique',
      title: 'Technique',
      gaps: [
        {
          says: 'Numbers of layers, lengths added and overlaps are custom; hardly any was tried against another. Many texts copy each other, and how far is not known.',
          of: ['layers.layers-wanted'],
        },
        {
          says: 'Two well-known review articles of 2009 and a humanitarian organisation’s field manual were not to be had in full; only their abstracts, contents pages or tables were read.',
          of: [],
        },
        {
          says: 'A soft pillow keeps a wet cast from being dented, and keeps its heat in. When the one begins to matter more than the other is not published.',
          of: ['setting.set-times', 'setting.heat-caution'],
        },
      ],
    },
  ];

/** A value and where it stands. */
export interface Weak {
  readonly says: string;
  readonly where: string;
  readonly to: string;
}

const constantsBy = (status: string): readonly Weak[] =>
  catalog.flatMap(({ id, constants = {} }) =>
    Object.values(constants as Record<string, Constant>)
      .filter((constant) => constant.status === status)
      .map(({ says, printed, unit }) => ({
        says: `${says}: ${printed} ${unitWord(unit)}`.trim(),
        where: id,
        to: `${formulaHref(id)}#constants`,
      })),
  );

const rowsBy = (status: string): readonly Weak[] =>
  catalog.flatMap(({ id }: AnyFormula) =>
    rowsOf(id)
      .filter((row) => row.status === status)
      .map((row) => ({
        says: [`check row ${row.id}`, row.printed && `printed ${row.printed}`, row.note]
          .filter(Boolean)
          .join(': '),
        where: id,
        to: `${formulaHref(id)}#${row.id}`,
      })),
  );

const rulesBy = (status: string): readonly Weak[] =>
  rules.flatMap(({ id, title, published }) =>
    published
      .filter((one) => one.status === status)
      .map(({ says }) => ({
        says: `${title}: ${says}`,
        where: 'splints and casts',
        to: href(`/disagreements/#${id}`),
      })),
  );

/** Everything that rests on a status. */
export const by = (status: string): readonly Weak[] => [
  ...constantsBy(status),
  ...rulesBy(status),
  ...rowsBy(status),
];

/** Choices of the catalogue for which a type has no value of its own. */
export const standIns: readonly {
  readonly name: string;
  readonly id: string;
  readonly lacks: readonly string[];
}[] = types
  .map((type) => ({
    name: type.name,
    id: type.id,
    lacks: choicesOf(type)
      .filter(standsIn)
      .map(({ title }) => title.toLowerCase()),
  }))
  .filter(({ lacks }) => lacks.length > 0);

/** Sources of which the whole was not read. */
export const notWhole = sources.filter(({ custom }) => custom.notRead);
