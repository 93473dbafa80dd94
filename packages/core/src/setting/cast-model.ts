import {
  type CastNumbers,
  type Cover,
  coverOf,
  kineticsOf,
  type PlasterClass,
  pasteCapacity,
} from './cast-parameters.ts';
import { type Column, type ColumnLayer, type Grid, gridOf, type Surface } from './column.ts';
import { type Cells, march, type State } from './march.ts';
import { settingRate } from './setting-rate.ts';
import type { Trace } from './trace.ts';

/** What lies under the bandage. Lengths in metres, temperatures in degrees Celsius. */
export type Body =
  | {
      readonly kind: 'limb';
      readonly radius: number;
      readonly fat?: number | undefined;
      readonly blood: 'flows' | 'none';
    }
  | {
      readonly kind: 'tube';
      readonly radius: number;
      readonly wall: number;
      readonly of: 'glass' | 'plastic';
      readonly inside: 'air' | 'still water' | 'circulating water';
      readonly temperature: number;
    };

/** One bandage on one body in one room. */
export interface CastCase {
  readonly material: PlasterClass;
  readonly plies: number;
  readonly dip: number;
  readonly room: number;
  readonly humidity: number;
  readonly paddingLayers: number;
  /** Share by which moulding thins what lies under the plaster. */
  readonly compression: number;
  readonly stockinette: boolean;
  readonly body: Body;
  readonly cover: Cover;
  /** Tape laid over it later. */
  readonly overwrap?: { readonly after: number; readonly layers: number } | undefined;
}

/** Fineness of the cells and of the steps. */
export interface Fineness {
  /** Cells in the plaster; the other layers follow. */
  readonly cells: number;
  /** Error of a step, K. */
  readonly tolerance: number;
}

/** What is traced: under the plaster, on the skin, in its basal layer, on the outside; and the plaster's mean conversion. */
export const traced = ['interface', 'skin', 'basal', 'outside', 'conversion'] as const;
export type CastHistory = Readonly<Record<(typeof traced)[number], Trace>>;

/** A column ready to march. */
export interface CastColumn {
  readonly column: Column;
  readonly grid: Grid;
  readonly cells: Cells;
  readonly start: State;
  /** Distances from the inner face. */
  readonly places: { readonly interface: number; readonly skin: number; readonly basal: number };
  /** The plaster's cells, from the first to before the end. */
  readonly plaster: readonly [number, number];
}

const stefanBoltzmann = 5.670374419e-8;
const zeroCelsius = 273.15;
const milli = 1e-3;
const mega = 1e6;

/** Pressure of saturated vapour, kPa, and its slope: the Magnus form. */
function saturation(temperature: number): readonly [number, number] {
  const p = 0.6112 * Math.exp((17.62 * temperature) / (243.12 + temperature));
  return [p, (p * 17.62 * 243.12) / (243.12 + temperature) ** 2];
}

/** Heat into an outer surface from a room: convection and radiation through a cover, and evaporation. */
function roomSurface(
  room: number,
  humidity: number,
  resistance: number,
  wet: number,
  c: CastNumbers,
): Surface {
  const roomKelvin = room + zeroCelsius;
  const vapour = humidity * saturation(room)[0];
  const radiating = c.emissivity * stefanBoltzmann;
  const evaporating = wet * c.lewis * c.convection;
  return (temperature, out) => {
    const kelvin = temperature + zeroCelsius;
    const squares = kelvin * kelvin + roomKelvin * roomKelvin;
    const film = c.convection + radiating * (kelvin + roomKelvin) * squares;
    const filmSlope = radiating * (squares + 2 * kelvin * (kelvin + roomKelvin));
    const through = 1 / (1 / film + resistance);
    out.heat = through * (room - temperature);
    out.slope = -through + ((through * through) / (film * film)) * filmSlope * (room - temperature);
    if (evaporating === 0) return;
    const [p, slope] = saturation(temperature);
    if (p <= vapour) return;
    out.heat -= evaporating * (p - vapour);
    out.slope -= evaporating * slope;
  };
}

/** Exchange with a fluid of one temperature. */
const film =
  (coefficient: number, temperature: number): Surface =>
  (surface, out) => {
    out.heat = coefficient * (temperature - surface);
    out.slope = -coefficient;
  };

const layer = (
  l: Partial<ColumnLayer> & Pick<ColumnLayer, 'thickness' | 'conductivity' | 'capacity' | 'cells'>,
): ColumnLayer => ({ source: 0, blood: 0, arterial: 37, contact: 0, ...l });

interface Inner {
  readonly layers: readonly ColumnLayer[];
  readonly inner: Surface | { readonly fixed: number };
  /** Radius of the inner face. */
  readonly radius: number;
  readonly basal: number;
  /** Temperature from which its rest is sought. */
  readonly rest: number;
}

