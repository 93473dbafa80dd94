import type { slabShare } from 'swathe';
import { shown } from '../library/show.ts';
import { circle, el, type Figure, figure, type In, label, type Out, wide } from './svg.ts';

/** Cross-sections where the limb is thinnest and where it is thickest, with the slab under each. */
export function slabShareFigure({ stations }: In<typeof slabShare>, value: Out<typeof slabShare>): Figure {
  const girths = stations.map((s) => s.girth);
  const [thin, thick] = [Math.min(...girths), Math.max(...girths)];
  const perMm = 82 / (thick / (2 * Math.PI));
  const cy = 112;
  const section = (cx: number, girth: number, part: number, says: string): string => {
    const r = (girth / (2 * Math.PI)) * perMm;
    const half = Math.PI * Math.min(1, part);
    const arc = r + 6;
    const [sx, sy] = [cx - arc * Math.sin(half), cy + arc * Math.cos(half)];
    const [ex, ey] = [cx + arc * Math.sin(half), cy + arc * Math.cos(half)];
    const d = `M${sx.toFixed(1)} ${sy.toFixed(1)}A${arc.toFixed(1)} ${arc.toFixed(1)} 0 ${part > 0.5 ? 1 : 0} 0 ${ex.toFixed(1)} ${ey.toFixed(1)}`;
    return (
      circle(cx, cy, r, 'limb') +
      el('path', { class: 'slab', d }) +
      label(cx, cy + 5, `${Number((part * 100).toPrecision(3))} %`) +
      label(cx, cy + 118, says) +
      label(cx, cy + 137, `${shown(girth, 'mm')} round`)
    );
  };
  const percent = (x: number): string => `${Number((x * 100).toPrecision(3))} %`;
  return figure(
    262,
    'A slab under a limb in cross-section, where the limb is thinnest and where it is thickest',
    `Where the limb is ${shown(thin, 'mm')} round the slab covers ${percent(value.atNarrowest)} of the girth, where it is ${shown(thick, 'mm')} round it covers ${percent(value.atWidest)}. Both sections are drawn to one scale.`,
    [
      section(wide * 0.27, thin, value.atNarrowest, 'thinnest'),
      section(wide * 0.73, thick, value.atWidest, 'thickest'),
    ],
    {
      columns: ['where', 'girth [mm]', 'share covered'],
      rows: [
        ['thinnest', thin, value.atNarrowest],
        ['thickest', thick, value.atWidest],
      ],
    },
  );
}
