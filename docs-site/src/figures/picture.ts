import { applicationPlan, type layerMap } from 'swathe';
import { layerMapFigure } from './layer-map.ts';
import type { In } from './svg.ts';

/** The first wrap of an order, drawn by itself: the site's own figure with the site's own looks inside it. */
export function pictureOf(order: unknown, baseCss: string, figureCss: string): string {
  const plan = applicationPlan.fromJson(order);
  const wrap = plan.wraps[0];
  if (!wrap) throw new Error('the order has no wrap');
  const { stations, wanted } = wrap.map.from as Parameters<typeof layerMap.fromJson>[0] & {
    stations: readonly { at: { value: number }; girth: { value: number } }[];
    wanted: { least: number; most: number };
  };
  const inputs = {
    wanted,
    stations: stations.map(({ at, girth }) => ({ at: at.value, girth: girth.value })),
  } as unknown as In<typeof layerMap>;
  const { svg } = layerMapFigure(inputs, wrap.map.value);
  const colours = baseCss.slice(0, baseCss.indexOf('\n*,'));
  const style = `${colours}\n${figureCss}\nsvg.drawing { background: var(--paper); }`;
  return `${svg.replace('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" class="drawing" width="660" ').replace('>', `><style>${style}</style>`)}\n`;
}
