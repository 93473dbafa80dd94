/** A limb: girths at distances along it, in millimetres. */
export type Limb = readonly (readonly [at: number, girth: number])[];

/** A bandage as it is laid, in millimetres. */
export interface Wrap {
  readonly limb: Limb;
  readonly from: number;
  readonly to: number;
  readonly width: number;
  /** At the beginning of the wrap. */
  readonly overlap: number;
  readonly keeps: 'overlap' | 'advance' | 'lead angle';
  readonly passes: number;
  readonly startTurns: number;
  readonly endTurns: number;
  readonly extra: readonly (readonly [at: number, turns: number])[];
}

/** Steps of the centre line in one turn. */
const steps = 2000;

/**
 * Counts layers at single points of a limb. It knows only how far apart turns are laid and how far a bandage's edges are
 * from its middle, both square to the edge, and steps along the middle a two-thousandth of a turn at a time.
 */
export class Sampler {
  readonly #skin: readonly (readonly [along: number, at: number, girth: number])[];
  readonly #wrap: Wrap;
  /** Where the middle and the edges are after each step. */
  readonly #middle: number[] = [];
  readonly #near: number[] = [];
  readonly #far: number[] = [];
  readonly start: number;
  readonly end: number;
  /** Bandage that one pass lays, and its turns. */
  readonly length: number;
  readonly turns: number;

  constructor(wrap: Wrap) {
    this.#wrap = wrap;
    let along = 0;
    this.#skin = wrap.limb.map(([at, girth], n) => {
      const [x, c] = wrap.limb[n - 1] ?? [at, girth];
      along += Math.hypot(at - x, (girth - c) / (2 * Math.PI));
      return [along, at, girth];
    });
    this.start = this.alongSkin(wrap.from);
    this.end = this.alongSkin(wrap.to);

    // The helix leaves the turn at the start where that turn's far edge is, and meets the near edge of the one at the end.
    let middle = this.start;
    while (middle + this.#half(middle) < this.start + wrap.width) middle += 1e-4;
    let length = 0;
    while (middle - this.#half(middle) < this.end - wrap.width) {
      this.#middle.push(middle);
      this.#near.push(middle - this.#half(middle));
      this.#far.push(middle + this.#half(middle));
      const halfway = middle + this.advance(middle) / (2 * steps);
      const rise = this.advance(halfway) / steps;
      length += Math.hypot(rise, this.girth(halfway) / steps);
      middle += rise;
    }
    this.length = length;
    this.turns = this.#middle.length / steps;
  }

  alongSkin(x: number): number {
    return this.#between(x, 1, 0);
  }

  girth(along: number): number {
    return this.#between(along, 0, 2);
  }

  #between(value: number, key: 0 | 1, wanted: 0 | 2): number {
    const last = this.#skin.length - 1;
    const n = this.#skin.findIndex((station) => station[key] > value);
    const b = this.#skin[n < 0 ? last : Math.max(n, 1)] as readonly number[];
    const a = this.#skin[(n < 0 ? last : Math.max(n, 1)) - 1] as readonly number[];
    const part = (value - (a[key] as number)) / ((b[key] as number) - (a[key] as number));
    return (
      (a[wanted] as number) + Math.min(Math.max(part, 0), 1) * ((b[wanted] as number) - (a[wanted] as number))
    );
  }

  /** Lead angle at a place: from the distance between turns there, or kept as it was at the beginning. */
  #lead(along: number): number {
    const { width, overlap, keeps } = this.#wrap;
    const spacing = width * (1 - overlap);
    if (keeps === 'overlap') return Math.asin(spacing / this.girth(along));
    const lead = Math.asin(spacing / this.girth(this.start));
    if (keeps === 'lead angle') return lead;
    return Math.atan((Math.tan(lead) * this.girth(this.start)) / this.girth(along));
  }

  #half(along: number): number {
    return this.#wrap.width / 2 / Math.cos(this.#lead(along));
  }

  /** How far along the skin a turn climbs at a place. */
  advance(along: number): number {
    return Math.tan(this.#lead(along)) * this.girth(along);
  }

  /** The least that a turn advances anywhere: the most of it that a seam takes. */
  get leastAdvance(): number {
    return Math.min(...this.#skin.map(([along]) => this.advance(along)));
  }

  /** Turns of one pass that lie over a point, `turn` round the limb from where the pass begins. */
  #layersOfPass(along: number, turn: number): number {
    let layers = 0;
    const first = Math.round((turn - Math.floor(turn)) * steps);
    for (let n = first; n < this.#middle.length; n += steps)
      if ((this.#near[n] as number) < along && along < (this.#far[n] as number)) layers += 1;
    return layers;
  }

  /** Layers over a point. Passes lie turn on turn, or begin where `phases` says and turn one way and the other. */
  layers(along: number, turn: number, phases: readonly number[]): number {
    const { width, startTurns, endTurns, extra, passes } = this.#wrap;
    const circular = [
      [this.start + width / 2, startTurns],
      [this.end - width / 2, endTurns],
      ...extra.map(([at, turns]) => [this.alongSkin(at), turns]),
    ] as [number, number][];
    let layers = 0;
    for (const [middle, turns] of circular) if (Math.abs(along - middle) < width / 2) layers += turns;
    for (let pass = 0; pass < passes; pass++) {
      const phase = phases[pass] ?? 0;
      layers += this.#layersOfPass(
        along,
        pass % 2 === 0 || phases.length === 0 ? turn + phase : phase - turn,
      );
    }
    return layers;
  }
}
