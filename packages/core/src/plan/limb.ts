import { type Fault, InputError } from '../input.ts';
import type { Length } from '../quantity.ts';
import type { Station } from '../segment/profile.ts';
import type { Landmark } from './immobilisation.ts';
import type { Order, PlaceOnLimb, Segment } from './order.ts';

/** Segments laid end to end, as a wrap runs over them: a joint bends the limb, not the way along it. */
export interface Run {
  readonly stations: readonly Station[];
  /** How far along the run a landmark lies. */
  at(place: PlaceOnLimb): Length;
}

const refuse = (input: string, fault: Fault['fault'], got: string, possible: string): never => {
  throw new InputError('plan', [{ input, fault, got, possible }]);
};

/** Runs `work` and tells its refusals as the plan's own, at `path`. */
export function within<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const faults = error.faults.map((f) => ({ ...f, input: `${path}.${f.input}` }));
    throw new InputError(`plan, ${error.by}`, faults);
  }
}

/** The named segments as one way along the limb. @throws InputError where they do not meet, or a girth is told twice */
export function runOver(limb: Order['limb'], over: readonly string[], path: string): Run {
  const segments = over.map(
    (name, n): Segment =>
      limb.find((s) => s.name === name) ??
      refuse(`${path}.${n}`, 'choice', `"${name}"`, limb.map((s) => s.name).join(', ')),
  );
  const places = new Map<Landmark, number>();
  const stations: Station[] = [];
  let start = 0;
  for (const [n, s] of segments.entries()) {
    const before = segments[n - 1];
    if (before && before.to !== s.from)
      refuse(`${path}.${n}`, 'joint', `${s.name} from ${s.from}`, `a segment that begins at ${before.to}`);
    const ends = new Map<Landmark, number>([
      [s.from, start],
      [s.to, start + s.length],
    ]);
    for (const [landmark, at] of ends) places.set(landmark, at);
    const measured = s.stations.map(({ landmark, offset, girth }, k) => {
      const from =
        ends.get(landmark) ??
        refuse(
          `limb.${limb.indexOf(s)}.stations.${k}.landmark`,
          'choice',
          landmark,
          [...ends.keys()].join(', '),
        );
      return { at: (from + offset) as Length, girth };
    });
    for (const station of measured.sort((a, b) => a.at - b.at)) {
      const last = stations.at(-1);
      if (last && station.at === last.at && station.girth === last.girth) continue;
      if (last && station.at <= last.at)
        refuse(
          `limb.${limb.indexOf(s)}.stations`,
          'joint',
          `girths of ${last.girth} and ${station.girth} mm at, or across, one place of ${s.name}`,
          'one girth a place, each within its own segment',
        );
      stations.push(station);
    }
    start += s.length;
  }
  return {
    stations,
    at: ({ landmark, offset }) =>
      ((places.get(landmark) ?? refuse(path, 'choice', landmark, [...places.keys()].join(', '))) +
        offset) as Length,
  };
}
