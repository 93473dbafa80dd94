import type { Caution } from '../caution.ts';
import { formula } from '../formula.ts';
import { amount, angle, count, either, group, kind, length, list, share, text } from '../measure.ts';
import { mm, wholeDown } from '../quantity.ts';
import { overlap, width } from './bandage.ts';

const degreesPerRadian = 180 / Math.PI;

const girthAt = (where: string, symbol: string) =>
  length(`girth ${where}`, { symbol, possible: [mm(30), mm(1200)] });

/** sin x / x, so that a cylinder is a cone like any other. */
const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(x) / x);

interface Start {
  readonly first: number;
  readonly last: number;
  readonly apart: number;
  readonly width: number;
  readonly overlap: number;
}

/** The course of a flat tape, which is a straight line on the cone rolled out. */
function straightLine({ first, last, apart, width, overlap }: Start) {
  const rise = (last - first) / (2 * Math.PI);
  const slant = Math.sqrt(apart * apart + rise * rise);
  // Radians of the sector that one turn rolls out to; below zero where the limb becomes thinner.
  const sector = (last - first) / slant;
  const spacing = width * (1 - overlap);
  const sine = spacing / first;
  const cosine = Math.sqrt(1 - sine * sine);
  const lead = Math.asin(sine);
  // Clairaut: girth times cosine of the lead angle stays what it was.
  const tightest = first * cosine;
  // The square of the girth times the sine of the lead angle, at the other end; below zero, which is towards the thin end alone,
  // the tape never gets there.
  const reach = (last - first) * (last + first) + spacing * spacing;
  const leaves = reach >= 0;

  const at = (turns: number) => {
    const angle = lead + turns * sector;
    const half = (turns * sector) / 2;
    return {
      angle,
      girth: tightest / Math.cos(angle),
      alongSkin: (first * turns * sinc(half) * Math.sin(lead + half)) / Math.cos(angle),
      length: (first * turns * sinc(turns * sector)) / Math.cos(angle),
    };
  };
  const far = (): { turns: number; length: number } => {
    const root = Math.sqrt(reach);
    const length = (slant * (last + first)) / (root + spacing);
    const round = (length * cosine) / last;
    const swept = Math.atan2(Math.abs(sector) * round, (tightest * cosine + root * sine) / last);
    return { turns: sector === 0 ? round : swept / Math.abs(sector), length };
  };
  const back = (): { turns: number; length: number } => {
    const turns = lead / -sector;
    return { turns, length: at(turns).length };
  };
  return { slant, sector, spacing, sine, cosine, tightest, at, leaves, end: leaves ? far() : back() };
}

/**
 * Where a flat bandage that is neither stretched nor steered lays its turns on a limb that tapers.
 *
 * It keeps straight as on the limb rolled out flat. Towards the thick end each turn is steeper than the one before, so that
 * the turns draw apart; towards the thin end they crowd, and the bandage turns back.
 *
 * @throws InputError when the turns would lie farther apart than the limb is round
 * @example
 * geodesicAdvance({
 *   first: cm(17), last: cm(26), apart: cm(20), width: cm(7.5), overlap: percent(50),
 * }).value.turns[0].overlap // 0.02872…
 */
