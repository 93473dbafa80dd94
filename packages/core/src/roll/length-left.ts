import { formula } from '../formula.ts';
import { either, group, kind, length, share } from '../measure.ts';
import { mm, ratio } from '../quantity.ts';

const diameter = group({
  kind: kind('diameter'),
  diameter: length('outer diameter of the roll now', { symbol: 'D', possible: [mm(1), mm(1000)] }),
});

const girth = group({
  kind: kind('girth'),
  girth: length('girth of the roll now, by tape', { symbol: 'C', possible: [mm(3), mm(3200)] }),
});

type Read =
  | { readonly kind: 'diameter'; readonly diameter: number }
  | { readonly kind: 'girth'; readonly girth: number };

const acrossOf = (now: Read): number => (now.kind === 'girth' ? now.girth / Math.PI : now.diameter);

/**
 * Length left on a part-used roll, from a reading across or round it and what it was when new.
 *
 * The thickness of a turn need not be known: it is the same for the whole roll, so the length goes with the area of the
 * ring. A tape round the roll reads its girth, and is easier to hold true than a rule across it.
 *
 * @throws InputError when the roll is narrower than its core, or wider than it was when new
 * @example
 * lengthLeft({
 *   now: { kind: 'diameter', diameter: mm(50) },
 *   core: mm(20),
 *   outerNew: mm(70),
 *   lengthNew: metres(4.5),
 * }).value.share // 0.4666… of it
 */
export const lengthLeft = /* @__PURE__ */ formula({
  id: 'roll.length-left',
  revision: 1,
  basis: 'identity',
  inputs: {
    now: either([diameter, girth]),
    core: length('diameter of the core; 0 where there is none', { symbol: 'd', possible: [mm(0), mm(300)] }),
    outerNew: length('outer diameter when new', { symbol: 'D_0', possible: [mm(1), mm(1000)] }),
    lengthNew: length('length of bandage when new', { symbol: 'l_0', possible: [mm(100), mm(200_000)] }),
  },
  joint: [
    {
      input: 'core',
      possible: 'a core narrower than the roll was when new',
      breach: ({ core, outerNew }) =>
        core < outerNew ? undefined : `core ${core} mm in a roll of ${outerNew} mm`,
    },
    {
      input: 'now',
      possible: 'at least as wide as the core, at most as wide as when new',
      breach: ({ now, core, outerNew }) => {
        const across = acrossOf(now);
        return across >= core && across <= outerNew ? undefined : `${across} mm across`;
      },
    },
  ],
  output: group({
    length: length('length left', { symbol: 'l' }),
    share: share('share of the length that is left', { symbol: 's', possible: [ratio(0), ratio(1)] }),
  }),
  sources: ['derivation.wound-roll', 'peterson-2003-roll'],
  compute: ({ now, core, outerNew, lengthNew }) => {
    const across = acrossOf(now);
    const share = (across * across - core * core) / (outerNew * outerNew - core * core);
    return { length: lengthNew * share, share };
  },
});
