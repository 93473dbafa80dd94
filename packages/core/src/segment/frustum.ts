import { intervals, type Station, slant } from './profile.ts';

/** Length, surface and volume of each frustum between two neighbouring girths, and of all of them. */
export function frusta(stations: readonly Station[]) {
  const parts = intervals(stations).map(([a, b]) => {
    const h = b.at - a.at;
    const s = slant([a, b]);
    return {
      h,
      s,
      girthByLength: (h * (a.girth + b.girth)) / 2,
      area: (s * (a.girth + b.girth)) / 2,
      volume: (h * (a.girth * a.girth + a.girth * b.girth + b.girth * b.girth)) / (12 * Math.PI),
      taper: (b.girth - a.girth) / h,
    };
  });
  const sum = (of: (part: (typeof parts)[number]) => number): number => parts.reduce((t, p) => t + of(p), 0);
  return {
    length: sum((p) => p.h),
    slant: sum((p) => p.s),
    girthByLength: sum((p) => p.girthByLength),
    area: sum((p) => p.area),
    volume: sum((p) => p.volume),
    taper: parts.map((p) => p.taper),
  };
}

/** What lies outside the measured part of a limb, if anything. */
export function unmeasured(stations: readonly Station[], at: number): string | undefined {
  const [first, last] = [stations[0]?.at ?? 0, stations.at(-1)?.at ?? 0];
  return at >= first && at <= last ? undefined : `${at} mm, with girths from ${first} to ${last} mm`;
}

/** Girth on the straight side between the two stations round a place; past either end the end girth goes on. */
export function girthBetween(stations: readonly Station[], at: number): number {
  const n = stations.findIndex((s) => s.at >= at);
  if (n < 0) return (stations.at(-1) as Station).girth;
  const [a, b] = [stations[n - 1], stations[n]] as [Station | undefined, Station];
  if (!a || b.at === at) return b.girth;
  return a.girth + ((b.girth - a.girth) * (at - a.at)) / (b.at - a.at);
}
