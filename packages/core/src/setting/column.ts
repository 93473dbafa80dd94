import type { Cells, Local } from './march.ts';

/** One layer of a column, in SI units, from the inside out. */
export interface ColumnLayer {
  readonly thickness: number;
  readonly conductivity: number;
  /** Heat capacity by volume, J/(m3.K). */
  readonly capacity: number;
  readonly cells: number;
  /** Heat made in it, W/m3. */
  readonly source: number;
  /** Heat brought by blood per kelvin below its temperature, W/(m3.K), and that temperature. */
  readonly blood: number;
  readonly arterial: number;
  /** Kelvin by which the blood flow doubles above 33 °C, up to ten times; none where it does not respond. */
  readonly doubling?: number;
  /** Resistance between it and the next, m2.K/W. */
  readonly contact: number;
}

/** Heat into the column through an end, W/m2, at the temperature of its surface, and the change with it. */
export type Surface = (temperature: number, out: Exchange) => void;
type Exchange = Pick<Local, 'heat' | 'slope'>;

export interface Column {
  /** Radius of the inner face; none for a slab. */
  readonly radius: number | undefined;
  readonly layers: readonly ColumnLayer[];
  readonly inner: Surface | { readonly fixed: number };
  readonly outer: Surface | { readonly fixed: number };
}

/** Cells of a column, and what is needed to read temperatures off them. */
export interface Grid extends Cells {
  /** Places of the cells' centres and faces, from the inner face, m. */
  readonly centres: Float64Array;
  readonly faces: Float64Array;
  readonly volumes: Float64Array;
  /** The layer that each cell belongs to. */
  readonly layerOf: Int32Array;
  /** Temperature of the inner or the outer surface. */
  surface(end: 'inner' | 'outer', temperatures: Float64Array): number;
  /** How fast it changes where the cells change by `slopes`. */
  surfaceSlope(end: 'inner' | 'outer', temperatures: Float64Array, slopes: Float64Array): number;
  /** Heat through it into the column, W per square metre of a slab or per radian and metre of a cylinder. */
  inflow(end: 'inner' | 'outer', temperatures: Float64Array): number;
  /** Temperature at a place, straight between a cell's centre and its faces. */
  at(place: number, temperatures: Float64Array): number;
}

const flowCap = 10;

