import type { Caution } from '../caution.ts';
import type { takeOff } from '../roll/take-off.ts';
import type { Immobilisation } from './immobilisation.ts';
import type { SlabPlan } from './slab.ts';
import type { WrapPlan } from './wrap.ts';

type Lines = ReturnType<typeof takeOff>['value']['lines'];

const note = (
  code: string,
  level: Caution['level'],
  says: string,
  because: string,
  ...sources: string[]
): Caution => ({
  code,
  level,
  says,
  because,
  sources,
});

function ofType(type: Immobilisation): Caution[] {
  return [
    ...(type.kind === 'cast'
      ? [
          note(
            'cast-while-swelling',
            'info',
            'A cast all round leaves no room while a limb swells; a splint usually comes first.',
            'circumferential',
            'stulberg-shortarm',
          ),
        ]
      : []),
  ];
}

function ofWrap({ layer, over, map, thick, wanted }: WrapPlan): Caution[] {
  const where = `${layer} over ${over.join(' and ')}`;
  const unordered = thick.filter((zone) => !zone.ordered);
  return [
    ...(map.value.thin.length > 0
      ? [
          note(
            'thin-zone',
            'warning',
            `Fewer layers than wanted somewhere under the ${layer}: go over it again, or add a turn.`,
            `${where}: down to ${map.value.least}, wanted ${wanted.used[0]}`,
            ...sourcesOf(wanted.published),
          ),
        ]
      : []),
    ...(unordered.length > 0
      ? [
          note(
            'thick-zone',
            'info',
            `More layers of ${layer} than wanted somewhere.`,
            `${where}: up to ${Math.max(...unordered.map((z) => z.most))}, wanted at most ${wanted.used[1]}`,
            ...sourcesOf(wanted.published),
          ),
        ]
      : []),
  ];
}

const sourcesOf = (published: readonly { readonly source?: string }[]): string[] => [
  ...new Set(published.flatMap(({ source }) => source ?? [])),
];

function ofStock(lines: Lines): Caution[] {
  return lines.flatMap((line) =>
    line.kind === 'cannot'
      ? [
          note(
            'stock-cannot',
            'warning',
            `The stock cannot serve this: ${line.what}.`,
            `${line.reason}: wanted ${Math.ceil(line.wanted)} mm, there is ${Math.floor(line.available)} mm`,
          ),
        ]
      : [],
  );
}

/** All that the plan's own rules have to say, beside what its formulas said. */
export const cautionsOf = (
  type: Immobilisation,
  slab: SlabPlan | undefined,
  wraps: readonly WrapPlan[],
  lines: Lines,
): Caution[] => [
  ...ofType(type),
  ...(slab?.share.cautions ?? []),
  ...wraps.flatMap(ofWrap),
  ...wraps.flatMap((w) => w.pressure?.cautions ?? []),
  ...ofStock(lines),
];
