import { type AnyFormula, celsius, type contactTime, hold, type UnitCode } from 'swathe';
import checks from '../../../references/checks/setting.contact-time.json';
import { shown } from '../library/show.ts';
import { axesOf } from './axes.ts';
import { circle, type Figure, figure, type In, label, line, type Out, type Point } from './svg.ts';

const laws = ['henriques', 'weaver-stoll', 'takata', 'mehta-wong epidermis', 'mehta-wong dermis'] as const;

/** Rows of the checks that a paper printed as a temperature and a time, each once. */
function printed(source: string): readonly Point[] {
  const points = checks.rows.flatMap((row): Point[] =>
    row.source === source && row.pointer === '/value/time' && row.printed !== undefined
      ? [[row.given.surface.value, hold(Number(row.printed), row.unit as UnitCode)]]
      : [],
  );
  return [...new Map(points.map((point) => [point[0], point]))]
    .map(([, point]) => point)
    .sort((a, b) => a[0] - b[0]);
}

type Curves = Readonly<Record<string, readonly Point[]>>;
let kept: { readonly key: string; readonly curves: Curves } | undefined;

/** Time against temperature by every law: they are worked once, and stay while only the surface is moved. */
function curvesOf(i: In<typeof contactTime>, hottest: number, { compute }: typeof contactTime): Curves {
  const { surface: _, law: __, ...rest } = i;
  const key = JSON.stringify([rest, hottest]);
  if (kept?.key === key) return kept.curves;
  const at = (law: (typeof laws)[number], surface: number): Point[] => {
    const value = compute({ ...i, law, surface: celsius(surface) });
    return value.kind === 'reached' ? [[surface, value.time]] : [];
  };
  const surfaces = [43, 45, 47.5, 50, 53, 57, 63, 70, 82, 100].filter((t) => t <= hottest);
  const curves = Object.fromEntries(laws.map((law) => [law, surfaces.flatMap((t) => at(law, t))]));
  kept = { key, curves };
  return curves;
}

/** Every law's time to a threshold against the temperature of the surface, and what was published of such contacts. */
export function contactTimeFigure(
  inputs: In<typeof contactTime>,
  value: Out<typeof contactTime>,
  formula: AnyFormula,
  nameOf: (source: string | undefined) => string,
): Figure {
  const hottest = inputs.surface > 70 ? 100 : 70;
  const curves = curvesOf(inputs, hottest, formula as typeof contactTime);
  const others = laws.filter((law) => law !== inputs.law);
  const own = curves[inputs.law] ?? [];
  const table = printed('moritz-1947-burns');
  const fitted = printed('plos-2021-contact');
  const all = [...Object.values(curves).flat(), ...table].map(([, t]) => t);
  const axes = axesOf(
    { span: [42, hottest], symbol: 'T', unit: 'Cel' },
    { span: [Math.min(0.1, ...all), 130_000], symbol: 't', unit: 's', log: true },
    { top: 32, base: 300 },
  );
  const { x, y } = axes;
  const key = [
    {
      says: inputs.law,
      mark: (at: number) => line([236, at], [258, at], 'strong'),
    },
    { says: 'other laws', mark: (at: number) => line([236, at], [258, at], 'soft-line') },
    {
      says: `${nameOf('moritz-1947-burns')}, table`,
      mark: (at: number) => circle(247, at, 5, 'construction'),
    },
    { says: 'line fitted to points', mark: (at: number) => line([236, at], [258, at], 'limit-line') },
  ];
  const parts = [
    ...axes.parts,
    ...others
      .map((law) => axes.curve(curves[law] ?? [], 'soft-line'))
      .filter((_, k) => curves[others[k] as string]?.length),
    axes.curve(fitted, 'limit-line'),
    ...(own.length > 0 ? [axes.curve(own, 'strong')] : []),
    ...table.map(([t, time]) => circle(x(t), y(time), 5, 'construction')),
    ...(value.kind === 'reached' ? [circle(x(inputs.surface), y(value.time), 5, 'dot')] : []),
    label(236, 49, `to the ${inputs.degree} degree`, 'start', 'small'),
    ...key.map(({ says, mark }, k) => mark(64 + k * 20) + label(266, 69 + k * 20, says, 'start', 'small')),
  ];
  const reached =
    value.kind === 'reached'
      ? `At ${shown(inputs.surface, 'Cel')} it comes to the threshold after ${shown(value.time, 's', 3)}, the dot`
      : `At ${shown(inputs.surface, 'Cel')} it does not come to the threshold within ${shown(value.within, 's')}`;
  const words = `Time to the threshold of the ${inputs.degree} degree by each law against the temperature of the surface, each step upwards the same factor. The strong line is ${inputs.law}. ${reached}. The rings are the times printed by ${nameOf('moritz-1947-burns')}: ${table.map(([t, time]) => `${shown(time, 's')} at ${shown(t, 'Cel')}`).join(', ')}. The broken line was fitted to published points, ${nameOf('plos-2021-contact')}. Laws and table disagree manifold; it is no time for a person.`;
  const temperatures = [...new Set(laws.flatMap((law) => (curves[law] ?? []).map(([t]) => t)))].sort(
    (a, b) => a - b,
  );
  return figure(axes.height, 'Time to a threshold of injury against surface temperature', words, parts, {
    columns: ['surface [Cel]', ...laws.map((law) => `${law} [s]`)],
    rows: temperatures.map((t) => [
      t,
      ...laws.map((law) => curves[law]?.find(([at]) => at === t)?.[1] ?? ''),
    ]),
  });
}
