import type { AnyFormula, heatCaution } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { type Figure, figure, type In, label, line, linesOf, type Out, rect, wide } from './svg.ts';

type Leads = Out<typeof heatCaution>['triggers'][number]['leads'];

interface Rung {
  readonly code: string;
  readonly leads: Leads;
  /** What would meet it. */
  readonly when: string;
  /** What is, where that says more than met or not. */
  readonly is?: string;
  /** It cannot be told, for what it rests on was not given. */
  readonly open?: boolean;
}

/** Every trigger there is, in the order of what it leads to, with the limits that the formula holds. */
function rungsOf(
  i: In<typeof heatCaution>,
  constants: NonNullable<(typeof heatCaution)['constants']>,
): readonly Rung[] {
  const tape = i.material === 'fibreglass';
  const limit = tape ? constants.tapeDip : constants.plasterDip;
  const plies = `${digits(i.plies)} ${i.plies === 1 ? 'ply' : 'plies'}${i.folded ? ', folded' : ''}`;
  const open = i.band === undefined;
  const hot = constants.hotSkin.printed;
  return [
    {
      code: 'band-skin-hot',
      leads: 'high',
      when: `upper end of the band on the skin at ${shown(Number(hot), 'Cel')} or more`,
      ...(i.band ? { is: shown(i.band.skin, 'Cel', 4) } : {}),
      open,
    },
    {
      code: 'band-under-cast-hot',
      leads: 'high',
      when: `upper end of the time above ${shown(49, 'Cel')} under the plaster over ${constants.hotFor.printed} min`,
      ...(i.band ? { is: shown(i.band.above49, 's', 3) } : {}),
      open,
    },
    {
      code: 'dip-above-limit',
      leads: 'raised',
      when: `dip water above ${shown(Number(limit.printed), 'Cel')}`,
      is: shown(i.dip, 'Cel', 4),
    },
    { code: 'water-used', leads: 'raised', when: 'water used before, or not clean' },
    {
      code: 'many-plies-covered',
      leads: 'raised',
      when: `more than ${constants.manyPlies.printed} plies of plaster, and covered`,
      is: `${plies}, ${i.cover}`,
    },
    {
      code: 'covered-while-setting',
      leads: 'raised',
      when: 'fewer plies, or tape, and covered',
      is: i.cover,
    },
    { code: 'folded-back', leads: 'raised', when: 'folded back on itself' },
    { code: 'wrapped-before-cool', leads: 'raised', when: 'tape over plaster before it has cooled' },
    { code: 'skin-more-sensitive', leads: 'raised', when: 'an infant, a child or an older adult', is: i.age },
    { code: 'cannot-report-pain', leads: 'raised', when: 'heat or pain not felt, or cannot be told' },
    {
      code: 'many-plies',
      leads: 'information',
      when: `more than ${constants.manyPlies.printed} plies of plaster, bare`,
      is: `${plies}, ${i.cover}`,
    },
    {
      code: 'fibreglass-upper-bound',
      leads: 'information',
      when: 'fibreglass: only a bound can be told',
      is: i.material,
    },
  ];
}

const headings: Readonly<Record<Leads, string>> = {
  high: 'Leads to the class high',
  raised: 'Leads to the class raised',
  information: 'Told for information; leads to no class',
};

/** Every trigger as a rung: whether it is met is written at it, and what it would lead to above it. */
export function heatCautionFigure(
  i: In<typeof heatCaution>,
  value: Out<typeof heatCaution>,
  formula: AnyFormula,
): Figure {
  const met = new Set(value.triggers.map(({ code }) => code));
  const rungs = rungsOf(
    i,
    (formula as typeof heatCaution).constants as NonNullable<(typeof heatCaution)['constants']>,
  ).map((rung) => ({
    ...rung,
    state: met.has(rung.code) ? 'met' : rung.open ? 'not worked' : 'not met',
  }));
  let y = 6;
  const parts: string[] = [];
  for (const leads of ['high', 'raised', 'information'] as const) {
    y += 22;
    parts.push(label(24, y, headings[leads], 'start', 'strong-label'));
    const top = y + 10;
    for (const { when, is, state, leads: own } of rungs) {
      if (own !== leads) continue;
      const lines = linesOf(when, 42);
      const at = y + 24;
      parts.push(
        line([24, at - 5], [34, at - 5], 'axis'),
        rect(34, at - 11, 12, 12, state === 'met' ? 'used' : 'left'),
        ...lines.map((says, k) => label(56, at + k * 17, says, 'start')),
        label(wide - 20, at, state, 'end', state === 'met' ? 'strong-label' : 'small'),
        ...(is === undefined ? [] : [label(56, at + lines.length * 17, `here: ${is}`, 'start', 'small')]),
      );
      y = at + (lines.length - 1) * 17 + (is === undefined ? 0 : 17) + 4;
    }
    parts.push(line([24, top], [24, y], 'axis'));
    y += 12;
  }
  const said = (state: string): string =>
    rungs
      .filter((rung) => rung.state === state)
      .map(({ when, is }) => (is === undefined ? when : `${when} (here: ${is})`))
      .join('; ');
  const listed = [
    ['Met', said('met')],
    ['Not met', said('not met')],
    ['Not worked, for no band is given', said('not worked')],
  ]
    .filter(([, what]) => what !== '')
    .map(([state, what]) => `${state}: ${what}.`);
  const counted =
    value.class === 'no trigger met'
      ? 'No trigger is met that leads to a class.'
      : `${digits(met.size)} of ${digits(rungs.length)} triggers ${met.size === 1 ? 'is' : 'are'} met; the class is ${value.class}.`;
  const words = `${counted} ${listed.join(' ')} A filled square is a trigger that is met, a broken one is not. That none is met would not mean that nothing can happen.`;
  return figure(y + 4, 'Triggers of heat, met and not met', words, parts, {
    columns: ['trigger', 'leads to', 'when', 'here', 'state'],
    rows: rungs.map(({ code, leads, when, is, state }) => [code, leads, when, is ?? '', state]),
  });
}