/** Skin, fat and muscle down to where the core keeps its temperature. On a thin limb fat and muscle are thinner too. */
function limbLayers(body: Body & { kind: 'limb' }, c: CastNumbers, fine: number): Inner {
  const flows = body.blood === 'flows' ? c.bloodCapacity * mega : 0;
  const fat = Math.min(body.fat ?? c.fatThickness * milli, body.radius / 4);
  const epidermis = c.epidermisThickness * milli;
  const skin = c.dermisThickness * milli + epidermis;
  const muscle = Math.min(c.muscleThickness * milli, (body.radius - fat - skin) / 2);
  const { arterial } = c;
  const layers = [
    layer({
      thickness: muscle,
      conductivity: c.muscleConductivity,
      capacity: c.muscleCapacity * mega,
      blood: flows * c.musclePerfusion,
      arterial,
      cells: Math.ceil(6 * fine),
    }),
    layer({
      thickness: fat,
      conductivity: c.fatConductivity,
      capacity: c.fatCapacity * mega,
      blood: flows * c.fatPerfusion,
      arterial,
      cells: Math.ceil(5 * fine),
    }),
    layer({
      thickness: c.dermisThickness * milli,
      conductivity: c.dermisConductivity,
      capacity: c.dermisCapacity * mega,
      blood: flows * c.skinPerfusion,
      arterial,
      doubling: c.flowDoubling,
      cells: Math.ceil(4 * fine),
    }),
    layer({
      thickness: epidermis,
      conductivity: c.epidermisConductivity,
      capacity: c.epidermisCapacity * mega,
      cells: 1,
    }),
  ];
  const deep = muscle + fat + skin;
  return {
    layers,
    inner: { fixed: c.core },
    radius: body.radius - deep,
    basal: deep - epidermis,
    rest: c.core,
  };
}

function tubeLayers(body: Body & { kind: 'tube' }, c: CastNumbers, fine: number): Inner {
  const { radius, wall, temperature: rest, inside } = body;
  const shell = layer({
    thickness: wall,
    conductivity: c[`${body.of}Conductivity`],
    capacity: c[`${body.of}Capacity`] * mega,
    cells: Math.ceil(5 * fine),
  });
  if (inside !== 'still water') {
    const inner = film(inside === 'air' ? c.tubeAir : c.tubeWater, rest);
    return { layers: [shell], inner, radius: radius - wall, basal: wall, rest };
  }
  const water = layer({
    thickness: radius - wall,
    conductivity: c.stillWater,
    capacity: 4.16e6,
    cells: Math.ceil(8 * fine),
  });
  return { layers: [water, shell], inner: film(0, 0), radius: 0, basal: radius, rest };
}

/** The column on the body as it is before the bandage, at rest in the room. */
function resting({ layers, inner, radius, rest }: Inner, given: CastCase, c: CastNumbers): Float64Array {
  const outer = roomSurface(given.room + c.roomReading, given.humidity, 0, 0, c);
  const bare = gridOf({ radius, layers, inner, outer });
  const cells = bare.capacity.length;
  const temperature = new Float64Array(cells).fill(rest);
  // A tube is taken to be dressed as soon as it stands at its own temperature; a limb has stood in the room.
  if (given.body.kind === 'tube') return temperature;
  const still = { time: 0, temperature, conversion: new Float64Array(cells) };
  return march(bare, still, 1e5, 0.1).temperature;
}

/** What the plaster starts at: water and powder mixed, less what is lost between bowl and limb. */
export function startOf(given: CastCase, c: CastNumbers): number {
  const room = given.room + c.roomReading;
  const water = c.waterRatio * 4.18;
  const heat = water * (given.dip + c.dipReading) + c.heatCapacityHemihydrate * room;
  return room + (1 - c.handlingLoss) * (heat / (water + c.heatCapacityHemihydrate) - room);
}

/** Thickness of the plaster, m, its powder, kg/m³, and its heat capacity. */
export function plasterOf({ plies }: CastCase, c: CastNumbers) {
  const thickness = plies * c.thicknessPerPly * milli;
  const powder = (plies * c.massPerPly * milli) / thickness;
  // Of the set paste from the start: what water and powder lack before they have bound is a few per cent.
  return { thickness, powder, capacity: powder * 1000 * pasteCapacity(c.waterRatio) };
}

/** The bandaged body at the moment of laying on, every cell with its layer's capacity and the plaster with its reaction. */
export function castColumn(given: CastCase, c: CastNumbers, { cells }: Fineness): CastColumn {
  const fine = cells / 16;
  const room = given.room + c.roomReading;
  const body = given.body.kind === 'limb' ? limbLayers(given.body, c, fine) : tubeLayers(given.body, c, fine);
  const under =
    (given.paddingLayers * c.paddingThickness + (given.stockinette ? c.stockinetteThickness : 0)) *
    milli *
    (1 - given.compression);
  const padding = layer({
    thickness: under,
    conductivity: c.paddingConductivity,
    capacity: c.paddingCapacity * 1000,
    cells: Math.ceil(4 * fine),
  });
  const { thickness, powder, capacity } = plasterOf(given, c);
  const plaster = layer({ thickness, conductivity: c.castConductivity, capacity, cells });
  const layers = [...body.layers, ...(under > 0 ? [padding] : []), plaster];
  const { resistance, vapour } = coverOf(c, given.cover);
  const outer = roomSurface(room, given.humidity, resistance, c.wetness * vapour, c);
  const column = { radius: body.radius, layers, inner: body.inner, outer };
  const grid = gridOf(column);
  const total = grid.capacity.length;
  const first = total - cells;

  const rested = resting(body, given, c);
  const temperature = new Float64Array(total);
  temperature.set(rested);
  temperature.fill(((rested.at(-1) as number) + room) / 2, rested.length, first);
  temperature.fill(startOf(given, c), first);

  const heat = powder * 1000 * c.heat;
  const skin = body.layers.reduce((sum, l) => sum + l.thickness, 0);
  return {
    column,
    grid,
    cells: {
      ...grid,
      reaction: {
        first,
        end: total,
        heat: grid.volumes.map((v, i) => (i >= first ? v * heat : 0)),
        rate: settingRate(kineticsOf(c, given.material)),
      },
    },
    start: { time: 0, temperature, conversion: new Float64Array(total) },
    places: { interface: skin + under, skin, basal: body.basal },
    plaster: [first, total],
  };
}