/** Cuts a column into cells: conservative finite volumes, with the exact resistance of slab or shell between centres. */
export function gridOf({ radius, layers, inner, outer }: Column): Grid {
  const total = layers.reduce((sum, l) => sum + l.cells, 0);
  const faces = new Float64Array(total + 1);
  const layerOf = new Int32Array(total);
  let [cell, edge] = [0, 0];
  for (const [n, layer] of layers.entries()) {
    for (let k = 1; k <= layer.cells; k++) {
      layerOf[cell++] = n;
      faces[cell] = edge + (layer.thickness * k) / layer.cells;
    }
    edge += layer.thickness;
  }
  const round = radius !== undefined;
  const r0 = radius ?? 0;
  const centres = Float64Array.from({ length: total }, (_, i) => (faces[i]! + faces[i + 1]!) / 2);
  const layer = (i: number): ColumnLayer => layers[layerOf[i]!]!;
  const areaAt = (x: number): number => (round ? r0 + x : 1);
  /** Resistance from one place to another within one material, K/W. */
  const between = (from: number, to: number, k: number): number =>
    round ? Math.log((r0 + to) / (r0 + from)) / k : (to - from) / k;
  const volumes = Float64Array.from({ length: total }, (_, i) => {
    const [a, b] = [faces[i]!, faces[i + 1]!];
    return round ? (b - a) * (r0 + (a + b) / 2) : b - a;
  });
  const capacity = volumes.map((v, i) => v * layer(i).capacity);
  const conductance = Float64Array.from({ length: total - 1 }, (_, i) => {
    const face = faces[i + 1]!;
    const contact = layerOf[i] === layerOf[i + 1] ? 0 : layer(i).contact / areaAt(face);
    return (
      1 /
      (between(centres[i]!, face, layer(i).conductivity) +
        contact +
        between(face, centres[i + 1]!, layer(i + 1).conductivity))
    );
  });

  const own: Exchange = { heat: 0, slope: 0 };
  /** One end: conductance from the last centre to the surface, and the surface's own exchange. */
  const ends = {
    inner: {
      cell: 0,
      // A solid cylinder has no inner face for heat to cross.
      conductance: round && r0 === 0 ? 0 : 1 / between(0, centres[0]!, layer(0).conductivity),
      area: areaAt(0),
      exchange: inner,
    },
    outer: {
      cell: total - 1,
      conductance: 1 / between(centres[total - 1]!, edge, layer(total - 1).conductivity),
      area: areaAt(edge),
      exchange: outer,
    },
  };
  type End = (typeof ends)[keyof typeof ends];
  /** Surface temperature at which conduction from the cell meets the exchange, by Newton from the cell's own. */
  const surfaceOf = (end: End, T: number): number => {
    if (end.conductance === 0) return T;
    if (typeof end.exchange !== 'function') return end.exchange.fixed;
    let s = T;
    for (let k = 0; k < 30; k++) {
      end.exchange(s, own);
      const step =
        (end.conductance * (T - s) + end.area * own.heat) / (end.conductance - end.area * own.slope);
      s += step;
      if (Math.abs(step) < 1e-12 * Math.max(1, Math.abs(s))) break;
    }
    return s;
  };
  const through = (end: End, T: number, out: Exchange): void => {
    if (end.conductance === 0) return;
    const s = surfaceOf(end, T);
    const g = end.conductance;
    if (typeof end.exchange !== 'function') {
      out.heat += g * (s - T);
      out.slope -= g;
      return;
    }
    end.exchange(s, own);
    // Both are the same heat; the one that is less steep loses fewer digits.
    out.heat += -end.area * own.slope < g ? end.area * own.heat : g * (s - T);
    out.slope += (g * end.area * own.slope) / (g - end.area * own.slope);
  };

  const blood = volumes.map((v, i) => v * layer(i).blood);
  const source = volumes.map((v, i) => v * layer(i).source);
  const arterial = volumes.map((_, i) => layer(i).arterial);
  /** Octaves of blood flow per kelvin. */
  const response = volumes.map((_, i) => 1 / (layer(i).doubling ?? Number.POSITIVE_INFINITY));
  const grid: Grid = {
    capacity,
    conductance,
    centres,
    faces,
    volumes,
    layerOf,
    local: (i, T, _, out) => {
      out.heat = source[i]!;
      out.slope = 0;
      out.drift = 0;
      if (blood[i]! > 0) {
        const below = arterial[i]! - T;
        const flow = response[i] === 0 ? 1 : Math.min(flowCap, 2 ** ((T - 33) * response[i]!));
        const grows = flow === flowCap ? 0 : flow * Math.LN2 * response[i]!;
        out.heat += blood[i]! * flow * below;
        out.slope += blood[i]! * (grows * below - flow);
      }
      if (i === 0) through(ends.inner, T, out);
      if (i === total - 1) through(ends.outer, T, out);
    },
    surface: (end, T) => surfaceOf(ends[end], T[ends[end].cell]!),
    surfaceSlope: (side, T, slopes) => {
      const end = ends[side];
      if (end.conductance === 0) return slopes[end.cell]!;
      if (typeof end.exchange !== 'function') return 0;
      end.exchange(surfaceOf(end, T[end.cell]!), own);
      return (slopes[end.cell]! * end.conductance) / (end.conductance - end.area * own.slope);
    },
    inflow: (end, T) => {
      const out: Exchange = { heat: 0, slope: 0 };
      through(ends[end], T[ends[end].cell]!, out);
      return out.heat;
    },
    at: (place, T) => {
      let i = 0;
      while (i < total - 1 && place > faces[i + 1]!) i++;
      const before = place < centres[i]!;
      const face = before ? i : i + 1;
      const faceTemperature =
        face === 0
          ? grid.surface('inner', T)
          : face === total
            ? grid.surface('outer', T)
            : faceBetween(face, before ? face : face - 1, T);
      const share = (place - centres[i]!) / (faces[face]! - centres[i]!);
      return share === 0 ? T[i]! : T[i]! + share * (faceTemperature - T[i]!);
    },
  };
  /** Temperature at an inner face, on the side of the cell `side`: the flux is the same on both. */
  const faceBetween = (face: number, side: number, T: Float64Array): number => {
    const flow = conductance[face - 1]! * (T[face - 1]! - T[face]!);
    const [from, to] = side === face - 1 ? [centres[side]!, faces[face]!] : [faces[face]!, centres[side]!];
    const drop = flow * between(from, to, layer(side).conductivity);
    return side === face - 1 ? T[side]! - drop : T[side]! + drop;
  };
  return grid;
}
