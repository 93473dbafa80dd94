import type { Caution } from '../caution.ts';
import { formula } from '../formula.ts';
import { amount, angle, group, length, share } from '../measure.ts';
import { degrees, mm, ratio } from '../quantity.ts';
import { width } from './bandage.ts';

const degreesPerRadian = 180 / Math.PI;

const girthAt = (where: string, symbol: string) =>
  length(`girth at ${where}`, { symbol, possible: [mm(30), mm(1200)] });

interface Cone {
  readonly first: number;
  readonly last: number;
  readonly apart: number;
}

/** Sine of the angle between the skin and the axis. */
function sineOf({ first, last, apart }: Cone): number {
  const rise = Math.abs(last - first) / (2 * Math.PI);
  return rise / Math.sqrt(rise * rise + apart * apart);
}

/** What the edges are strained by, where the limb has a girth: half the width times the bend in the plane of the bandage. */
const strainAt = (
  girth: number,
  sine: number,
  i: { readonly width: number; readonly leadAngle: number },
): number => (Math.PI * i.width * sine * Math.cos(i.leadAngle / degreesPerRadian)) / girth;

/**
 * How much farther the upper edge of a bandage has to go than the lower one on a limb that tapers.
 *
 * A flat bandage has two edges of one length. On a taper the edge towards the thick end goes the longer way, by the same
 * amount each turn whatever the lead angle, so that one edge is stretched, or the other lies slack.
 *
 * @throws InputError when the bandage would reach past the tip of the cone
 * @example
 * edgeMismatch({
 *   first: cm(17), last: cm(26), apart: cm(20), width: cm(7.5), leadAngle: degrees(0), takes: percent(5),
 * }).value.mismatch // 33.66… mm
 */
export const edgeMismatch = /* @__PURE__ */ formula({
  id: 'coverage.edge-mismatch',
  revision: 1,
  basis: 'identity',
  inputs: {
    first: girthAt('one end', 'C_1'),
    last: girthAt('the other end', 'C_2'),
    apart: length('distance between the two, along the limb', { symbol: 'L', possible: [mm(10), mm(1500)] }),
    width,
    leadAngle: angle('lead angle, from the circumference', {
      symbol: '\\alpha',
      possible: [degrees(0), degrees(80)],
    }),
    takes: share('strain of an edge that the bandage takes without a wrinkle', {
      symbol: 'e',
      possible: [ratio(0), ratio(3)],
    }),
  },
  joint: [
    {
      input: 'width',
      possible: 'a bandage that does not reach past the tip of the cone',
      breach: (i) => {
        const strain = strainAt(Math.min(i.first, i.last), sineOf(i), i);
        return strain < 1 ? undefined : `${i.width} mm, ${strain} times what reaches the tip`;
      },
    },
  ],
  symmetric: [['first', 'last']],
  steps: {
    sine: amount('sine of the angle between skin and axis', { symbol: '\\sin\\beta' }),
  },
  output: group({
    mismatch: length('how much longer one edge is than the other, per turn', { symbol: 'd' }),
    halfAngle: angle('angle between skin and axis', { symbol: '\\beta' }),
    sector: angle('angle of the sector that one turn rolls out to', { symbol: '\\delta' }),
    strain: share('strain of the edges, plus and minus, at the mean girth', { symbol: '\\varepsilon' }),
    strainAtNarrowest: share('strain of the edges, plus and minus, where the limb is thinnest', {
      symbol: '\\varepsilon_{\\mathrm{max}}',
    }),
  }),
  sources: ['derivation.steered-tape'],
  compute: (i, _, step) => {
    const sine = step('sine', sineOf(i));
    return {
      mismatch: 2 * Math.PI * i.width * sine,
      halfAngle: Math.asin(sine) * degreesPerRadian,
      sector: 360 * sine,
      strain: strainAt((i.first + i.last) / 2, sine, i),
      strainAtNarrowest: strainAt(Math.min(i.first, i.last), sine, i),
    };
  },
  cautions: ({ takes }, { strainAtNarrowest }): readonly Caution[] =>
    strainAtNarrowest > takes
      ? [
          {
            code: 'wrinkle',
            level: 'warning',
            says: 'On this taper one edge is strained more than the bandage takes: it wrinkles or stands off unless it is reversed, tucked or cut. A wrinkle is a ridge on the skin.',
            because: `plus and minus ${Number((strainAtNarrowest * 100).toPrecision(3))} % where the limb is thinnest, ${Number((takes * 100).toPrecision(3))} % taken`,
            sources: ['derivation.steered-tape'],
          },
        ]
      : [],
});
