import type { Immobilisation } from 'swathe';
import { placeShown } from './catalogue.ts';

const kinds = {
  slab: 'A slab, which covers part of the girth and is held by an elastic bandage',
  cast: 'A cast, which goes all the way round',
} as const;

/** What it is and where it lies, in a sentence. */
export const described = ({ kind, limb, from, to }: Immobilisation): string =>
  `${kinds[kind]}: on the ${limb}, from the ${placeShown(from.used)} to the ${placeShown(to.used)}.`.replaceAll(
    /the (\d)/g,
    '$1',
  );
