import {
  type Choice,
  type Immobilisation,
  immobilisations,
  type Place,
  type Published,
  type Span,
} from 'swathe';
import * as general from '../../../packages/core/src/plan/catalogue/general.ts';
import { elasticLayers, paddingLimit } from '../../../packages/core/src/plan/rules.ts';
import { digits, told } from './show.ts';

export const types: readonly Immobilisation[] = Object.values(immobilisations);

/** A value of a source in words, and whether it is the one that is used. */
export interface ToldValue extends Omit<Published<string>, 'value'> {
  readonly says: string;
  readonly used: boolean;
}

/** A choice in words. */
export interface ToldChoice {
  readonly id: string;
  readonly title: string;
  readonly used: string;
  readonly because: string;
  readonly published: readonly ToldValue[];
}

const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;

/** A length as its source had it: in inches where it is a round number of them and of no millimetres. */
function lengthShown(mm: number): string {
  const inches = mm / 25.4;
  if (near(mm, Math.round(mm * 2) / 2) && !(near(inches, Math.round(inches)) && mm % 5 !== 0))
    return mm % 10 === 0 || mm >= 50 ? told(mm / 10, 'cm') : told(mm, 'mm');
  return `${told(inches, '[in_i]')} (${told(mm / 10, 'cm', 3)})`;
}

type Say = (value: number) => string;
const percent: Say = (value) => told(value * 100, '%', 3);
const angle: Say = (value) => told(value, 'deg');
const plain: Say = (value) => digits(value);

const spanOf =
  (say: Say) =>
  ([least, most]: Span): string =>
    near(least, most) ? say(least) : `${say(least)} to ${say(most)}`;

const length = spanOf(lengthShown);
const share = spanOf(percent);
const layers = spanOf(plain);

/** A place in words. */
export function placeShown({ landmark, offset: [least, most] }: Place): string {
  if (near(least, 0) && near(most, 0)) return landmark;
  const side = least < 0 || most < 0 ? 'distal' : 'proximal';
  const span = [Math.abs(least), Math.abs(most)].sort((a, b) => a - b) as unknown as Span;
  return `${length(span)} ${side} to the ${landmark}`;
}

function tell<T>(id: string, title: string, choice: Choice<T>, say: (value: T) => string): ToldChoice {
  const used = say(choice.used);
  const published = choice.published.map(({ value, ...rest }) => {
    const says = say(value);
    return { ...rest, says, used: says === used };
  });
  return { id, title, used, because: choice.because, published };
}

/** Every choice that the catalogue makes for a type, in words. */
export function choicesOf(type: Immobilisation): readonly ToldChoice[] {
  const joints = Object.entries(type.joints) as [string, Choice<Span>][];
  return [
    tell('from', 'Distal end', type.from, placeShown),
    tell('to', type.kind === 'slab' ? 'Proximal, or other, end' : 'Proximal end', type.to, placeShown),
    ...joints.map(([joint, choice]) =>
      tell(joint.toLowerCase().replace(/\W+/g, '-'), capital(joint), choice, spanOf(angle)),
    ),
    tell('share', 'Share of the girth covered', type.share, share),
    tell('plaster', 'Layers of plaster', type.layers.plaster, layers),
    tell('fibreglass', 'Layers of fibreglass', type.layers.fibreglass, layers),
    tell('padding', 'Layers of padding', type.padding.layers, layers),
    tell('extra', 'More padding over bones', type.padding.extra, layers),
  ];
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Lengths that a type's sources name, in words. */
export const widthsShown = (widths: readonly Published<Span>[]): readonly Published<string>[] =>
  widths.map(({ value, ...rest }) => ({ value: length(value), ...rest }));

/** Rules that hold for every type, or stand in where a type has none of its own. */
export const rules: readonly ToldChoice[] = [
  tell('plaster-slab-arm', 'Layers of a plaster slab, arm', general.upperLimbSlab, layers),
  tell('plaster-slab-leg', 'Layers of a plaster slab, leg', general.lowerLimbSlab, layers),
  tell('plaster-slab-child', 'Layers of a plaster slab, child', general.childSlab, layers),
  tell('fibreglass-slab', 'Layers of a fibreglass slab', general.fibreglassSlab, layers),
  tell('plaster-cast', 'Layers of a plaster cast', general.circularPlaster, layers),
  tell('fibreglass-cast', 'Layers of a fibreglass cast', general.circularFibreglass, layers),
  tell('padding-layers', 'Layers of padding', general.paddingLayers, layers),
  tell('padding-extra', 'More padding over bones', general.extraPadding, layers),
  tell('padding-limit', 'Padding past which a cast is loose', paddingLimit, plain),
  tell('padding-overlap', 'Overlap of padding', general.paddingOverlap, share),
  tell('padding-beyond', 'Padding beyond the plaster', general.paddingBeyond, length),
  tell('stockinette-beyond', 'Stockinette beyond the plaster', general.stockinetteBeyond, length),
  tell('wet-shrinkage', 'Cut longer at each end, for what plaster shortens by', general.wetShrinkage, length),
  tell('slab-share', 'Share of the girth that a slab covers', general.slabShare, share),
  tell('elastic-layers', 'Layers of elastic over a slab', elasticLayers, layers),
];

/** Whether its sources say different things. */
export const differ = ({ published }: ToldChoice): boolean =>
  new Set(published.map(({ says }) => says)).size > 1;

/** Whether a general rule stands in for a value of its own. */
export const standsIn = ({ because }: ToldChoice): boolean =>
  because.startsWith('no value for this type was read');

/** Where a type's sources differ among themselves, its general rules left aside. */
export const ownDifferences = (type: Immobilisation): readonly ToldChoice[] => {
  const shared = new Set(rules.map(({ published }) => JSON.stringify(published)));
  const key = ({ published }: ToldChoice): string => JSON.stringify(published);
  return choicesOf(type).filter((c) => differ(c) && !standsIn(c) && !shared.has(key(c)));
};