/** Share cured per second, t seconds after dipping, and its change: half is cured at 1.678 τ. */
function curing(t: number, halfway: number): readonly [rate: number, drift: number] {
  const tau = halfway / 1.67834699;
  const fading = Math.exp(-t / tau) / (tau * tau);
  return [t * fading, (1 - t / tau) * fading];
}

/** The same column from the moment that tape is laid over it: thicker, dry outside, with the heat of the curing resin. */
function wrapped(
  bandaged: CastColumn,
  at: State,
  given: CastCase,
  c: CastNumbers,
  fineness: Fineness,
): CastColumn {
  const { after, layers: turns } = given.overwrap as NonNullable<CastCase['overwrap']>;
  const room = given.room + c.roomReading;
  const tape = layer({
    thickness: turns * c.tapeThickness * milli,
    conductivity: c.tapeConductivity,
    capacity: c.tapeCapacity * mega,
    cells: Math.ceil(fineness.cells / 2),
  });
  const outer = roomSurface(room, given.humidity, coverOf(c, given.cover).resistance, 0, c);
  const { column } = bandaged;
  const thicker = { ...column, layers: [...column.layers, tape], outer };
  const grid = gridOf(thicker);
  const before = bandaged.grid.capacity.length;
  const total = grid.capacity.length;
  const extended = (values: Float64Array, fill: number): Float64Array => {
    const longer = new Float64Array(total).fill(fill);
    longer.set(values);
    return longer;
  };
  const heat = (c.resinPerLayer * milli * c.resinHeat * 1000) / (c.tapeThickness * milli);
  const { reaction } = bandaged.cells;
  return {
    ...bandaged,
    column: thicker,
    grid,
    cells: {
      ...grid,
      local: (i, T, time, out) => {
        grid.local(i, T, time, out);
        if (i < before) return;
        const [rate, drift] = curing(time - after, c.tapeHalfway);
        const all = heat * (grid.volumes[i] as number);
        out.heat += all * rate;
        out.drift += all * drift;
      },
      ...(reaction && { reaction: { ...reaction, heat: extended(reaction.heat, 0) } }),
    },
    start: {
      time: at.time,
      temperature: extended(at.temperature, (given.dip + c.dipReading + room) / 2),
      conversion: extended(at.conversion, 0),
    },
  };
}

/** Temperatures under a setting cast, from the moment it is laid on until `until` seconds later. */
export function castHistory(given: CastCase, c: CastNumbers, until: number, fineness: Fineness): CastHistory {
  const time: number[] = [];
  const trace = () => ({ time, value: [] as number[], slope: [] as number[] });
  const traces = {
    interface: trace(),
    skin: trace(),
    basal: trace(),
    outside: trace(),
    conversion: trace(),
  } satisfies CastHistory;
  const note = (where: keyof CastHistory, value: number, slope: number): void => {
    traces[where].value.push(value);
    traces[where].slope.push(slope);
  };
  const run = ({ grid, cells, start, places, plaster: [first, end] }: CastColumn, to: number): State => {
    const { reaction } = cells;
    const rate = { rate: 0, byTemperature: 0, byConversion: 0 };
    return march(cells, start, to, fineness.tolerance, (state, slope) => {
      const { time: t, temperature, conversion } = state;
      time.push(t);
      // Between cells a temperature is a weighted sum of theirs, and so is its slope.
      for (const place of ['interface', 'skin', 'basal'] as const)
        note(place, grid.at(places[place], temperature), grid.at(places[place], slope));
      note('outside', grid.surface('outer', temperature), grid.surfaceSlope('outer', temperature, slope));
      let [mean, speed] = [0, 0];
      for (let i = first; i < end; i++) {
        reaction?.rate(temperature[i] as number, conversion[i] as number, rate);
        mean += (conversion[i] as number) / (end - first);
        speed += rate.rate / (end - first);
      }
      note('conversion', mean, speed);
    });
  };
  const column = castColumn(given, c, fineness);
  if (given.overwrap === undefined) run(column, until);
  else run(wrapped(column, run(column, given.overwrap.after), given, c, fineness), until);
  return traces;
}
