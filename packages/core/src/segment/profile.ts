import { group, length, list } from '../measure.ts';
import { cm, type Length } from '../quantity.ts';
import { girth } from './girth.ts';

/** A girth at a distance along the limb. */
export interface Station {
  readonly at: Length;
  readonly girth: Length;
}

export const stations = list(
  group({
    at: length('distance along the limb, from any mark', { symbol: 'x', possible: [cm(-150), cm(150)] }),
    girth,
  }),
  [2, 200],
);

/** What is wrong with the order of the stations, if anything. */
export function outOfOrder(stations: readonly Station[]): string | undefined {
  const n = stations.findIndex(({ at }, i) => i > 0 && at <= (stations[i - 1] as Station).at);
  if (n < 0) return undefined;
  return `station ${n + 1} at ${stations[n]?.at} mm after one at ${stations[n - 1]?.at} mm`;
}

/** Each station with the next. */
export const intervals = (stations: readonly Station[]): readonly (readonly [Station, Station])[] =>
  stations.slice(1).map((next, n) => [stations[n] as Station, next]);

/** Distance along the skin between two stations: a frustum's slant. */
export function slant([a, b]: readonly [Station, Station]): number {
  const h = b.at - a.at;
  const dr = (b.girth - a.girth) / (2 * Math.PI);
  return Math.sqrt(h * h + dr * dr);
}
