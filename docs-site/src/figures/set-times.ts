import type { AnyFormula, setTimes } from 'swathe';
import { shown } from '../library/show.ts';
import { instants } from './axes.ts';
import { circle, type Figure, figure, type In, label, line, type Out, rect, scale, wide } from './svg.ts';

/** Every published window of a material, on a scale of time in which each step is about ten times the last. */
export function setTimesFigure(
  { material }: In<typeof setTimes>,
  value: Out<typeof setTimes>,
  formula: AnyFormula,
  nameOf: (source: string | undefined) => string,
): Figure {
  const constants = (formula as typeof setTimes).constants ?? ({} as Record<string, never>);
  const log = scale([0, Math.log(400_000)], [24, wide - 20]);
  const x = (seconds: number): number => log(Math.log(seconds));
  const titles: Record<string, string> = {
    dip: 'Dip',
    work: 'Can still be worked',
    set: 'Set: hold still until then',
    firm: 'Firm',
    load: 'May bear weight',
  };
  const marks = instants.filter(({ at }) => at >= 1);
  let y = 8;
  const parts: string[] = [];
  const said: string[] = [];
  const data: [string, string, number, number][] = [];
  for (const window of value) {
    y += 22;
    parts.push(label(24, y, titles[window.stage] ?? window.stage, 'start', 'strong-label'));
    if (window.kind === 'unstated') {
      y += 18;
      parts.push(label(24, y, window.because, 'start', 'small'));
      y += 6;
      said.push(`${titles[window.stage]}: ${window.because}.`);
      continue;
    }
    said.push(
      `${titles[window.stage]}: ${shown(window.least, 's')} to ${shown(window.most, 's')} over all sources.`,
    );
    for (const { constant, least, most } of window.published) {
      y += 20;
      const { source } = constants[constant as keyof typeof constants] as { source?: string };
      const name = nameOf(source);
      data.push([window.stage, name, least, most]);
      const onLeft = x(most) > wide * 0.6;
      parts.push(
        least === most
          ? circle(x(least), y - 5, 5, 'window-dot')
          : rect(x(least), y - 10, x(most) - x(least), 10, 'window'),
        onLeft
          ? label(x(least) - 10, y, name, 'end', 'small')
          : label(x(most) + 10, y, name, 'start', 'small'),
      );
    }
    y += 6;
  }
  const base = y + 12;
  parts.unshift(...marks.map(({ at }) => line([x(at), 10], [x(at), base], 'grid')));
  parts.push(
    line([24, base], [wide - 20, base], 'axis'),
    ...marks.map(({ at, says }) => label(x(at), base + 20, says, '', 'small')),
  );
  return figure(base + 32, `Published times for ${material}`, said.join(' '), parts, {
    columns: ['stage', 'source', 'least [s]', 'most [s]'],
    rows: data,
  });
}