export const geodesicAdvance = /* @__PURE__ */ formula({
  id: 'coverage.geodesic-advance',
  revision: 1,
  basis: 'identity',
  inputs: {
    first: girthAt('where it begins', 'C_0'),
    last: girthAt('at the other end', 'C_1'),
    apart: length('distance between the two, along the limb', { symbol: 'L', possible: [mm(10), mm(1500)] }),
    width,
    overlap,
  },
  joint: [
    {
      input: 'overlap',
      possible: 'turns closer together than the limb is round',
      breach: ({ first, width, overlap }) =>
        width * (1 - overlap) < first
          ? undefined
          : `turns ${width * (1 - overlap)} mm apart round ${first} mm`,
    },
  ],
  steps: {
    spacing: length('distance between turns that is meant, square to the edge', { symbol: 'q_0' }),
    meant: length('advance along the skin per turn that is meant', { symbol: 'p_0' }),
    slant: length('distance between the two ends, along the skin', { symbol: 's' }),
  },
  output: group({
    leadAngle: angle('lead angle where it begins, from the circumference', { symbol: '\\alpha_0' }),
    sector: angle('angle of the sector that one turn rolls out to; negative towards the thin end', {
      symbol: '\\delta',
    }),
    turns: list(
      group({
        turn: count('which turn', { symbol: 'n' }),
        at: length('where it ends, along the limb'),
        advance: length('its advance along the skin'),
        girth: length('girth where it ends', { symbol: 'C_n' }),
        leadAngle: angle('lead angle where it ends', { symbol: '\\alpha_n' }),
        length: length('bandage laid until then', { symbol: 'l_n' }),
        spacing: length('distance to the next turn from where this one began, square to the edge', {
          symbol: 'q_n',
        }),
        overlap: share('overlap of the next turn where this one began; a gap where negative', {
          symbol: 'f_n',
        }),
      }),
      [0, 10_000],
    ),
    gap: either([
      group({
        kind: kind('opens'),
        after: amount('turns after which a gap opens', { symbol: 'n_g' }),
        at: length('where it opens, along the limb'),
      }),
      group({ kind: kind('none'), because: text('why there is none') }),
    ]),
    end: either([
      group({
        kind: kind('reaches the other end'),
        turns: amount('turns until then'),
        length: length('bandage laid until then'),
      }),
      group({
        kind: kind('turns back'),
        turns: amount('turns until then'),
        length: length('bandage laid until then'),
        girth: length('girth where it turns back'),
        at: length('where it turns back, along the limb'),
      }),
    ]),
  }),
  sources: ['derivation.developed-cone'],
  compute: (i, _, step) => {
    const line = straightLine(i);
    const { sector, slant, cosine, tightest, end, leaves } = line;
    step('spacing', line.spacing);
    step('meant', line.spacing / cosine);
    step('slant', slant);
    const alongLimb = (alongSkin: number): number => (alongSkin * i.apart) / slant;

    const places = Array.from({ length: wholeDown(end.turns) + 1 }, (_, n) => line.at(n));
    const turns = places.slice(1).map((here, n) => {
      const before = places[n] as typeof here;
      const spacing = before.girth * Math.sin(before.angle + sector / 2) * sinc(sector / 2);
      return {
        turn: n + 1,
        at: alongLimb(here.alongSkin),
        advance: here.alongSkin - before.alongSkin,
        girth: here.girth,
        leadAngle: here.angle * degreesPerRadian,
        length: here.length,
        spacing,
        overlap: 1 - spacing / i.width,
      };
    });

    /** Turns after which the next turn's distance has grown to the width, counted where that turn is still on the limb. */
    const opening = (): number | undefined => {
      const [first] = turns;
      if (first === undefined) return undefined;
      if (first.overlap < 0) return 0;
      if (sector <= 0) return undefined;
      const tangent = line.sine / cosine;
      const more = (i.width * first.overlap) / (tightest * sinc(sector / 2) * Math.cos(sector / 2));
      const after = Math.atan2(more, 1 + tangent * (tangent + more)) / sector;
      return after + 1 <= end.turns ? after : undefined;
    };
    const after = opening();
    const because =
      turns.length === 0 ? 'not one whole turn is laid' : 'the turns that are laid are never a width apart';

    return {
      leadAngle: Math.asin(line.sine) * degreesPerRadian,
      sector: sector * degreesPerRadian,
      turns,
      gap:
        after === undefined
          ? { kind: 'none' as const, because }
          : { kind: 'opens' as const, after, at: alongLimb(line.at(after).alongSkin) },
      end: leaves
        ? { kind: 'reaches the other end' as const, ...end }
        : {
            kind: 'turns back' as const,
            ...end,
            girth: tightest,
            at: alongLimb(line.at(end.turns).alongSkin),
          },
    };
  },
  cautions: (_, { gap, end }): readonly Caution[] => [
    ...(gap.kind === 'opens'
      ? [
          {
            code: 'turns-draw-apart',
            level: 'warning' as const,
            says: 'Laid flat, the turns draw apart until skin lies bare between them: the bandage has to be reversed, tucked, cut or stretched to follow this taper.',
            because: `a gap after ${Number(gap.after.toPrecision(3))} turns`,
            sources: ['derivation.developed-cone'],
          },
        ]
      : []),
    ...(end.kind === 'turns back'
      ? [
          {
            code: 'turns-back',
            level: 'info' as const,
            says: 'Laid flat towards the thin end, the bandage turns back before it gets there.',
            because: `after ${Number(end.turns.toPrecision(3))} turns`,
            sources: ['derivation.developed-cone'],
          },
        ]
      : []),
  ],
});
